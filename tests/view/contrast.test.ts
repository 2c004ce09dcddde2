/**
 * Contrast of every ink against the papers it is put on, from the style sheet that page and drawings share. The formula is that of WCAG 2.2 ("relative
 * luminance", "contrast ratio"); the check of the formula is from the same place: black on white is 21 to 1, and #767676 the lightest grey that has 4.5 on white.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

function luminance(hex: string): number {
  const part = (at: number) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5);
}

function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((p, q) => p - q);
  return (light! + 0.05) / (dark! + 0.05);
}

const SHEET = readFileSync(new URL('../../src/view/style.css', import.meta.url), 'utf8').replace(/\/\*.*?\*\//gs, '');

/** The colours that rule blocks give, in the order of the sheet; those with a selector, within a media query or not. */
function tokens(selector: RegExp, media: RegExp | null): Map<string, string> {
  const found = new Map<string, string>();
  const blocks = media === null ? [SHEET.replace(/@media[^{]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}/g, '')] : [];
  if (media !== null)
    for (const [, query, body] of SHEET.matchAll(/@media([^{]*)\{((?:[^{}]*\{[^{}]*\})*[^{}]*)\}/g))
      if (media.test(query!.trim())) blocks.push(body!);
  for (const block of blocks)
    for (const [, by, body] of block.matchAll(/([^{}]+)\{([^{}]*)\}/g))
      if (by!.split(',').some((one) => selector.test(one.trim())))
        for (const [, name, value] of body!.matchAll(/--sw-([\w-]+):\s*(#[0-9a-f]{6})\b/gi)) found.set(name!, value!);
  return found;
}

const ROOT = /^:root$/;
const CHOSEN_DARK = /^:root\[data-theme="dark"\]$/;
const NOT_LIGHT = /^:root:not\(\[data-theme="light"\]\)$/;
const MORE = /^\(prefers-contrast: more\)$/;
const light = tokens(ROOT, null);
const dark = new Map([...light, ...tokens(CHOSEN_DARK, null)]);
const darkBySystem = new Map([...light, ...tokens(NOT_LIGHT, /^\(prefers-color-scheme: dark\)$/)]);
const more = {
  light: tokens(ROOT, MORE),
  dark: tokens(CHOSEN_DARK, MORE),
  bySystem: tokens(NOT_LIGHT, /^\(prefers-contrast: more\) and \(prefers-color-scheme: dark\)$/),
};
const SETS = {
  light,
  dark,
  'light, more contrast': new Map([...light, ...more.light]),
  'dark, more contrast': new Map([...dark, ...more.light, ...more.dark]),
  'dark by the system, more contrast': new Map([...darkBySystem, ...more.light, ...more.bySystem]),
};

/** What words are set in, and what lines are drawn in that mean something; rules that only part things, and hatching within outlines, mean nothing by themselves. */
const WORDS = ['ink', 'quiet', 'clears', 'tight', 'contact', 'unproven', 'accent'];
const LINES = [...WORDS, 'faint'];
const PAPERS = ['paper', 'raised'];

it('the formula gives what the guidelines say of it', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
  expect(contrast('#767676', '#ffffff')).toBeGreaterThanOrEqual(4.5);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});

it('dark is the same by choice and by the system', () => {
  expect(light.size).toBeGreaterThan(10);
  expect(dark.get('paper')).not.toBe(light.get('paper'));
  expect([...darkBySystem].sort()).toEqual([...dark].sort());
  expect([...more.bySystem].sort()).toEqual([...more.dark].sort());
  expect(more.light.size).toBeGreaterThan(5);
});

describe.each(Object.entries(SETS))('%s', (_, set) => {
  const ratio = (ink: string, paper: string) => contrast(set.get(ink)!, set.get(paper)!);

  it('words stand out 4.5 to 1, lines that mean something 3 to 1', () => {
    const weak: string[] = [];
    for (const paper of PAPERS) {
      for (const ink of WORDS) if (!(ratio(ink, paper) >= 4.5)) weak.push(`${ink} on ${paper}: ${ratio(ink, paper)}`);
      for (const ink of LINES)
        if (!(ratio(ink, paper) >= 3)) weak.push(`line ${ink} on ${paper}: ${ratio(ink, paper)}`);
    }
    if (!(ratio('on-accent', 'accent') >= 4.5)) weak.push(`on-accent: ${ratio('on-accent', 'accent')}`);
    expect(weak).toEqual([]);
  });
});

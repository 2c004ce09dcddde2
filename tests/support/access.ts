/** What can be measured of a screen: what runs out at the side, what is too small to hit, what is cut off; and what axe-core finds. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { PAGES } from '../../src/app/pages/table.ts';
import { frames, leaveWhole, openWhole } from './browser.ts';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');

interface Axe {
  readonly axe: {
    run(
      options: object,
    ): Promise<{ violations: { id: string; nodes: { target: unknown[]; failureSummary: string }[] }[] }>;
  };
}

/** Rules of the guidelines A and AA up to 2.2, with those that axe-core has as good practice; `only` names single rules. */
export async function axeFinds(page: Page, only?: readonly string[]): Promise<string[]> {
  // Not as a script of the page: its policy allows none but its own.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  return page.evaluate(async (rules) => {
    const runOnly = rules ?? ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await (globalThis as unknown as Axe).axe.run({ runOnly, resultTypes: ['violations'] });
    return found.violations.flatMap((one) =>
      one.nodes.map((node) => `${one.id} at ${node.target.join(' ')}: ${node.failureSummary.replaceAll('\n', ' ')}`),
    );
  }, only);
}

/**
 * How far the page can be pushed sideways, px, and what sticks out of the window where nothing can be scrolled to reach it.
 * Boxes that scroll by themselves (tables, drawings) may hold what is wider.
 */
export function sidewaysFinds(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const said: string[] = [];
    const more = document.documentElement.scrollWidth - document.documentElement.clientWidth;
    if (more > 0) said.push(`the page is ${more} px too wide`);
    for (const element of document.querySelectorAll<HTMLElement>('body *')) {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.sw-unseen, svg, canvas') !== null)
        continue;
      const box = element.getBoundingClientRect();
      if (box.width === 0 || box.height === 0 || (box.right <= innerWidth + 1 && box.left >= -1)) continue;
      let scrolls = false;
      for (let up = element.parentElement; up !== null; up = up.parentElement) {
        if (/auto|scroll/.test(getComputedStyle(up).overflowX) && up.scrollWidth > up.clientWidth) scrolls = true;
      }
      if (!scrolls)
        said.push(`${element.tagName} .${element.className} ${Math.round(box.left)}..${Math.round(box.right)}`);
    }
    return said.slice(0, 12);
  });
}

/** Controls whose place to hit is less than `px` high or wide. A tick box is hit by its label too; a link within a sentence is let be. */
export function smallTargets(page: Page, px: number): Promise<string[]> {
  return page.evaluate((least) => {
    const controls =
      'button, a[href], input, select, textarea, summary, [role="slider"], [role="radio"], [role="tab"], [role="button"]';
    const said: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>(controls)) {
      if (!element.checkVisibility({ visibilityProperty: true, opacityProperty: false })) continue;
      if (element.closest('.sw-unseen, [inert]') !== null) continue;
      const ticked = element.matches('input[type="checkbox"], input[type="radio"]');
      const hit = ticked ? (element.closest('label') ?? element.parentElement ?? element) : element;
      const box = hit.getBoundingClientRect();
      if (box.width <= 1 || box.height <= 1) continue;
      if (element.matches('a') && getComputedStyle(element).display === 'inline') continue;
      if (box.height < least - 0.5 || box.width < least - 0.5) {
        const name =
          element.getAttribute('aria-label') ?? (element.textContent?.trim() || element.className.toString());
        said.push(
          `${element.tagName} ${element.className.toString()} "${name.slice(0, 30)}" ${Math.round(box.width)}x${Math.round(box.height)}`,
        );
      }
    }
    return [...new Set(said)];
  }, px);
}

/** Words that are cut off: boxes that hide what does not fit in them, and hold words. */
export function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const said: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('body *')) {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.sw-unseen, svg') !== null)
        continue;
      const style = getComputedStyle(element);
      if (style.clipPath !== 'none') continue;
      if (!/hidden|clip/.test(style.overflowX + style.overflowY) || element.matches('input, select, textarea, canvas'))
        continue;
      if (![...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== ''))
        continue;
      const wide = element.scrollWidth - element.clientWidth;
      const high = element.scrollHeight - element.clientHeight;
      if (wide > 1 || high > 2)
        said.push(`${element.tagName} .${element.className} "${element.textContent?.slice(0, 40)}" by ${wide}x${high}`);
    }
    return [...new Set(said)];
  });
}

/**
 * Words that lie over one another: boxes of lines of text that overlap, outside drawings. Layers that lie over the page on purpose (drawers,
 * sheets, heads that stay in sight while the rest scrolls) are looked at each by itself.
 */
export function overlaid(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const lines: { layer: Element; words: string; box: DOMRect; of: Element }[] = [];
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
      const of = node.parentElement!;
      const words = node.textContent?.trim() ?? '';
      if (words === '' || !of.checkVisibility({ visibilityProperty: true, opacityProperty: true })) continue;
      if (of.closest('.sw-unseen, svg, script, style, option, noscript') !== null) continue;
      let layer: Element = document.body;
      let seen = true;
      for (let up: Element | null = of; up !== null; up = up.parentElement) {
        const style = getComputedStyle(up);
        if (style.clipPath !== 'none') seen = false;
        if (layer === document.body && /fixed|sticky/.test(style.position)) layer = up;
      }
      if (!seen) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      // What is scrolled out of its box is not seen.
      const clips: DOMRect[] = [];
      for (let up: Element | null = of; up !== null && up !== document.body; up = up.parentElement)
        if (/auto|scroll|hidden|clip/.test(getComputedStyle(up).overflow)) clips.push(up.getBoundingClientRect());
      for (const box of range.getClientRects()) {
        const hidden = clips.some((c) => box.bottom > c.bottom + 1 || box.top < c.top - 1);
        if (box.width > 1 && !hidden) lines.push({ layer, words, box, of });
      }
    }
    const said: string[] = [];
    lines.sort((a, b) => a.box.top - b.box.top);
    lines.forEach((a, k) => {
      for (let j = k + 1; j < lines.length && lines[j]!.box.top < a.box.bottom - 4; j++) {
        const b = lines[j]!;
        if (b.layer !== a.layer || b.of === a.of) continue;
        const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const high = Math.min(a.box.bottom, b.box.bottom) - b.box.top;
        // Boxes of lines are higher than their letters.
        if (wide > 2 && high > 0.3 * Math.min(a.box.height, b.box.height))
          said.push(
            `"${a.words.slice(0, 30)}" and "${b.words.slice(0, 30)}" by ${Math.round(wide)}x${Math.round(high)}`,
          );
      }
    });
    return [...new Set(said)].slice(0, 12);
  });
}

/** Every screen in turn, that is the section, each page of the right-hand side and each whole page; what `look` finds on it, under its name. */
export async function walkScreens(
  page: Page,
  look: (screen: string) => Promise<string[]>,
): Promise<Record<string, string[]>> {
  const found: Record<string, string[]> = {};
  const note = async (name: string) => {
    await frames(page);
    const said = await look(name);
    if (said.length > 0) found[name] = said;
  };
  const side = page.locator('#side');
  const folded = !(await side.isVisible());
  if (folded) {
    await note('Section');
    await page.locator('#side-toggle').click();
  }
  const tabs = page.locator('#pages').getByRole('tab');
  for (let k = 0; k < (await tabs.count()); k++) {
    await tabs.nth(k).click();
    await note((await tabs.nth(k).textContent()) ?? '');
  }
  await tabs.first().click();
  if (folded) await page.locator('#pages').getByRole('button', { name: 'Close' }).click();
  for (const entry of PAGES) {
    await openWhole(page, entry);
    await note(entry.label);
  }
  await leaveWhole(page);
  return found;
}

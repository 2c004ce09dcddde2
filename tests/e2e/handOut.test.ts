/**
 * What is handed out, in the browser: both papers of every demo on both sheets, laid out without a clipped cell and printed; the
 * fields of the job; dark theme and a phone.
 */
import axeCore from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launch, openPage, type PageWindow, pressInBar, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

async function handOut(query: string, size = { width: 1280, height: 900 }, scheme: 'light' | 'dark' = 'light') {
  const opened = await openPage(browser, `${inject('baseUrl')}${query}`, { viewport: size, colorScheme: scheme });
  await settled(opened.page);
  await pressInBar(opened.page, 'Hand out');
  return opened;
}

async function ready(page: Page): Promise<number> {
  const said = page.locator('.sw-desk-said:visible');
  await expect.poll(() => said.textContent(), { timeout: 30_000 }).toMatch(/^\d+ sheets?, ready to print\.$/);
  return Number.parseInt((await said.textContent())!, 10);
}

const choose = (page: Page, tab: string) => page.getByRole('tab', { name: tab, exact: true }).click();
const sheet = (page: Page) => page.locator('.sw-desk-size select:visible');

/** Places where something is cut, sticks out or lies over the title block, and the count of sheets with a heading alone at the end. */
function faults(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const out: string[] = [];
    const leaves = [...document.querySelectorAll<HTMLElement>('.sw-paper[data-shown] .sw-leaf')];
    for (const [k, leaf] of leaves.entries()) {
      const body = leaf.querySelector('.sw-leaf-body')!.getBoundingClientRect();
      const title = leaf.querySelector('.sw-leaf-title')!.getBoundingClientRect();
      if (body.bottom > title.top + 0.5) out.push(`sheet ${k + 1}: the body reaches into the title block`);
      for (const each of leaf.querySelectorAll<HTMLElement>('.sw-leaf-body *:not(svg *, defs *)')) {
        const box = each.getBoundingClientRect();
        const name = `sheet ${k + 1}: ${each.tagName} ${(each.textContent ?? '').slice(0, 30)}`;
        if (box.right > body.right + 1 || box.left < body.left - 1) out.push(`${name} is wider than the sheet`);
        if (box.bottom > body.bottom + 1 || box.top < body.top - 1) out.push(`${name} is higher than the sheet`);
        if (['TD', 'TH', 'DD', 'DT'].includes(each.tagName) && each.scrollWidth > each.clientWidth + 1)
          out.push(`${name} is clipped`);
      }
      // No word, and no figure with its unit, goes on in the next line.
      const walker = document.createTreeWalker(leaf, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        for (const word of (node.textContent ?? '').matchAll(/[^ \n·-]+/g)) {
          if (word[0].length > 20) continue;
          const range = document.createRange();
          range.setStart(node, word.index);
          range.setEnd(node, word.index + word[0].length);
          const tops = new Set([...range.getClientRects()].map((r) => Math.round(r.top)));
          if (tops.size > 1) out.push(`sheet ${k + 1}: "${word[0]}" is broken`);
        }
      }
      for (const table of leaf.querySelectorAll('table')) {
        if (table.tHead === null) out.push(`sheet ${k + 1}: a table without its head`);
      }
      const last = leaf.querySelector('.sw-leaf-body')!.lastElementChild;
      if (last === null) out.push(`sheet ${k + 1} is empty`);
      else if (last.matches('.sw-paper-heading')) out.push(`sheet ${k + 1} ends with a heading`);
      const numbered = leaf.querySelector('.sw-leaf-title')!.textContent!;
      if (!numbered.includes(`${k + 1} of ${leaves.length}`)) out.push(`sheet ${k + 1} has the wrong number`);
      const text = leaf.textContent!;
      if (/undefined|NaN|null|\[object/.test(text))
        out.push(`sheet ${k + 1} says ${/undefined|NaN|null|\[object/.exec(text)![0]}`);
    }
    return out;
  });
}

/** Pages of a PDF with their sizes in mm, from its page objects: Chromium writes them uncompressed. */
function pagesOf(pdf: Buffer): number[][] {
  const text = pdf.toString('latin1');
  const pages = [...text.matchAll(/\/Type\s*\/Page\b(?!s)[\s\S]*?endobj/g)].map((m) => m[0]);
  return pages.map((page) => {
    const box = /\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/.exec(page)!;
    return [Number(box[1]), Number(box[2])].map((points) => Math.round((points * 25.4) / 72));
  });
}

const SIZES = { a4: [210, 297], letter: [216, 279] } as const;

async function printed(page: Page, size: keyof typeof SIZES): Promise<void> {
  const count = await ready(page);
  expect(await faults(page)).toEqual([]);
  await page.emulateMedia({ media: 'print' });
  // In print the sheets are all that is left, and no wider than the paper.
  const shown = await page.evaluate(() => ({
    others: [...document.body.querySelectorAll<HTMLElement>('*')].filter(
      (e) =>
        e.checkVisibility() &&
        e.closest('.sw-paper[data-shown]') === null &&
        e.querySelector('.sw-paper[data-shown]') === null,
    ).length,
    background: getComputedStyle(document.querySelector('.sw-leaf')!).backgroundColor,
    ink: getComputedStyle(document.querySelector('.sw-leaf')!).color,
  }));
  expect(shown).toEqual({ others: 0, background: 'rgb(255, 255, 255)', ink: 'rgb(26, 29, 32)' });
  expect(await faults(page)).toEqual([]);
  await page.emulateMedia({ media: null });
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  expect(pagesOf(pdf)).toEqual(Array.from({ length: count }, () => [...SIZES[size]]));
}

describe('what is handed out', () => {
  it.each(['quarry-v8', 'lake-launch-six', 'bench-rig'])(
    'prints both papers of %s on A4 and on Letter',
    async (demo) => {
      const { page, complaints, close } = await handOut(`?demo=${demo}`);
      const inches = (await stateOf(page)).units === 'in';
      expect(await sheet(page).inputValue()).toBe(inches ? 'letter' : 'a4');
      for (const size of ['letter', 'a4'] as const) {
        await choose(page, 'Plain summary');
        await sheet(page).selectOption(size);
        expect(await ready(page)).toBe(1);
        await printed(page, size);
        await choose(page, 'Job sheet');
        await printed(page, size);
      }
      const told = (await page.locator('.sw-paper[data-shown]').textContent())!.replaceAll('\u00a0', ' ');
      for (const part of [
        'Main figures',
        'Work on the crankshaft',
        'Rods, pistons, bearings',
        'Deck stack',
        'Gaps',
        'Cures',
        'Balance card',
        'Mock-up',
        'Cautions',
        'Dimensions',
      ])
        expect(told).toContain(part);
      // Drawn as lines, not as a picture of dots.
      expect(await page.locator('.sw-paper[data-shown] canvas, .sw-paper[data-shown] img').count()).toBe(0);
      expect(await page.locator('.sw-paper[data-shown] svg').count()).toBeGreaterThan(1);
      if (demo !== 'quarry-v8') expect(told).toContain('not stated');
      await close();
      expect(complaints).toEqual([]);
    },
  );

  it('carries reference, date and notes of the job; they are kept, and can be undone', async () => {
    const { page, complaints, close } = await handOut('?demo=bench-rig');
    await choose(page, 'Job sheet');
    await ready(page);
    const field = (name: string) => page.locator('.sw-hand-section:not([hidden])').getByLabel(name, { exact: true });
    // The day on this machine is offered, and not yet part of the build.
    const today = await page.evaluate(() => new Date().toLocaleDateString('sv'));
    expect(await field('Date').inputValue()).toBe(today);
    expect((await stateOf(page)).doc.job).toBeUndefined();
    await field('Customer reference').fill('  Order 4711 ');
    await field('Date').fill('2026-11-25');
    await field('Notes, on the job sheet').fill(`Collect on Friday.\n\n${'W'.repeat(3900)}`);
    await field('Notes, on the job sheet').blur();
    await expect.poll(() => page.locator('.sw-paper[data-shown]').textContent()).toContain('Collect on Friday.');
    await ready(page);
    expect(await faults(page)).toEqual([]);
    const { doc } = await stateOf(page);
    expect(doc.job).toMatchObject({ reference: 'Order 4711', date: '2026-11-25' });
    for (const block of await page.locator('.sw-paper[data-shown] .sw-leaf-title').allTextContents()) {
      expect(block).toContain('Order 4711');
      expect(block).toContain('2026-11-25');
    }
    // The button asks the browser to print this page; its title is what a file would be called, and is as before after it.
    const title = await page.title();
    const asked = await page.evaluate(() => {
      const titles: string[] = [];
      globalThis.print = () => titles.push(document.title);
      const buttons = [...document.querySelectorAll<HTMLButtonElement>('.sw-desk-tools button')];
      buttons.find((b) => b.checkVisibility() && b.textContent === 'Print or save as PDF')!.click();
      return titles;
    });
    expect(asked).toEqual(['Single-cylinder bench rig, job sheet']);
    expect(await page.title()).toBe(title);
    // Nothing was proven anew for words alone.
    expect((await stateOf(page)).gaps.every((g) => g.certified)).toBe(true);
    await field('Customer reference').fill('');
    await field('Customer reference').blur();
    expect((await stateOf(page)).doc.job).not.toHaveProperty('reference');
    await close();
    expect(complaints).toEqual([]);
  });

  it('follows the build: another assembly, another unit, a build that is refused', async () => {
    const { page, complaints, close } = await handOut('?demo=bench-rig');
    await ready(page);
    const said = async () => (await page.locator('.sw-paper[data-shown]').textContent())!.replaceAll('\u00a0', ' ');
    const send = (command: object) =>
      page.evaluate((c) => (globalThis as unknown as PageWindow).strokewright.store.send(c as never), command);
    await send({ do: 'show assembly', name: 'Short rod' });
    await expect.poll(said).toContain('Not ready to build');
    await send({ do: 'show assembly', name: 'As it stands on the bench' });
    await expect.poll(said).toContain('Nothing is replaced');
    await ready(page);
    await send({ do: 'show units', units: 'in' });
    // pi/4 x 82² x 78 mm³ by the build's bore and stroke are 411.9 cm³; 16.387064 cm³ are one in³.
    await expect.poll(said).toContain('25.1 in³');
    await expect.poll(() => sheet(page).inputValue()).toBe('letter');
    await send({ do: 'set dimension', path: ['block', 'bore'], text: '-1 in', last: true });
    await expect.poll(() => page.locator('.sw-desk-said:visible').textContent()).toContain('can’t be built');
    expect(await page.getByRole('button', { name: 'Print or save as PDF' }).isDisabled()).toBe(true);
    await send({ do: 'undo' });
    await ready(page);
    await close();
    expect(complaints).toEqual([]);
  });

  it('is ink on white in a dark theme, fits a phone, can be left, and has no barriers', async () => {
    const { page, complaints, close } = await handOut('?demo=bench-rig', { width: 360, height: 740 }, 'dark');
    await ready(page);
    await printed(page, 'a4');
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(360);
    const fitted = await page
      .locator('.sw-leaf')
      .first()
      .evaluate((e) => e.getBoundingClientRect().width);
    expect(fitted).toBeLessThanOrEqual(360);
    await page.getByRole('button', { name: 'Actual size' }).click();
    expect(
      await page
        .locator('.sw-leaf')
        .first()
        .evaluate((e) => e.getBoundingClientRect().width),
    ).toBeGreaterThan(700);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.evaluate(axeCore.source);
    const found = await page.evaluate(async () => {
      const { violations } = await (globalThis as unknown as { axe: typeof axeCore }).axe.run(document);
      return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(' | ')}`);
    });
    expect(found).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.locator('#section').isVisible()).toBe(true);
    // Back at the section the page prints as it always did.
    expect(await page.evaluate(() => document.body.dataset['paper'])).toBeUndefined();
    await close();
    expect(complaints).toEqual([]);
  });
});

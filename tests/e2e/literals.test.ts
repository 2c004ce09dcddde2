/** Dimensions on the page as a shop writes them: taken, refused with the reason, stepped; the picture stays right throughout. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, it } from 'vitest';
import { field, fieldRow, frames, launch, type Opened, openPage, settled, stateOf, text } from '../support/browser.ts';

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());
beforeEach(async () => {
  opened = await openPage(browser, inject('baseUrl'));
  page = opened.page;
  await settled(page);
});
afterEach(async () => {
  await opened.close();
  expect(opened.complaints).toEqual([]);
});

async function type(name: string, literal: string): Promise<void> {
  await field(page, name).fill(literal);
  await page.keyboard.press('Enter');
}

it('takes lengths as a shop writes them, and keeps their characters', async () => {
  for (const [name, literal, expectedMm] of [
    // A fraction, a decimal without a leading zero, the same length in the other unit; millimetres by hand.
    ['Stroke', '3 5/8 in', 92.075],
    ['Stroke', '3-5/8"', 92.075],
    ['Stroke', '92.075 mm', 92.075],
    ['Rod length', '152.5 mm', 152.5],
    ['Corner radius', '.260 in', null],
    ['Corner radius', '260 thou', null],
  ] as const) {
    await type(name, literal);
    const state = await settled(page);
    expect(state.refused).toEqual([]);
    const assembly = state.doc.assemblies.find((a) => a.name === state.assembly)!;
    const dims = {
      Stroke: assembly.crank.stroke,
      'Corner radius': 'counterweight' in assembly.crank ? assembly.crank.counterweight.cornerRadius : undefined,
      'Rod length': assembly.rod.length,
    };
    expect(dims[name]!.value).toBe(await field(page, name).inputValue());
    if (name === 'Stroke') expect(state.figures.strokeMm).toBeCloseTo(expectedMm, 9);
    if (name === 'Rod length') expect(state.figures.rodLengthMm).toBeCloseTo(expectedMm, 9);
    expect(await fieldRow(page, name).locator('.sw-dim_reason').textContent()).toBe('');
    expect(state.canUndo).toBe(true);
  }
});

it('keeps rubbish in the field, shows the reason, changes nothing', async () => {
  const before = await stateOf(page);
  const picture = await page.locator('#section canvas').screenshot();
  await type('Stroke', 'long');
  expect(await field(page, 'Stroke').inputValue()).toBe('long');
  expect(await field(page, 'Stroke').getAttribute('aria-invalid')).toBe('true');
  expect(await fieldRow(page, 'Stroke').locator('.sw-dim_reason').textContent()).toMatch(
    /long is refused\..*3\.720 in is kept\./,
  );
  await frames(page);
  expect(await stateOf(page)).toEqual(before);
  expect((await page.locator('#section canvas').screenshot()).equals(picture)).toBe(true);
  await page.keyboard.press('Escape');
  expect(await field(page, 'Stroke').inputValue()).toBe('3.720 in');
});

it('refuses what cannot be built, says why, and shows the last build that could', async () => {
  const before = await stateOf(page);
  const picture = await page.locator('#section canvas').screenshot();
  await type('Stroke', '12 in');
  const state = await stateOf(page);
  expect(state.refused.length).toBeGreaterThan(0);
  expect(state.figures).toEqual(before.figures);
  expect(state.gaps.map((g) => g.gapMm)).toEqual(before.gaps.map((g) => g.gapMm));
  // The rule is about stroke and rod together; it names the rod, and what would be allowed.
  expect(await fieldRow(page, 'Rod length').locator('.sw-dim_reason').textContent()).toMatch(
    /6\.000 in is refused\. Allowed: more than crank radius and offset together, 6\.0000 in/,
  );
  expect(await text(page, '.sw-verdict-refused')).toMatch(/6\.000 in is refused/);
  expect(await text(page, '.sw-verdict-proof')).toBe('as last laid out');
  await frames(page);
  expect((await page.locator('#section canvas').screenshot()).equals(picture)).toBe(true);
  // Back to what can be built: all refusals go, and the proof is there again.
  await type('Stroke', '3.720 in');
  const after = await settled(page);
  expect(after.refused).toEqual([]);
  expect(await text(page, '.sw-verdict-refused')).toBe('');
  expect(after.gaps[0]!.gapMm).toBeCloseTo(before.gaps[0]!.gapMm, 3);
});

it('steps with the arrow keys, one held key being one step back', async () => {
  const before = await stateOf(page);
  await field(page, 'Stroke').focus();
  for (let k = 0; k < 4; k++) await page.keyboard.down('ArrowDown');
  expect((await stateOf(page)).gaps[0]!.certified).toBe(false);
  await page.keyboard.up('ArrowDown');
  expect(await field(page, 'Stroke').inputValue()).toBe('3.680 in');
  await page.keyboard.press('Alt+ArrowDown');
  expect(await field(page, 'Stroke').inputValue()).toBe('3.679 in');
  const state = await settled(page);
  expect(state.figures.strokeMm).toBeCloseTo(3.679 * 25.4, 9);
  // Undo from the keyboard, outside the field.
  await page.locator('#section canvas').focus();
  await page.keyboard.press('Control+z');
  expect(await field(page, 'Stroke').inputValue()).toBe('3.680 in');
  await page.keyboard.press('Control+z');
  expect(await field(page, 'Stroke').inputValue()).toBe('3.720 in');
  const back = await settled(page);
  expect(back.doc).toEqual(before.doc);
  expect(back.canUndo).toBe(false);
  await page.keyboard.press('Control+Shift+z');
  await page.keyboard.press('Control+y');
  expect(await field(page, 'Stroke').inputValue()).toBe('3.679 in');
  expect((await stateOf(page)).canRedo).toBe(false);
});

it.each([
  ['Stroke', '0 in'],
  ['Stroke', '-1 in'],
  ['Engine speed', '0 rpm'],
])('%s of %s is refused in words and breaks nothing', async (name, literal) => {
  const before = await stateOf(page);
  await type(name, literal);
  expect(await fieldRow(page, name).locator('.sw-dim_reason').textContent()).toContain('is refused');
  expect(await field(page, name).getAttribute('aria-invalid')).toBe('true');
  await type('Rod length', '6.010 in');
  await type(name, name === 'Stroke' ? '3.720 in' : '2800 rpm');
  const after = await settled(page);
  expect(after.refused).toEqual([]);
  expect(after.figures.rodLengthMm).toBeCloseTo(6.01 * 25.4, 9);
  expect(after.figures.strokeMm).toBe(before.figures.strokeMm);
});

it('a new edit after an undo leaves nothing to redo', async () => {
  await type('Stroke', '3.700 in');
  await page.locator('#dimensions').getByRole('button', { name: 'Undo' }).click();
  await type('Rod length', '6.010 in');
  const state = await stateOf(page);
  expect([state.canUndo, state.canRedo]).toEqual([true, false]);
  expect(await field(page, 'Stroke').inputValue()).toBe('3.720 in');
});

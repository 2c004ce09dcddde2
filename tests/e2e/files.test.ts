/** Build files on the page: opened by the button and by dropping, refused with every problem named, saved and opened again. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { field, launch, type Opened, openPage, pressInBar, settled, stateOf, text } from '../support/browser.ts';

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

// biome-ignore lint/suspicious/noExplicitAny: a build file that is about to be spoilt has no type.
type Loose = any;

const bench = (): Loose => JSON.parse(readFileSync('assets/demos/bench-rig.json', 'utf8'));

/** By the button: the browser's own file dialogue, answered with a file. */
async function pick(name: string, content: string): Promise<void> {
  const [dialogue] = await Promise.all([page.waitForEvent('filechooser'), pressInBar(page, 'Open file')]);
  await dialogue.setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
}

async function drop(name: string, content: string): Promise<void> {
  const transfer = await page.evaluateHandle(
    ([fileName, body]) => {
      const made = new DataTransfer();
      made.items.add(new File([body], fileName, { type: 'application/json' }));
      return made;
    },
    [name, content] as const,
  );
  const section = page.locator('#section');
  await section.dispatchEvent('dragover', { dataTransfer: transfer });
  await section.dispatchEvent('drop', { dataTransfer: transfer });
}

describe.each([
  ['the button', pick],
  ['dropping it on the page', drop],
] as const)('a file opened by %s', (_name, give) => {
  it('comes on show, proven, with nothing to undo', async () => {
    await field(page, 'Stroke').fill('3.700 in');
    await page.keyboard.press('Enter');
    const doc = bench();
    doc.name = 'Bench rig of the evening class';
    await give('evening.json', JSON.stringify(doc));
    await expect.poll(async () => (await stateOf(page)).doc.name).toBe(doc.name);
    const state = await settled(page);
    expect(state.doc).toEqual(doc);
    expect(state.canUndo).toBe(false);
    expect(await text(page, '#dimensions h2')).toBe(doc.name);
    expect(await page.locator('#bar select option:checked').textContent()).toBe(doc.name);
    // The fields belong to the new build: an edit goes there.
    await field(page, 'Rod length').press('ArrowUp');
    expect((await stateOf(page)).doc.name).toBe(doc.name);
    expect((await stateOf(page)).doc).not.toEqual(doc);
  });

  it('with several faults is refused with each of them, and the build on show stays', async () => {
    const before = await stateOf(page);
    const doc = bench();
    doc.assemblies[0].crank.stroke.value = 'a long one';
    doc.assemblies[0].rod.length = { value: '2 in', from: 'guessed' };
    doc.block.colour = 'red';
    await give('spoilt.json', JSON.stringify(doc));
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    const title = (await dialog.locator('h2').textContent())!;
    expect(title).toContain('spoilt.json is refused');
    const said = await dialog.locator('li').allTextContents();
    expect(said.length).toBeGreaterThanOrEqual(3);
    expect(title).toContain(`${said.length} problems`);
    expect(said.join('\n')).toMatch(/assemblies\[0\]\.crank\.stroke.*a long one is refused/);
    expect(said.join('\n')).toMatch(/assemblies\[0\]\.rod\.length\.from.*guessed.* is refused/);
    expect(said.join('\n')).toMatch(/block.*colour/);
    expect(await stateOf(page)).toEqual(before);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    expect(await stateOf(page)).toEqual(before);
  });
});

describe('a file that is', () => {
  it.each([
    [
      'of a later version',
      (): string => JSON.stringify({ ...bench(), version: 9 }),
      /version: 9 is refused.*later version.*reads version 1/,
    ],
    ['no JSON', (): string => '{ "format": "strokewright-build", ', /is refused/],
    ['something else', (): string => '{"type":"FeatureCollection","features":[]}', /format/],
    ['empty', (): string => '', /is refused/],
  ] as const)('%s is refused in words', async (_name, content: () => string, words) => {
    const before = await stateOf(page);
    await pick('other.json', content());
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    expect((await dialog.locator('li').allTextContents()).join('\n')).toMatch(words);
    expect(await dialog.textContent()).not.toMatch(/undefined|NaN|\[object|Unexpected token|at position/);
    await dialog.getByRole('button', { name: 'Close' }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(await stateOf(page)).toEqual(before);
  });
});

describe('a file saved', () => {
  it('opens again as the very same build, whatever was typed', async () => {
    for (const [name, literal] of [
      ['Stroke', '3 11/16 in'],
      ['Rod length', '152.5 mm'],
      ['Corner radius', '.255 ±0.005 in'],
    ] as const) {
      await field(page, name).fill(literal);
      await page.keyboard.press('Enter');
    }
    const state = await settled(page);
    const [download] = await Promise.all([page.waitForEvent('download'), pressInBar(page, 'Save file')]);
    expect(download.suggestedFilename()).toBe('quarry-hauler-v8.json');
    const saved = readFileSync(await download.path(), 'utf8');
    for (const literal of ['"3 11/16 in"', '"152.5 mm"', '".255 ±0.005 in"']) expect(saved).toContain(literal);
    await page.locator('#bar select').selectOption('bench-rig');
    expect((await stateOf(page)).doc.name).not.toBe(state.doc.name);
    await pick(download.suggestedFilename(), saved);
    await expect.poll(async () => (await stateOf(page)).doc.name).toBe(state.doc.name);
    const again = await settled(page);
    expect(again.doc).toEqual(state.doc);
    // A gap is told to a micrometre, and a far one beside a round part to what slicing may add; where the search begins decides within that.
    const told = new Map(state.gaps.map((g) => [g.id, g]));
    expect([...told.keys()].sort()).toEqual(again.gaps.map((g) => g.id).sort());
    for (const g of again.gaps) {
      const before = told.get(g.id)!;
      const within = 0.001 + Math.max(g.slicingMm, before.slicingMm);
      expect(Math.abs(g.gapMm - before.gapMm), g.id).toBeLessThanOrEqual(within);
      expect(g.state, g.id).toBe(before.state);
    }
    // And saved again gives the same bytes.
    const [second] = await Promise.all([page.waitForEvent('download'), pressInBar(page, 'Save file')]);
    expect(readFileSync(await second.path(), 'utf8')).toBe(saved);
  });
});

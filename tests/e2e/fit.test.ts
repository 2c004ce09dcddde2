/**
 * The question the program is for, by hand: an engine that fits is given a longer stroke, until the counterweight reaches
 * the piston. Picture, verdict and table follow the hand within the frame, and are proven when it lets go.
 *
 * What to expect comes from plain addition: at bottom dead centre, without offset, the rim of the counterweight is
 * rod length less half the stroke, less the radius of the pin boss, less the radius of the rim away from the boss.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import type { GapState } from '../../src/model/results.ts';
import {
  choose,
  field,
  fieldRow,
  frames,
  launch,
  type Opened,
  openPage,
  type PageWindow,
  settled,
  stateOf,
  text,
} from '../support/browser.ts';
import { numberIn } from '../support/figures.ts';

const MM = 25.4;
const PAIR = 'counterweight 1 front · piston 1';
const LIMIT_IN = 0.06;
const ALLOWANCE_IN = 0.01;
/** A proof leaves 1 micrometre open; the rest is the last digits of doubles. */
const PROOF_MM = 0.001 + 1e-9;
/** No leading zero, three decimals or more, the unit. */
const INCHES = /^\u2212?\.\d{3,5} in$/;
const byAddition = (strokeIn: number): number => 6 - strokeIn / 2 - 0.72 - 3.445;

/** Pixels of travel for one step of the handle, and the step, as the foot of the pane describes them. */
const PX_PER_STEP = 4;
const STEP_IN = 0.01;

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());
afterEach(async () => {
  await opened.close();
  expect(opened.complaints).toEqual([]);
});

/** What the page shows at the end of the frame that follows a move of the pointer. */
interface Seen {
  readonly moves: number;
  readonly changes: number;
  readonly literal: string;
  readonly gapMm: number;
  readonly state: GapState;
  readonly certified: boolean;
  readonly nowMm: number;
  readonly worst: string;
  readonly figure: string;
  readonly sentence: string;
  readonly proof: string;
  readonly spoken: string;
  readonly picture: number;
}

interface Probe {
  probe: { seen: Seen[]; changes: number };
}

/** Notes, one frame after each pointermove, what state and page say, and how many changes the store told of for it. */
async function watchTheHand(): Promise<void> {
  await page.evaluate((pair) => {
    const { store, scene } = (globalThis as unknown as PageWindow).strokewright;
    const probe: Probe['probe'] = { seen: [], changes: 0 };
    Object.assign(globalThis, { probe });
    store.watch(() => {
      probe.changes += 1;
    });
    let moves = 0;
    const say = (selector: string): string => document.querySelector(selector)?.textContent ?? '';
    const sumOf = (canvas: HTMLCanvasElement): number => {
      const data = canvas.toDataURL();
      let sum = 0;
      for (let k = 0; k < data.length; k++) sum = (sum * 31 + data.charCodeAt(k)) | 0;
      return sum;
    };
    // On the window, so after the handle's own listener; the frame asked for here comes after the one the picture asked for.
    window.addEventListener('pointermove', () => {
      moves += 1;
      const mine = moves;
      const { changes } = probe;
      probe.changes = 0;
      requestAnimationFrame(() => {
        const { state } = store;
        const gap = state.gaps.find((g) => g.id === pair)!;
        const canvas = scene.canvas()!;
        probe.seen.push({
          moves: mine,
          changes,
          literal: document.querySelector<HTMLInputElement>('#dimensions .sw-dim_i')!.value,
          gapMm: gap.gapMm,
          state: gap.state,
          certified: gap.certified,
          nowMm: state.now.gaps.find((g) => g.id === pair)!.gapMm,
          worst: state.gaps[0]!.id,
          figure: say('.sw-verdict-figure'),
          sentence: say('.sw-verdict-sentence'),
          proof: say('.sw-verdict-proof'),
          spoken: canvas.getAttribute('aria-label') ?? '',
          picture: sumOf(canvas),
        });
      });
    });
  }, PAIR);
}

async function handleOf(name: string): Promise<{ x: number; y: number }> {
  const handle = fieldRow(page, name).locator('.sw-dim_handle');
  await handle.scrollIntoViewIfNeeded();
  const box = (await handle.boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** The state that a gap of so many inches has; null exactly at a boundary, where the last digit decides. */
function stateByHand(gapIn: number): GapState | null {
  const proven = gapIn - ALLOWANCE_IN;
  if (Math.abs(gapIn) < 1e-9 || Math.abs(proven - LIMIT_IN) < 1e-9) return null;
  if (gapIn <= 0) return 'contact';
  return proven < LIMIT_IN ? 'tight' : 'clears';
}

describe('the stroke drawn out by its handle', () => {
  it('goes from clears over tight to contact, in every place at once', async () => {
    opened = await openPage(browser, inject('baseUrl'));
    page = opened.page;
    await settled(page);
    await choose(page, 'Assembly', 'As removed (as it was)');
    await choose(page, 'What is held', 'Deck clearance');
    const before = await settled(page);
    expect(before.assembly).toBe('As removed');
    expect(await text(page, '.sw-verdict-headline')).toBe('Fits as drawn.');
    // The crank stands at bottom dead centre of piston 1, where the pair is closest.
    await page.locator('#transport').getByRole('button', { name: 'BDC', exact: false }).click();
    await watchTheHand();

    const from = await handleOf('Stroke');
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.evaluate(() => {
      const { probe } = globalThis as unknown as Probe;
      probe.seen.length = 0;
      probe.changes = 0;
    });
    for (let k = 1; k <= 22; k++) {
      await page.mouse.move(from.x + k * PX_PER_STEP, from.y);
      await frames(page);
    }
    const seen = await page.evaluate(() => (globalThis as unknown as Probe).probe.seen);
    expect(seen.length).toBe(22);
    const passed: GapState[] = [];
    let picture = 0;
    seen.forEach((at, k) => {
      const strokeIn = 3.5 + STEP_IN * (k + 1);
      const gapIn = byAddition(strokeIn);
      expect(at.literal).toBe(`${Number(strokeIn.toFixed(3))} in`);
      expect(at.changes).toBe(1);
      expect(at.gapMm / MM).toBeCloseTo(gapIn, 6);
      expect(at.nowMm / MM).toBeCloseTo(gapIn, 6);
      const expected = stateByHand(gapIn);
      if (expected !== null) expect(at.state).toBe(expected);
      if (at.worst === PAIR) {
        expect(at.certified).toBe(false);
        expect(numberIn(at.figure)).toBeCloseTo(gapIn, 6);
        const size = / by (?:only )?(\.\d+ in)/;
        expect(numberIn(size.exec(at.sentence)![1]!)).toBeCloseTo(Math.abs(gapIn), 6);
        expect(at.proof).toBe('moving: sampled');
        expect(numberIn(size.exec(at.spoken)![1]!)).toBeCloseTo(Math.abs(gapIn), 6);
      }
      expect(at.picture).not.toBe(picture);
      picture = at.picture;
      if (passed.at(-1) !== at.state) passed.push(at.state);
    });
    expect(passed).toEqual(['clears', 'tight', 'contact']);

    await page.mouse.up();
    const after = await settled(page);
    const gap = after.gaps.find((g) => g.id === PAIR)!;
    expect(after.gaps[0]!.id).toBe(PAIR);
    expect(gap.gapMm / MM).toBeCloseTo(byAddition(3.72), 6);
    expect(gap.gapMm - gap.lowerBoundMm).toBeLessThanOrEqual(PROOF_MM);
    expect(await text(page, '.sw-verdict-headline')).toBe('Does not fit as drawn.');
    expect(await text(page, '.sw-verdict-figure')).toContain('\u2212.025 in');
    expect(await text(page, '.sw-verdict-sentence')).toMatch(
      /hits the pin boss of piston 1 by \.025 in, at bottom dead centre/,
    );
    expect(await text(page, '.sw-verdict-proof')).toBe('proven all round');
    // The list of all gaps lies put away on its own page while the hand is on a dimension; it tells the same now.
    const row = await page.evaluate(() => {
      const found = [...document.querySelectorAll('#gaps tbody tr')].find((tr) =>
        tr.textContent?.includes('counterweight 1 front · piston 1 pin boss'),
      );
      return { state: found?.children[1]?.textContent ?? '', gap: found?.children[2]?.textContent ?? 'no such row' };
    });
    expect(row.state).toBe('contact');
    expect(row.gap).toMatch(INCHES);
    expect(numberIn(row.gap)).toBeCloseTo(byAddition(3.72), 3);

    // The whole gesture is one step back, and one forth.
    await page.locator('#dimensions').getByRole('button', { name: 'Undo' }).click();
    expect(await field(page, 'Stroke').inputValue()).toBe('3 1/2 in');
    expect((await settled(page)).doc).toEqual(before.doc);
    expect((await stateOf(page)).canUndo).toBe(false);
    await page.locator('#dimensions').getByRole('button', { name: 'Redo' }).click();
    expect(await field(page, 'Stroke').inputValue()).toBe('3.72 in');
    expect((await settled(page)).gaps.find((g) => g.id === PAIR)!.gapMm).toBe(gap.gapMm);
  });

  it('given up with Escape leaves everything as it was', async () => {
    opened = await openPage(browser, inject('baseUrl'));
    page = opened.page;
    const before = await settled(page);
    const from = await handleOf('Stroke');
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 40, from.y);
    await frames(page);
    expect((await stateOf(page)).gaps.some((g) => !g.certified)).toBe(true);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    const after = await settled(page);
    expect(after.doc).toEqual(before.doc);
    // Two proofs of the same gap may differ by what a proof leaves open.
    const gapsBefore = new Map(before.gaps.map((g) => [g.id, g.gapMm]));
    for (const gap of after.gaps) expect(Math.abs(gap.gapMm - gapsBefore.get(gap.id)!)).toBeLessThanOrEqual(PROOF_MM);
    expect(after.canUndo).toBe(false);
  });

  it('by a finger follows as well', async () => {
    opened = await openPage(browser, inject('baseUrl'), { hasTouch: true });
    page = opened.page;
    await settled(page);
    const from = await handleOf('Stroke');
    const cdp = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y: from.y, id: 1 }] });
    await touch('touchStart', from.x);
    for (let k = 1; k <= 6; k++) {
      await touch('touchMove', from.x - k * PX_PER_STEP);
      await frames(page);
    }
    expect(await field(page, 'Stroke').inputValue()).toBe('3.660 in');
    expect((await stateOf(page)).gaps.find((g) => g.id === PAIR)!.gapMm / MM).toBeCloseTo(byAddition(3.66), 6);
    await touch('touchEnd', 0);
    expect((await settled(page)).gaps.find((g) => g.id === PAIR)!.gapMm / MM).toBeCloseTo(byAddition(3.66), 6);
  });
});

describe('words that agree with the sign', () => {
  it('a gap that is there is not called a hit, though less than the allowance for assumed outlines', async () => {
    opened = await openPage(browser, inject('baseUrl'));
    page = opened.page;
    await settled(page);
    await field(page, 'Stroke').fill('3.660 in');
    await page.keyboard.press('Enter');
    const gap = (await settled(page)).gaps[0]!;
    expect(gap.gapMm / MM).toBeCloseTo(byAddition(3.66), 6);
    expect(await text(page, '.sw-verdict-figure')).not.toContain('\u2212');
    expect(await text(page, '.sw-verdict-sentence')).not.toMatch(/ hits | overlap /);
  });

  it('a crown above the deck is not said to clear it', async () => {
    opened = await openPage(browser, inject('baseUrl'));
    page = opened.page;
    await settled(page);
    await choose(page, 'Assembly', 'As removed (as it was)');
    await field(page, 'Stroke').fill('3.530 in');
    await page.keyboard.press('Enter');
    // Deck 9.480 less rod 6.000, half the stroke 1.765 and compression height 1.720.
    const gap = (await settled(page)).gaps[0]!;
    expect(gap.kind).toBe('deck');
    expect(gap.gapMm / MM).toBeCloseTo(-0.005, 6);
    expect(await text(page, '.sw-verdict-figure')).toContain('\u2212.005 in');
    expect(await text(page, '.sw-verdict-sentence')).not.toMatch(/ clears /);
  });
});

describe('what is held', () => {
  it('the deck clearance: the compression height follows to the last digit', async () => {
    opened = await openPage(browser, inject('baseUrl'));
    page = opened.page;
    const before = await settled(page);
    await choose(page, 'What is held', 'Deck clearance');
    await field(page, 'Stroke').fill('3.7501');
    await page.keyboard.press('Enter');
    // 1.610 less half of .0301.
    expect(await field(page, 'Compression height').inputValue()).toBe('1.59495 in');
    const after = await settled(page);
    expect(after.figures.deckClearanceMm).toBeCloseTo(before.figures.deckClearanceMm, 9);
    await field(page, 'Rod length').fill('6.125 in');
    await page.keyboard.press('Enter');
    expect(await field(page, 'Compression height').inputValue()).toBe('1.46995 in');
    // Each change is one step; the one that follows goes back with it.
    await page.locator('#dimensions').getByRole('button', { name: 'Undo' }).click();
    await page.locator('#dimensions').getByRole('button', { name: 'Undo' }).click();
    expect(await field(page, 'Compression height').inputValue()).toBe('1.610 in');
    expect((await settled(page)).doc).toEqual(before.doc);
  });

  it('the piston: the deck clearance shows the result', async () => {
    opened = await openPage(browser, inject('baseUrl'));
    page = opened.page;
    const before = await settled(page);
    await field(page, 'Stroke').fill('3.700');
    await page.keyboard.press('Enter');
    expect(await field(page, 'Compression height').inputValue()).toBe('1.610 in');
    const after = await settled(page);
    expect(after.figures.deckClearanceMm).toBeCloseTo(before.figures.deckClearanceMm + 0.01 * MM, 9);
    expect(await text(page, '#dimensions header')).toContain('Result: deck clearance .020 in');
  });
});

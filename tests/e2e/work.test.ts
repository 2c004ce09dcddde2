/**
 * Work per frame on the V8, by counts and ratios, which hold on any machine; the milliseconds are printed, and
 * tests/bench/frame.ts prints them alone.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { launch, openPage, settled } from '../support/browser.ts';
import { drawNothing, FRAMES, measureFrames, quantile } from '../support/frameWork.ts';

/** A step of a dragged dimension lays the engine out anew and follows every gap; more than this many turns of the crank it may not cost. */
const DRAG_TO_TURN = 60;

let browser: Browser;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

it('a turn is one change, a step of a drag is one change, and a drag stays near a turn', async () => {
  const opened = await openPage(browser, inject('baseUrl'), { before: drawNothing });
  await settled(opened.page);
  const { turn, drag } = await measureFrames(opened.page);
  for (const [name, { sendMs, updateMs }] of [
    ['turn', turn],
    ['drag', drag],
  ] as const) {
    const whole = sendMs.map((ms, k) => ms + updateMs[k]!);
    console.log(
      `V8, ${name}, ${FRAMES} frames: median ${quantile(whole, 0.5).toFixed(2)} ms, 95 of 100 below ${quantile(whole, 0.95).toFixed(2)} ms ` +
        `(section ${quantile(updateMs, 0.5).toFixed(2)} and ${quantile(updateMs, 0.95).toFixed(2)} ms)`,
    );
  }
  expect(turn.changes).toBe(FRAMES);
  expect(drag.changes).toBe(FRAMES);
  // Turning asks little of the section: nothing is built anew.
  expect(quantile(turn.updateMs, 0.5)).toBeLessThan(quantile(drag.updateMs, 0.5) + 1);
  const ratio = quantile(drag.sendMs, 0.5) / Math.max(quantile(turn.sendMs, 0.5), 0.1);
  expect(ratio).toBeLessThan(DRAG_TO_TURN);
  await opened.close();
  expect(opened.complaints).toEqual([]);
});

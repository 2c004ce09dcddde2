/** Turns the crank frame by frame and looks at what is left behind: memory after collecting, elements, listeners. */
import type { Page } from 'playwright-core';
import { frames, type PageWindow } from './browser.ts';

export interface Held {
  readonly heapBytes: number;
  readonly nodes: number;
  readonly listeners: number;
}

/** Of the page after everything that can be collected has been. */
export async function held(page: Page): Promise<Held> {
  await frames(page);
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.enable');
  // What one collection frees may hold what the next one does.
  for (let k = 0; k < 3; k++) await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const { nodes, jsEventListeners } = await session.send('Memory.getDOMCounters');
  await session.detach();
  return { heapBytes: usedSize, nodes, listeners: jsEventListeners };
}

/** Draws `count` frames, each with the crank a step on, as turning does; as fast as they can be drawn. */
export function turn(page: Page, count: number): Promise<void> {
  return page.evaluate(async (times) => {
    const { store, scene } = (globalThis as unknown as PageWindow).strokewright;
    for (let k = 1; k <= times; k++) {
      store.send({ do: 'turn to', crankAngleRad: store.state.crankAngleRad + 0.021 });
      scene.renderNow();
      // Now and then the page gets its turn: what waits for a frame or a message is done.
      if (k % 10 === 0) await new Promise((done) => setTimeout(done, 0));
    }
  }, count);
}

/** `first` frames for what is made once and kept, then what is held before and after `count` more. */
export async function turnAndMeasure(
  page: Page,
  first: number,
  count: number,
): Promise<{ readonly before: Held; readonly after: Held }> {
  await turn(page, first);
  const before = await held(page);
  await turn(page, count);
  return { before, after: await held(page) };
}

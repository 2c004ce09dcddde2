/**
 * What one frame costs on the built page, the rasteriser left out: a turn of the crank, and a step of a dragged stroke.
 * `send` is the command with all that follows it at once (gaps, verdict, table, ruler, pane); `update` is the section's
 * part of the frame.
 */
import type { Page } from 'playwright-core';
import type { PageWindow } from './browser.ts';

export interface Work {
  readonly sendMs: readonly number[];
  readonly updateMs: readonly number[];
  /** Changes that the store told of, over all frames. */
  readonly changes: number;
}

export interface FrameWork {
  readonly turn: Work;
  readonly drag: Work;
}

export const FRAMES = 120;

/** For a page that is measured: it draws nothing, so that software drawing does not stand in the way of 120 frames. */
export function drawNothing(): void {
  const nothing = () => {};
  for (const name of ['drawElements', 'drawArrays', 'drawElementsInstanced', 'drawArraysInstanced'] as const) {
    WebGL2RenderingContext.prototype[name] = nothing;
  }
}

/** On a page that shows the V8 demo. The stroke sweeps from where the parts clear into contact and back. */
export function measureFrames(page: Page): Promise<FrameWork> {
  return page.evaluate(async (count) => {
    const { store, scene } = (globalThis as unknown as PageWindow).strokewright;
    let changes = 0;
    // What a solver of an earlier document brings in between is no part of it.
    const stop = store.watch((_, changed) => {
      if (changed.has('angle') || changed.has('document')) changes += 1;
    });
    const breathe = () => new Promise((done) => setTimeout(done));
    const run = async (frame: (k: number) => void, most = count): Promise<Work> => {
      const sendMs: number[] = [];
      const updateMs: number[] = [];
      changes = 0;
      for (let k = 0; k < most; k++) {
        const start = performance.now();
        frame(k);
        sendMs.push(performance.now() - start);
        scene.renderNow();
        updateMs.push(scene.lastUpdateMs);
        // The section is drawn by hand above; the browser's own frames, all rasterising, come in between now and then.
        if (k % 10 === 9) await breathe();
      }
      return { sendMs, updateMs, changes };
    };
    const turnStep = (k: number) => store.send({ do: 'turn to', crankAngleRad: (k * 3 * Math.PI) / 180 });
    const path = ['assemblies', 1, 'crank', 'stroke'] as const;
    const dragStep = (k: number) => {
      const part = Math.abs((2 * k) / count - 1);
      store.send({ do: 'set dimension', path, text: `${(3.6 + 0.12 * part).toFixed(3)} in`, last: false });
    };
    // Once through beforehand: what is compiled on the first call is no frame's cost.
    await run(turnStep, count / 3);
    const turn = await run(turnStep);
    await run(dragStep, count / 3);
    const drag = await run(dragStep);
    stop();
    store.send({ do: 'set dimension', path, text: '3.720 in', last: true });
    return { turn, drag };
  }, FRAMES);
}

/** Value below which the given part of all values lies. */
export function quantile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
}

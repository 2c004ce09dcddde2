/**
 * Notices a worker that never answers: one that the browser ended without a word, for want of memory, or one that hangs.
 * What counts is how often the page has had its turn meanwhile, not the clock: a machine that slept has missed nothing.
 */

/** Calls back every second until what it returns is called. */
export type EverySecond = (tick: () => void) => () => void;

export const everySecond: EverySecond = (tick) => {
  const timer = setInterval(tick, 1000);
  return () => clearInterval(timer);
};

export interface Silence {
  /** An answer is due from now on: counting begins anew. */
  readonly due: () => void;
  /** Nothing is due. */
  readonly rest: () => void;
}

/** `silent` is called once where an answer has been due for so many seconds of the page's own turns. */
export function watchSilence(seconds: number, every: EverySecond, silent: () => void): Silence {
  let stop: (() => void) | null = null;
  let counted = 0;
  const rest = (): void => {
    stop?.();
    stop = null;
  };
  return {
    due: () => {
      counted = 0;
      stop ??= every(() => {
        counted += 1;
        if (counted < seconds) return;
        rest();
        silent();
      });
    },
    rest,
  };
}

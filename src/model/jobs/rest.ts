/** Work put off until things have come to rest. */

export interface Rest {
  /** Soon; asked again while it waits, at the time that was set first. */
  readonly ask: () => void;
  /** The time begins anew. */
  readonly anew: () => void;
  readonly stop: () => void;
  readonly waits: () => boolean;
}

/** `later` calls back after some ms and returns the way not to. */
export function rest(later: (ms: number, work: () => void) => () => void, ms: number, work: () => void): Rest {
  let stop: (() => void) | null = null;
  const cease = (): void => {
    stop?.();
    stop = null;
  };
  const ask = (): void => {
    stop ??= later(ms, () => {
      stop = null;
      work();
    });
  };
  return {
    ask,
    anew: () => {
      cease();
      ask();
    },
    stop: cease,
    waits: () => stop !== null,
  };
}

/** Goes through what is compared, one a task, so that the page has its turn between two of them. */
import type { Compared } from '../../model/curves/compare.ts';

export interface Laying {
  /** `work` does one; `done` is called after the last, unless others have been asked for meanwhile. */
  lay(list: readonly Compared[], work: (each: Compared) => void, done: () => void): void;
  stop(): void;
}

export function createLaying(): Laying {
  let waiting: ReturnType<typeof setTimeout> | undefined;

  function step(left: readonly Compared[], work: (each: Compared) => void, done: () => void): void {
    const [next, ...rest] = left;
    if (next === undefined) {
      done();
      return;
    }
    work(next);
    waiting = setTimeout(() => step(rest, work, done), 0);
  }

  return {
    lay(list, work, done) {
      clearTimeout(waiting);
      waiting = setTimeout(() => step(list, work, done), 0);
    },
    stop: () => clearTimeout(waiting),
  };
}

/** Lays out what is compared, one a task, so that the page has its turn between two of them. */
import { type Compared, engineOf } from '../../model/curves/compare.ts';

export interface Laying {
  /** `done` is called when all are laid out, unless others have been asked for meanwhile. */
  lay(list: readonly Compared[], done: () => void): void;
  stop(): void;
}

export function createLaying(): Laying {
  let waiting: ReturnType<typeof setTimeout> | undefined;

  function step(left: readonly Compared[], done: () => void): void {
    const [next, ...rest] = left;
    if (next === undefined) {
      done();
      return;
    }
    engineOf(next);
    waiting = setTimeout(() => step(rest, done), 0);
  }

  return {
    lay(list, done) {
      clearTimeout(waiting);
      waiting = setTimeout(() => step(list, done), 0);
    },
    stop: () => clearTimeout(waiting),
  };
}

/** Turns the crank of a store from one angle to another before the eyes, at a speed at which it can be followed. */
import type { Store } from '../../model/state.ts';
import { wantsLessMotion } from '../theme.ts';

/** Crank degrees a second; and no turn takes longer than this. */
const DEGREES_PER_S = 60;
const LONGEST_S = 4;

export interface Turning {
  /** At once to the end. */
  readonly finish: () => void;
  /** Stops where it is; `done` is not told. */
  readonly stop: () => void;
}

/** `at` makes a crank angle of degrees. With less motion asked for it goes to the end at once. `done` is told once. */
export function turnThrough(
  store: Store,
  at: (deg: number) => number,
  fromDeg: number,
  toDeg: number,
  done: () => void,
): Turning {
  const seconds = Math.min(LONGEST_S, Math.abs(toDeg - fromDeg) / DEGREES_PER_S);
  let frame = 0;
  let over = false;
  const go = (deg: number): void => store.send({ do: 'turn to', crankAngleRad: at(deg) });
  const finish = (): void => {
    if (over) return;
    over = true;
    cancelAnimationFrame(frame);
    go(toDeg);
    done();
  };
  if (wantsLessMotion() || seconds === 0) {
    finish();
    return { finish, stop: () => {} };
  }
  let start = 0;
  const step = (now: number): void => {
    if (start === 0) start = now;
    const share = (now - start) / 1000 / seconds;
    if (share >= 1) {
      finish();
      return;
    }
    go(fromDeg + (toDeg - fromDeg) * share);
    frame = requestAnimationFrame(step);
  };
  go(fromDeg);
  frame = requestAnimationFrame(step);
  return {
    finish,
    stop: () => {
      over = true;
      cancelAnimationFrame(frame);
    },
  };
}

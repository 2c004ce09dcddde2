/** Works measures over rod ratios out between frames, a few milliseconds at a time, and keeps them. */
import type { MotionMeasures } from '../../core/kinematics/motionMeasures.ts';
import { type Held, keyOf, measuresOverRatios } from '../../model/curves/measured.ts';

export interface RatioWork {
  /** `done` is told once all are there, unless others have been asked for meanwhile; `failed` why one can't be measured. */
  run(
    wanted: readonly Held[],
    done: (over: (held: Held) => readonly MotionMeasures[]) => void,
    failed: (why: string) => void,
  ): void;
  stop(): void;
}

/** The page has its turn after so long, ms: a quarter of a frame. */
const SLICE_MS = 4;
/** Kept at most: those of one comparison, and of some before it. */
const MOST_KEPT = 60;

export function createRatioWork(): RatioWork {
  const kept = new Map<string, readonly MotionMeasures[]>();
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const over = (held: Held): readonly MotionMeasures[] => kept.get(keyOf(held))!;

  return {
    run(wanted, done, failed) {
      clearTimeout(waiting);
      if (kept.size > MOST_KEPT) kept.clear();
      const left = wanted.filter((held) => !kept.has(keyOf(held)));
      let open = left[0] === undefined ? null : measuresOverRatios(left[0]);
      const slice = (): void => {
        const until = performance.now() + SLICE_MS;
        while (open !== null && performance.now() < until) {
          let step: ReturnType<typeof open.next>;
          try {
            step = open.next();
          } catch (error) {
            failed(error instanceof Error ? error.message : String(error));
            return;
          }
          if (step.done !== true) continue;
          kept.set(keyOf(left.shift()!), step.value);
          while (left[0] !== undefined && kept.has(keyOf(left[0]))) left.shift();
          open = left[0] === undefined ? null : measuresOverRatios(left[0]);
        }
        if (open === null) done(over);
        else waiting = setTimeout(slice, 0);
      };
      slice();
    },
    stop: () => clearTimeout(waiting),
  };
}

/** Which pictures a clip is made of: the crank angle of each, and the step of the tour that it belongs to. */
import type { Step } from '../counter/tour.ts';

export interface Frame {
  readonly crankAngleRad: number;
  /** Of the tour; null for a clip of the turning engine alone. */
  readonly step: number | null;
}

/** Whether two frames show the same. */
export function sameFrame(a: Frame, b: Frame): boolean {
  return a.crankAngleRad === b.crankAngleRad && a.step === b.step;
}

/**
 * One cycle of the engine in a whole number of frames: frame `count` would be frame 0 again, so that a clip that runs round and
 * round does not jump. Throws RangeError unless `count` is a whole number above zero.
 */
export function cycleFrames(cycleRad: number, count: number): Frame[] {
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`cycleFrames: ${count} frames; at least 1`);
  return Array.from({ length: count }, (_, k) => ({ crankAngleRad: (cycleRad * k) / count, step: null }));
}

/** Reading takes this long, s: so much for a step, and so much for each word of it. */
const STEP_S = 1;
const WORD_S = 0.25;
const TURN = 2 * Math.PI;

/** How long a step stands, s: long enough to be read. */
export function readingSeconds({ title, sentences }: Pick<Step, 'title' | 'sentences'>): number {
  const words = [title, ...sentences].join(' ').split(/\s+/).length;
  return STEP_S + WORD_S * words;
}

/**
 * The tour as frames: each step as long as reading it takes, the crank going to its place in the first half. It begins with the crank where
 * the last step leaves it, so that it can run round and round. `tdcRad` is the firing TDC of the cylinder on show.
 */
export function tourFrames(steps: readonly Step[], tdcRad: number, cycleRad: number, framesPerS: number): Frame[] {
  const aimOf = (from: number, { turn }: Step): number => {
    const aim = turn.kind === 'round' ? from : turn.kind === 'to' ? turn.crankAngleRad : tdcRad + turn.rad;
    const round = turn.kind === 'to' ? cycleRad : TURN;
    const ahead = (((aim - from) % round) + round) % round;
    return from + (turn.kind === 'round' ? TURN : ahead);
  };
  // Where the last step that goes to a place leaves the crank; all later ones go once round.
  const last = steps.findLast((s) => s.turn.kind !== 'round');
  let at = last === undefined ? tdcRad : aimOf(tdcRad, last) % cycleRad;
  const out: Frame[] = [];
  for (const [k, step] of steps.entries()) {
    const count = Math.max(2, Math.round(readingSeconds(step) * framesPerS));
    const aim = aimOf(at, step);
    for (let n = 0; n < count; n++) {
      const part = step.turn.kind === 'round' ? n / count : Math.min(1, (2 * n) / count);
      out.push({ crankAngleRad: (at + (aim - at) * part) % cycleRad, step: k });
    }
    at = aim % cycleRad;
  }
  return out;
}

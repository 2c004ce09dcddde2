/**
 * Two moving outlines that overlap somewhere in a period, or nearly: how deep they reach into each other at most, with a bound.
 *
 * First the stretches of turn in which they may meet are found: wherever a stop is apart, the turns that core/outline/probe.ts grants for a
 * small positive distance are apart too; what is left when stretches have become short may hold contact. Nothing outside these
 * stretches is deeper than nought. Over them core/outline/depth.ts bounds the depth.
 */
import type { Deepest } from '../outline/depth.ts';
import { deepest, newDeepest } from '../outline/depth.ts';
import type { Mover } from './gapAt.ts';
import { DEPTH_TOLERANCE_MM, overlapIn, turnsAt } from './gapAt.ts';

export interface Contact {
  /** Smallest signed gap found, mm: minus the greatest depth; what was known before if nothing is smaller. */
  minimumMm: number;
  lowerBoundMm: number;
  atCrankRad: number;
  evaluations: number;
  spent: boolean;
}

/** Outlines farther apart than this are plainly apart, mm; the nearer it lies to nought the shorter the turns granted, the larger the longer the stretches left. */
const APART_MM = 0.02;

/** Stretches are not cut below a degree: a shorter one costs more to be rid of than depth takes over it. */
const SHORTEST_RAD = Math.PI / 180;

/** Looks at each stretch for a deep place to begin from; the deeper it is, the less work the bound takes. */
const LOOKS = 6;

/** The looks round a deep place end below this turn, radians. */
const LAST_LOOK_RAD = 2e-4;

/** A look asks for places deeper than the best by this only, in tolerances: finer ones are left to the bound. */
const LOOK_TOLERANCES = 4;
const CLOSE_LOOK_TOLERANCES = 0.5;

const found: Deepest = newDeepest();
const waiting = new Float64Array(2 * 1024);

/** Stretches [from, to] of the turn that may hold contact, in order; `evaluations` is added to `answer`. */
function meetings(a: Mover, b: Mover, periodRad: number, answer: Contact): [number, number][] {
  const out: [number, number][] = [];
  const eighths = Math.ceil(periodRad / (Math.PI / 4) - 1e-9);
  for (let k = 0; k < eighths; k++) {
    waiting[0] = (k * periodRad) / eighths;
    waiting[1] = ((k + 1) * periodRad) / eighths;
    let top = 2;
    while (top > 0) {
      top -= 2;
      const from = waiting[top]!;
      const to = waiting[top + 1]!;
      const middle = (from + to) / 2;
      const short = to - from < SHORTEST_RAD;
      answer.evaluations += 1;
      const p = turnsAt(a, b, middle, Number.POSITIVE_INFINITY, APART_MM, to - middle, middle - from);
      const [forwardRad, backRad] = [p.forwardRad, p.backRad];
      const meets = overlapIn(a, b, p);
      if (!meets && middle - backRad <= from && middle + forwardRad >= to) continue;
      if (short || top + 4 > waiting.length) {
        const last = out.at(-1);
        if (last !== undefined && last[1] >= from - 1e-12) last[1] = to;
        else out.push([from, to]);
        continue;
      }
      // The later part waits below the earlier one, so that stretches come in order.
      waiting[top] = meets ? middle : middle + forwardRad;
      waiting[top + 1] = to;
      if (waiting[top]! < to) top += 2;
      waiting[top] = from;
      waiting[top + 1] = meets ? middle : middle - backRad;
      if (waiting[top + 1]! > from) top += 2;
    }
  }
  return out;
}

/** `known`: the smallest gap found so far, and where; only smaller ones are looked for. See the head. */
export function contact(
  a: Mover,
  b: Mover,
  periodRad: number,
  known: { readonly minimumMm: number; readonly atCrankRad: number },
  toleranceMm: number,
  budget: number,
): Contact {
  const answer: Contact = {
    minimumMm: known.minimumMm,
    lowerBoundMm: Number.NEGATIVE_INFINITY,
    atCrankRad: known.atCrankRad,
    evaluations: 0,
    spent: false,
  };
  const stretches = meetings(a, b, periodRad, answer);
  const reach = (from: number, to: number, tolerance: number): number => {
    const left = Math.max(0, budget - answer.evaluations);
    deepest(a.flat, a.motion, b.flat, b.motion, from, to, knownDepth(answer), tolerance, left, found);
    answer.evaluations += found.cells;
    if (-found.depthMm < answer.minimumMm) {
      answer.minimumMm = -found.depthMm;
      answer.atCrankRad = found.atCrankRad;
    }
    if (found.budgetSpent) answer.spent = true;
    return found.boundMm;
  };
  for (const [from, to] of stretches) {
    for (let k = 0; k < LOOKS; k++) {
      const at = from + ((k + 0.5) * (to - from)) / LOOKS;
      reach(at, at, LOOK_TOLERANCES * toleranceMm);
    }
  }
  const widest = Math.max(0, ...stretches.map(([from, to]) => to - from));
  for (let step = widest / LOOKS; step > LAST_LOOK_RAD; step /= 3) {
    const centre = answer.atCrankRad;
    reach(centre - step, centre - step, CLOSE_LOOK_TOLERANCES * toleranceMm);
    reach(centre + step, centre + step, CLOSE_LOOK_TOLERANCES * toleranceMm);
  }
  let boundMm = -APART_MM;
  for (const [from, to] of stretches) boundMm = Math.max(boundMm, reach(from, to, toleranceMm));
  // The depth at the angle told, to the same fineness as one asked for at that angle alone (gapAt.ts).
  reach(answer.atCrankRad, answer.atCrankRad, DEPTH_TOLERANCE_MM);
  answer.lowerBoundMm = Math.min(answer.minimumMm, -boundMm);
  return answer;
}

/** Depth to begin from: the one known, or this far outside, mm, where none is. */
const OUTSIDE_MM = 1;

function knownDepth(answer: Contact): number {
  return Math.max(-answer.minimumMm, -OUTSIDE_MM);
}

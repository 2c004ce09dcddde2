/**
 * The smallest signed gap of two moving outlines over a period of the crank, with a proven lower bound.
 *
 * WHY THE BOUND HOLDS. The outlines are apart at one angle (checked outright: no edges cross, neither inside the other).
 * From there the crank is turned forward in steps; at each stop core/outline/probe.ts gives the distance and a step over
 * which, the outlines being apart at the stop, the distance cannot fall below the target, which is positive. So they
 * are still apart at the next stop, and so on round the period: nowhere is the gap below the smallest target used, and no
 * contact can hide between two stops. The target is the smallest gap known, less the tolerance. A gap smaller than that,
 * met on the way, is followed down to its own minimum, and the target falls with it; steps taken before were granted for
 * a higher target, which is the safer side.
 *
 * Where the outlines overlap somewhere, or come so close that the target would not be positive, the bound comes from
 * core/outline/depth.ts instead: no point of either outline is deeper in the other than its bound, anywhere in the
 * period; which holds whether they overlap or not.
 *
 * When the work budget runs out the outcome says so and the bound is minus infinity: no promise.
 */
import type { Probe } from '../outline/probe.ts';
import { contact } from './contact.ts';
import type { Mover } from './gapAt.ts';
import { distanceAt, keptTurnsAt, overlapAt, turnsAt } from './gapAt.ts';

export interface CertifyOptions {
  /** The bound lies at most this far under the smallest gap reported, mm. */
  readonly toleranceMm: number;
  /** Evaluations (stops, trial points, cells of depth) at most. */
  readonly budget: number;
  /** Where a minimum is likely: the last one of a similar build. */
  readonly hintRad?: number;
  /** Gaps at or above this are of no interest: the answer may then be "not below". */
  readonly cutoffMm?: number;
  /** That the outlines overlap is all that matters then: how deep is not asked (minimum and bound are 0). */
  readonly contactIsEnough?: boolean;
  /** A gap at or below this is as good as contact: the bound is 0 then, and how far down it goes is not asked. */
  readonly enoughMm?: number;
  /** Asked of each local minimum found: true ends the work, with the outcome "stopped" and nothing proven. */
  readonly stopAt?: (gapMm: number, crankAngleRad: number) => boolean;
}

export interface Certificate {
  outcome: 'certified' | 'not below cutoff' | 'budget spent' | 'stopped';
  /** Smallest signed gap found; the cutoff if nothing lies below it. */
  minimumMm: number;
  /** Proven: nowhere below this. */
  lowerBoundMm: number;
  /** 0 to the period. */
  atCrankRad: number;
  evaluations: number;
}

/** The finest tolerance that the reported bound is to keep: 1 micrometre. */
export const CERTIFICATE_TOLERANCE_MM = 0.001;

/** Looks round before the turn is covered, when there is no hint, a radian apart at most: enough to meet nearly each basin of an engine's pairs, whose narrowest are some 20 degrees wide. A basin missed costs time, never truth. */
const LOOK_APART_RAD = Math.PI / 8;

/**
 * How far under the smallest gap the target lies: the tolerance, but at most half the gap, since a target must be positive
 * for the march to prove anything.
 */
function allowed(gapMm: number, toleranceMm: number): number {
  return Math.min(toleranceMm, gapMm / 2);
}

/** Nearer than this share of the tolerance counts as contact: the march's steps would become too short. */
const TOUCHING_TOLERANCES = 0.05;

/** Where the cutoff is at or below contact, the march that is to show the outlines apart starts from so many tolerances. */
const APART_TOLERANCES = 3;

/** A local minimum is pinned until the slope left over its bracket is worth less than this. */
const PINNED_MM = 1e-5;

/** A stretch of turn is first looked at from its middle; two looks apart, so that they are among those looked at before. */
const STRETCH_RAD = 2 * LOOK_APART_RAD;

let used = 0;

/** Stretches of turn still to be covered, [from, to] each. Halving keeps few at a time. */
const STRETCHES = new Float64Array(2 * 1024);

/** See the head. Allocates only its answer. */
export function certify(a: Mover, b: Mover, periodRad: number, options: CertifyOptions): Certificate {
  used = 0;
  const cutoffMm = options.cutoffMm ?? Number.POSITIVE_INFINITY;
  // A cutoff at or below contact: first try to show that the outlines never come that close at all, which is cheap.
  const floorMm = APART_TOLERANCES * options.toleranceMm;
  const answer: Certificate = {
    outcome: 'certified',
    minimumMm: Math.max(cutoffMm, floorMm),
    lowerBoundMm: 0,
    atCrankRad: 0,
    evaluations: 0,
  };
  // Where to begin: the hint, or the least of a look round.
  let lowAt = options.hintRad ?? 0;
  let low = Number.POSITIVE_INFINITY;
  const looks = Math.ceil(periodRad / STRETCH_RAD - 1e-9) * 2;
  if (options.hintRad === undefined) {
    for (let k = 0; k < looks; k++) {
      const at = (k * periodRad) / looks;
      used += 1;
      const gapMm = keptTurnsAt(a, b, at, k, low, 0, -1, -1).gapMm;
      if (gapMm >= low) continue;
      low = gapMm;
      lowAt = at;
    }
  } else low = distanceAt(a, b, lowAt, Number.POSITIVE_INFINITY).gapMm;
  used += 1;
  if (overlapAt(a, b, lowAt)) {
    answer.atCrankRad = lowAt;
    if (options.stopAt?.(0, lowAt)) return close(answer, 'stopped', periodRad, cutoffMm);
  } else {
    if (low < answer.minimumMm) descend(a, b, lowAt, answer);
    const stopped = low < cutoffMm && options.stopAt?.(answer.minimumMm, answer.atCrankRad);
    const result = stopped ? 'stopped' : cover(a, b, periodRad, options, answer);
    if (result !== 'meeting') return close(answer, result, periodRad, cutoffMm);
  }
  if (options.contactIsEnough) {
    answer.minimumMm = 0;
    answer.lowerBoundMm = 0;
    return close(answer, 'done', periodRad, Number.POSITIVE_INFINITY);
  }
  answer.minimumMm = Math.min(answer.minimumMm, cutoffMm);
  return close(answer, contactOf(a, b, periodRad, options, answer), periodRad, cutoffMm);
}

function close(
  answer: Certificate,
  result: 'done' | 'spent' | 'stopped',
  periodRad: number,
  cutoffMm: number,
): Certificate {
  if (result !== 'done') {
    answer.outcome = result === 'spent' ? 'budget spent' : 'stopped';
    answer.lowerBoundMm = Number.NEGATIVE_INFINITY;
  } else if (answer.minimumMm >= cutoffMm) {
    answer.outcome = 'not below cutoff';
    answer.minimumMm = cutoffMm;
  }
  answer.atCrankRad = ((answer.atCrankRad % periodRad) + periodRad) % periodRad;
  answer.evaluations = used;
  return answer;
}

/** Covers the period with safe turns, the outlines being apart at one angle of it. Sets minimum and bound. */
function cover(
  a: Mover,
  b: Mover,
  periodRad: number,
  options: CertifyOptions,
  answer: Certificate,
): 'done' | 'spent' | 'meeting' | 'stopped' {
  const tolerance = options.toleranceMm;
  const stretches = Math.ceil(periodRad / STRETCH_RAD - 1e-9);
  let lowestTarget = answer.minimumMm - allowed(answer.minimumMm, tolerance);
  for (let k = 0; k < stretches; k++) {
    STRETCHES[0] = (k * periodRad) / stretches;
    STRETCHES[1] = ((k + 1) * periodRad) / stretches;
    let top = 2;
    let slot = 2 * k + 1;
    while (top > 0) {
      if (used >= options.budget) return 'spent';
      if (answer.minimumMm <= TOUCHING_TOLERANCES * tolerance) return 'meeting';
      // No distance of outlines is below zero.
      if (options.enoughMm !== undefined && answer.minimumMm <= options.enoughMm) {
        answer.lowerBoundMm = 0;
        return 'done';
      }
      used += 1;
      const from = STRETCHES[top - 2]!;
      const to = STRETCHES[top - 1]!;
      const middle = (from + to) / 2;
      const room = allowed(answer.minimumMm, tolerance);
      const target = answer.minimumMm - room;
      const p =
        slot >= 0
          ? keptTurnsAt(a, b, middle, slot, answer.minimumMm, target, to - middle, middle - from)
          : turnsAt(a, b, middle, answer.minimumMm, target, to - middle, middle - from);
      if (p.gapMm < answer.minimumMm - room / 4) {
        descend(a, b, middle, answer);
        if (options.stopAt?.(answer.minimumMm, answer.atCrankRad)) return 'stopped';
        continue;
      }
      // No safe turn at all from here: the outlines overlap, their edges crossing farther from their ends than the target.
      if (p.backRad <= 0 && p.forwardRad <= 0) return overlapAt(a, b, middle) ? 'meeting' : 'spent';
      slot = -1;
      if (target < lowestTarget) lowestTarget = target;
      top -= 2;
      const left = middle - p.backRad;
      const right = middle + p.forwardRad;
      if (top + 4 > STRETCHES.length) return 'spent';
      if (right < to) {
        STRETCHES[top] = right;
        STRETCHES[top + 1] = to;
        top += 2;
      }
      if (left > from) {
        STRETCHES[top] = from;
        STRETCHES[top + 1] = left;
        top += 2;
      }
    }
  }
  answer.lowerBoundMm = lowestTarget;
  return 'done';
}

/** A first stride of a descent: two degrees. */
const FIRST_STEP_RAD = Math.PI / 90;

/** Follows the gap from `at` down to a local minimum; keeps it in `answer` if it is the smallest. */
function descend(a: Mover, b: Mover, at: number, answer: Certificate): void {
  let x0 = at;
  let p = look(a, b, x0, answer);
  let g0 = p.gapMm;
  let s0 = p.slopeMm;
  if (s0 === 0) return;
  const down = s0 > 0 ? -1 : 1;
  let stride = FIRST_STEP_RAD;
  let x1 = x0 + down * stride;
  p = look(a, b, x1, answer);
  // Downhill until it rises again: toward where the slope would be level, at most four times as far each time.
  while (p.slopeMm * down < 0 && p.gapMm < g0 && Math.abs(x1 - at) < Math.PI) {
    const level = s0 === p.slopeMm ? Number.POSITIVE_INFINITY : (1.1 * stride * p.slopeMm) / (s0 - p.slopeMm);
    stride = level > 0 ? Math.min(4 * stride, Math.max(stride / 4, level)) : 4 * stride;
    x0 = x1;
    g0 = p.gapMm;
    s0 = p.slopeMm;
    x1 = x0 + down * stride;
    p = look(a, b, x1, answer);
  }
  let g1 = p.gapMm;
  let s1 = p.slopeMm;
  // Between x0 (falling) and x1 (rising): by turns where the slope would be level, where the two tangents meet, the middle.
  for (let k = 0; k < 60; k++) {
    const width = Math.abs(x1 - x0);
    if (width < 1e-12) break;
    let share = 0.5;
    if (s1 * down > 0) {
      const fall = -s0 * down * width;
      const rise = s1 * down * width;
      const meet = (g0 - g1 + rise) / (fall + rise);
      if (Math.min(g0, g1) - (g0 - fall * meet) < PINNED_MM) break;
      if (k % 3 === 0) share = fall / (fall + rise);
      else if (k % 3 === 1) share = meet;
      share = Math.min(0.98, Math.max(0.02, share));
    } else if (-s0 * down * width < PINNED_MM) break;
    const x = x0 + share * (x1 - x0);
    p = look(a, b, x, answer);
    if (p.slopeMm * down < 0 && p.gapMm <= g0) {
      x0 = x;
      g0 = p.gapMm;
      s0 = p.slopeMm;
    } else {
      x1 = x;
      g1 = p.gapMm;
      s1 = p.slopeMm;
    }
  }
}

function look(a: Mover, b: Mover, x: number, answer: Certificate): Probe {
  used += 1;
  const p = distanceAt(a, b, x, Number.POSITIVE_INFINITY);
  if (p.gapMm < answer.minimumMm) {
    answer.minimumMm = p.gapMm;
    answer.atCrankRad = x;
  }
  return p;
}

/** Overlap somewhere, or nearly: the deepest reach over the period, with its bound (contact.ts). */
function contactOf(
  a: Mover,
  b: Mover,
  periodRad: number,
  options: CertifyOptions,
  answer: Certificate,
): 'done' | 'spent' {
  const c = contact(a, b, periodRad, answer, options.toleranceMm, options.budget - used);
  used += c.evaluations;
  answer.minimumMm = c.minimumMm;
  answer.atCrankRad = c.atCrankRad;
  answer.lowerBoundMm = c.lowerBoundMm;
  return c.spent ? 'spent' : 'done';
}

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
import type { Deepest } from '../outline/depth.ts';
import { deepest, newDeepest } from '../outline/depth.ts';
import type { GapAt, Mover } from './gapAt.ts';
import { gapAt, newGapAt, stepAt } from './gapAt.ts';

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
}

export interface Certificate {
  outcome: 'certified' | 'not below cutoff' | 'budget spent';
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

/** Angles looked at before the round begins when there is no hint: enough to meet each basin of an engine's pairs, whose narrowest are some 20 degrees wide. A basin missed costs time, never truth. */
const FIRST_LOOKS = 36;

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

const here: GapAt = newGapAt();
let lastLookRad = 0;

function lookAt(a: Mover, b: Mover, crankAngleRad: number, depth: boolean): void {
  used += 1;
  lastLookRad = crankAngleRad;
  gapAt(a, b, crankAngleRad, Number.POSITIVE_INFINITY, false, here, depth);
}

const deepestOf: Deepest = newDeepest();
let used = 0;

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
  let start = Number.NaN;
  let overlapping = false;

  // Angles to begin from: the hint, or a first look round.
  const looks = options.hintRad === undefined ? FIRST_LOOKS : 1;
  let low = Number.POSITIVE_INFINITY;
  let lowAt = 0;
  for (let k = 0; k < looks && !overlapping; k++) {
    const at = options.hintRad === undefined ? (k * periodRad) / looks : options.hintRad;
    lookAt(a, b, at, !options.contactIsEnough);
    if (here.overlapping) overlapping = true;
    else start = at;
    if (here.gapMm < low) {
      low = here.gapMm;
      lowAt = at;
    }
  }
  if (!overlapping && low < answer.minimumMm) overlapping = descend(a, b, lowAt, options, answer);
  if (!overlapping && answer.minimumMm > TOUCHING_TOLERANCES * options.toleranceMm) {
    if (Number.isNaN(start)) start = lowAt;
    const result = march(a, b, start, periodRad, options, answer);
    if (result !== 'overlap') return close(answer, result, periodRad, cutoffMm);
  }
  if (options.contactIsEnough) {
    answer.minimumMm = 0;
    answer.lowerBoundMm = 0;
    answer.atCrankRad = here.overlapping ? lastLookRad : answer.atCrankRad;
    return close(answer, 'done', periodRad, Number.POSITIVE_INFINITY);
  }
  answer.minimumMm = Math.min(answer.minimumMm, cutoffMm);
  return close(answer, contact(a, b, periodRad, options, answer), periodRad, cutoffMm);
}

function close(answer: Certificate, result: 'done' | 'spent', periodRad: number, cutoffMm: number): Certificate {
  if (result === 'spent') {
    answer.outcome = 'budget spent';
    answer.lowerBoundMm = Number.NEGATIVE_INFINITY;
  } else if (answer.minimumMm >= cutoffMm) {
    answer.outcome = 'not below cutoff';
    answer.minimumMm = cutoffMm;
  }
  answer.atCrankRad = ((answer.atCrankRad % periodRad) + periodRad) % periodRad;
  answer.evaluations = used;
  return answer;
}

/** Round the period from `start`, where the outlines are apart. Sets minimum and bound. */
function march(
  a: Mover,
  b: Mover,
  start: number,
  periodRad: number,
  options: CertifyOptions,
  answer: Certificate,
): 'done' | 'spent' | 'overlap' {
  const tolerance = options.toleranceMm;
  let at = start;
  let lowestTarget = answer.minimumMm - allowed(answer.minimumMm, tolerance);
  while (at < start + periodRad) {
    if (used >= options.budget) return 'spent';
    if (answer.minimumMm <= TOUCHING_TOLERANCES * tolerance) return 'overlap';
    used += 1;
    const room = allowed(answer.minimumMm, tolerance);
    const target = answer.minimumMm - room;
    const p = stepAt(a, b, at, answer.minimumMm, target);
    if (p.gapMm < answer.minimumMm - room / 4) {
      if (descend(a, b, at, options, answer)) return 'overlap';
      continue;
    }
    if (target < lowestTarget) lowestTarget = target;
    at += p.stepRad;
  }
  answer.lowerBoundMm = lowestTarget;
  return 'done';
}

/**
 * Follows the gap from `at` down to a local minimum; keeps it in `answer` if it is the smallest. True if the outlines
 * overlap on the way.
 */
function descend(a: Mover, b: Mover, at: number, options: CertifyOptions, answer: Certificate): boolean {
  const look = (x: number): boolean => {
    lookAt(a, b, x, !options.contactIsEnough);
    if (here.gapMm < answer.minimumMm) {
      answer.minimumMm = here.gapMm;
      answer.atCrankRad = x;
    }
    return here.overlapping;
  };
  if (look(at)) return true;
  let x0 = at;
  let g0 = here.gapMm;
  let s0 = here.slopeMm;
  const down = s0 > 0 ? -1 : 1;
  let step = FIRST_STEP_RAD;
  let x1 = x0 + down * step;
  if (look(x1)) return true;
  // Downhill until it rises again.
  while (here.slopeMm * down < 0 && here.gapMm < g0 && Math.abs(x1 - at) < Math.PI) {
    x0 = x1;
    g0 = here.gapMm;
    s0 = here.slopeMm;
    step *= 2;
    x1 = x0 + down * step;
    if (look(x1)) return true;
  }
  let s1 = here.slopeMm;
  // Between x0 (falling) and x1 (rising): by turns the zero of the line through the slopes, and the middle.
  for (let k = 0; k < 60; k++) {
    const width = Math.abs(x1 - x0);
    const left = s1 * down > 0 ? Math.max(Math.abs(s0), Math.abs(s1)) : Math.abs(s0) + Math.abs(s1);
    if (width * left < PINNED_MM || width < 1e-12) break;
    let x = (x0 + x1) / 2;
    if (k % 2 === 0 && s1 * down > 0) {
      const f = Math.min(0.95, Math.max(0.05, s0 / (s0 - s1)));
      x = x0 + f * (x1 - x0);
    }
    if (look(x)) return true;
    if (here.slopeMm * down < 0 && here.gapMm <= g0) {
      x0 = x;
      g0 = here.gapMm;
      s0 = here.slopeMm;
    } else {
      x1 = x;
      s1 = here.slopeMm;
    }
  }
  return false;
}

/** First stride of a descent: a degree. */
const FIRST_STEP_RAD = Math.PI / 180;

/** Overlap somewhere, or nearly: the deepest reach over the period, with its bound. */
function contact(
  a: Mover,
  b: Mover,
  periodRad: number,
  options: CertifyOptions,
  answer: Certificate,
): 'done' | 'spent' {
  // The deepest of a look round, made better by halving steps about it: the better it is, the less work the bound takes.
  let best = answer.minimumMm;
  let at = answer.atCrankRad;
  const look = (x: number): void => {
    lookAt(a, b, x, true);
    if (here.gapMm < best) {
      best = here.gapMm;
      at = x;
    }
  };
  for (let k = 0; k < FIRST_LOOKS; k++) look((k * periodRad) / FIRST_LOOKS);
  for (let step = periodRad / FIRST_LOOKS / 2; step > 1e-6; step /= 2) {
    const centre = at;
    look(centre - step);
    look(centre + step);
  }
  const left = Math.max(0, options.budget - used);
  deepest(a.flat, a.motion, b.flat, b.motion, 0, periodRad, -best, options.toleranceMm, left, deepestOf);
  used += deepestOf.cells;
  if (-deepestOf.depthMm < best) {
    best = -deepestOf.depthMm;
    at = deepestOf.atCrankRad;
  }
  answer.minimumMm = best;
  answer.atCrankRad = at;
  if (deepestOf.budgetSpent) return 'spent';
  answer.lowerBoundMm = -deepestOf.boundMm;
  return 'done';
}

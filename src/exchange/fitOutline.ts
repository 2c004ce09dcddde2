/**
 * Measured points as an outline: refused with the reason, or a closed counterclockwise chain of lines and arcs with every
 * point within a stated deviation of it.
 *
 * The polygon of the points stands out of the outline by no more than the largest deviation found: hollow arcs owe their
 * height over the chords of their points as well. What the part does between neighbouring points nobody knows: the builder
 * looks at `largestStepMm`. Frame: that of the points, x
 * right and y up, as in a build (for a counterweight the crank axis at the origin and the pin on +y).
 */
import { meanWidthMm, outlineFault, SHORTEST_EDGE_MM } from '../build/outlineFault.ts';
import { fitChain } from '../core/outline/fitChain.ts';
import type { Outline } from '../core/outline/outline.ts';
import { exactPoints } from './outlineToPoints.ts';
import { divided } from './vertices.ts';

export const MOST_FIT_POINTS = 5000;
/** An outline must be wider on average (area over half its length) than this many deviations, else its two sides are one line. */
const LEAST_WIDTH_DEVIATIONS = 4;
/** mm; farther than this from the origin no part of an engine is: as the literals of a build. */
const GREATEST_MM = 10_000;

export interface FittedOutline {
  readonly ok: true;
  readonly outline: Outline;
  /** As asked for, mm. */
  readonly deviationMm: number;
  /** Largest distance of a measured point from the piece that stands for it, of a hollow arc with its height over the chords; mm, not more than `deviationMm`. */
  readonly largestDeviationMm: number;
  /** Largest distance between neighbouring measured points, the closing step included, mm. */
  readonly largestStepMm: number;
  /** Largest height of an arc over the chord of neighbouring points, mm: what is taken on trust because the edge is round. */
  readonly largestSagittaMm: number;
  /** Index, as given, of the point at which each piece begins. */
  readonly joints: readonly number[];
  /** True when the points ran clockwise and were taken the other way round. */
  readonly reversed: boolean;
  /** What was changed, as sentences; empty when nothing was. */
  readonly notes: readonly string[];
}

export interface FitFault {
  readonly ok: false;
  readonly kind: 'number' | 'few points' | 'many points' | 'deviation' | 'duplicate' | 'open' | 'tiny' | 'crossing';
  /** Index, as given, of the point concerned; 0 for the run as a whole. */
  readonly point: number;
  readonly says: string;
}

/**
 * Points in mm, in order round the part, in either sense; the first may be repeated at the end. The ends may be apart by
 * `closeWithinMm`; if that is not stated, by no more than the longest step between neighbours. `deviationMm`: 0.001 to 10.
 */
export function fitOutline(
  points: readonly (readonly [number, number])[],
  deviationMm: number,
  closeWithinMm?: number,
): FittedOutline | FitFault {
  if (!(deviationMm >= 0.001 && deviationMm <= 10)) {
    return fault('deviation', 0, `A deviation of ${deviationMm} mm is refused. Allowed: 0.001 to 10 mm.`);
  }
  if (closeWithinMm !== undefined && !(closeWithinMm >= 0 && closeWithinMm <= GREATEST_MM)) {
    return fault('open', 0, `A closing distance of ${closeWithinMm} mm is refused. Allowed: 0 to ${GREATEST_MM} mm.`);
  }
  const bad = points.findIndex((p) => !p.every((c) => Number.isFinite(c) && Math.abs(c) <= GREATEST_MM));
  if (bad >= 0) {
    const [x, y] = points[bad]!;
    return fault('number', bad, `Point ${bad + 1} is at x ${x}, y ${y}. Allowed: numbers within ${GREATEST_MM} mm.`);
  }
  const n = countWithoutRepeat(points);
  if (n < 3) return fault('few points', 0, `${n} points do not make an outline. Allowed: 3 points or more.`);
  if (n > MOST_FIT_POINTS) return fault('many points', 0, `${n} points are refused. Allowed: ${MOST_FIT_POINTS}.`);

  const run = points.slice(0, n);
  const steps = run.map((p, k) => distance(p, run[(k + 1) % n]!));
  const closing = steps[n - 1]!;
  const twin = steps.findIndex((s) => s < SHORTEST_EDGE_MM);
  if (twin >= 0) {
    const says = `Points ${twin + 1} and ${((twin + 1) % n) + 1} are less than ${SHORTEST_EDGE_MM} mm apart. Leave one out.`;
    return fault('duplicate', twin, says);
  }
  const allowedMm = closeWithinMm ?? Math.max(...steps.slice(0, n - 1)) * (1 + 1e-9);
  if (closing > allowedMm) {
    const basis = closeWithinMm === undefined ? ', the longest step between neighbouring points' : '';
    const says = `The run is open: its ends are ${closing.toFixed(2)} mm apart. Allowed: ${allowedMm.toFixed(2)} mm${basis}.`;
    return fault('open', n - 1, says);
  }
  return fitted(run, deviationMm, Math.max(...steps));
}

function fitted(
  run: readonly (readonly [number, number])[],
  deviationMm: number,
  largestStepMm: number,
): FittedOutline | FitFault {
  const n = run.length;
  const reversed = twiceArea(run) < 0;
  const asGiven = (k: number): number => (reversed ? n - 1 - k : k);
  const chain = fitChain(reversed ? run.toReversed() : run, deviationMm, true);
  const judged = outlineFault(exactPoints(chain.outline));
  if (judged !== null) {
    const kind = judged.kind === 'tiny' ? 'tiny' : 'crossing';
    const point = kind === 'tiny' ? 0 : asGiven(jointOf(chain.outline, chain.joints, judged.point));
    const says =
      kind === 'tiny'
        ? judged.says
        : `The outline crosses or touches itself at the edge about point ${point + 1}. Of such an outline nobody can say what is inside; check the order of the points, or state a smaller deviation.`;
    return fault(kind, point, says);
  }
  const widthMm = meanWidthMm(chain.outline);
  if (widthMm < LEAST_WIDTH_DEVIATIONS * deviationMm) {
    const says = `The outline is ${widthMm.toFixed(2)} mm wide on average, too little for a deviation of ${deviationMm} mm. Allowed: ${LEAST_WIDTH_DEVIATIONS} deviations or more.`;
    return fault('tiny', 0, says);
  }
  return {
    ok: true,
    outline: chain.outline,
    deviationMm,
    largestDeviationMm: Math.max(...chain.deviationsMm),
    largestStepMm,
    largestSagittaMm: chain.sagittaMm,
    joints: chain.joints.map(asGiven),
    reversed,
    notes: reversed ? ['The points ran clockwise and were taken the other way round.'] : [],
  };
}

/** The judged outline has its long arcs divided: the joint of the piece to which a part belongs. */
function jointOf(outline: Outline, joints: readonly number[], part: number): number {
  let seen = 0;
  for (let k = 0; k < outline.pieces.length; k++) {
    seen += divided({ pieces: [outline.pieces[k]!] }).pieces.length;
    if (part < seen) return joints[k]!;
  }
  return joints[0]!;
}

/** Without the last point where it repeats the first. */
function countWithoutRepeat(points: readonly (readonly [number, number])[]): number {
  const last = points.length - 1;
  return last > 0 && distance(points[0]!, points[last]!) < SHORTEST_EDGE_MM ? last : points.length;
}

function twiceArea(run: readonly (readonly [number, number])[]): number {
  return run.reduce((sum, [x0, y0], k) => {
    const [x1, y1] = run[(k + 1) % run.length]!;
    return sum + x0 * y1 - x1 * y0;
  }, 0);
}

function distance(p: readonly [number, number], q: readonly [number, number]): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
}

function fault(kind: FitFault['kind'], point: number, says: string): FitFault {
  return { ok: false, kind, point, says };
}

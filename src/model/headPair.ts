/** The pair of a valve head and its piston's crown, which is judged in space (core/clearance/headAndCrown.ts) and told as any other pair. */
import type { HeadPair, Pair } from '../assembly/engine.ts';
import type { Arc } from '../core/clearance/below.ts';
import type { Cell, Slab } from '../core/clearance/cells.ts';
import { makeCell } from '../core/clearance/cells.ts';
import { certifyHead, followHead, type HeadOptions, headBelow, headGapAt } from '../core/clearance/certifyHead.ts';
import { type HeadGap, newDirections } from '../core/clearance/headAndCrown.ts';
import { crownPart, headPoints } from '../core/clearance/headPlaces.ts';
import type { LayeredGap } from '../core/clearance/layered.ts';
import { flatten } from '../core/outline/flat.ts';
import { box } from '../core/outline/path.ts';
import { newPose, POSE_X, POSE_Y, poseX, poseY } from '../core/plane/pose.ts';

const here: HeadGap = { mm: 0, wedge: 0, nx: 0, ny: 0, nz: 0 };
const pose = newPose();

export interface HeadNow {
  readonly gapMm: number;
  readonly part: string;
  /** Nearest points of head and crown, engine frame before any mirroring. */
  readonly points: readonly [number, number, number, number];
}

export function headNow(pair: Pair, head: HeadPair, crankRad: number): HeadNow {
  headGapAt(head.crown, head.motion, crankRad, newDirections(head.crown), here);
  head.motion.write(crankRad, pose);
  const [ax, ay, bx, by] = headPoints(head.crown, here, pose[POSE_X]!, pose[POSE_Y]!);
  pair.b.motion.write(crankRad, pose);
  return {
    gapMm: here.mm,
    part: crownPart(head.crown, here),
    points: [poseX(pose, ax, ay), poseY(pose, ax, ay), poseX(pose, bx, by), poseY(pose, bx, by)],
  };
}

/** Gaps at multiples of a step over the period, at most `farMm`. */
export function headProfile(head: HeadPair, count: number, stepRad: number, farMm: number): Float32Array {
  const directions = newDirections(head.crown);
  return Float32Array.from({ length: count }, (_, k) => {
    headGapAt(head.crown, head.motion, k * stepRad, directions, here);
    return Math.min(farMm, here.mm);
  });
}

/** With a cutoff a gap that is nowhere below it is told as the cutoff, of no part. */
export function solveHead(pair: Pair, head: HeadPair, options: HeadOptions): LayeredGap {
  const found = certifyHead(head.crown, head.motion, pair.periodRad, options);
  return {
    gapMm: found.minimumMm,
    lowerBoundMm: found.lowerBoundMm,
    atCrankRad: found.atCrankRad,
    evaluations: found.evaluations,
    budgetSpent: found.budgetSpent,
    slicingMm: head.crown.slicingMm,
    cell: headCell(pair, found.found ? headNow(pair, head, found.atCrankRad).part : ''),
  };
}

/** Minima move by less than this between two frames of a drag: five degrees. */
const FOLLOW_RAD = Math.PI / 36;

/** The minimum near an angle, in a build changed a little; nothing proven. */
export function followedHead(pair: Pair, head: HeadPair, fromRad: number): LayeredGap {
  const found = followHead(head.crown, head.motion, fromRad, FOLLOW_RAD);
  return {
    gapMm: found.mm,
    lowerBoundMm: Number.NEGATIVE_INFINITY,
    atCrankRad: found.atRad,
    evaluations: 0,
    budgetSpent: false,
    slicingMm: head.crown.slicingMm,
    cell: headCell(pair, headNow(pair, head, found.atRad).part),
  };
}

export function headArcs(
  pair: Pair,
  head: HeadPair,
  thresholdMm: number,
  fromRad: number,
  budget: number,
): { readonly arcs: Arc[]; readonly finished: boolean; readonly evaluations: number } {
  return headBelow(head.crown, head.motion, pair.periodRad, thresholdMm, fromRad, budget);
}

/** The same of a pair that is the mirror image of another. */
export function headTwin(pair: Pair, of: Cell): Cell {
  return headCell(pair, of.b.part);
}

/** Stands for the head and the crown where a gap says which layers decide it: both over the head's axial range, of no layer of their bodies. */
function headCell(pair: Pair, part: string): Cell {
  const slab = (name: string): Slab => ({
    part: name,
    source: -1,
    z0Mm: pair.a.z0Mm,
    z1Mm: pair.a.z1Mm,
    flat: STAND_IN,
    round: null,
    deviationMm: 0,
  });
  return makeCell(slab('head'), slab(part));
}

const STAND_IN = flatten(box(0, 0, 1, 1));

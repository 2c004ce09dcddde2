/**
 * Every gap of an engine, certified. Pairs that go through the same relative motion, or its mirror image, are solved once
 * (assembly/pairKeys.ts) and each is told for itself, at its own crank angle, with its own points.
 */
import type { Engine, Pair } from '../assembly/engine.ts';
import { joined } from '../assembly/pairs.ts';
import type { Cell, Slab } from '../core/clearance/cells.ts';
import { cellsOf, coarseCellsOf } from '../core/clearance/cells.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../core/clearance/certify.ts';
import type { GapAt } from '../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../core/clearance/gapAt.ts';
import type { LayeredGap } from '../core/clearance/layered.ts';
import { certifyLayered, SLICING_MM } from '../core/clearance/layered.ts';
import { newPose, poseX, poseY } from '../core/plane/pose.ts';
import { headNow, solveHead } from './headPair.ts';
import type { Gap, GapState, LayerRef } from './results.ts';
import { mirroredGap } from './twins.ts';

/** Evaluations a pair may take: some seconds at the very worst, a thousand times what a usual pair needs. */
export const PAIR_BUDGET = 400_000;

/** What was found last for each pair, to begin from: the angles of the minima of a similar build. */
export type Hints = Map<string, number>;

export interface SolveOptions {
  /** Minima found before, by pair id, in the pair's own crank angle; filled with what is found now. */
  readonly hints?: Hints;
  readonly assumedAllowanceMm: number | null;
  /** Only these pairs; all when absent. */
  readonly wanted?: (pair: Pair) => boolean;
  readonly budget?: number;
}

const here: GapAt = newGapAt();
const pose = newPose();

/** Gaps of all pairs, in the engine's order. */
export function solveGaps(engine: Engine, options: SolveOptions): Gap[] {
  const known = new Map<string, { gap: LayeredGap; pair: Pair; witness: Witness }>();
  const out: Gap[] = [];
  for (const pair of engine.pairs) {
    if (options.wanted && !options.wanted(pair)) continue;
    let entry = known.get(pair.key);
    if (entry === undefined) {
      const image = pair.twin && known.get(pair.twin.key);
      const gap = (image && mirroredGap(image.pair, image.gap, pair)) ?? solvePair(pair, options);
      entry = { gap, pair, witness: witnessOf(pair, gap) };
      known.set(pair.key, entry);
    }
    const atCrankRad = wrap(entry.gap.atCrankRad - entry.pair.keyShiftRad + pair.keyShiftRad, pair.periodRad);
    options.hints?.set(pair.id, atCrankRad);
    out.push(describe(engine, pair, entry.gap, entry.pair, entry.witness, atCrankRad, options.assumedAllowanceMm));
  }
  return out;
}

/** Cells of a pair in the frame its certificate is made in. */
export function pairCells(pair: Pair): Cell[] {
  const { a, b } = pair.relative ?? pair;
  return cellsOf(a, b, (partA, partB) => joined(pair.kind, partA, partB));
}

function solvePair(pair: Pair, options: SolveOptions): LayeredGap {
  const { a, b } = pair.relative ?? pair;
  const hintRad = options.hints?.get(pair.id);
  const work = { toleranceMm: CERTIFICATE_TOLERANCE_MM, budget: options.budget ?? PAIR_BUDGET };
  if (pair.head !== undefined) return solveHead(pair, pair.head, hintRad === undefined ? work : { ...work, hintRad });
  const cells = coarseCellsOf(a, b, (partA, partB) => joined(pair.kind, partA, partB));
  return certifyLayered(a.motion, b.motion, cells, pair.periodRad, {
    ...work,
    slicingMm: SLICING_MM,
    ...(hintRad === undefined ? {} : { hintRad }),
  });
}

function wrap(rad: number, period: number): number {
  return ((rad % period) + period) % period;
}

/** A gap meant to be at its limit comes out by rounding a hair beside it, mm: it clears. */
export const AT_LIMIT_MM = 1e-9;

/**
 * Whether two parts touch, or nothing proves that they don't: a gap found within the certificate's tolerance of zero, mm, with
 * a bound that is not above zero. Without a bound (an exact figure, or a sample) the gap stands for itself.
 */
export function touches(gapMm: number, lowerBoundMm: number = gapMm): boolean {
  return gapMm <= 0 || (lowerBoundMm <= 0 && gapMm <= CERTIFICATE_TOLERANCE_MM);
}

/**
 * State of a gap against its limit, all mm; a gap on assumed outlines is judged less the allowance, and without one can't clear.
 * `lowerBoundMm` is what is proven of a gap that was searched for; left out of one that is exact or sampled.
 */
export function gapState(
  gapMm: number,
  limitMm: number,
  assumed: boolean,
  allowanceMm: number | null,
  lowerBoundMm: number = gapMm,
): GapState {
  if (touches(gapMm, lowerBoundMm)) return 'contact';
  const judged = assumed ? gapMm - (allowanceMm ?? 0) : gapMm;
  if (judged < limitMm - AT_LIMIT_MM) return 'tight';
  return assumed && allowanceMm === null ? 'unproven' : 'clears';
}

/** Nearest points of a pair at its tightest angle, engine frame before any mirroring, and the gap of the deciding outlines there. */
export interface Witness {
  readonly points: readonly [number, number, number, number];
  readonly inPlaneMm: number;
}

export function witnessOf(pair: Pair, found: LayeredGap): Witness {
  const { cell, atCrankRad } = found;
  if (pair.head !== undefined) {
    const { points, gapMm } = headNow(pair, pair.head, atCrankRad);
    return { points, inPlaneMm: gapMm };
  }
  const { a, b } = pair.relative ?? pair;
  const at = { flat: cell.a.flat, motion: a.motion };
  gapAt(at, { flat: cell.b.flat, motion: b.motion }, atCrankRad, Number.POSITIVE_INFINITY, true, here);
  const [ax, ay, bx, by] =
    pair.relative === undefined ? [here.ax, here.ay, here.bx, here.by] : outOfPiston(pair, atCrankRad, here);
  // Over one another in the section, apart along the shaft: the two points share their place, the deepest, which both cover.
  const share = cell.overlapMm === 0 && here.gapMm <= 0;
  const [x, y] = here.deepestIsA ? [ax!, ay!] : [bx!, by!];
  return { points: share ? [x, y, x, y] : [ax!, ay!, bx!, by!], inPlaneMm: here.gapMm };
}

/** Points turned clockwise about the crank axis: pairs that move alike do so each seen from its own side. */
function turned(p: Witness['points'], rad: number): Witness['points'] {
  if (rad === 0) return p;
  const c = Math.cos(rad);
  const s = Math.sin(rad);
  return [c * p[0] + s * p[1], -s * p[0] + c * p[1], c * p[2] + s * p[3], -s * p[2] + c * p[3]];
}

/** The result for one pair, found for `solvedFor` (the same or one that moves alike). */
export function describe(
  engine: Engine,
  pair: Pair,
  found: LayeredGap,
  solvedFor: Pair,
  witness: Witness,
  atCrankRad: number,
  allowanceMm: number | null,
  certified = true,
): Gap {
  const { cell } = found;
  const shiftZ = pair.a.baseMm - solvedFor.a.baseMm;
  const [za, zb] = facingPlaces(cell);
  const points = turned(witness.points, pair.keyTurnRad - solvedFor.keyTurnRad);
  const x = engine.mirrored ? -1 : 1;
  return {
    id: pair.id,
    kind: pair.kind,
    between: [pair.a.name, pair.b.name],
    parts: [cell.a.part, cell.b.part],
    gapMm: found.gapMm,
    lowerBoundMm: found.lowerBoundMm,
    certified: certified && !found.budgetSpent,
    budgetSpent: found.budgetSpent,
    evaluations: found.evaluations,
    slicingMm: found.slicingMm,
    ...(cell.deviationMm > 0 ? { deviationMm: cell.deviationMm } : {}),
    atCrankRad,
    pointsMm: [
      [x * points[0]!, points[1]!, za + shiftZ],
      [x * points[2]!, points[3]!, zb + shiftZ],
    ],
    direction: directionOf(cell, witness.inPlaneMm),
    axialOverlapMm: cell.overlapMm,
    limitMm: pair.limitMm,
    state: gapState(
      found.gapMm,
      pair.limitMm,
      pair.assumed.length > 0,
      allowanceMm,
      certified ? found.lowerBoundMm : found.gapMm,
    ),
    assumed: pair.assumed,
    cylinder: pair.cylinder,
    periodRad: pair.periodRad,
    deciding: [layerRef(cell.a, shiftZ), layerRef(cell.b, shiftZ)],
  };
}

function layerRef(slab: Slab, shiftZ: number): LayerRef {
  return { source: slab.source, z0Mm: slab.z0Mm + shiftZ, z1Mm: slab.z1Mm + shiftZ };
}

/**
 * Layers that share no axial range are apart axially. A slice of a round part that lies a little beside its partner may
 * still be nearest across the section: then the larger of the two distances names the direction.
 */
function directionOf(cell: Cell, inPlaneMm: number): Gap['direction'] {
  if (cell.overlapMm > 0 || cell.axialMm === 0) return 'in-plane';
  const even = cell.a.round === null && cell.b.round === null;
  return even || cell.axialMm >= inPlaneMm ? 'axial' : 'in-plane';
}

/** Axial places of the two nearest points: the middle of the common range, or the two faces. */
function facingPlaces(cell: Cell): [number, number] {
  const { a, b } = cell;
  if (cell.overlapMm > 0) {
    const z = (Math.max(a.z0Mm, b.z0Mm) + Math.min(a.z1Mm, b.z1Mm)) / 2;
    return [z, z];
  }
  // By rounding, ranges that touch may seem to overlap a little.
  return a.z1Mm - b.z0Mm <= b.z1Mm - a.z0Mm ? [a.z1Mm, b.z0Mm] : [a.z0Mm, b.z1Mm];
}

/** Points found in the piston's frame, in the engine frame. */
export function outOfPiston(pair: Pair, crankAngleRad: number, found: GapAt): number[] {
  pair.b.motion.write(crankAngleRad, pose);
  return [
    poseX(pose, found.ax, found.ay),
    poseY(pose, found.ax, found.ay),
    poseX(pose, found.bx, found.by),
    poseY(pose, found.bx, found.by),
  ];
}

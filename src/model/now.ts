/** What holds at one crank angle: the gaps of the pairs in view, and the motion of the chosen cylinder's piston. */
import type { Engine, Pair } from '../assembly/engine.ts';
import { joined } from '../assembly/pairs.ts';
import type { Cell } from '../core/clearance/cells.ts';
import { cellGapMm, coarseCellsOf } from '../core/clearance/cells.ts';
import type { GapAt } from '../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../core/clearance/gapAt.ts';
import { layeredGapAt } from '../core/clearance/layeredAt.ts';
import { accelMPerS2, speedMPerS } from '../core/kinematics/realTime.ts';
import {
  pinHeightMm,
  pinHeightPerRad2Mm,
  pinHeightPerRadMm,
  rodAngleRad,
  tdcAlphaRad,
  tdcPinHeightMm,
} from '../core/kinematics/sliderCrank.ts';
import { headNow } from './headPair.ts';
import { decidingCell } from './preview.ts';
import type { Gap, GapNow, MotionNow } from './results.ts';
import { gapState, outOfPiston, pairCells } from './solve.ts';

const here: GapAt = newGapAt();

/** Pairs that concern the throw of a cylinder: its rods, pistons and cheeks, with what they meet there. */
export function pairsOfThrow(engine: Engine, cylinder: number): Pair[] {
  const at = engine.cylinders.find((c) => c.number === cylinder)?.throw;
  const on = (throwNumber: number | undefined, cylinderNumber: number | undefined): boolean =>
    throwNumber === at || (cylinderNumber !== undefined && engine.cylinders[cylinderNumber - 1]!.throw === at);
  return engine.pairs.filter(
    (p) =>
      on(p.a.throw, p.a.cylinder) && (p.b.cylinder === undefined || p.b.kind === 'lobe' || on(p.b.throw, p.b.cylinder)),
  );
}

/**
 * Cells that are asked at every angle: those whose slices add nothing, and the one that decided the certified gap, so that
 * the figure shown at the tightest angle is the certified one.
 */
const kept = new WeakMap<Pair, { readonly gap: Gap | undefined; readonly cells: readonly Cell[] }>();

export function cellsAsked(pair: Pair, gap: Gap | undefined): readonly Cell[] {
  const before = kept.get(pair);
  if (before !== undefined && before.gap === gap) return before.cells;
  if (pair.head !== undefined) return [];
  const exact = pairCells(pair).filter((c) => c.exact);
  const deciding = gap === undefined ? null : decidingCell(pair, gap);
  const cells = deciding === null || deciding.exact ? exact : [deciding, ...exact];
  kept.set(pair, { gap, cells });
  return cells;
}

/** A figure here may be above the true gap by this, mm: it is shown to a hundredth. */
const NOW_ERROR_MM = 0.02;

/** Coarse cells of pairs with slices that add something, which stand for the whole of both bodies; null where every slice is exact. */
const whole = new WeakMap<Pair, readonly Cell[] | null>();

function wholeCells(pair: Pair): readonly Cell[] | null {
  const known = whole.get(pair);
  if (known !== undefined) return known;
  const { a, b } = pair.relative ?? pair;
  const cells = coarseCellsOf(a, b, (partA, partB) => joined(pair.kind, partA, partB));
  const kept = cells.every((c) => c.exact) ? null : cells;
  whole.set(pair, kept);
  return kept;
}

/** The gap of a pair at a crank angle, mm, by every slice of both bodies: true to `NOW_ERROR_MM`, on the safe side. For figures that stand still. */
export function trueGapMm(pair: Pair, crankAngleRad: number): number {
  if (pair.head !== undefined) return headNow(pair, pair.head, crankAngleRad).gapMm;
  return nearestMm(pair, pairCells(pair), crankAngleRad, Number.POSITIVE_INFINITY);
}

function nearestMm(pair: Pair, cells: readonly Cell[], crankAngleRad: number, farMm: number): number {
  const { a, b } = pair.relative ?? pair;
  return layeredGapAt(a.motion, b.motion, cells, crankAngleRad, () => NOW_ERROR_MM / 2, farMm);
}

/** Whether nothing is nearer than the cells that were asked: far from the tightest place another slice of a round part may be. */
function isSmallest(pair: Pair, gapMm: number, crankAngleRad: number): boolean {
  const cells = pair.head === undefined ? wholeCells(pair) : null;
  return cells === null || nearestMm(pair, cells, crankAngleRad, gapMm) >= gapMm - NOW_ERROR_MM;
}

/**
 * The gap of a pair at a crank angle and where it is, as the cells asked have it: true near the tightest places, which are spoken of
 * alone. `careful`, for a gap spoken of everywhere: null where those cells do not tell it.
 */
export function gapNow(
  engine: Engine,
  pair: Pair,
  gap: Gap | undefined,
  crankAngleRad: number,
  allowanceMm: number | null,
  careful = false,
): GapNow | null {
  const { a, b } = pair.relative ?? pair;
  let best = Number.POSITIVE_INFINITY;
  let points: readonly number[] = [];
  if (pair.head !== undefined) {
    const at = headNow(pair, pair.head, crankAngleRad);
    best = at.gapMm;
    points = at.points;
  }
  for (const cell of cellsAsked(pair, gap)) {
    if (cell.axialMm >= best) continue;
    gapAt(
      { flat: cell.a.flat, motion: a.motion },
      { flat: cell.b.flat, motion: b.motion },
      crankAngleRad,
      Number.POSITIVE_INFINITY,
      true,
      here,
      cell.overlapMm > 0,
    );
    const value = cellGapMm(cell, here.gapMm);
    if (value >= best) continue;
    best = value;
    points =
      pair.relative === undefined ? [here.ax, here.ay, here.bx, here.by] : outOfPiston(pair, crankAngleRad, here);
  }
  if (points.length === 0 || (careful && !isSmallest(pair, best, crankAngleRad))) return null;
  const x = engine.mirrored ? -1 : 1;
  return {
    id: pair.id,
    gapMm: best,
    pointsMm: [
      [x * points[0]!, points[1]!],
      [x * points[2]!, points[3]!],
    ],
    state: gapState(best, pair.limitMm, pair.assumed.length > 0, allowanceMm),
  };
}

/** Motion of a cylinder's piston at a crank angle; speeds positive outward. */
export function motionNow(engine: Engine, cylinder: number, crankAngleRad: number, speedRpm: number): MotionNow {
  const c = engine.cylinders.find((each) => each.number === cylinder);
  if (c === undefined) throw new RangeError(`motionNow: there is no cylinder ${cylinder}`);
  const alpha = crankAngleRad + c.alphaAtZeroRad;
  const turn = 2 * Math.PI;
  let fromTdcRad = (alpha - tdcAlphaRad(c.slider)) % turn;
  if (fromTdcRad > Math.PI) fromTdcRad -= turn;
  if (fromTdcRad <= -Math.PI) fromTdcRad += turn;
  return {
    cylinder,
    fromTdcRad,
    belowTdcMm: tdcPinHeightMm(c.slider) - pinHeightMm(c.slider, alpha),
    speedMPerS: speedMPerS(pinHeightPerRadMm(c.slider, alpha), speedRpm),
    accelMPerS2: accelMPerS2(pinHeightPerRad2Mm(c.slider, alpha), speedRpm),
    rodAngleRad: rodAngleRad(c.slider, alpha),
  };
}

/** What holds at one crank angle: the gaps of the pairs in view, and the motion of the chosen cylinder's piston. */
import type { Engine, Pair } from '../assembly/engine.ts';
import type { Cell } from '../core/clearance/cells.ts';
import { cellGapMm } from '../core/clearance/cells.ts';
import type { GapAt } from '../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../core/clearance/gapAt.ts';
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

export function gapNow(
  engine: Engine,
  pair: Pair,
  gap: Gap | undefined,
  crankAngleRad: number,
  allowanceMm: number | null,
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
  if (points.length === 0) return null;
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

/**
 * Gaps while a control is being dragged: each known minimum followed to where the new dimensions have moved it. Not
 * certified, and says so; the certified numbers come on release (solve.ts).
 */
import type { Engine, Pair } from '../assembly/engine.ts';
import type { Cell } from '../core/clearance/cells.ts';
import { cellGapMm, makeCell, slabAt } from '../core/clearance/cells.ts';
import { followMinimum } from '../core/clearance/follow.ts';
import type { Gap } from './results.ts';
import { describe } from './solve.ts';

const at = { rad: 0 };

/** The deciding cell of a gap, in an engine laid out anew; null when the body no longer has that layer. */
export function decidingCell(pair: Pair, gap: Gap): Cell | null {
  const { a, b } = pair.relative ?? pair;
  const slabA = slabAt(a, gap.deciding[0].source, gap.deciding[0].z0Mm, gap.deciding[0].z1Mm);
  const slabB = slabAt(b, gap.deciding[1].source, gap.deciding[1].z0Mm, gap.deciding[1].z1Mm);
  return slabA === null || slabB === null ? null : makeCell(slabA, slabB);
}

/** Gaps of the pairs that were known before, with their numbers followed. */
export function previewGaps(
  engine: Engine,
  before: ReadonlyMap<string, Gap>,
  assumedAllowanceMm: number | null,
): Gap[] {
  const followed = new Map<
    string,
    { gapMm: number; atCrankRad: number; shiftRad: number; cell: Cell; solvedFor: Pair }
  >();
  const out: Gap[] = [];
  for (const pair of engine.pairs) {
    const old = before.get(pair.id);
    if (old === undefined) continue;
    let entry = followed.get(pair.key);
    if (entry === undefined) {
      const cell = decidingCell(pair, old);
      if (cell === null) continue;
      const { a, b } = pair.relative ?? pair;
      const inPlane = followMinimum(
        { flat: cell.a.flat, motion: a.motion },
        { flat: cell.b.flat, motion: b.motion },
        old.atCrankRad,
        cell.overlapMm === 0,
        at,
      );
      entry = {
        gapMm: cellGapMm(cell, inPlane),
        atCrankRad: at.rad,
        shiftRad: pair.keyShiftRad,
        cell,
        solvedFor: pair,
      };
      followed.set(pair.key, entry);
    }
    const atCrankRad =
      (((entry.atCrankRad - entry.shiftRad + pair.keyShiftRad) % pair.periodRad) + pair.periodRad) % pair.periodRad;
    out.push(
      describe(
        engine,
        pair,
        {
          gapMm: entry.gapMm,
          lowerBoundMm: Number.NEGATIVE_INFINITY,
          atCrankRad,
          evaluations: 0,
          budgetSpent: false,
          slicingMm: 0,
          cell: entry.cell,
        },
        entry.solvedFor,
        atCrankRad,
        assumedAllowanceMm,
        false,
      ),
    );
  }
  return out;
}

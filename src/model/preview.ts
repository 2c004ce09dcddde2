/**
 * Gaps while a control is being dragged: each known minimum followed to where the new dimensions have moved it. Not
 * certified, and says so; the certified numbers come on release (solve.ts).
 */
import type { Engine, Pair } from '../assembly/engine.ts';
import type { Cell } from '../core/clearance/cells.ts';
import { cellGapMm, makeCell, slabAt } from '../core/clearance/cells.ts';
import { followMinimum } from '../core/clearance/follow.ts';
import type { LayeredGap } from '../core/clearance/layered.ts';
import { followedHead } from './headPair.ts';
import type { Gap } from './results.ts';
import type { Witness } from './solve.ts';
import { describe, witnessOf } from './solve.ts';

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
  const followed = new Map<string, { found: LayeredGap; witness: Witness; solvedFor: Pair }>();
  const out: Gap[] = [];
  for (const pair of engine.pairs) {
    const old = before.get(pair.id);
    if (old === undefined) continue;
    let entry = followed.get(pair.key);
    if (entry === undefined) {
      const found = follow(pair, old);
      if (found === null) continue;
      entry = { found, witness: witnessOf(pair, found), solvedFor: pair };
      followed.set(pair.key, entry);
    }
    const { found, witness, solvedFor } = entry;
    const shifted = found.atCrankRad - solvedFor.keyShiftRad + pair.keyShiftRad;
    const atCrankRad = ((shifted % pair.periodRad) + pair.periodRad) % pair.periodRad;
    out.push(describe(engine, pair, found, solvedFor, witness, atCrankRad, assumedAllowanceMm, false));
  }
  return out;
}

/** The gap of one pair, followed from where it was least before; null when the layers that decided are no longer there. */
function follow(pair: Pair, old: Gap): LayeredGap | null {
  if (pair.head !== undefined) return followedHead(pair, pair.head, old.atCrankRad);
  const cell = decidingCell(pair, old);
  if (cell === null) return null;
  const { a, b } = pair.relative ?? pair;
  const movingA = { flat: cell.a.flat, motion: a.motion };
  const inPlane = followMinimum(
    movingA,
    { flat: cell.b.flat, motion: b.motion },
    old.atCrankRad,
    cell.overlapMm === 0,
    at,
  );
  return {
    gapMm: cellGapMm(cell, inPlane),
    lowerBoundMm: Number.NEGATIVE_INFINITY,
    atCrankRad: at.rad,
    evaluations: 0,
    budgetSpent: false,
    slicingMm: old.slicingMm,
    cell,
  };
}

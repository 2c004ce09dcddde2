/** How deep a pair in contact is, followed downhill from where its outlines overlap and from where a like pair was deepest. At least so deep; not proven to be the deepest of the turn. */
import type { Pair } from '../../assembly/engine.ts';
import type { Cell } from '../../core/clearance/cells.ts';
import { cellGapMm } from '../../core/clearance/cells.ts';
import { followMinimum } from '../../core/clearance/follow.ts';
import type { GapAt } from '../../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../../core/clearance/gapAt.ts';

export interface DepthFound {
  /** Signed gap: minus the depth. */
  readonly gapMm: number;
  readonly atCrankRad: number;
  readonly parts: readonly [string, string];
  /** Outlines compared, about. */
  readonly evaluations: number;
}

const here: GapAt = newGapAt();
const at = { rad: 0 };

/** Evaluations that following one minimum in an overlap takes, about. */
const FOLLOWED = 20;

/** `cells` overlap somewhere; at which of the angles each is deepest decides where it is followed from. */
export function depthNear(pair: Pair, cells: readonly Cell[], anglesRad: readonly number[]): DepthFound {
  const { a, b } = pair.relative ?? pair;
  let best = 0;
  let rad = anglesRad[0]!;
  let deciding = cells[0]!;
  for (const cell of cells) {
    const [p, q] = [cell.a.flat, cell.b.flat];
    for (const angle of anglesRad) {
      const g = gapAt(
        { flat: p, motion: a.motion },
        { flat: q, motion: b.motion },
        angle,
        Number.POSITIVE_INFINITY,
        false,
        here,
      );
      const gapMm = cellGapMm(cell, g.gapMm);
      if (gapMm >= best) continue;
      best = gapMm;
      rad = angle;
      deciding = cell;
    }
  }
  const [p, q] = [deciding.a.flat, deciding.b.flat];
  const inPlane = followMinimum({ flat: p, motion: a.motion }, { flat: q, motion: b.motion }, rad, false, at);
  const followed = cellGapMm(deciding, inPlane);
  if (followed < best) {
    best = followed;
    rad = at.rad;
  }
  return {
    gapMm: best,
    atCrankRad: rad,
    parts: [deciding.a.part, deciding.b.part],
    evaluations: FOLLOWED + cells.length * anglesRad.length,
  };
}

/**
 * The gap of two layered bodies at one crank angle, to a stated error: slices of round parts are cut until what they add is
 * below it, wherever in the turn that is.
 *
 * A cell whose slice lies beside its partner stands for the union of the slice, so its gap is never above that of what it
 * stands for; the thin section nearest to the partner is really there, so the true gap is never above that section's
 * (layered.ts). Cells are taken by rising lower bound. Of the one with the lowest, the section is looked at, then it is cut and
 * its halves take its place, until that lowest bound lies no more than the error below the smallest section seen: the true
 * gap is between the two. The bound is what is told, which keeps it on the safe side as a certified gap is.
 */
import type { Motion } from '../plane/pose.ts';
import { type Cell, cellGapMm } from './cells.ts';
import { type GapAt, gapAt, newGapAt } from './gapAt.ts';
import { canCut, cut, sectionGapMm } from './layered.ts';

interface Waiting {
  readonly cell: Cell;
  /** No gap of the cell is below it, mm. */
  readonly floorMm: number;
  /** Whether that is the gap of the cell's own outlines, or only a bound known before. */
  readonly looked: boolean;
}

const here: GapAt = newGapAt();

/**
 * mm, signed as the gap of a pair, at most what `errorMm` says of it below the true one; `farMm` where it is not below that. `cells`
 * are all those of the pair, in any order and as coarse as may be.
 */
export function layeredGapAt(
  ma: Motion,
  mb: Motion,
  cells: readonly Cell[],
  crankAngleRad: number,
  errorMm: (gapMm: number) => number,
  farMm: number,
): number {
  const queue: Waiting[] = cells.map((cell) => ({ cell, floorMm: floorOf(cell), looked: false }));
  // The true gap is not above it.
  let roofMm = farMm;
  while (queue.length > 0) {
    const { cell, floorMm, looked } = takeLowest(queue);
    if (floorMm >= roofMm - (roofMm < farMm ? errorMm(floorMm) : 0)) return Math.min(roofMm, floorMm);
    if (!looked) {
      gapAt(
        { flat: cell.a.flat, motion: ma },
        { flat: cell.b.flat, motion: mb },
        crankAngleRad,
        roofMm + cell.deviationMm,
        false,
        here,
        cell.overlapMm > 0,
      );
      const gapMm = Math.max(floorMm, cellGapMm(cell, here.gapMm));
      if (gapMm >= roofMm) continue;
      if (cell.exact || !canCut(cell)) roofMm = gapMm;
      queue.push({ cell, floorMm: gapMm, looked: true });
      continue;
    }
    if (cell.exact || !canCut(cell)) return floorMm;
    roofMm = Math.min(roofMm, sectionGapMm(cell, ma, mb, crankAngleRad));
    if (floorMm >= roofMm - errorMm(floorMm)) return Math.min(roofMm, floorMm);
    for (const half of cut(cell) ?? []) {
      queue.push({ cell: half, floorMm: Math.max(floorOf(half), floorMm), looked: false });
    }
  }
  return roofMm;
}

function floorOf(cell: Cell): number {
  return cell.overlapMm > 0 ? Number.NEGATIVE_INFINITY : cell.axialMm;
}

/** Takes the one with the lowest floor; of equals an exact one, then one that was looked at. */
function takeLowest(queue: Waiting[]): Waiting {
  const before = (p: Waiting, q: Waiting): boolean => {
    if (p.floorMm !== q.floorMm) return p.floorMm < q.floorMm;
    if (p.cell.exact !== q.cell.exact) return p.cell.exact;
    return p.looked && !q.looked;
  };
  let next = 0;
  for (let k = 1; k < queue.length; k++) if (before(queue[k]!, queue[next]!)) next = k;
  const [taken] = queue.splice(next, 1);
  return taken!;
}

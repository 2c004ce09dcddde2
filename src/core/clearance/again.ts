/**
 * The smallest gap of a pair whose like was certified for a design near by: cells that were proven far enough there need not
 * be looked at again.
 *
 * The pair is kept as leaves: its cells, cut as finely as they had to be, each with a lower bound and the design it was proven
 * for. `fallenMm` says by how much a gap may have fallen since (assembly/shift.ts); what is left of the bound holds here,
 * since a leaf stands for the same stretch of the same two layers. Leaves are taken in order of what is left. One whose bound
 * reaches the least gap known is done with, and so are all after it; the others are certified, with `slackMm` on top of
 * what is needed so that the new bound lasts. A leaf that would decide and whose slice adds too much is cut, as in layered.ts.
 */
import type { Cell, LayeredBody } from './cells.ts';
import { cellGapMm, inPlaneCutoffMm, makeCell, slabAt } from './cells.ts';
import { CERTIFICATE_TOLERANCE_MM, certify } from './certify.ts';
import { canCut, cut, SLICING_MM, sectionGapMm, slicingAllowedMm } from './layered.ts';

/** Where a slab lies in its body. */
export interface SlabPlace {
  readonly source: number;
  readonly z0Mm: number;
  readonly z1Mm: number;
}

/** `At` names the design of the bound. */
export interface Leaf<At> {
  readonly a: SlabPlace;
  readonly b: SlabPlace;
  readonly lowerMm: number;
  readonly atCrankRad: number;
  /** Null while nothing is proven. */
  readonly at: At | null;
}

export interface AgainOptions<At> {
  readonly periodRad: number;
  readonly at: At;
  /** How far the gap of two layers, by their sources, may have fallen from a design to this one, mm. */
  readonly fallenMm: (from: At, a: number, b: number) => number;
  /** Only a gap below this is of interest, mm. */
  readonly belowMm: number;
  readonly slackMm: number;
  readonly budget: number;
}

export interface Again<At> {
  /** The smallest gap; `belowMm` where none lies below it. 0 in contact: how deep is not asked. */
  readonly gapMm: number;
  /** Proven: the gap is nowhere below this. */
  readonly lowerMm: number;
  readonly atCrankRad: number;
  readonly slicingMm: number;
  /** Parts of the deciding slabs; null where nothing lies below. */
  readonly parts: readonly [string, string] | null;
  readonly evaluations: number;
  readonly budgetSpent: boolean;
  /** Cells whose outlines overlap. */
  readonly touching: readonly Cell[];
  /** The leaves as they are now known. */
  readonly leaves: readonly Leaf<At>[];
}

function placeOf(slab: SlabPlace): SlabPlace {
  return { source: slab.source, z0Mm: slab.z0Mm, z1Mm: slab.z1Mm };
}

/** Cells of a pair of which nothing is known yet. */
export function leavesOf<At>(cells: readonly Cell[]): Leaf<At>[] {
  return cells.map(({ a, b }) => ({
    a: placeOf(a),
    b: placeOf(b),
    lowerMm: Number.NEGATIVE_INFINITY,
    atCrankRad: 0,
    at: null,
  }));
}

interface Waiting<At> {
  readonly leaf: Leaf<At>;
  readonly cell: Cell | null;
  readonly boundMm: number;
}

export function certifyAgain<At>(
  a: LayeredBody,
  b: LayeredBody,
  leaves: readonly Leaf<At>[],
  options: AgainOptions<At>,
): Again<At> {
  const { at, belowMm, slackMm, periodRad } = options;
  let best = belowMm;
  let lower = belowMm;
  let where = 0;
  let slicingMm = 0;
  let parts: readonly [string, string] | null = null;
  let evaluations = 0;
  let budgetSpent = false;
  const kept: Leaf<At>[] = [];
  const touching: Cell[] = [];
  const queue: Waiting<At>[] = leaves
    .map((leaf) => ({
      leaf,
      cell: null,
      boundMm:
        leaf.at === null
          ? Number.NEGATIVE_INFINITY
          : leaf.lowerMm - options.fallenMm(leaf.at, leaf.a.source, leaf.b.source),
    }))
    .sort((p, q) => p.boundMm - q.boundMm);
  for (let k = 0; k < queue.length; k++) {
    const { leaf, boundMm } = queue[k]!;
    if (boundMm >= best) {
      kept.push(leaf);
      lower = Math.min(lower, boundMm);
      continue;
    }
    const cell = queue[k]!.cell ?? cellAt(a, b, leaf);
    // A slice that has no material here has no gap; it may have again in another design.
    if (cell === null) {
      kept.push({ ...leaf, at: null, lowerMm: Number.NEGATIVE_INFINITY });
      continue;
    }
    const cutoffMm = inPlaneCutoffMm(cell, best + slackMm);
    if (cutoffMm === null) {
      // Farther apart along the shaft: that is a bound of its own.
      kept.push({ ...leaf, lowerMm: best + slackMm, at });
      continue;
    }
    let added = 0;
    const tooCoarse = (inPlaneMm: number, rad: number): boolean => {
      const value = cellGapMm(cell, inPlaneMm);
      if (value >= best) return false;
      added = Math.max(0, sectionGapMm(cell, a.motion, b.motion, rad) - value);
      return added > slicingAllowedMm(value, SLICING_MM) && canCut(cell);
    };
    const c = certify({ flat: cell.a.flat, motion: a.motion }, { flat: cell.b.flat, motion: b.motion }, periodRad, {
      toleranceMm: CERTIFICATE_TOLERANCE_MM,
      budget: Math.max(1, options.budget - evaluations),
      cutoffMm,
      contactIsEnough: true,
      ...(leaf.at === null ? {} : { hintRad: leaf.atCrankRad }),
      ...(cell.exact ? {} : { stopAt: tooCoarse }),
    });
    evaluations += c.evaluations;
    if (c.outcome === 'budget spent') budgetSpent = true;
    const value = cellGapMm(cell, c.minimumMm);
    const finished = c.outcome !== 'budget spent' && c.outcome !== 'stopped';
    const lowerMm = finished ? cellGapMm(cell, c.lowerBoundMm) : Number.NEGATIVE_INFINITY;
    const proven: Leaf<At> = { ...leaf, lowerMm, atCrankRad: c.atCrankRad, at };
    if (c.outcome !== 'stopped' && value >= best) {
      if (value <= 0 && cell.exact) touching.push(cell);
      kept.push(proven);
      lower = Math.min(lower, lowerMm);
      continue;
    }
    if (c.outcome === 'stopped' || (!cell.exact && tooCoarse(c.minimumMm, c.atCrankRad))) {
      // Each half is no closer than the whole.
      const more = (cut(cell) ?? []).map((half) => ({
        leaf: { ...proven, a: placeOf(half.a), b: placeOf(half.b) },
        cell: half,
        boundMm: lowerMm,
      }));
      queue.splice(k + 1, 0, ...more);
      continue;
    }
    if (cell.exact) added = 0;
    if (value <= 0) touching.push(cell);
    kept.push(proven);
    best = value;
    lower = Math.min(lower, lowerMm);
    where = c.atCrankRad;
    slicingMm = added;
    parts = [cell.a.part, cell.b.part];
  }
  return {
    gapMm: best,
    lowerMm: lower,
    atCrankRad: where,
    slicingMm,
    parts,
    evaluations,
    budgetSpent,
    touching,
    leaves: kept,
  };
}

function cellAt<At>(a: LayeredBody, b: LayeredBody, leaf: Leaf<At>): Cell | null {
  const slabA = slabAt(a, leaf.a.source, leaf.a.z0Mm, leaf.a.z1Mm);
  const slabB = slabAt(b, leaf.b.source, leaf.b.z0Mm, leaf.b.z1Mm);
  return slabA === null || slabB === null ? null : makeCell(slabA, slabB);
}

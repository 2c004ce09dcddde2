/**
 * The smallest gap of two layered bodies over a period, with its certificate: the smallest over their cells.
 *
 * Each cell is certified with the best gap so far as cutoff, so that most cost little. A cell whose slice of a round part
 * lies beside its partner stands for the union of the slice, which is never smaller than the part: its gap is a lower
 * bound. What it adds is bounded by the gap at the thin section nearest to the partner, which is really there; while the
 * difference exceeds `slicingMm` and the cell would decide the answer, it is cut and its halves take its place.
 */

import type { Motion } from '../plane/pose.ts';
import type { Cell, Slab } from './cells.ts';
import { cellGapMm, enoughInPlaneMm, inPlaneCutoffMm, makeCell, slab } from './cells.ts';
import type { Certificate } from './certify.ts';
import { certify } from './certify.ts';
import type { GapAt } from './gapAt.ts';
import { gapAt, newGapAt } from './gapAt.ts';

export interface LayeredOptions {
  readonly toleranceMm: number;
  readonly budget: number;
  readonly hintRad?: number;
  /** Stop cutting slices when what they add is below this, mm. */
  readonly slicingMm: number;
  /** Share of a gap beyond `FAR_MM` that slicing may add as well; 0 where even a far gap is asked for as exactly as a near one. */
  readonly farShare?: number;
  /** Only a gap below this is of interest, mm: the answer is this value itself, and proven, where there is none. */
  readonly belowMm?: number;
  /** That the bodies meet is all that matters then: how deep is not asked, the gap is 0. */
  readonly contactIsEnough?: boolean;
}

export interface LayeredGap {
  readonly gapMm: number;
  readonly lowerBoundMm: number;
  readonly atCrankRad: number;
  readonly evaluations: number;
  readonly budgetSpent: boolean;
  /** What slicing adds at most on the safe side. */
  readonly slicingMm: number;
  /** The cell that decides. */
  readonly cell: Cell;
}

/** How much slicing may add: 0.01 mm, a fifth of the finest feeler gauge in a shop. */
export const SLICING_MM = 0.01;

/** A gap above FAR_MM, twice the usual limits, is in no doubt: slicing may then add a share of what it has beyond that, and so may it to a contact's depth. It stays on the safe side and is reported. */
const FAR_MM = 3;
const FAR_SHARE = 0.15;

/** Slices are not cut below this width, mm; at the steepest place of a 100 mm bore that is met it adds less than a micrometre. */
const NARROWEST_SLICE_MM = 0.002;

/**
 * A cell may take half of what is left of the work, and this much even when nothing is: where one cell can't be finished, the others
 * are still looked at, and a contact of theirs is not missed for want of work. A usual cell needs some dozens.
 */
const LEAST_FOR_A_CELL = 2000;

const here: GapAt = newGapAt();

export function certifyLayered(
  ma: Motion,
  mb: Motion,
  cells: readonly Cell[],
  periodRad: number,
  options: LayeredOptions,
): LayeredGap {
  if (cells.length === 0) throw new RangeError('certifyLayered: no cells');
  let best = options.belowMm ?? Number.POSITIVE_INFINITY;
  let lower = best;
  const farShare = options.farShare ?? FAR_SHARE;
  let at = 0;
  let slicingMm = 0;
  let evaluations = 0;
  let budgetSpent = false;
  let deciding = cells[0]!;
  // Where a round part decided once, its neighbours' minima lie close by.
  let hintRad = options.hintRad;
  // `floor`: a lower bound of the cell's gap known before it is looked at; `guess`: where its gap is thought to lie.
  const queue: Waiting[] = cells.map((cell) => ({ cell, floor: floorOf(cell), guess: floorOf(cell) }));
  while (queue.length > 0) {
    const { cell, floor } = takeNext(queue);
    if (floor >= best) continue;
    const cutoffMm = inPlaneCutoffMm(cell, best);
    if (cutoffMm === null) continue;
    const left = Math.max(LEAST_FOR_A_CELL, (options.budget - evaluations) / 2);
    const enoughMm = enoughInPlaneMm(cell, options.toleranceMm);
    let added = 0;
    const tooCoarse = (inPlaneMm: number, rad: number): boolean => {
      const value = cellGapMm(cell, inPlaneMm);
      const section = sectionGapMm(cell, ma, mb, rad);
      added = section - value;
      // Where real sections overlap too, a share of the depth is as good.
      const shareMm = section < 0 ? -farShare * value : 0;
      return added > slicingAllowedMm(value, options.slicingMm, farShare) + shareMm && canCut(cell);
    };
    const c: Certificate = certify({ flat: cell.a.flat, motion: ma }, { flat: cell.b.flat, motion: mb }, periodRad, {
      toleranceMm: options.toleranceMm,
      budget: left,
      cutoffMm,
      contactIsEnough: options.contactIsEnough === true || cell.overlapMm === 0,
      ...(enoughMm === undefined ? {} : { enoughMm }),
      ...(hintRad === undefined ? {} : { hintRad }),
      ...(cell.exact ? {} : { stopAt: tooCoarse }),
    });
    evaluations += c.evaluations;
    if (c.outcome === 'budget spent') budgetSpent = true;
    if (c.outcome === 'stopped') {
      hintRad = c.atCrankRad;
      divide(queue, cell, Number.NEGATIVE_INFINITY, cellGapMm(cell, c.minimumMm));
      continue;
    }
    if (c.minimumMm >= cutoffMm) {
      lower = Math.min(lower, cellGapMm(cell, c.lowerBoundMm));
      continue;
    }
    const value = cellGapMm(cell, c.minimumMm);
    if (!cell.exact) {
      if (tooCoarse(c.minimumMm, c.atCrankRad)) {
        hintRad = c.atCrankRad;
        divide(queue, cell, cellGapMm(cell, c.lowerBoundMm), value);
        continue;
      }
      slicingMm = Math.max(0, added);
    } else slicingMm = 0;
    lower = Math.min(lower, c.outcome === 'budget spent' ? Number.NEGATIVE_INFINITY : cellGapMm(cell, c.lowerBoundMm));
    best = value;
    at = c.atCrankRad;
    deciding = cell;
    hintRad = c.atCrankRad;
  }
  return { gapMm: best, lowerBoundMm: lower, atCrankRad: at, evaluations, budgetSpent, slicingMm, cell: deciding };
}

interface Waiting {
  readonly cell: Cell;
  readonly floor: number;
  readonly guess: number;
}

/** Takes the cell with the least guess out of the queue; of equals an exact one, and the one that came first. */
function takeNext(queue: Waiting[]): Waiting {
  let next = 0;
  for (let k = 1; k < queue.length; k++) {
    const [p, q] = [queue[k]!, queue[next]!];
    if (p.guess < q.guess || (p.guess === q.guess && p.cell.exact && !q.cell.exact)) next = k;
  }
  return queue.splice(next, 1)[0]!;
}

/** Puts the halves of a cell in the queue: none has a gap below `floor`, nor is it thought to be below `guess`. */
function divide(queue: Waiting[], cell: Cell, floor: number, guess: number): void {
  for (const half of cut(cell) ?? []) {
    const least = Math.max(floorOf(half), floor);
    queue.push({ cell: half, floor: least, guess: Math.max(least, guess) });
  }
}

/** How much slicing may add to a gap of this size, mm. */
export function slicingAllowedMm(gapMm: number, slicingMm: number, farShare = FAR_SHARE): number {
  return slicingMm + farShare * Math.max(0, gapMm - FAR_MM);
}

function floorOf(cell: Cell): number {
  return cell.overlapMm > 0 ? Number.NEGATIVE_INFINITY : cell.axialMm;
}

/** Gap of two thin sections, at one angle, as axially near to one another as there is material: the true gap is not above it. */
export function sectionGapMm(cell: Cell, ma: Motion, mb: Motion, crankAngleRad: number): number {
  const bMiddle = (cell.b.z0Mm + cell.b.z1Mm) / 2;
  const a = thin(cell.a, bMiddle);
  const b = thin(cell.b, a.z0Mm);
  gapAt(
    { flat: a.flat, motion: ma },
    { flat: b.flat, motion: mb },
    crankAngleRad,
    Number.POSITIVE_INFINITY,
    false,
    here,
    cell.overlapMm > 0,
  );
  if (cell.overlapMm > 0 && a.z0Mm === b.z0Mm) return cellGapMm(cell, here.gapMm);
  // An even layer is the same all along: what counts is how far its range is from the section of the other.
  return cellGapMm(makeCell(cell.a.round === null ? cell.a : a, cell.b.round === null ? cell.b : b), here.gapMm);
}

/** The section of a slab at z or the nearest to it; where a round part ends in nothing, the next one inward that has material. */
function thin(s: Slab, z: number): Slab {
  const at = Math.min(s.z1Mm, Math.max(s.z0Mm, z));
  if (s.round === null) return { ...s, z0Mm: at, z1Mm: at };
  const inward = (s.z0Mm + s.z1Mm) / 2 - at;
  for (let share = 0; share <= 1; share = share === 0 ? 2 ** -10 : share * 2) {
    const section = slab(s.round, s.source, at + share * inward, at + share * inward);
    if (section !== null) return section;
  }
  return s;
}

/** The slab of a cell that is to be cut: the round one, or the wider of two. */
function cutsA(cell: Cell): boolean {
  return cell.a.round !== null && (cell.b.round === null || cell.a.z1Mm - cell.a.z0Mm >= cell.b.z1Mm - cell.b.z0Mm);
}

export function canCut(cell: Cell): boolean {
  const mine = cutsA(cell) ? cell.a : cell.b;
  return mine.z1Mm - mine.z0Mm >= 2 * NARROWEST_SLICE_MM;
}

/** Cuts the round slab of a cell: at a face of its partner, else finer toward the partner; null when it is narrow enough. */
export function cut(cell: Cell): Cell[] | null {
  if (!canCut(cell)) return null;
  const cutA = cutsA(cell);
  const mine = cutA ? cell.a : cell.b;
  const other = cutA ? cell.b : cell.a;
  const width = mine.z1Mm - mine.z0Mm;
  const inside = (z: number): boolean => z > mine.z0Mm + NARROWEST_SLICE_MM && z < mine.z1Mm - NARROWEST_SLICE_MM;
  let z: number;
  if (inside(other.z0Mm)) z = other.z0Mm;
  else if (inside(other.z1Mm)) z = other.z1Mm;
  else {
    const part = cell.overlapMm > 0 ? 0.5 : NEAR_PART;
    z = other.z0Mm >= mine.z1Mm ? mine.z1Mm - part * width : mine.z0Mm + part * width;
  }
  const out: Cell[] = [];
  for (const [z0, z1] of [
    [mine.z0Mm, z],
    [z, mine.z1Mm],
  ] as const) {
    const s = slab(mine.round!, mine.source, z0, z1);
    if (s !== null) out.push(cutA ? makeCell(s, other) : makeCell(other, s));
  }
  return out;
}

/** Share of a slice beside its partner that the nearer half takes: the gap grows with axial distance, so the near side decides. */
const NEAR_PART = 0.3;

/**
 * A pair of bodies as cells: one layer or slice of one against one of the other, with the axial distance between them.
 *
 * Two layers that overlap axially are as far apart as their outlines; two that do not are sqrt(max(g, 0)^2 + axial^2)
 * apart, g being the distance of their outlines. A round part is cut at the faces of its partner's layers and at its own
 * middle; within the partner's axial range one slice is exact, since the partner is the same all along it. Slices beside
 * that range only add material, and are cut finer where it matters (layered.ts).
 *
 * A measured outline owes its deviation: the part may stand out of it by so much. Let d be the sum for both. Every point
 * of either part lies within its outline grown by its deviation, and a signed distance changes by no more than its point or
 * its outline moves, so the signed gap of the parts is at least that of the outlines less d, depths included. That is
 * the gap of the cell, for figures and for bounds alike.
 */
import type { FlatOutline } from '../outline/flat.ts';
import { flatten } from '../outline/flat.ts';
import type { Layer, RoundLayer } from '../outline/layers.ts';
import type { Outline } from '../outline/outline.ts';
import type { Motion } from '../plane/pose.ts';

export interface LayeredBody {
  readonly motion: Motion;
  readonly layers: readonly Layer[];
  readonly round: readonly RoundLayer[];
}

/** A stretch of a layer: of an even one (`round` null) or of a round one. */
export interface Slab {
  readonly part: string;
  /** Index of the layer in its body: even layers first, then the round ones. */
  readonly source: number;
  readonly z0Mm: number;
  readonly z1Mm: number;
  readonly flat: FlatOutline;
  readonly round: RoundLayer | null;
  /** How far the part may stand out of the outline, mm; 0 unless it was measured. */
  readonly deviationMm: number;
}

export interface Cell {
  readonly a: Slab;
  readonly b: Slab;
  /** Distance of the two axial ranges; 0 when they overlap or touch. */
  readonly axialMm: number;
  /** Length of the common axial range; 0 when there is none. */
  readonly overlapMm: number;
  /** True when the slices add no material that matters: cutting finer would change nothing. */
  readonly exact: boolean;
  /** What measured outlines owe, both together, mm: taken off the gap of the outlines. */
  readonly deviationMm: number;
}

const packed = new WeakMap<Outline, FlatOutline>();

function pack(outline: Outline): FlatOutline {
  let flat = packed.get(outline);
  if (flat === undefined) {
    flat = flatten(outline);
    packed.set(outline, flat);
  }
  return flat;
}

/** Slices narrower than this are not made, mm: they would come from faces meant to be flush. */
const LEAST_SLICE_MM = 1e-6;

/** Slices made before: a part that stays as it is, such as a bore, is cut at the same places for many designs. */
const sliced = new WeakMap<RoundLayer, Map<string, Outline | null>>();

function sliceOf(round: RoundLayer, z0Mm: number, z1Mm: number): Outline | null {
  let known = sliced.get(round);
  if (known === undefined) {
    known = new Map();
    sliced.set(round, known);
  }
  const key = `${z0Mm} ${z1Mm}`;
  let outline = known.get(key);
  if (outline === undefined) {
    if (known.size >= MOST_SLICES) known.clear();
    outline = round.slice(z0Mm, z1Mm);
    known.set(key, outline);
  }
  return outline;
}

/** Of one round part; a pair takes some dozens. */
const MOST_SLICES = 2000;

export function slab(round: RoundLayer, source: number, z0Mm: number, z1Mm: number): Slab | null {
  const outline = sliceOf(round, z0Mm, z1Mm);
  return outline === null ? null : { part: round.part, source, z0Mm, z1Mm, flat: pack(outline), round, deviationMm: 0 };
}

function evenSlab(l: Layer, source: number): Slab {
  const { part, z0Mm, z1Mm, deviationMm = 0 } = l;
  return { part, source, z0Mm, z1Mm, flat: pack(l.outline), round: null, deviationMm };
}

/** A slab by its source and axial range, or the nearest to it in a body whose layers have moved; null when there is none. */
export function slabAt(body: LayeredBody, source: number, z0Mm: number, z1Mm: number): Slab | null {
  const even = body.layers[source];
  if (even !== undefined) return evenSlab(even, source);
  const round = body.round[source - body.layers.length];
  if (round === undefined) return null;
  const within = (z: number): number => Math.min(round.z1Mm, Math.max(round.z0Mm, z));
  return slab(round, source, within(z0Mm), within(z1Mm));
}

/** The slabs of a body, its round parts cut at `cuts` and at their own middles. */
function slabsOf(body: LayeredBody, cuts: readonly number[]): Slab[] {
  const out: Slab[] = body.layers.map(evenSlab);
  for (const [index, r] of body.round.entries()) {
    const inside = [r.centreMm, ...cuts].filter((z) => z > r.z0Mm && z < r.z1Mm).sort((p, q) => p - q);
    const edges = [r.z0Mm, ...inside, r.z1Mm];
    for (let k = 0; k + 1 < edges.length; k++) {
      if (edges[k + 1]! - edges[k]! < LEAST_SLICE_MM) continue;
      const s = slab(r, body.layers.length + index, edges[k]!, edges[k + 1]!);
      if (s !== null) out.push(s);
    }
  }
  return out;
}

function facesOf(body: LayeredBody): number[] {
  return [...body.layers, ...body.round].flatMap((l) => [l.z0Mm, l.z1Mm]);
}

export function makeCell(a: Slab, b: Slab): Cell {
  const overlap = Math.min(a.z1Mm, b.z1Mm) - Math.max(a.z0Mm, b.z0Mm);
  const overlapMm = overlap > LEAST_SLICE_MM ? overlap : 0;
  const within = (inner: Slab, outer: Slab): boolean =>
    inner.z0Mm >= outer.z0Mm - LEAST_SLICE_MM && inner.z1Mm <= outer.z1Mm + LEAST_SLICE_MM;
  // A slice that lies within its even partner is exact; two even layers always are.
  const exact =
    (a.round === null && b.round === null) ||
    (overlapMm > 0 && ((b.round === null && within(a, b)) || (a.round === null && within(b, a))));
  const deviationMm = a.deviationMm + b.deviationMm;
  return { a, b, axialMm: overlapMm > 0 ? 0 : Math.max(0, -overlap), overlapMm, exact, deviationMm };
}

type Skip = (partA: string, partB: string) => boolean;

function inOrder(cells: Cell[]): Cell[] {
  return cells.sort((p, q) => p.axialMm - q.axialMm || Number(q.exact) - Number(p.exact));
}

/** Every slab of one against every slab of the other, axially nearest first. `skip` leaves out pairs of parts that are joined. */
export function cellsOf(a: LayeredBody, b: LayeredBody, skip?: Skip): Cell[] {
  const cells: Cell[] = [];
  const slabsB = slabsOf(b, facesOf(a));
  for (const sa of slabsOf(a, facesOf(b))) {
    for (const sb of slabsB) {
      if (!skip?.(sa.part, sb.part)) cells.push(makeCell(sa, sb));
    }
  }
  return inOrder(cells);
}

/**
 * The same as few cells as will do to begin with, for a search that cuts where it must (layered.ts): round parts whole, and
 * against an even layer only the half on its side. The sections on the other side are those of this one, and each stands at
 * least as far from the layer, whose middle lies on this side.
 */
export function coarseCellsOf(a: LayeredBody, b: LayeredBody, skip?: Skip): Cell[] {
  const cells: Cell[] = [];
  const made: Slab[] = [];
  const slabOnce = (r: RoundLayer, source: number, z0Mm: number, z1Mm: number): Slab | null => {
    const before = made.find((s) => s.round === r && s.z0Mm === z0Mm && s.z1Mm === z1Mm);
    if (before !== undefined) return before;
    const s = slab(r, source, z0Mm, z1Mm);
    if (s !== null) made.push(s);
    return s;
  };
  const evenA = a.layers.map(evenSlab);
  const evenB = b.layers.map(evenSlab);
  for (const sa of evenA) for (const sb of evenB) if (!skip?.(sa.part, sb.part)) cells.push(makeCell(sa, sb));
  for (const [n, rb] of b.round.entries()) {
    const source = b.layers.length + n;
    for (const sa of evenA) {
      if (skip?.(sa.part, rb.part)) continue;
      for (const [z0, z1] of rangesToward((sa.z0Mm + sa.z1Mm) / 2, rb)) {
        const sb = slabOnce(rb, source, z0, z1);
        if (sb !== null) cells.push(makeCell(sa, sb));
      }
    }
  }
  for (const [m, ra] of a.round.entries()) {
    const source = a.layers.length + m;
    for (const sb of evenB) {
      if (skip?.(ra.part, sb.part)) continue;
      for (const [z0, z1] of rangesToward((sb.z0Mm + sb.z1Mm) / 2, ra)) {
        const sa = slabOnce(ra, source, z0, z1);
        if (sa !== null) cells.push(makeCell(sa, sb));
      }
    }
    for (const [n, rb] of b.round.entries()) {
      if (skip?.(ra.part, rb.part)) continue;
      const sa = slabOnce(ra, source, ra.z0Mm, ra.z1Mm);
      const sb = slabOnce(rb, b.layers.length + n, rb.z0Mm, rb.z1Mm);
      if (sa !== null && sb !== null) cells.push(makeCell(sa, sb));
    }
  }
  return inOrder(cells);
}

/** The parts of a round layer that an even layer with its middle at `middleMm` need be held against: all but what lies mirrored on its own side. */
function rangesToward(middleMm: number, r: RoundLayer): [number, number][] {
  const { z0Mm, z1Mm, centreMm } = r;
  if (centreMm <= z0Mm || centreMm >= z1Mm) return [[z0Mm, z1Mm]];
  const above = middleMm >= centreMm;
  const ranges: [number, number][] = [above ? [centreMm, z1Mm] : [z0Mm, centreMm]];
  const [far0, far1] = above ? [z0Mm, 2 * centreMm - z1Mm] : [2 * centreMm - z0Mm, z1Mm];
  if (far1 - far0 > LEAST_SLICE_MM) ranges.push([far0, far1]);
  return ranges;
}

/** Gap of a cell from the gap of its outlines: less what measured outlines owe, and with the axial distance. */
export function cellGapMm(cell: Cell, inPlaneMm: number): number {
  const owedMm = inPlaneMm - cell.deviationMm;
  if (cell.overlapMm > 0) return owedMm;
  return Math.hypot(Math.max(owedMm, 0), cell.axialMm);
}

/** The gap of outlines up to which a cell's gap is its axial distance, to a tolerance; undefined where they are no farther apart along the shaft than that. */
export function enoughInPlaneMm(cell: Cell, toleranceMm: number): number | undefined {
  if (cell.overlapMm > 0 || cell.axialMm <= toleranceMm) return undefined;
  return cell.deviationMm + Math.sqrt(toleranceMm * (2 * cell.axialMm + toleranceMm));
}

/** The gap of outlines below which a cell's gap is below `bestMm`; null when it can't be. */
export function inPlaneCutoffMm(cell: Cell, bestMm: number): number | null {
  if (bestMm === Number.POSITIVE_INFINITY) return bestMm;
  if (cell.overlapMm > 0) return bestMm + cell.deviationMm;
  if (bestMm <= cell.axialMm) return null;
  return Math.sqrt((bestMm - cell.axialMm) * (bestMm + cell.axialMm)) + cell.deviationMm;
}

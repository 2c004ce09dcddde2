/**
 * The gap of a pair at the thin section of a round part where it is smallest, beside the gap that the certificate tells.
 *
 * A slice of a round part stands for the union over its width, so the certified gap lies below the true one by up to what slicing
 * adds: nothing for near gaps, a share of the gap for far ones (core/clearance/layered.ts). That share need not cancel in a
 * difference of two gaps. Near the slice that decides, the section without width is looked for whose own smallest gap is the
 * smallest: that gap is really there, and the certificate says that none is smaller by more than slicing adds.
 */
import type { Pair } from '../../assembly/engine.ts';
import type { Slab } from '../../core/clearance/cells.ts';
import { makeCell, slab } from '../../core/clearance/cells.ts';
import { followMinimum } from '../../core/clearance/follow.ts';
import type { LayeredGap } from '../../core/clearance/layered.ts';

const at = { rad: 0 };

/** The golden section, and how often the range is cut by it: to a thousandth of a millimetre from a bore's width. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const CUTS = 24;

/** Two round parts: each in turn, the other's section held; rounds at most. */
const ROUNDS = 4;
/** A round that gains less ends it, mm. */
const GAINED_MM = 1e-5;

/** Smallest gap of thin sections near the deciding slice, mm, at or above the certified one; that one itself where slicing adds nothing. */
export function thinSectionGapMm(pair: Pair, found: LayeredGap): number {
  const { cell } = found;
  if (cell.exact) return found.gapMm;
  const { a, b } = pair.relative ?? pair;
  const gapAt = (za: number, zb: number): number => {
    const sa = thin(cell.a, za);
    const sb = thin(cell.b, zb);
    if (sa === null || sb === null) return Number.POSITIVE_INFINITY;
    const { axialMm, deviationMm } = makeCell(sa, sb);
    const inPlane = followMinimum(
      { flat: sa.flat, motion: a.motion },
      { flat: sb.flat, motion: b.motion },
      found.atCrankRad,
      axialMm > 0,
      at,
    );
    // Sections without width have no length in common: at one place of the shaft they are as far apart as their outlines.
    return axialMm > 0 ? Math.hypot(Math.max(inPlane - deviationMm, 0), axialMm) : inPlane - deviationMm;
  };
  const middle = (s: Slab): number => (s.z0Mm + s.z1Mm) / 2;
  let za = middle(cell.a);
  let zb = middle(cell.b);
  let best = Number.POSITIVE_INFINITY;
  const both = cell.a.round !== null && cell.b.round !== null;
  for (let round = 0; round < (both ? ROUNDS : 1); round++) {
    const before = best;
    if (cell.a.round !== null) [za, best] = least(rangeOf(cell.a), (z) => gapAt(z, zb));
    if (cell.b.round !== null) [zb, best] = least(rangeOf(cell.b), (z) => gapAt(za, z));
    if (before - best < GAINED_MM) break;
  }
  return Math.max(found.gapMm, best);
}

/** The slice and as much on either side of it, as far as the part goes. */
function rangeOf(s: Slab): [number, number] {
  const width = s.z1Mm - s.z0Mm;
  return [Math.max(s.round!.z0Mm, s.z0Mm - width), Math.min(s.round!.z1Mm, s.z1Mm + width)];
}

/** Where a function of one dip is least, and how much, its ends included. */
function least([from, to]: readonly [number, number], f: (z: number) => number): [at: number, least: number] {
  let low = from;
  let high = to;
  let best: [number, number] = [low, f(low)];
  const look = (z: number): number => {
    const value = f(z);
    if (value < best[1]) best = [z, value];
    return value;
  };
  look(high);
  let p = high - GOLDEN * (high - low);
  let q = low + GOLDEN * (high - low);
  let fp = look(p);
  let fq = look(q);
  for (let k = 0; k < CUTS; k++) {
    if (fp <= fq) {
      high = q;
      q = p;
      fq = fp;
      p = high - GOLDEN * (high - low);
      fp = look(p);
    } else {
      low = p;
      p = q;
      fp = fq;
      q = low + GOLDEN * (high - low);
      fq = look(q);
    }
  }
  return best;
}

/** A slab of a round part cut to its section at z; an even one as it is. Null where there is no material. */
function thin(s: Slab, z: number): Slab | null {
  return s.round === null ? s : slab(s.round, s.source, z, z);
}

/**
 * A cam lobe as a closed chain of circular arcs that contains the true surface: nowhere inside it, and nowhere farther
 * outside than a stated error.
 *
 * The base circle is one exact arc. Each flank, from a little way along the base circle to the nose, is a row of biarcs
 * between knots on the true surface, all but the first moved outward by half the error, with the surface's own direction.
 * A biarc swings to either side of the curve it follows; the longest that stays within 0 … error is taken, then the next.
 *
 * That it does is proven, not sampled. Between two neighbouring places of the surface, h apart in psi, the surface strays
 * from its chord by at most C h^2 / 8, C bounding its second derivative; the farthest point of a chord from a
 * centre is one of its ends, and the nearest is computed. So the distances of the chords from an arc, widened by that
 * stray, bound the surface's own. Chords over the joint of a biarc are held against both arcs.
 */
import type { Outline, Piece } from '../outline/outline.ts';
import type { Biarc, Ray } from './biarc.ts';
import { biarc } from './biarc.ts';
import { type LiftLaw, mirrorLaw } from './liftLaw.ts';
import { flankBounds, surfaceAt } from './lobeProfile.ts';
import type { AnyLobe } from './lobeSpec.ts';
import { checkLobe, lobeLawOf } from './lobeSpec.ts';

/** Greatest distance of the outline outside the true surface unless told otherwise: a tenth of what a shop reads off, 0.001 in. */
export const LOBE_ERROR_MM = 0.002;

export interface LobeOutline {
  /** Counterclockwise in the lobe's own frame, nose along +y, axis at the origin; begins at the end of the opening flank. */
  readonly outline: Outline;
  /** Proven: no point of the true surface lies farther inside the outline than this, and none outside it. */
  readonly errorMm: number;
  /** Of a measured lobe: by how much the follower was taken to stand higher than on the fitted curve, so that it is not below any reading. */
  readonly deviationMm: number;
}

/**
 * Outline of a lobe within `errorMm` (above 0). Throws a RangeError for a lobe that `checkLobe` refuses.
 *
 * Of a measured lobe no reading lies farther than some deviation from the fitted law. What a follower leaves of a blank grows when the
 * follower is lifted everywhere; so the surface for the law lifted by the deviation, which is that law on a base circle as much
 * larger, contains every lobe whose lift is nowhere above it.
 */
export function lobeOutline(lobe: AnyLobe, errorMm: number = LOBE_ERROR_MM): LobeOutline {
  if (!(errorMm > 0 && Number.isFinite(errorMm))) {
    throw new RangeError(`outline error ${errorMm} mm can't be used: it must be positive and finite`);
  }
  const fault = checkLobe(lobe);
  if (fault !== null) throw new RangeError(`lobe refused: ${fault.reason}, ${fault.value} ${fault.unit}`);
  const { law, deviationMm } = lobeLawOf(lobe);
  const spec = { baseRadiusMm: lobe.baseRadiusMm + deviationMm, follower: lobe.follower };
  const baseSweepRad = 2 * Math.PI - law.openingRad - law.closingRad;
  const leadRad = baseSweepRad > 2 * LEAD_RAD ? LEAD_RAD : 0;
  const opening = fitFlank({ law, spec, errorMm, leadRad });
  // The closing flank is fitted as the opening one of the mirrored lobe and mirrored back.
  const alike = law.name !== 'table' && law.closingRad === law.openingRad;
  const closing = alike ? opening : fitFlank({ law: mirrorLaw(law), spec, errorMm, leadRad });
  const pieces: Piece[] = [...opening.pieces, ...closing.pieces.map(mirrorPiece).reverse()];
  const sweepRad = baseSweepRad - 2 * leadRad;
  if (sweepRad > 0) {
    const r = spec.baseRadiusMm + (leadRad > 0 ? 0 : errorMm / 2);
    pieces.push({ kind: 'arc', cx: 0, cy: 0, r, startRad: Math.PI / 2 + law.closingRad + leadRad, sweepRad });
  }
  return { outline: { pieces }, errorMm: Math.max(opening.errorMm, closing.errorMm), deviationMm };
}

/** How much of the base circle, beyond each flank's end, the outline uses to leave it. A lobe with less than twice that left has its base circle moved out as well. */
const LEAD_RAD = 0.1;
/** Part of the error given away to the stray of the surface from the chords: finer costs time, coarser costs pieces. */
const STRAY_SHARE = 0.01;
/** Where a biarc may end, as parts of the error outside the surface; the first that fits is taken. */
const END_SHARES = [0.5, 0.25, 0.75, 0.1, 0.9];
/** Where its two arcs may meet, as the ratio of the tangent lengths at its ends; in the same way. */
const TANGENT_RATIOS = [1, 0.65, 1.5, 0.4, 2.5];
/** Each trial biarc is this much shorter than the one before. */
const SHORTER = 0.97;
/** A biarc shorter than this that does not fit never will: 20 nanometres on a lobe of 20 mm. */
const SHORTEST_RAD = 1e-6;
/** Kept between outline and surface for the rounding of coordinates of some tens of millimetres, 1e-14 mm each. */
const ROUNDING_MM = 1e-10;

/** Places of the quick look. */
const QUICK_PLACES = 16;

interface FlankToFit {
  readonly law: LiftLaw;
  readonly spec: Pick<AnyLobe, 'baseRadiusMm' | 'follower'>;
  readonly errorMm: number;
  readonly leadRad: number;
}

interface Flank {
  readonly pieces: readonly Piece[];
  readonly errorMm: number;
}

/** The opening flank, from the lead on the base circle to the nose: the longest biarc that fits, then the next. */
function fitFlank(flank: FlankToFit): Flank {
  const { law, errorMm, leadRad } = flank;
  const pieces: Piece[] = [];
  let worst = 0;
  let from = law.openingRad + leadRad;
  let start = knot(flank, from, leadRad > 0 ? 0 : errorMm / 2);
  while (from > 0) {
    const found = longestBiarc(flank, from, start);
    pieces.push(found.pair.first, found.pair.second);
    worst = Math.max(worst, found.offMm);
    start = found.end;
    from = found.to;
  }
  return { pieces, errorMm: worst };
}

function longestBiarc(flank: FlankToFit, from: number, start: Ray) {
  for (let length = from; length > SHORTEST_RAD; length *= SHORTER) {
    const to = from - length;
    // The nose, and a start without a lead, is shared with the other flank: both end at half the error there.
    for (const share of to === 0 ? [0.5] : END_SHARES) {
      const end = knot(flank, to, share * flank.errorMm);
      for (const ratio of TANGENT_RATIOS) {
        const pair = biarc(start, end, ratio);
        const offMm = pair === null ? null : offSurface(flank, from, to, pair);
        if (pair !== null && offMm !== null) return { pair, offMm, end, to };
      }
    }
  }
  throw new Error(`no arc within ${flank.errorMm} mm of the lobe at ${from} rad from its nose`);
}

/** Start or end of a biarc: on the surface's normal, `outMm` outside it, travelling counterclockwise. */
function knot(flank: FlankToFit, psiRad: number, outMm: number): Ray {
  const p = surfaceAt(flank.law, flank.spec.baseRadiusMm, flank.spec.follower, psiRad);
  return { x: p.x + outMm * p.nx, y: p.y + outMm * p.ny, tx: -p.ny, ty: p.nx };
}

/**
 * How far the surface between two angles lies inside the biarc at most; null when it may lie outside it, or farther
 * inside than the error. On the base circle the chords cannot tell, since the first arc starts there touching it; but a
 * larger circle that touches from outside contains it whole.
 */
function offSurface(flank: FlankToFit, from: number, to: number, pair: Biarc): number | null {
  const { law, spec, errorMm } = flank;
  const strayMm = STRAY_SHARE * errorMm;
  const bound = flankBounds(law, spec.baseRadiusMm, spec.follower).pointSecondMm;
  const steps = Math.ceil((from - to) * Math.sqrt(bound / (8 * strayMm)));
  const { first, second, joint } = pair;
  if (isPlainlyOff(flank, from, to, pair)) return null;
  const containsBase = first.kind === 'arc' && first.sweepRad > 0 && first.r >= spec.baseRadiusMm;
  let worst = 0;
  let a = surfaceAt(law, spec.baseRadiusMm, spec.follower, from);
  let aBefore = true;
  for (let k = 1; k <= steps; k++) {
    const psi = k === steps ? to : from + (k / steps) * (to - from);
    const b = surfaceAt(law, spec.baseRadiusMm, spec.follower, psi);
    const bBefore = (b.x - joint.x) * joint.tx + (b.y - joint.y) * joint.ty < 0;
    for (const piece of aBefore && bBefore ? [first] : aBefore || bBefore ? [first, second] : [second]) {
      const { least, most } = insideBy(piece, a.x, a.y, b.x, b.y);
      const onBase = psi >= law.openingRad && piece === first && containsBase;
      if ((!onBase && least - strayMm < ROUNDING_MM) || most + strayMm > errorMm) return null;
      worst = Math.max(worst, most + strayMm);
    }
    a = b;
    aBefore = bBefore;
  }
  return worst;
}

/** A quick look at a few places of the surface, to turn away most of what does not fit. */
function isPlainlyOff(flank: FlankToFit, from: number, to: number, { first, second, joint }: Biarc): boolean {
  for (let k = 1; k < QUICK_PLACES; k++) {
    const psi = from + (k / QUICK_PLACES) * (to - from);
    const p = surfaceAt(flank.law, flank.spec.baseRadiusMm, flank.spec.follower, psi);
    const before = (p.x - joint.x) * joint.tx + (p.y - joint.y) * joint.ty < 0;
    const { least, most } = insideBy(before ? first : second, p.x, p.y, p.x, p.y);
    if (least < -ROUNDING_MM || most > flank.errorMm) return true;
  }
  return false;
}

/** Bounds of how far the points of a chord lie on the material side of a piece. */
function insideBy(piece: Piece, ax: number, ay: number, bx: number, by: number): { least: number; most: number } {
  if (piece.kind === 'line') {
    const dx = piece.x1 - piece.x0;
    const dy = piece.y1 - piece.y0;
    const length = Math.hypot(dx, dy);
    const a = (dx * (ay - piece.y0) - dy * (ax - piece.x0)) / length;
    const b = (dx * (by - piece.y0) - dy * (bx - piece.x0)) / length;
    return { least: Math.min(a, b), most: Math.max(a, b) };
  }
  const { cx, cy, r } = piece;
  const far = Math.max(Math.hypot(ax - cx, ay - cy), Math.hypot(bx - cx, by - cy));
  const dx = bx - ax;
  const dy = by - ay;
  const chord2 = dx * dx + dy * dy;
  const along = chord2 > 0 ? Math.min(1, Math.max(0, ((cx - ax) * dx + (cy - ay) * dy) / chord2)) : 0;
  const near = Math.hypot(ax + along * dx - cx, ay + along * dy - cy);
  return piece.sweepRad > 0 ? { least: r - far, most: r - near } : { least: near - r, most: far - r };
}

/** The piece seen in the y axis, still running counterclockwise round the material. */
function mirrorPiece(piece: Piece): Piece {
  if (piece.kind === 'line') return { kind: 'line', x0: -piece.x1, y0: piece.y1, x1: -piece.x0, y1: piece.y0 };
  const startRad = Math.PI - (piece.startRad + piece.sweepRad);
  return { ...piece, cx: -piece.cx, startRad };
}

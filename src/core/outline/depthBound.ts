/**
 * The bound of depth.ts on how far the points of one cell can lie from the host's outline: through the place nearest to the cell's
 * middle, to second order. The formulas stand at the head of depth.ts.
 */
import type { FlatOutline } from './flat.ts';
import {
  ARCLEN,
  CONVEX,
  CORNER,
  CX,
  CY,
  E1X,
  E1Y,
  E2X,
  E2Y,
  LEN,
  LINE,
  NX,
  NY,
  R,
  STRIDE,
  TX,
  TY,
  X0,
  X1,
  Y0,
  Y1,
} from './flat.ts';
import type { NearestPlace } from './signedDistance.ts';

/** A joint that counts as smooth may turn the wrong way by rounding, worth less than this over any cell, mm. */
const SMOOTH_ROUNDING_MM = 1e-6;

/**
 * The same for a cell whose middle lies outside, at `sd` from the host: a bound on depth that may be negative, or infinite where the
 * host is not simple enough there.
 *
 * Within twice the stray of p0 let the host's outline be one piece, or two with a convex or smooth joint, lines and convex
 * arcs. Then the host's part in that disc is convex, and by the property of the nearest place o every point of it has n.(p - o) <= 0,
 * with n = (p0 - o) / sd. A point p = p0 + D of the cell that lies in the host leaves it on the way along n by -n.(p - o) at the
 * latest, and stays in the disc until then. So its depth is at most -sd - n.D <= -sd + |n.T| k + |n.V| h + |e|. A point outside is at least
 * n.(p - o) from that part and at least `stray` from what lies beyond the disc, which is why the bound is not below -stray.
 * One concave arc alone: depth is at most -f with f = R - |p - c|, the foot lying in the disc; second order in D as in depth.ts.
 */
export function outsideBound(
  host: FlatOutline,
  place: NearestPlace,
  px: number,
  py: number,
  sd: number,
  tx: number,
  ty: number,
  vx: number,
  vy: number,
  k: number,
  h: number,
  e: number,
  stray: number,
): number {
  const around = pieceAround(host, px, py, 2 * stray);
  if (around === NOT_SIMPLE || sd <= 0) return Number.POSITIVE_INFINITY;
  const nx = (px - place.x) / sd;
  const ny = (py - place.y) / sd;
  const second = Math.abs(nx * tx + ny * ty) * k + Math.abs(nx * vx + ny * vy) * h + e;
  if (around === CONVEX_THERE) return Math.max(-sd + second + SMOOTH_ROUNDING_MM, -stray);
  const o = around * STRIDE;
  const cx = px - host.at[o + CX]!;
  const cy = py - host.at[o + CY]!;
  const d = Math.sqrt(cx * cx + cy * cy);
  return Math.max(-sd + second + (stray * stray) / (2 * d), -stray);
}

const NOT_SIMPLE = -1;
const CONVEX_THERE = -2;

/** What the host's outline is within a distance of a point: convex, the index of a lone concave arc, or not simple. */
function pieceAround(f: FlatOutline, px: number, py: number, withinMm: number): number {
  const { at, kind, n } = f;
  let first = -1;
  let second = -1;
  for (let i = 0; i < n; i++) {
    if (!isWithin(f, i, px, py, withinMm)) continue;
    if (first < 0) first = i;
    else if (second < 0) second = i;
    else return NOT_SIMPLE;
  }
  if (first < 0) return NOT_SIMPLE;
  if (second < 0) {
    // Both its ends belong to its neighbours as well, which are not near.
    return isConvex(kind, first) ? CONVEX_THERE : first;
  }
  // The joint is the start of the later of the two: `second` after `first`, or `first` after the last.
  const joint = second === first + 1 ? second : first === 0 && second === n - 1 ? first : -1;
  if (joint < 0 || n < 3 || !isConvex(kind, first) || !isConvex(kind, second)) return NOT_SIMPLE;
  const o = joint * STRIDE;
  const dx = px - at[o + X0]!;
  const dy = py - at[o + Y0]!;
  return dx * dx + dy * dy <= withinMm * withinMm && at[o + CORNER]! >= 0 ? CONVEX_THERE : NOT_SIMPLE;
}

function isConvex(kind: Uint8Array, i: number): boolean {
  return kind[i] === LINE || kind[i] === CONVEX;
}

/** Whether a point is no farther than `withinMm` from one piece, its ends included; the box that holds the piece tells most apart. */
function isWithin(f: FlatOutline, i: number, px: number, py: number, withinMm: number): boolean {
  const { at, boxes, kind } = f;
  const b = 4 * i;
  const reach = withinMm * withinMm;
  const ex = Math.max(boxes[b]! - px, 0, px - boxes[b + 1]!);
  const ey = Math.max(boxes[b + 2]! - py, 0, py - boxes[b + 3]!);
  if (ex * ex + ey * ey > reach) return false;
  const o = i * STRIDE;
  const dx = px - at[o + X0]!;
  const dy = py - at[o + Y0]!;
  if (dx * dx + dy * dy <= reach) return true;
  const fx = px - at[o + X1]!;
  const fy = py - at[o + Y1]!;
  if (fx * fx + fy * fy <= reach) return true;
  if (kind[i] === LINE) {
    const t = dx * at[o + TX]! + dy * at[o + TY]!;
    return t > 0 && t < at[o + LEN]! && Math.abs(dx * at[o + NX]! + dy * at[o + NY]!) <= withinMm;
  }
  const ux = px - at[o + CX]!;
  const uy = py - at[o + CY]!;
  const inSector = ux * at[o + E1X]! + uy * at[o + E1Y]! < 0 && ux * at[o + E2X]! + uy * at[o + E2Y]! < 0;
  return inSector && Math.abs(Math.sqrt(ux * ux + uy * uy) - at[o + R]!) <= withinMm;
}

/** Bound on the distance of the cell's points to the host's outline, through the place nearest to p0 (see the head). */
export function reachBound(
  host: FlatOutline,
  place: NearestPlace,
  px: number,
  py: number,
  tx: number,
  ty: number,
  vx: number,
  vy: number,
  k: number,
  h: number,
  e: number,
  stray: number,
  near: number,
): number {
  const { at, kind } = host;
  const q = place.piece * STRIDE;
  if (!place.corner && kind[place.piece] === LINE) {
    const nx = at[q + NX]!;
    const ny = at[q + NY]!;
    const along = (px - at[q + X0]!) * at[q + TX]! + (py - at[q + Y0]!) * at[q + TY]!;
    if (along - stray >= 0 && along + stray <= at[q + LEN]!) {
      return near + Math.abs(nx * tx + ny * ty) * k + Math.abs(nx * vx + ny * vy) * h + e;
    }
    return Math.min(
      toCorner(px, py, at[q + X0]!, at[q + Y0]!, tx, ty, vx, vy, k, h, e, stray),
      toCorner(px, py, at[q + X1]!, at[q + Y1]!, tx, ty, vx, vy, k, h, e, stray),
      near + stray,
    );
  }
  if (!place.corner) {
    const ux = px - at[q + CX]!;
    const uy = py - at[q + CY]!;
    const d = Math.sqrt(ux * ux + uy * uy);
    const low = -(ux * at[q + E1X]! + uy * at[q + E1Y]!);
    const high = -(ux * at[q + E2X]! + uy * at[q + E2Y]!);
    // The arc's end comes at its low ray when it runs clockwise, at its high ray otherwise.
    const lowStep = kind[place.piece] === CONVEX ? -1 : 1;
    if (
      (low >= stray || runsOn(host, place.piece, lowStep, stray, d)) &&
      (high >= stray || runsOn(host, place.piece, -lowStep, stray, d))
    )
      return (
        near + (Math.abs(ux * tx + uy * ty) * k + Math.abs(ux * vx + uy * vy) * h) / d + e + (stray * stray) / (2 * d)
      );
    return near + stray;
  }
  return toCorner(px, py, at[q + X0]!, at[q + Y0]!, tx, ty, vx, vy, k, h, e, stray);
}

/** Two arcs this near to having one centre and one radius lie on one circle, mm. */
const SAME_CIRCLE_MM = 1e-10;

/**
 * Does the arc run on, beyond its end, along the same circle, for as long as the foot of a point at `d` from the centre that strays
 * by `stray` can need? The foot turns by asin(stray / d) at most, which is below 1.05 stray / d up to half of d.
 */
function runsOn(f: FlatOutline, piece: number, step: number, stray: number, d: number): boolean {
  const next = (piece + step + f.n) % f.n;
  if (f.kind[next] !== f.kind[piece] || stray > d / 2) return false;
  const o = piece * STRIDE;
  const q = next * STRIDE;
  const { at } = f;
  return (
    Math.abs(at[o + CX]! - at[q + CX]!) < SAME_CIRCLE_MM &&
    Math.abs(at[o + CY]! - at[q + CY]!) < SAME_CIRCLE_MM &&
    Math.abs(at[o + R]! - at[q + R]!) < SAME_CIRCLE_MM &&
    at[q + ARCLEN]! / at[q + R]! > (1.05 * stray) / d
  );
}

function toCorner(
  px: number,
  py: number,
  qx: number,
  qy: number,
  tx: number,
  ty: number,
  vx: number,
  vy: number,
  k: number,
  h: number,
  e: number,
  stray: number,
): number {
  const ux = px - qx;
  const uy = py - qy;
  const d = Math.sqrt(ux * ux + uy * uy);
  if (d <= stray) return d + stray;
  return d + (Math.abs(ux * tx + uy * ty) * k + Math.abs(ux * vx + uy * vy) * h) / d + e + (stray * stray) / (2 * d);
}

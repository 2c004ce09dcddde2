/**
 * The bound of depth.ts on how far the points of one cell can lie from the host's outline: through the place nearest to the cell's
 * middle, to second order. The formulas stand at the head of depth.ts.
 */
import type { FlatOutline } from './flat.ts';
import {
  ARCLEN,
  CONVEX,
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

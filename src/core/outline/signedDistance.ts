/**
 * How far a point is from an outline, and on which side: negative inside the material.
 *
 * The sign comes from the nearest place. On the inside of a piece it is the side of that piece. At a corner it is the
 * corner's own sign: a point whose nearest place is a convex corner is outside (were it inside, one of the two edges
 * would be nearer), and one whose nearest place is a reflex corner is inside, by the same argument. At a smooth joint
 * it is the side of the tangent line.
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
  Y0,
} from './flat.ts';

/** Nearest place: filled by signedDistance, in the outline's own frame. */
export interface NearestPlace {
  x: number;
  y: number;
  /** Index of the packed piece. */
  piece: number;
  /** True when the nearest place is the start corner of the piece. */
  corner: boolean;
}

/** Shared by callers that do not need the place twice; the values hold until the next call. */
export const nearestPlace: NearestPlace = { x: 0, y: 0, piece: 0, corner: false };

/**
 * Signed distance, mm, of a point (own frame of the outline) to the outline; negative inside. `out` takes the nearest
 * place on the outline.
 */
export function signedDistance(f: FlatOutline, px: number, py: number, out: NearestPlace): number {
  POINT[0] = px;
  POINT[1] = py;
  distanceOfPoint(f, out);
  return POINT[2]!;
}

/** The point of `distanceOfPoint`, own frame of the outline, and its answer. */
export const POINT = new Float64Array(3);

/** The same for the point in POINT, for hot loops: numbers handed over or returned may be new objects each time. */
export function distanceOfPoint(f: FlatOutline, out: NearestPlace): void {
  const { at, kind, n } = f;
  const px = POINT[0]!;
  const py = POINT[1]!;
  let best = Number.POSITIVE_INFINITY;
  let sign = 1;
  let piece = 0;
  let corner = false;
  for (let i = 0; i < n; i++) {
    const o = i * STRIDE;
    const dx = px - at[o + X0]!;
    const dy = py - at[o + Y0]!;
    const cornerDist = Math.sqrt(dx * dx + dy * dy);
    if (cornerDist < best) {
      best = cornerDist;
      piece = i;
      corner = true;
    }
    if (kind[i] === LINE) {
      const t = dx * at[o + TX]! + dy * at[o + TY]!;
      if (t > 0 && t < at[o + LEN]!) {
        const side = dx * at[o + NX]! + dy * at[o + NY]!;
        const d = Math.abs(side);
        if (d <= best) {
          best = d;
          piece = i;
          corner = false;
          sign = side < 0 ? -1 : 1;
        }
      }
    } else {
      const ux = px - at[o + CX]!;
      const uy = py - at[o + CY]!;
      if (ux * at[o + E1X]! + uy * at[o + E1Y]! < 0 && ux * at[o + E2X]! + uy * at[o + E2Y]! < 0) {
        const beyond = Math.sqrt(ux * ux + uy * uy) - at[o + R]!;
        const d = Math.abs(beyond);
        if (d <= best) {
          best = d;
          piece = i;
          corner = false;
          sign = beyond < 0 === (kind[i] === CONVEX) ? -1 : 1;
        }
      }
    }
  }
  const o = piece * STRIDE;
  out.piece = piece;
  out.corner = corner;
  if (corner) {
    out.x = at[o + X0]!;
    out.y = at[o + Y0]!;
    sign = at[o + CORNER]!;
    if (sign === 0) sign = sideOfSmoothJoint(f, piece, px, py);
  } else if (kind[piece] === LINE) {
    const t = (px - at[o + X0]!) * at[o + TX]! + (py - at[o + Y0]!) * at[o + TY]!;
    out.x = at[o + X0]! + t * at[o + TX]!;
    out.y = at[o + Y0]! + t * at[o + TY]!;
  } else {
    const ux = px - at[o + CX]!;
    const uy = py - at[o + CY]!;
    const len = Math.sqrt(ux * ux + uy * uy);
    out.x = at[o + CX]! + (ux / len) * at[o + R]!;
    out.y = at[o + CY]! + (uy / len) * at[o + R]!;
  }
  POINT[2] = sign * best;
}

function sideOfSmoothJoint(f: FlatOutline, piece: number, px: number, py: number): number {
  const { at, kind } = f;
  const o = piece * STRIDE;
  const dx = px - at[o + X0]!;
  const dy = py - at[o + Y0]!;
  if (kind[piece] === LINE) return dx * at[o + NX]! + dy * at[o + NY]! < 0 ? -1 : 1;
  const outward = kind[piece] === CONVEX ? 1 : -1;
  const nx = (outward * (at[o + X0]! - at[o + CX]!)) / at[o + R]!;
  const ny = (outward * (at[o + Y0]! - at[o + CY]!)) / at[o + R]!;
  return dx * nx + dy * ny < 0 ? -1 : 1;
}

/** The point at arc length `s` (mm, from its start) of a packed piece, own frame. */
export function pointOnPiece(f: FlatOutline, piece: number, s: number, out: { x: number; y: number }): void {
  const { at, kind } = f;
  const o = piece * STRIDE;
  if (kind[piece] === LINE) {
    out.x = at[o + X0]! + s * at[o + TX]!;
    out.y = at[o + Y0]! + s * at[o + TY]!;
    return;
  }
  const r = at[o + R]!;
  const turn = (kind[piece] === CONVEX ? s : -s) / r;
  const c = Math.cos(turn);
  const sn = Math.sin(turn);
  const ux = at[o + X0]! - at[o + CX]!;
  const uy = at[o + Y0]! - at[o + CY]!;
  out.x = at[o + CX]! + c * ux - sn * uy;
  out.y = at[o + CY]! + sn * ux + c * uy;
}

/** Length, mm, of a packed piece. */
export function pieceLengthMm(f: FlatOutline, piece: number): number {
  return f.at[piece * STRIDE + ARCLEN]!;
}

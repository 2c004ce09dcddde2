/**
 * Two circular arcs, joined without a kink, between two points with given directions.
 *
 * One parameter is free: the ratio k of the tangent length at the far end to that, d, at the near one. With v = P1 - P0,
 * |P1 - k d T1 - P0 - d T0| = d + k d gives 2 k (1 - T0.T1) d^2 + 2 d v.(T0 + k T1) - v.v = 0, solved in the form that does
 * not cancel. The joint divides the line between the two tangent ends as 1 : k. Source: the standard construction, as in Bolton, "Biarc curves", Computer-Aided
 * Design 7 (1975), from memory; the tests check the joint and its tangent from scratch.
 */
import type { Piece } from '../outline/outline.ts';

/** A point and a unit direction of travel. */
export interface Ray {
  readonly x: number;
  readonly y: number;
  readonly tx: number;
  readonly ty: number;
}

export interface Biarc {
  readonly first: Piece;
  readonly second: Piece;
  readonly joint: Ray;
}

/** Null when no such pair exists going forward: the directions point against each other. `ratio` above 0; 1 makes both tangent lengths equal. */
export function biarc(from: Ray, to: Ray, ratio: number): Biarc | null {
  const vx = to.x - from.x;
  const vy = to.y - from.y;
  const vv = vx * vx + vy * vy;
  const vt = vx * (from.tx + ratio * to.tx) + vy * (from.ty + ratio * to.ty);
  // 1 - T0.T1 as half the square of their difference, exact for near-parallel directions.
  const apart = ((from.tx - to.tx) ** 2 + (from.ty - to.ty) ** 2) / 2;
  const d = vv / (vt + Math.sqrt(vt * vt + 2 * ratio * apart * vv));
  if (!(d > 0 && Number.isFinite(d))) return null;
  const ax = from.x + d * from.tx;
  const ay = from.y + d * from.ty;
  const bx = to.x - ratio * d * to.tx;
  const by = to.y - ratio * d * to.ty;
  const length = Math.hypot(bx - ax, by - ay);
  if (!(length > 0)) return null;
  const part = 1 / (1 + ratio);
  const joint: Ray = {
    x: ax + part * (bx - ax),
    y: ay + part * (by - ay),
    tx: (bx - ax) / length,
    ty: (by - ay) / length,
  };
  const first = arcAlong(from, joint.x, joint.y);
  const second = arcAlong(joint, to.x, to.y);
  return { first, second, joint };
}

/** An arc flatter than this is written as its chord: its centre, so far away, would cost more by rounding than it is worth. */
const FLATTEST_RADIUS_MM = 1e6;

/** The arc that leaves along the ray and ends at (x, y); a line when it is straight or all but straight. */
function arcAlong(ray: Ray, x: number, y: number): Piece {
  const wx = x - ray.x;
  const wy = y - ray.y;
  const forward = ray.tx * wx + ray.ty * wy;
  const left = ray.tx * wy - ray.ty * wx;
  // Positive to the left: the centre lies at this distance along the left normal (-ty, tx).
  const radius = (wx * wx + wy * wy) / (2 * left);
  if (!(Math.abs(radius) < FLATTEST_RADIUS_MM)) return { kind: 'line', x0: ray.x, y0: ray.y, x1: x, y1: y };
  const cx = ray.x - radius * ray.ty;
  const cy = ray.y + radius * ray.tx;
  return {
    kind: 'arc',
    cx,
    cy,
    r: Math.abs(radius),
    startRad: Math.atan2(ray.y - cy, ray.x - cx),
    sweepRad: 2 * Math.atan2(left, forward),
  };
}

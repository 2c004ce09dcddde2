/** Candidates of probe.ts between round pieces and corners: two discs side by side, or one inside a concave arc. */
import { CENTRE_REACH, CONCAVE, CONVEX, CX, CY, R } from './flat.ts';
import {
  ACCEL_A,
  ACCEL_B,
  ACCEL_REACH_A,
  ACCEL_REACH_B,
  BACK,
  FORWARD,
  GAP,
  limit,
  outsideSector,
  rate,
  record,
  SHIFT_X,
  SHIFT_Y,
  SPEED_A,
  SPEED_B,
  SPIN_A,
  SPIN_B,
  sectorSpeed,
  speed,
  TARGET,
  W,
} from './probeWork.ts';

/**
 * Disc of A (centre ax, ay; radius ra) beside disc of B. `o`, `q`: places, in `ta` and `tb`, of the arcs they belong to, whose
 * sectors the direction must lie in; -1 for a corner. Without `steps` only the distance is asked for.
 */
export function sideBySide(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  ta: Float64Array,
  o: number,
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  tb: Float64Array,
  q: number,
  steps: boolean,
): void {
  const px = ax - bx;
  const py = ay - by;
  const d2 = px * px + py * py;
  const radii = ra + rb;
  if (!steps) {
    const near = W[GAP]! + radii;
    if (d2 >= near * near) return;
  }
  const d = Math.sqrt(d2);
  const f = d - radii;
  const acc = steps ? W[ACCEL_A]! + W[ACCEL_REACH_A]! * reachA + W[ACCEL_B]! + W[ACCEL_REACH_B]! * reachB : 0;
  // Far enough whichever way it moves: the speed is then at most v.
  const v = steps ? speed(reachA, reachB) : 0;
  if (f >= W[GAP]!) {
    const h = Math.max(W[FORWARD]!, W[BACK]!);
    if (f - W[TARGET]! >= v * h) return;
  }
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  let margin = -1;
  if (q >= 0) margin = Math.max(margin, outsideSector(tb, q, px, py));
  if (o >= 0) margin = Math.max(margin, outsideSector(ta, o, -px, -py));
  const counts = margin <= 0 && f >= 0 && f < W[GAP]!;
  if (!counts && !steps) return;
  const slope = rate(nx, ny, ax, ay);
  if (counts) record(f, slope, ax - nx * ra, ay - ny * ra, bx + nx * rb, by + ny * rb);
  if (steps) limit(f, slope, acc, margin, sectorSpeed(v, d), 0);
}

/** Disc of A against a piece of B that is an arc: side by side, or inside a concave one. */
export function discAndArcOfB(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  ta: Float64Array,
  o: number,
  kindB: number,
  tb: Float64Array,
  q: number,
  steps: boolean,
): void {
  const bx = tb[q + CX]!;
  const by = tb[q + CY]!;
  const reachB = tb[q + CENTRE_REACH]!;
  if (kindB === CONVEX) sideBySide(ax, ay, ra, reachA, ta, o, bx, by, tb[q + R]!, reachB, tb, q, steps);
  else oneInside(ax, ay, ra, reachA, ta, o, bx, by, tb[q + R]!, reachB, tb, q, steps, false);
}

/** Disc of B against a piece of A that is an arc. */
export function discAndArcOfA(
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  tb: Float64Array,
  q: number,
  kindA: number,
  ta: Float64Array,
  o: number,
  steps: boolean,
): void {
  const reachA = ta[o + CENTRE_REACH]!;
  const ax = ta[o + CX]!;
  const ay = ta[o + CY]!;
  if (kindA === CONVEX) sideBySide(ax, ay, ta[o + R]!, reachA, ta, o, bx, by, rb, reachB, tb, q, steps);
  else if (kindA === CONCAVE) oneInside(ax, ay, ta[o + R]!, reachA, ta, o, bx, by, rb, reachB, tb, q, steps, true);
}

/** One disc inside the circle of the other's concave arc. */
function oneInside(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  ta: Float64Array,
  o: number,
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  tb: Float64Array,
  q: number,
  steps: boolean,
  outerIsA: boolean,
): void {
  const room = outerIsA ? ra - rb : rb - ra;
  if (room <= 0) return;
  const px = ax - bx;
  const py = ay - by;
  const d = Math.sqrt(px * px + py * py);
  const f = room - d;
  const v = steps ? speed(reachA, reachB) : 0;
  if (f >= W[GAP]! && f - W[TARGET]! >= v * Math.max(W[FORWARD]!, W[BACK]!)) return;
  // Direction, from the outer centre, in which the inner disc stands nearest.
  const mx = outerIsA ? -px : px;
  const my = outerIsA ? -py : py;
  let margin = -1;
  if (o >= 0) margin = Math.max(margin, outsideSector(ta, o, mx, my));
  if (q >= 0) margin = Math.max(margin, outsideSector(tb, q, mx, my));
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  const slope = -rate(nx, ny, ax, ay);
  // Concentric: every direction is as near, and the corners of the arcs that face each other tell of it.
  if (margin <= 0 && f >= 0 && f < W[GAP]! && d > 0) {
    const ux = mx / d;
    const uy = my / d;
    record(f, slope, ax + ux * ra, ay + uy * ra, bx + ux * rb, by + uy * rb);
  }
  if (!steps) return;
  // However the inner body turns about its own origin, its disc stays within the circle it sweeps.
  const fromX = outerIsA ? ax : W[SHIFT_X]! - bx;
  const fromY = outerIsA ? ay : W[SHIFT_Y]! - by;
  const swept = room - (outerIsA ? reachB : reachA) - Math.sqrt(fromX * fromX + fromY * fromY);
  const shift = W[SPEED_A]! + W[SPEED_B]! + (outerIsA ? W[SPIN_A]! * reachA : W[SPIN_B]! * reachB);
  const free = swept - W[TARGET]!;
  let safe = free <= 0 ? 0 : shift === 0 ? Number.POSITIVE_INFINITY : free / shift;
  if (f > W[TARGET]!) safe = Math.max(safe, v === 0 ? Number.POSITIVE_INFINITY : (f - W[TARGET]!) / v);
  const forward = W[FORWARD]!;
  const back = W[BACK]!;
  if (d > 0 && v > 0) {
    // While |P| keeps above half of what it is now, |P|'' <= A + v^2 / (|P| / 2).
    const held = d / (2 * v);
    const acc = W[ACCEL_A]! + W[ACCEL_REACH_A]! * reachA + W[ACCEL_B]! + W[ACCEL_REACH_B]! * reachB;
    limit(f, slope, acc + (2 * v * v) / d, margin, sectorSpeed(v, d), safe);
    const longest = Math.max(safe, held);
    if (W[FORWARD]! > longest || W[BACK]! > longest) limit(Math.min(f, 0), 0, 0, margin, sectorSpeed(v, d), longest);
    return;
  }
  if (safe < forward || safe < back) limit(Math.min(f, 0), 0, 0, margin, sectorSpeed(v, d), safe);
}

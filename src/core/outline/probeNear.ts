/**
 * The candidates of probe.ts between one piece of A and one of B, where only the distance is asked for: the same as in probeDiscs.ts and
 * probeLines.ts, told apart by squares first, so that few take a root. How fast a distance changes is worked out for the nearest alone (probe.ts).
 *
 * A disc is a corner, of radius 0, or the circle of a convex arc, whose sector its foot must lie in.
 */
import type { FlatOutline } from './flat.ts';
import { CONCAVE, CONVEX, CORNER, CX, CY, E1X, E1Y, E2X, E2Y, LEN, LINE, NX, NY, R, STRIDE, TX, TY } from './flat.ts';
import { AX, AY, GAP, NEAR_A, NEAR_B, PBX, PBY, SQUARE_X, SQUARE_Y, W } from './probeWork.ts';

/** Of piece i of A, carried into B's frame in `ta`, with piece j of B. End corners belong to the next pieces; reflex corners are left out. */
export function nearer(fa: FlatOutline, ta: Float64Array, i: number, fb: FlatOutline, j: number): void {
  const tb = fb.at;
  const o = i * STRIDE;
  const q = j * STRIDE;
  const kindA = fa.kind[i]!;
  const kindB = fb.kind[j]!;
  const before = W[GAP]!;
  const cornerA = fa.at[o + CORNER]! >= 0;
  const cornerB = tb[q + CORNER]! >= 0;
  if (cornerA) {
    const x = ta[o]!;
    const y = ta[o + 1]!;
    if (cornerB) {
      const px = x - tb[q]!;
      const py = y - tb[q + 1]!;
      const d2 = px * px + py * py;
      const gap = W[GAP]!;
      if (d2 < gap * gap) apart(px, py, d2, x, y, 0, 0);
    }
    if (kindB === LINE) onLineOfB(x, y, 0, tb, q);
    else if (kindB === CONVEX) {
      const px = x - tb[q + CX]!;
      const py = y - tb[q + CY]!;
      const rb = tb[q + R]!;
      const d2 = px * px + py * py;
      const near = W[GAP]! + rb;
      if (d2 < near * near && d2 >= rb * rb && within(tb, q, px, py)) apart(px, py, d2, x, y, 0, rb);
    } else inside(x, y, 0, tb, q, ta, o, 1);
  }
  if (cornerB) {
    const x = tb[q]!;
    const y = tb[q + 1]!;
    if (kindA === LINE) onLineOfA(x, y, 0, ta, o);
    else if (kindA === CONVEX) {
      const ax = ta[o + CX]!;
      const ay = ta[o + CY]!;
      const px = ax - x;
      const py = ay - y;
      const ra = ta[o + R]!;
      const d2 = px * px + py * py;
      const near = W[GAP]! + ra;
      if (d2 < near * near && d2 >= ra * ra && within(ta, o, -px, -py)) apart(px, py, d2, ax, ay, ra, 0);
    } else inside(x, y, 0, ta, o, tb, q, -1);
  }
  if (kindA === CONVEX) {
    const ax = ta[o + CX]!;
    const ay = ta[o + CY]!;
    const ra = ta[o + R]!;
    if (kindB === LINE) {
      if (within(ta, o, -tb[q + NX]!, -tb[q + NY]!)) onLineOfB(ax, ay, ra, tb, q);
    } else if (kindB === CONVEX) {
      const px = ax - tb[q + CX]!;
      const py = ay - tb[q + CY]!;
      const rb = tb[q + R]!;
      const d2 = px * px + py * py;
      const radii = ra + rb;
      const near = W[GAP]! + radii;
      if (d2 < near * near && d2 >= radii * radii && within(tb, q, px, py) && within(ta, o, -px, -py))
        apart(px, py, d2, ax, ay, ra, rb);
    } else inside(ax, ay, ra, tb, q, ta, o, 1);
  } else if (kindB === CONVEX) {
    if (kindA === LINE) {
      if (within(tb, q, -ta[o + NX]!, -ta[o + NY]!)) onLineOfA(tb[q + CX]!, tb[q + CY]!, tb[q + R]!, ta, o);
    } else if (kindA === CONCAVE) inside(tb[q + CX]!, tb[q + CY]!, tb[q + R]!, ta, o, tb, q, -1);
  }
  if (W[GAP]! < before) {
    W[NEAR_A] = i;
    W[NEAR_B] = j;
  }
}

/** Whether a direction lies within the arc's sector. */
function within(t: Float64Array, o: number, ux: number, uy: number): boolean {
  return ux * t[o + E1X]! + uy * t[o + E1Y]! <= 0 && ux * t[o + E2X]! + uy * t[o + E2Y]! <= 0;
}

/** Keeps two discs side by side: (px, py) from B's centre to A's at (ax, ay), of square d2. */
function apart(px: number, py: number, d2: number, ax: number, ay: number, ra: number, rb: number): void {
  const d = Math.sqrt(d2);
  const f = d - ra - rb;
  if (!(f >= 0 && f < W[GAP]!)) return;
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  keep(f, nx, ny, ax - nx * ra, ay - ny * ra, ax - nx * (ra + f), ay - ny * (ra + f));
}

/** A disc of A before a line of B. */
function onLineOfB(ax: number, ay: number, ra: number, tb: Float64Array, q: number): void {
  const nx = tb[q + NX]!;
  const ny = tb[q + NY]!;
  const dx = ax - tb[q]!;
  const dy = ay - tb[q + 1]!;
  const f = dx * nx + dy * ny - ra;
  if (!(f >= 0 && f < W[GAP]!)) return;
  const along = dx * tb[q + TX]! + dy * tb[q + TY]!;
  if (along < 0 || along > tb[q + LEN]!) return;
  keep(f, nx, ny, ax - nx * ra, ay - ny * ra, ax - nx * (ra + f), ay - ny * (ra + f));
}

/** A disc of B before a line of A. */
function onLineOfA(bx: number, by: number, rb: number, ta: Float64Array, o: number): void {
  const nx = ta[o + NX]!;
  const ny = ta[o + NY]!;
  const dx = bx - ta[o]!;
  const dy = by - ta[o + 1]!;
  const f = dx * nx + dy * ny - rb;
  if (!(f >= 0 && f < W[GAP]!)) return;
  const along = dx * ta[o + TX]! + dy * ta[o + TY]!;
  if (along < 0 || along > ta[o + LEN]!) return;
  keep(f, -nx, -ny, bx - nx * (rb + f), by - ny * (rb + f), bx - nx * rb, by - ny * rb);
}

/**
 * The disc of radius r about (x, y) inside the concave arc packed at `o` of `t`; with r above 0 it is the circle of the arc packed at `p` of `s`.
 * `side`: 1 where the disc is A's, -1 where it is B's.
 */
function inside(
  x: number,
  y: number,
  r: number,
  t: Float64Array,
  o: number,
  s: Float64Array,
  p: number,
  side: number,
): void {
  const cx = t[o + CX]!;
  const cy = t[o + CY]!;
  const room = t[o + R]! - r;
  if (room <= 0) return;
  const ux = x - cx;
  const uy = y - cy;
  const d2 = ux * ux + uy * uy;
  const least = room - W[GAP]!;
  // Concentric: every direction is as near, and the corners of the arcs that face each other tell of it.
  if (d2 > room * room || d2 === 0 || (least > 0 && d2 <= least * least)) return;
  if (!within(t, o, ux, uy) || (r > 0 && !within(s, p, ux, uy))) return;
  const d = Math.sqrt(d2);
  const f = room - d;
  if (!(f >= 0 && f < W[GAP]!)) return;
  const nx = ux / d;
  const ny = uy / d;
  const ix = x + nx * r;
  const iy = y + ny * r;
  const ex = x + nx * (r + f);
  const ey = y + ny * (r + f);
  if (side > 0) keep(f, -nx, -ny, ix, iy, ex, ey);
  else keep(f, nx, ny, ex, ey, ix, iy);
}

/** (nx, ny): the way from B to A. */
function keep(f: number, nx: number, ny: number, ax: number, ay: number, bx: number, by: number): void {
  W[GAP] = f;
  W[SQUARE_X] = nx;
  W[SQUARE_Y] = ny;
  W[AX] = ax;
  W[AY] = ay;
  W[PBX] = bx;
  W[PBY] = by;
}

/** Candidates of probe.ts with a straight piece: a disc (corner or convex arc) against a line. */
import { LEN, NX, NY, TX, TY, X0, Y0 } from './flat.ts';
import {
  accelInA,
  accelInB,
  GAP,
  LONGEST_STEP_RAD,
  limit,
  outsideSector,
  rate,
  record,
  SHIFT_X,
  SHIFT_Y,
  SPIN_A,
  SPIN_B,
  speed,
  W,
} from './probeWork.ts';

/** Disc of A against a line of B, in B's frame. `o`: the arc of A, in `ta`, that the disc belongs to, or -1 for a corner. */
export function discAndLineOfB(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  ta: Float64Array,
  o: number,
  tb: Float64Array,
  q: number,
  steps: boolean,
): void {
  const nx = tb[q + NX]!;
  const ny = tb[q + NY]!;
  const dx = ax - tb[q + X0]!;
  const dy = ay - tb[q + Y0]!;
  const f = dx * nx + dy * ny - ra;
  if (f >= W[GAP]! && !steps) return;
  const along = dx * tb[q + TX]! + dy * tb[q + TY]!;
  let margin = Math.max(-along, along - tb[q + LEN]!);
  if (margin > 0 && !steps) return;
  if (o >= 0) margin = Math.max(margin, outsideSector(ta, o, -nx * ra, -ny * ra));
  const counts = margin <= 0 && f >= 0 && f < W[GAP]!;
  if (!counts && !steps) return;
  const slope = rate(nx, ny, ax, ay);
  if (counts) record(f, slope, ax - nx * ra, ay - ny * ra, ax - nx * (ra + f), ay - ny * (ra + f));
  if (!steps) return;
  // What adds to the speed in a turning line's own frame, and how far the foot slides as the disc's sector turns.
  const v = speed(reachA, 0);
  const spin = W[SPIN_B]!;
  const fromB = spin === 0 ? 0 : Math.sqrt(ax * ax + ay * ay);
  const slide = v + spin * (fromB + v * LONGEST_STEP_RAD) + (W[SPIN_A]! + spin) * ra;
  limit(f, slope, accelInB(reachA, fromB), margin, slide, 0);
}

/** Disc of B against a line of A: the same in A's frame, with the bodies' parts exchanged. */
export function discAndLineOfA(
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  tb: Float64Array,
  q: number,
  ta: Float64Array,
  o: number,
  steps: boolean,
): void {
  const nx = ta[o + NX]!;
  const ny = ta[o + NY]!;
  const dx = bx - ta[o + X0]!;
  const dy = by - ta[o + Y0]!;
  const f = dx * nx + dy * ny - rb;
  if (f >= W[GAP]! && !steps) return;
  const along = dx * ta[o + TX]! + dy * ta[o + TY]!;
  let margin = Math.max(-along, along - ta[o + LEN]!);
  if (margin > 0 && !steps) return;
  if (q >= 0) margin = Math.max(margin, outsideSector(tb, q, -nx * rb, -ny * rb));
  const counts = margin <= 0 && f >= 0 && f < W[GAP]!;
  if (!counts && !steps) return;
  // The disc of B moves against A's body at minus the speed of A's point there.
  const slope = -rate(nx, ny, bx, by);
  if (counts) record(f, slope, bx - nx * (rb + f), by - ny * (rb + f), bx - nx * rb, by - ny * rb);
  if (!steps) return;
  const v = speed(0, reachB);
  const spin = W[SPIN_A]!;
  const fromX = bx - W[SHIFT_X]!;
  const fromY = by - W[SHIFT_Y]!;
  const fromA = spin === 0 ? 0 : Math.sqrt(fromX * fromX + fromY * fromY);
  const slide = v + spin * (fromA + v * LONGEST_STEP_RAD) + (W[SPIN_B]! + spin) * rb;
  limit(f, slope, accelInA(reachB, fromA), margin, slide, 0);
}

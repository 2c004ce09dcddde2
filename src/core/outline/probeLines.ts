/** Candidates of probe.ts with a straight piece: a disc (0 the start corner of its piece, 1 the circle of a convex arc) against a line. */
import { CORNER_REACH, E1X, E1Y, E2X, E2Y, LEN, NX, NY, R, TX, TY, X0, Y0 } from './flat.ts';
import {
  AX,
  AY,
  accelInA,
  accelInB,
  CURVE,
  DRIFT,
  DSHIFT_X,
  DSHIFT_Y,
  DTURN,
  GAP,
  LONGEST_STEP_RAD,
  limit,
  MARGIN,
  NEAR_A,
  NEAR_B,
  NOW_A,
  NOW_B,
  PBX,
  PBY,
  RATE,
  SAFE,
  SHIFT_X,
  SHIFT_Y,
  SLOPE,
  SPEED,
  SPIN_A,
  SPIN_B,
  VALUE,
  W,
} from './probeWork.ts';

/** Disc of A against a line of B, in B's frame. */
export function discAndLineOfB(
  ta: Float64Array,
  o: number,
  arcA: number,
  tb: Float64Array,
  q: number,
  steps: boolean,
): void {
  const ax = ta[o + 2 * arcA]!;
  const ay = ta[o + 2 * arcA + 1]!;
  const ra = arcA * ta[o + R]!;
  const nx = tb[q + NX]!;
  const ny = tb[q + NY]!;
  const dx = ax - tb[q + X0]!;
  const dy = ay - tb[q + Y0]!;
  const f = dx * nx + dy * ny - ra;
  const nearer = f < W[GAP]!;
  if (!nearer && !steps) return;
  const along = dx * tb[q + TX]! + dy * tb[q + TY]!;
  let margin = Math.max(-along, along - tb[q + LEN]!);
  if (arcA !== 0)
    margin = Math.max(
      margin,
      Math.max(
        -(nx * ra) * ta[o + E1X]! + -(ny * ra) * ta[o + E1Y]!,
        -(nx * ra) * ta[o + E2X]! + -(ny * ra) * ta[o + E2Y]!,
      ),
    );
  const counts = nearer && margin <= 0 && f >= 0;
  if (!counts && !steps) return;
  const slope =
    nx * (W[DSHIFT_X]! + W[DTURN]! * (ay - W[SHIFT_Y]!)) + ny * (W[DSHIFT_Y]! - W[DTURN]! * (ax - W[SHIFT_X]!));
  if (counts) {
    W[GAP] = f;
    W[SLOPE] = slope;
    W[AX] = ax - nx * ra;
    W[AY] = ay - ny * ra;
    W[PBX] = ax - nx * (ra + f);
    W[PBY] = ay - ny * (ra + f);
    W[NEAR_A] = W[NOW_A]!;
    W[NEAR_B] = W[NOW_B]!;
  }
  if (!steps) return;
  // What adds to the speed in a turning line's own frame, and how far the foot slides as the disc's sector turns.
  const reachA = ta[o + CORNER_REACH + arcA]!;
  const v = W[SPEED]! + W[SPIN_A]! * reachA;
  const spin = W[SPIN_B]!;
  const fromB = spin === 0 ? 0 : Math.sqrt(ax * ax + ay * ay);
  W[VALUE] = f;
  W[RATE] = slope;
  W[CURVE] = accelInB(reachA, fromB);
  W[MARGIN] = margin;
  W[DRIFT] = v + spin * (fromB + v * LONGEST_STEP_RAD) + (W[SPIN_A]! + spin) * ra;
  W[SAFE] = 0;
  limit();
}

/** Disc of B against a line of A: the same in A's frame, with the bodies' parts exchanged. */
export function discAndLineOfA(
  tb: Float64Array,
  q: number,
  arcB: number,
  ta: Float64Array,
  o: number,
  steps: boolean,
): void {
  const bx = tb[q + 2 * arcB]!;
  const by = tb[q + 2 * arcB + 1]!;
  const rb = arcB * tb[q + R]!;
  const nx = ta[o + NX]!;
  const ny = ta[o + NY]!;
  const dx = bx - ta[o + X0]!;
  const dy = by - ta[o + Y0]!;
  const f = dx * nx + dy * ny - rb;
  const nearer = f < W[GAP]!;
  if (!nearer && !steps) return;
  const along = dx * ta[o + TX]! + dy * ta[o + TY]!;
  let margin = Math.max(-along, along - ta[o + LEN]!);
  if (arcB !== 0)
    margin = Math.max(
      margin,
      Math.max(
        -(nx * rb) * tb[q + E1X]! + -(ny * rb) * tb[q + E1Y]!,
        -(nx * rb) * tb[q + E2X]! + -(ny * rb) * tb[q + E2Y]!,
      ),
    );
  const counts = nearer && margin <= 0 && f >= 0;
  if (!counts && !steps) return;
  // The disc of B moves against A's body at minus the speed of A's point there.
  const slope = -(
    nx * (W[DSHIFT_X]! + W[DTURN]! * (by - W[SHIFT_Y]!)) +
    ny * (W[DSHIFT_Y]! - W[DTURN]! * (bx - W[SHIFT_X]!))
  );
  if (counts) {
    W[GAP] = f;
    W[SLOPE] = slope;
    W[AX] = bx - nx * (rb + f);
    W[AY] = by - ny * (rb + f);
    W[PBX] = bx - nx * rb;
    W[PBY] = by - ny * rb;
    W[NEAR_A] = W[NOW_A]!;
    W[NEAR_B] = W[NOW_B]!;
  }
  if (!steps) return;
  const reachB = tb[q + CORNER_REACH + arcB]!;
  const v = W[SPEED]! + W[SPIN_B]! * reachB;
  const spin = W[SPIN_A]!;
  const fromX = bx - W[SHIFT_X]!;
  const fromY = by - W[SHIFT_Y]!;
  const fromA = spin === 0 ? 0 : Math.sqrt(fromX * fromX + fromY * fromY);
  W[VALUE] = f;
  W[RATE] = slope;
  W[CURVE] = accelInA(reachB, fromA);
  W[MARGIN] = margin;
  W[DRIFT] = v + spin * (fromA + v * LONGEST_STEP_RAD) + (W[SPIN_B]! + spin) * rb;
  W[SAFE] = 0;
  limit();
}

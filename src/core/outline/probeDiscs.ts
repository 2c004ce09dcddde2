/**
 * Candidates of probe.ts between round pieces and corners: two discs side by side, or one inside a concave arc. A disc is told by the
 * place of its piece in `ta` or `tb` and by what it is: 0 the start corner, of radius 0; 1 the circle of a convex arc, whose sector the
 * direction must lie in.
 */
import { CENTRE_REACH, CORNER_REACH, CX, CY, E1X, E1Y, E2X, E2Y, R } from './flat.ts';
import {
  ACCEL_A,
  ACCEL_B,
  ACCEL_REACH_A,
  ACCEL_REACH_B,
  AX,
  AY,
  BACK,
  CURVE,
  DRIFT,
  DSHIFT_X,
  DSHIFT_Y,
  DTURN,
  FORWARD,
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
  SPEED_A,
  SPEED_B,
  SPIN_A,
  SPIN_B,
  TARGET,
  VALUE,
  W,
} from './probeWork.ts';

/** Disc of A beside disc of B. Without `steps` only the distance is asked for. */
export function sideBySide(
  ta: Float64Array,
  o: number,
  arcA: number,
  tb: Float64Array,
  q: number,
  arcB: number,
  steps: boolean,
): void {
  const ax = ta[o + 2 * arcA]!;
  const ay = ta[o + 2 * arcA + 1]!;
  const ra = arcA * ta[o + R]!;
  const rb = arcB * tb[q + R]!;
  const px = ax - tb[q + 2 * arcB]!;
  const py = ay - tb[q + 2 * arcB + 1]!;
  const d2 = px * px + py * py;
  const near = W[GAP]! + ra + rb;
  const nearer = d2 < near * near;
  if (!nearer && !steps) return;
  const d = Math.sqrt(d2);
  const f = d - ra - rb;
  const reachA = ta[o + CORNER_REACH + arcA]!;
  const reachB = tb[q + CORNER_REACH + arcB]!;
  const v = steps ? W[SPEED]! + W[SPIN_A]! * reachA + W[SPIN_B]! * reachB : 0;
  // Far enough whichever way it moves.
  if (!nearer && f - W[TARGET]! >= v * Math.max(W[FORWARD]!, W[BACK]!)) return;
  let margin = -1;
  if (arcB !== 0)
    margin = Math.max(margin, Math.max(px * tb[q + E1X]! + py * tb[q + E1Y]!, px * tb[q + E2X]! + py * tb[q + E2Y]!));
  if (arcA !== 0)
    margin = Math.max(
      margin,
      Math.max(-px * ta[o + E1X]! + -py * ta[o + E1Y]!, -px * ta[o + E2X]! + -py * ta[o + E2Y]!),
    );
  const counts = nearer && margin <= 0 && f >= 0;
  if (!counts && !steps) return;
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
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
  W[VALUE] = f;
  W[RATE] = slope;
  W[CURVE] = W[ACCEL_A]! + W[ACCEL_REACH_A]! * reachA + W[ACCEL_B]! + W[ACCEL_REACH_B]! * reachB;
  W[MARGIN] = margin;
  W[DRIFT] = v + (W[SPIN_A]! + W[SPIN_B]!) * (d + v * LONGEST_STEP_RAD);
  W[SAFE] = 0;
  limit();
}

/** Disc of A inside the circle of a concave arc of B. */
export function discOfAInside(
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
  const bx = tb[q + CX]!;
  const by = tb[q + CY]!;
  const rb = tb[q + R]!;
  const room = rb - ra;
  if (room <= 0) return;
  const px = ax - bx;
  const py = ay - by;
  const d = Math.sqrt(px * px + py * py);
  const f = room - d;
  const nearer = f < W[GAP]!;
  if (!nearer && !steps) return;
  const reachA = ta[o + CORNER_REACH + arcA]!;
  const reachB = tb[q + CENTRE_REACH]!;
  const v = steps ? W[SPEED]! + W[SPIN_A]! * reachA + W[SPIN_B]! * reachB : 0;
  if (!nearer && f - W[TARGET]! >= v * Math.max(W[FORWARD]!, W[BACK]!)) return;
  // The inner disc stands nearest in the direction from the outer centre to its own.
  let margin = Math.max(px * tb[q + E1X]! + py * tb[q + E1Y]!, px * tb[q + E2X]! + py * tb[q + E2Y]!);
  if (arcA !== 0)
    margin = Math.max(margin, Math.max(px * ta[o + E1X]! + py * ta[o + E1Y]!, px * ta[o + E2X]! + py * ta[o + E2Y]!));
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  const slope = -(
    nx * (W[DSHIFT_X]! + W[DTURN]! * (ay - W[SHIFT_Y]!)) +
    ny * (W[DSHIFT_Y]! - W[DTURN]! * (ax - W[SHIFT_X]!))
  );
  // Concentric: every direction is as near, and the corners of the arcs that face each other tell of it.
  if (nearer && margin <= 0 && f >= 0 && d > 0) tell(f, slope, ax + nx * ra, ay + ny * ra, bx + nx * rb, by + ny * rb);
  if (!steps) return;
  const fromX = W[SHIFT_X]! - bx;
  const fromY = W[SHIFT_Y]! - by;
  W[VALUE] = f;
  W[RATE] = slope;
  W[MARGIN] = margin;
  insideStep(room - reachA - Math.sqrt(fromX * fromX + fromY * fromY), W[SPIN_B]! * reachB, reachA, reachB, v, d);
}

/** Disc of B inside the circle of a concave arc of A. */
export function discOfBInside(
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
  const ax = ta[o + CX]!;
  const ay = ta[o + CY]!;
  const ra = ta[o + R]!;
  const room = ra - rb;
  if (room <= 0) return;
  const px = ax - bx;
  const py = ay - by;
  const d = Math.sqrt(px * px + py * py);
  const f = room - d;
  const nearer = f < W[GAP]!;
  if (!nearer && !steps) return;
  const reachA = ta[o + CENTRE_REACH]!;
  const reachB = tb[q + CORNER_REACH + arcB]!;
  const v = steps ? W[SPEED]! + W[SPIN_A]! * reachA + W[SPIN_B]! * reachB : 0;
  if (!nearer && f - W[TARGET]! >= v * Math.max(W[FORWARD]!, W[BACK]!)) return;
  let margin = Math.max(-px * ta[o + E1X]! + -py * ta[o + E1Y]!, -px * ta[o + E2X]! + -py * ta[o + E2Y]!);
  if (arcB !== 0)
    margin = Math.max(
      margin,
      Math.max(-px * tb[q + E1X]! + -py * tb[q + E1Y]!, -px * tb[q + E2X]! + -py * tb[q + E2Y]!),
    );
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  const slope = -(
    nx * (W[DSHIFT_X]! + W[DTURN]! * (ay - W[SHIFT_Y]!)) +
    ny * (W[DSHIFT_Y]! - W[DTURN]! * (ax - W[SHIFT_X]!))
  );
  if (nearer && margin <= 0 && f >= 0 && d > 0) tell(f, slope, ax - nx * ra, ay - ny * ra, bx - nx * rb, by - ny * rb);
  if (!steps) return;
  W[VALUE] = f;
  W[RATE] = slope;
  W[MARGIN] = margin;
  insideStep(room - reachB - Math.sqrt(ax * ax + ay * ay), W[SPIN_A]! * reachA, reachA, reachB, v, d);
}

function tell(f: number, slope: number, ax: number, ay: number, bx: number, by: number): void {
  W[GAP] = f;
  W[SLOPE] = slope;
  W[AX] = ax;
  W[AY] = ay;
  W[PBX] = bx;
  W[PBY] = by;
  W[NEAR_A] = W[NOW_A]!;
  W[NEAR_B] = W[NOW_B]!;
}

/**
 * Safe turns of one disc inside another circle; VALUE, RATE and MARGIN are set. `swept`: what is left of the value when the disc's whole
 * sweep about its own body's origin is taken for it, which only the shift of that origin and `outerSpeed`, of the outer
 * centre about its own, can change. `v`: bound on the speed of P, of length d.
 */
function insideStep(swept: number, outerSpeed: number, reachA: number, reachB: number, v: number, d: number): void {
  const shift = W[SPEED_A]! + W[SPEED_B]! + outerSpeed;
  const free = swept - W[TARGET]!;
  const room = W[VALUE]! - W[TARGET]!;
  let safe = free <= 0 ? 0 : shift === 0 ? Number.POSITIVE_INFINITY : free / shift;
  if (room > 0) safe = Math.max(safe, v === 0 ? Number.POSITIVE_INFINITY : room / v);
  W[DRIFT] = v + (W[SPIN_A]! + W[SPIN_B]!) * (d + v * LONGEST_STEP_RAD);
  if (d > 0 && v > 0) {
    // While |P| keeps above half of what it is now, |P|'' <= A + v^2 / (|P| / 2).
    W[CURVE] = W[ACCEL_A]! + W[ACCEL_REACH_A]! * reachA + W[ACCEL_B]! + W[ACCEL_REACH_B]! * reachB + (2 * v * v) / d;
    W[SAFE] = safe;
    limit();
    safe = Math.max(safe, d / (2 * v));
  }
  if (safe >= W[FORWARD]! && safe >= W[BACK]!) return;
  // Beyond that only its foot keeps it from counting.
  W[VALUE] = Math.min(W[VALUE]!, 0);
  W[RATE] = 0;
  W[CURVE] = 0;
  W[SAFE] = safe;
  limit();
}

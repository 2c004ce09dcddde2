/**
 * Work area of one probe (probe.ts) and the bounds its candidates share: set by begin(), then read and written by the
 * functions that judge candidates. One array of doubles, because the inner loop must neither allocate nor pass twenty
 * numbers (a number kept in a variable of a module is a new object each time it is set, and so is one passed to a function).
 */
import type { Motion } from '../plane/pose.ts';
import type { Relative } from './relative.ts';

/** Added to every target: covers the rounding of sums of a few hundred millimetres in doubles (about 1e-12 mm) with a wide margin. */
const ROUNDING_MM = 1e-9;

/**
 * A foot this little beyond the end of its piece still limits the step, mm: at a smooth joint the feet on its two pieces may by
 * rounding both lie beyond their ends (flat.ts takes turns of 1e-9 as smooth; at 300 mm that is 3e-7 mm).
 */
const FOOT_MM = 1e-6;

/** No bound that grows with the distance covered is used beyond this turn, so that the growth stays small. */
export const LONGEST_STEP_RAD = 0.5;

/** Places in the work area. Found so far: distance, its change, nearest places in B's frame. */
export const GAP = 0;
export const SLOPE = 1;
export const AX = 2;
export const AY = 3;
export const PBX = 4;
export const PBY = 5;
/** Safe turns found so far, forward and back. */
export const FORWARD = 6;
export const BACK = 7;
export const TARGET = 8;
/** The pose of A in B's frame and its change. */
export const COS = 9;
export const SIN = 10;
export const SHIFT_X = 11;
export const SHIFT_Y = 12;
export const DSHIFT_X = 13;
export const DSHIFT_Y = 14;
export const DTURN = 15;
/** Bounds of the two motions: of speed and acceleration of the origins, and what each millimetre of reach adds. */
export const SPEED_A = 16;
export const SPEED_B = 17;
export const SPIN_A = 18;
export const SPIN_B = 19;
export const ACCEL_A = 20;
export const ACCEL_B = 21;
export const ACCEL_REACH_A = 22;
export const ACCEL_REACH_B = 23;
/** Pieces judged now; pieces of the nearest candidate. */
export const NOW_A = 24;
export const NOW_B = 25;
export const NEAR_A = 26;
export const NEAR_B = 27;
/** Of the candidate judged now: see limit(). */
export const VALUE = 28;
export const RATE = 29;
export const CURVE = 30;
export const MARGIN = 31;
export const DRIFT = 32;
export const SAFE = 33;

/** The way from B to A at the nearest places, of length 1, where only the distance is asked for. */
export const SQUARE_X = 34;
export const SQUARE_Y = 35;

/** Bound on the speed at which the two origins move apart. */
export const SPEED = 36;

export const W = new Float64Array(37);

/** Sets the work area; arguments as of probe(). */
export function begin(
  ma: Motion,
  mb: Motion,
  rel: Relative,
  bestMm: number,
  forwardRad: number,
  backRad: number,
  targetMm: number,
): void {
  W[GAP] = bestMm;
  W[SLOPE] = 0;
  W[SQUARE_X] = 0;
  W[SQUARE_Y] = 0;
  W[FORWARD] = forwardRad;
  W[BACK] = backRad;
  W[TARGET] = targetMm + ROUNDING_MM;
  W[COS] = rel.cos;
  W[SIN] = rel.sin;
  W[SHIFT_X] = rel.tx;
  W[SHIFT_Y] = rel.ty;
  W[DSHIFT_X] = rel.dtx;
  W[DSHIFT_Y] = rel.dty;
  W[DTURN] = rel.dturn;
  W[SPEED_A] = ma.originSpeedMm;
  W[SPEED_B] = mb.originSpeedMm;
  W[SPEED] = ma.originSpeedMm + mb.originSpeedMm;
  W[SPIN_A] = ma.turnSpeed;
  W[SPIN_B] = mb.turnSpeed;
  W[ACCEL_A] = ma.originAccelMm;
  W[ACCEL_B] = mb.originAccelMm;
  W[ACCEL_REACH_A] = ma.turnSpeed * ma.turnSpeed + ma.turnAccel;
  W[ACCEL_REACH_B] = mb.turnSpeed * mb.turnSpeed + mb.turnAccel;
}

/** Bound on the speed, engine frame, at which a point of A and a point of B, at `reachA` and `reachB` from their origins, move apart. */
export function speed(reachA: number, reachB: number): number {
  return W[SPEED_A]! + W[SPIN_A]! * reachA + W[SPEED_B]! + W[SPIN_B]! * reachB;
}

/** Rate of n.p for a point of A at (px, py) in B's frame. */
export function rate(nx: number, ny: number, px: number, py: number): number {
  return nx * (W[DSHIFT_X]! + W[DTURN]! * (py - W[SHIFT_Y]!)) + ny * (W[DSHIFT_Y]! - W[DTURN]! * (px - W[SHIFT_X]!));
}

/** Bound on the second derivative, in B's frame, of a point of A at `reach` from A's origin and `fromB` from B's (see probe.ts). */
export function accelInB(reach: number, fromB: number): number {
  const acc = W[ACCEL_A]! + W[ACCEL_REACH_A]! * reach + W[ACCEL_B]!;
  if (W[SPIN_B] === 0) return acc;
  const v = speed(reach, 0);
  return acc + 2 * W[SPIN_B]! * v + W[ACCEL_REACH_B]! * (fromB + v * LONGEST_STEP_RAD);
}

/** The same of a point of B in A's frame. */
export function accelInA(reach: number, fromA: number): number {
  const acc = W[ACCEL_B]! + W[ACCEL_REACH_B]! * reach + W[ACCEL_A]!;
  if (W[SPIN_A] === 0) return acc;
  const v = speed(0, reach);
  return acc + 2 * W[SPIN_A]! * v + W[ACCEL_REACH_A]! * (fromA + v * LONGEST_STEP_RAD);
}

/**
 * A candidate of VALUE f now, changing at RATE, with a second derivative of at least -CURVE: shortens the safe turns to where it could
 * come below the target, unless it can't count until then: its foot is MARGIN outside its piece, or f is below zero, and
 * either changes by at most DRIFT a radian. SAFE: a turn known to be safe for other reasons.
 */
export function limit(): void {
  const f = W[VALUE]!;
  const slope = W[RATE]!;
  const acc = W[CURVE]!;
  const room = f - W[TARGET]!;
  const forward = W[FORWARD]!;
  const back = W[BACK]!;
  // f + f' t - acc t^2 / 2 is concave in t: above the target all the way when it is so at both ends.
  const half = acc / 2;
  if (room >= 0 && room + (slope - half * forward) * forward >= 0 && room - (slope + half * back) * back >= 0) return;
  let safe = W[SAFE]!;
  const idle = Math.max(W[MARGIN]!, -f) - FOOT_MM;
  if (idle > 0) {
    const v = W[DRIFT]!;
    safe = Math.max(safe, v === 0 ? Number.POSITIVE_INFINITY : idle / v);
  }
  let ahead = safe;
  let behind = safe;
  if (room > 0 && acc > 0) {
    const root = Math.sqrt(slope * slope + 2 * acc * room);
    ahead = Math.max(safe, (slope + root) / acc);
    behind = Math.max(safe, (root - slope) / acc);
  } else if (room > 0) {
    ahead = slope < 0 ? Math.max(safe, room / -slope) : Number.POSITIVE_INFINITY;
    behind = slope > 0 ? Math.max(safe, room / slope) : Number.POSITIVE_INFINITY;
  }
  if (ahead < forward) W[FORWARD] = ahead;
  if (behind < back) W[BACK] = behind;
}

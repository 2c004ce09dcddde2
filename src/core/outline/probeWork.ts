/**
 * Work area of one probe (probe.ts) and the bounds its candidates share: set by begin(), then read and written by the
 * functions that judge candidates. Module variables, because the inner loop must neither allocate nor pass twenty numbers.
 */
import type { Motion } from '../plane/pose.ts';
import type { FlatOutline } from './flat.ts';
import { E1X, E1Y, E2X, E2Y } from './flat.ts';
import type { Relative } from './relative.ts';

/** Added to every target: covers the rounding of sums of a few hundred millimetres in doubles (about 1e-12 mm) with a wide margin. */
const ROUNDING_MM = 1e-9;

/** No bound that grows with the distance covered is used beyond this turn, so that the growth stays small. */
export const LONGEST_STEP_RAD = 0.5;

export interface Probe {
  /** Distance, mm, if the outlines do not overlap. */
  gapMm: number;
  /** Change of the distance per radian of crank angle at the nearest places. */
  slopeMm: number;
  /** Nearest places in B's frame. */
  ax: number;
  ay: number;
  bx: number;
  by: number;
  /** Safe forward turn, radians, at most LONGEST_STEP_RAD; only when asked for. */
  stepRad: number;
  /** Pieces of the nearest candidate: tried first by the next call with this probe, as a bound, never as the answer. */
  pieceA: number;
  pieceB: number;
}

export function newProbe(): Probe {
  return { gapMm: 0, slopeMm: 0, ax: 0, ay: 0, bx: 0, by: 0, stepRad: 0, pieceA: 0, pieceB: 0 };
}

// What the helpers below work on; set at the head of probe().
export let out: Probe = newProbe();
export let rel: Relative;
export let motionA: Motion;
export let motionB: Motion;
export let target = 0;
export let wantStep = false;
export let turnSum = 0;
export let accelA = 0;
export let accelB = 0;
export let accelPerReachA = 0;
export let accelPerReachB = 0;
let atA = 0;
let atB = 0;
// `pieceA`, `pieceB` below are offsets, into these two, of arcs whose sector the direction must lie in; -1 for a corner.
export let carriedA: Float64Array;
export let ownB: Float64Array;

/** Sets the work area for a pair of outlines in their present poses; arguments as of probe(). */
export function begin(
  ta: Float64Array,
  ma: Motion,
  fb: FlatOutline,
  mb: Motion,
  relative: Relative,
  bestMm: number,
  steps: boolean,
  targetMm: number,
  result: Probe,
): void {
  out = result;
  rel = relative;
  motionA = ma;
  motionB = mb;
  target = targetMm + ROUNDING_MM;
  wantStep = steps;
  turnSum = ma.turnSpeed + mb.turnSpeed;
  carriedA = ta;
  ownB = fb.at;
  out.gapMm = bestMm;
  out.stepRad = LONGEST_STEP_RAD;
  accelA = ma.originAccelMm;
  accelB = mb.originAccelMm;
  accelPerReachA = ma.turnSpeed * ma.turnSpeed + ma.turnAccel;
  accelPerReachB = mb.turnSpeed * mb.turnSpeed + mb.turnAccel;
}

/** Pieces whose candidates are judged next. */
export function nowAt(pieceA: number, pieceB: number): void {
  atA = pieceA;
  atB = pieceB;
}

/** Second derivative bound, engine frame, of a point at distance `reach` from the origin of its body. */
export function accel(m: Motion, reach: number): number {
  return m.originAccelMm + (m.turnSpeed * m.turnSpeed + m.turnAccel) * reach;
}

/** Bound on the speed, engine frame, at which a point of A and a point of B, at `reachA` and `reachB` from their origins, move apart. */
export function speed(reachA: number, reachB: number): number {
  return motionA.originSpeedMm + motionA.turnSpeed * reachA + motionB.originSpeedMm + motionB.turnSpeed * reachB;
}

/** Rate of n.p for a point of A at (px, py) in B's frame. */
export function rate(nx: number, ny: number, px: number, py: number): number {
  return nx * (rel.dtx + rel.dturn * (py - rel.ty)) + ny * (rel.dty - rel.dturn * (px - rel.tx));
}

export function quadraticStep(f: number, slope: number, a: number): number {
  const room = f - target;
  if (room <= 0) return 0;
  if (a === 0) return slope >= 0 ? Number.POSITIVE_INFINITY : room / -slope;
  return (slope + Math.sqrt(slope * slope + 2 * a * room)) / a;
}

/**
 * True when two discs (centres apart by dx, dy in B's frame, the first at ax, ay there, second derivative bounded by `acc`)
 * neither hold a nearer place nor limit the step: f + f' t - acc t^2 / 2, being concave in t, is above the target all the
 * way when it is so at both ends.
 */
export function discsFar(dx: number, dy: number, ax: number, ay: number, radii: number, acc: number): boolean {
  const d2 = dx * dx + dy * dy;
  const near = out.gapMm + radii;
  if (d2 < near * near) return false;
  if (!wantStep) return true;
  const d = Math.sqrt(d2);
  const room = d - radii - target;
  if (room <= 0) return false;
  const h = out.stepRad;
  return room + (h * rate(dx, dy, ax, ay)) / d - (acc * h * h) / 2 >= 0;
}

export function limit(step: number): void {
  if (step < out.stepRad) out.stepRad = step;
}

/** How far (mm, a lower bound) the point at (ux, uy) from the arc's centre is outside its sector; negative or zero inside. */
export function outsideSector(t: Float64Array, o: number, ux: number, uy: number): number {
  return Math.max(ux * t[o + E1X]! + uy * t[o + E1Y]!, ux * t[o + E2X]! + uy * t[o + E2Y]!);
}

export function record(f: number, slope: number, ax: number, ay: number, bx: number, by: number): void {
  out.gapMm = f;
  out.slopeMm = slope;
  out.ax = ax;
  out.ay = ay;
  out.bx = bx;
  out.by = by;
  out.pieceA = atA;
  out.pieceB = atB;
}

/**
 * Step granted by a direction P (length d, its ends moving apart at v at most) that is outside a sector by `margin`, or
 * by a value `f` below zero. Seen from either body the outside distance e.P changes at v + w |P| at most, and |P| grows
 * to d + v t.
 */
export function sectorStep(margin: number, f: number, v: number, d: number): number {
  const step = idleStep(margin, f, v + turnSum * (d + v * LONGEST_STEP_RAD));
  return turnSum > 0 && step > LONGEST_STEP_RAD ? LONGEST_STEP_RAD : step;
}

/** Step granted by what is not so now: a foot outside its piece by `margin`, a value `f` below zero, both changing at `v` at most. */
export function idleStep(margin: number, f: number, v: number): number {
  const idle = Math.max(margin, -f);
  if (idle <= 0) return 0;
  return v === 0 ? Number.POSITIVE_INFINITY : Math.max(0, idle - ROUNDING_MM) / v;
}

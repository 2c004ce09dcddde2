/**
 * The distance between two moving outlines at one crank angle, how fast it changes, and how far the crank may turn
 * before it can have fallen below a target. This is the inner loop of the certificate (core/clearance/certify.ts).
 *
 * WHAT IS MEASURED. For two outlines that do not overlap the distance is reached between one of these candidates, each
 * with the straight line between its two places square to both outlines there:
 *
 *   corner – corner, corner – line, corner – arc, convex arc – line, convex arc – convex arc (side by side),
 *   convex arc – concave arc of larger radius (one inside the other).
 *
 * Line – line, concave – line and concave – concave add nothing: where two parallel lines face each other a corner is
 * as near; along a concave arc the distance to a line, or to another concave arc, has no interior minimum. A candidate
 * counts only when each foot lies within its piece and the line leaves each material on its outer side. Every candidate
 * value is the distance of two real points of the outlines, so none can be below the true distance.
 *
 * WHAT IS PROMISED. `step` is such that, if the outlines do not overlap now, their distance stays at or above `target`
 * while the crank turns forward by `step`. Each candidate's signed value f obeys f(t) >= f(0) + f'(0) t - A t^2 / 2:
 *
 *   discs (corners and convex arcs) side by side: f = |P| - radii, P between the centres in the engine frame. With n the
 *     direction of P now, |P(t)| >= n.P(t), whose second derivative is at least -(|cA''| + |cB''|). A rim turning about
 *     its own centre has P' = P'' = 0: a constant gap is certified in one step.
 *   disc inside a concave arc: f = R - r - |P|; |P|'' <= |P''| + |P'|^2 / |P|.
 *   disc against a line: f = n.(c - q) - r in the line's own body, where n and q stand still; the second derivative of c
 *     there is bounded by |c'' - t''| + 2 w |c' - t'| + (w^2 + w') |c - t|.
 *
 * A candidate that does not count now can come to count only after its foot has moved into the piece, or after its
 * signed value has risen through zero from the inner side; both take at least (margin) / (bound on the speed). Nor can
 * an overlap come about unseen: two outlines that are apart first touch at one of these candidates, on the outer side,
 * with value zero, which is below any positive target.
 *
 * Pieces whose discs are far apart are passed over: a disc of the whole piece obeys the first bound too.
 */
import type { Motion } from '../plane/pose.ts';
import type { FlatOutline } from './flat.ts';
import {
  BR,
  BX,
  BY,
  CENTRE_REACH,
  CONCAVE,
  CONVEX,
  CORNER_REACH,
  CX,
  CY,
  DISC_REACH,
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
import type { Relative } from './relative.ts';

/** Added to every target: covers the rounding of sums of a few hundred millimetres in doubles (about 1e-12 mm) with a wide margin. */
const ROUNDING_MM = 1e-9;

/** No bound that grows with the distance covered is used beyond this turn, so that the growth stays small. */
const LONGEST_STEP_RAD = 0.5;

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
let out: Probe = newProbe();
let rel: Relative;
let motionA: Motion;
let motionB: Motion;
let target = 0;
let wantStep = false;
let turnSum = 0;
let accelA = 0;
let accelB = 0;
let accelPerReachA = 0;
let accelPerReachB = 0;
let atA = 0;
let atB = 0;
// `pieceA`, `pieceB` below are offsets, into these two, of arcs whose sector the direction must lie in; -1 for a corner.
let carriedA: Float64Array;
let ownB: Float64Array;

/**
 * Distance of A (pieces `ta` already carried into B's frame) and B. `bestMm`: candidates at or above it are of no
 * interest. With `steps`, also the safe forward turn for `targetMm`. Fills and returns `probe`; `gapMm` is `bestMm` when
 * nothing is nearer.
 */
export function probe(
  fa: FlatOutline,
  ta: Float64Array,
  ma: Motion,
  fb: FlatOutline,
  mb: Motion,
  relative: Relative,
  bestMm: number,
  steps: boolean,
  targetMm: number,
  result: Probe,
): Probe {
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
  const tb = fb.at;
  const sa = fa.at;
  // Last time's nearest pieces first: a good bound lets most others be passed over.
  const hintA = out.pieceA < fa.n ? out.pieceA : 0;
  const hintB = out.pieceB < fb.n ? out.pieceB : 0;
  atA = hintA;
  atB = hintB;
  pieces(fa.kind[hintA]!, ta, sa, hintA * STRIDE, fb.kind[hintB]!, tb, hintB * STRIDE);
  const wholeReachB = Math.sqrt(fb.discX * fb.discX + fb.discY * fb.discY);
  for (let i = 0; i < fa.n; i++) {
    const o = i * STRIDE;
    const ix = ta[o + BX]!;
    const iy = ta[o + BY]!;
    const ir = ta[o + BR]!;
    const acc = accelA + accelPerReachA * sa[o + DISC_REACH]! + accelB;
    // The whole of B first.
    if (discsFar(ix - fb.discX, iy - fb.discY, ix, iy, ir + fb.discR, acc + accelPerReachB * wholeReachB)) continue;
    for (let j = 0; j < fb.n; j++) {
      const q = j * STRIDE;
      if (
        discsFar(
          ix - tb[q + BX]!,
          iy - tb[q + BY]!,
          ix,
          iy,
          ir + tb[q + BR]!,
          acc + accelPerReachB * tb[q + DISC_REACH]!,
        )
      )
        continue;
      if (i === hintA && j === hintB) continue;
      atA = i;
      atB = j;
      pieces(fa.kind[i]!, ta, sa, o, fb.kind[j]!, tb, q);
    }
  }
  return out;
}

/** Second derivative bound, engine frame, of a point at distance `reach` from the origin of its body. */
function accel(m: Motion, reach: number): number {
  return m.originAccelMm + (m.turnSpeed * m.turnSpeed + m.turnAccel) * reach;
}

/** Bound on the speed, engine frame, at which a point of A and a point of B, at `reachA` and `reachB` from their origins, move apart. */
function speed(reachA: number, reachB: number): number {
  return motionA.originSpeedMm + motionA.turnSpeed * reachA + motionB.originSpeedMm + motionB.turnSpeed * reachB;
}

/** Rate of n.p for a point of A at (px, py) in B's frame. */
function rate(nx: number, ny: number, px: number, py: number): number {
  return nx * (rel.dtx + rel.dturn * (py - rel.ty)) + ny * (rel.dty - rel.dturn * (px - rel.tx));
}

function quadraticStep(f: number, slope: number, a: number): number {
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
function discsFar(dx: number, dy: number, ax: number, ay: number, radii: number, acc: number): boolean {
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

function limit(step: number): void {
  if (step < out.stepRad) out.stepRad = step;
}

/** All candidates of piece i of A with piece j of B: the start corners, the insides. Their end corners belong to the next pieces. */
function pieces(
  kindA: number,
  ta: Float64Array,
  sa: Float64Array,
  o: number,
  kindB: number,
  tb: Float64Array,
  q: number,
): void {
  const ax = ta[o + X0]!;
  const ay = ta[o + Y0]!;
  const bx = tb[q + X0]!;
  const by = tb[q + Y0]!;
  const reachA = sa[o + CORNER_REACH]!;
  const reachB = tb[q + CORNER_REACH]!;
  // Corner and corner.
  sideBySide(ax, ay, 0, reachA, bx, by, 0, reachB, -1, -1);
  // Corner of A, inside of the piece of B.
  if (kindB === LINE) discAndLineOfB(ax, ay, 0, reachA, tb, q, -1);
  else discAndArcOfB(ax, ay, 0, reachA, kindB, tb, q, -1);
  // Inside of the piece of A, corner of B.
  if (kindA === LINE) discAndLineOfA(bx, by, 0, reachB, ta, o, -1);
  else discAndArcOfA(bx, by, 0, reachB, kindA, ta, sa, o, -1);
  // Insides of both.
  if (kindA === LINE) {
    if (kindB === CONVEX) discAndLineOfA(tb[q + CX]!, tb[q + CY]!, tb[q + R]!, tb[q + CENTRE_REACH]!, ta, o, q);
    return;
  }
  if (kindB === LINE) {
    if (kindA === CONVEX) discAndLineOfB(ta[o + CX]!, ta[o + CY]!, ta[o + R]!, sa[o + CENTRE_REACH]!, tb, q, o);
    return;
  }
  if (kindA === CONVEX) discAndArcOfB(ta[o + CX]!, ta[o + CY]!, ta[o + R]!, sa[o + CENTRE_REACH]!, kindB, tb, q, o);
  else if (kindB === CONVEX)
    discAndArcOfA(tb[q + CX]!, tb[q + CY]!, tb[q + R]!, tb[q + CENTRE_REACH]!, kindA, ta, sa, o, q);
}

/** How far (mm, a lower bound) the point at (ux, uy) from the arc's centre is outside its sector; negative or zero inside. */
function outsideSector(t: Float64Array, o: number, ux: number, uy: number): number {
  return Math.max(ux * t[o + E1X]! + uy * t[o + E1Y]!, ux * t[o + E2X]! + uy * t[o + E2Y]!);
}

function record(f: number, slope: number, ax: number, ay: number, bx: number, by: number): void {
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
function sectorStep(margin: number, f: number, v: number, d: number): number {
  const step = idleStep(margin, f, v + turnSum * (d + v * LONGEST_STEP_RAD));
  return turnSum > 0 && step > LONGEST_STEP_RAD ? LONGEST_STEP_RAD : step;
}

/** Step granted by what is not so now: a foot outside its piece by `margin`, a value `f` below zero, both changing at `v` at most. */
function idleStep(margin: number, f: number, v: number): number {
  const idle = Math.max(margin, -f);
  if (idle <= 0) return 0;
  return v === 0 ? Number.POSITIVE_INFINITY : Math.max(0, idle - ROUNDING_MM) / v;
}

/** Disc of A (centre ax, ay; radius ra) beside disc of B. */
function sideBySide(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  pieceA: number,
  pieceB: number,
): void {
  const px = ax - bx;
  const py = ay - by;
  const d = Math.sqrt(px * px + py * py);
  const f = d - ra - rb;
  if (f >= out.gapMm && !wantStep) return;
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  const slope = rate(nx, ny, ax, ay);
  let step = 0;
  if (wantStep) {
    step = quadraticStep(f, slope, accelA + accelPerReachA * reachA + accelB + accelPerReachB * reachB);
    if (step >= out.stepRad && f >= out.gapMm) return;
  }
  let margin = -1;
  if (pieceB >= 0) margin = Math.max(margin, outsideSector(ownB, pieceB, px, py));
  if (pieceA >= 0) margin = Math.max(margin, outsideSector(carriedA, pieceA, -px, -py));
  if (margin <= 0 && f >= 0 && f < out.gapMm) record(f, slope, ax - nx * ra, ay - ny * ra, bx + nx * rb, by + ny * rb);
  if (!wantStep || step >= out.stepRad) return;
  limit(Math.max(step, sectorStep(margin, f, speed(reachA, reachB), d)));
}

/** Disc of A against a piece of B that is an arc: side by side, or inside a concave one. `pieceA` as in sideBySide. */
function discAndArcOfB(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  kindB: number,
  tb: Float64Array,
  q: number,
  pieceA: number,
): void {
  const bx = tb[q + CX]!;
  const by = tb[q + CY]!;
  const reachB = tb[q + CENTRE_REACH]!;
  if (kindB === CONVEX) sideBySide(ax, ay, ra, reachA, bx, by, tb[q + R]!, reachB, pieceA, q);
  else oneInside(ax, ay, ra, reachA, bx, by, tb[q + R]!, reachB, pieceA, q, false);
}

/** Disc of B against a piece of A that is an arc. */
function discAndArcOfA(
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  kindA: number,
  ta: Float64Array,
  sa: Float64Array,
  o: number,
  pieceB: number,
): void {
  const reachA = sa[o + CENTRE_REACH]!;
  if (kindA === CONVEX) sideBySide(ta[o + CX]!, ta[o + CY]!, ta[o + R]!, reachA, bx, by, rb, reachB, o, pieceB);
  else if (kindA === CONCAVE)
    oneInside(ta[o + CX]!, ta[o + CY]!, ta[o + R]!, reachA, bx, by, rb, reachB, o, pieceB, true);
}

/** One disc inside the circle of the other's concave arc. */
function oneInside(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  pieceA: number,
  pieceB: number,
  outerIsA: boolean,
): void {
  const room = outerIsA ? ra - rb : rb - ra;
  if (room <= 0) return;
  const px = ax - bx;
  const py = ay - by;
  const d = Math.sqrt(px * px + py * py);
  const f = room - d;
  if (f >= out.gapMm && !wantStep) return;
  const nx = d > 0 ? px / d : 0;
  const ny = d > 0 ? py / d : 0;
  const slope = -rate(nx, ny, ax, ay);
  // Direction, from the outer centre, in which the inner disc stands nearest.
  const mx = outerIsA ? -px : px;
  const my = outerIsA ? -py : py;
  let margin = -1;
  if (pieceA >= 0) margin = Math.max(margin, outsideSector(carriedA, pieceA, mx, my));
  if (pieceB >= 0) margin = Math.max(margin, outsideSector(ownB, pieceB, mx, my));
  // Concentric: every direction is as near, and the corners of the arcs that face each other tell of it.
  if (margin <= 0 && f >= 0 && f < out.gapMm && d > 0) {
    const ux = mx / d;
    const uy = my / d;
    record(f, slope, ax + ux * ra, ay + uy * ra, bx + ux * rb, by + uy * rb);
  }
  if (!wantStep) return;
  const acc = accelA + accelPerReachA * reachA + accelB + accelPerReachB * reachB;
  const v = speed(reachA, reachB);
  const free = f - target;
  let step = free <= 0 ? 0 : v === 0 ? Number.POSITIVE_INFINITY : free / v;
  if (d > 0 && v > 0) {
    // While |P| keeps above half of what it is now, |P|'' <= A + v^2 / (|P| / 2).
    const held = d / (2 * v);
    step = Math.max(step, Math.min(held, quadraticStep(f, slope, acc + (2 * v * v) / d)));
  }
  limit(Math.max(step, sectorStep(margin, f, v, d)));
}

/** Disc of A against a line of B, in B's frame. `pieceA`: the arc of A the disc belongs to, or -1. */
function discAndLineOfB(
  ax: number,
  ay: number,
  ra: number,
  reachA: number,
  tb: Float64Array,
  q: number,
  pieceA: number,
): void {
  const nx = tb[q + NX]!;
  const ny = tb[q + NY]!;
  const dx = ax - tb[q + X0]!;
  const dy = ay - tb[q + Y0]!;
  const f = dx * nx + dy * ny - ra;
  if (f >= out.gapMm && !wantStep) return;
  const along = dx * tb[q + TX]! + dy * tb[q + TY]!;
  let margin = Math.max(-along, along - tb[q + LEN]!);
  if (pieceA >= 0) margin = Math.max(margin, outsideSector(carriedA, pieceA, -nx * ra, -ny * ra));
  const slope = rate(nx, ny, ax, ay);
  if (margin < 0 && f >= 0 && f < out.gapMm)
    record(f, slope, ax - nx * ra, ay - ny * ra, ax - nx * (ra + f), ay - ny * (ra + f));
  if (!wantStep) return;
  lineStep(f, slope, margin, ra, motionA, reachA, motionB, Math.sqrt(ax * ax + ay * ay));
}

/** Disc of B against a line of A: the same in A's frame, with the bodies' parts exchanged. */
function discAndLineOfA(
  bx: number,
  by: number,
  rb: number,
  reachB: number,
  ta: Float64Array,
  o: number,
  pieceB: number,
): void {
  const nx = ta[o + NX]!;
  const ny = ta[o + NY]!;
  const dx = bx - ta[o + X0]!;
  const dy = by - ta[o + Y0]!;
  const f = dx * nx + dy * ny - rb;
  if (f >= out.gapMm && !wantStep) return;
  const along = dx * ta[o + TX]! + dy * ta[o + TY]!;
  let margin = Math.max(-along, along - ta[o + LEN]!);
  if (pieceB >= 0) margin = Math.max(margin, outsideSector(ownB, pieceB, -nx * rb, -ny * rb));
  // The disc of B moves against A's body at minus the speed of A's point there.
  const slope = -rate(nx, ny, bx, by);
  if (margin < 0 && f >= 0 && f < out.gapMm)
    record(f, slope, bx - nx * (rb + f), by - ny * (rb + f), bx - nx * rb, by - ny * rb);
  if (!wantStep) return;
  const fromAX = bx - rel.tx;
  const fromAY = by - rel.ty;
  lineStep(f, slope, margin, rb, motionB, reachB, motionA, Math.sqrt(fromAX * fromAX + fromAY * fromAY));
}

/**
 * Step for a disc (of body `md`, `reachD` from its origin) against a line of body `ml`, whose origin is `fromOrigin`
 * away from the disc's centre: second derivative in the line's frame as stated at the head.
 */
function lineStep(
  f: number,
  slope: number,
  margin: number,
  radius: number,
  md: Motion,
  reachD: number,
  ml: Motion,
  fromOrigin: number,
): void {
  const v = md.originSpeedMm + md.turnSpeed * reachD + ml.originSpeedMm;
  const turn2 = ml.turnSpeed * ml.turnSpeed + ml.turnAccel;
  const acc = accel(md, reachD) + ml.originAccelMm + 2 * ml.turnSpeed * v + turn2 * (fromOrigin + v * LONGEST_STEP_RAD);
  let step = quadraticStep(f, slope, acc);
  if (turn2 > 0 && step > LONGEST_STEP_RAD) step = LONGEST_STEP_RAD;
  if (step >= out.stepRad) return;
  // The foot slides along the line at the speed of the centre in the line's frame, the sector turns with its own body.
  const vFrame = v + ml.turnSpeed * (fromOrigin + v * LONGEST_STEP_RAD) + turnSum * radius;
  let idle = idleStep(margin, f, vFrame);
  if (turn2 > 0 && idle > LONGEST_STEP_RAD) idle = LONGEST_STEP_RAD;
  limit(Math.max(step, idle));
}

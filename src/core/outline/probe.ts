/**
 * The distance between two moving outlines at one crank angle, how fast it changes, and how far the crank may turn
 * forward and back before it can have fallen below a target. This is the inner loop of the certificate
 * (core/clearance/certify.ts).
 *
 * WHAT IS MEASURED. For two outlines that do not overlap the distance is reached between one of these candidates, each
 * with the straight line between its two places square to both outlines there:
 *
 *   corner – corner, corner – line, corner – arc, convex arc – line, convex arc – convex arc (side by side),
 *   convex arc – concave arc of larger radius (one inside the other).
 *
 * Line – line, concave – line and concave – concave add nothing: where two parallel lines face each other a corner is
 * as near; along a concave arc the distance to a line, or to another concave arc, has no interior minimum. A reflex
 * corner adds nothing: of the two edges that meet there one is nearer to any place outside. A candidate
 * counts only when each foot lies within its piece (its end included) and the line leaves each material on its outer side. Every
 * candidate value is the distance of two real points of the outlines, so none can be below the true distance.
 *
 * WHAT IS PROMISED. Within the turns told, forward and back, no candidate that counts has a value below `target`, be the
 * outlines apart or not. So if they are apart anywhere within that stretch they are at least `target` apart all along it:
 * two outlines that are apart first touch at one of these candidates, on the outer side, with a value that has
 * come down to zero through the target. Each candidate's signed value f obeys f(t) >= f(0) + f'(0) t - A t^2 / 2, t of either sign:
 *
 *   discs (corners and convex arcs) side by side: f = |P| - radii, P between the centres in the engine frame. With n the
 *     direction of P now, |P(t)| >= n.P(t), whose second derivative is at least -(|cA''| + |cB''|). A rim turning about
 *     its own centre has P' = P'' = 0: a constant gap is certified in one step.
 *   disc inside a concave arc: f = R - r - |P|; |P|'' <= |P''| + |P'|^2 / |P|. And f >= R - r - reach - |O - c|, O the origin of the
 *     disc's body, c the centre of the concave arc: a corner on its way round in a concentric cut is certified in one step.
 *   disc against a line: f = n.(c - q) - r in the line's own body, where n and q stand still; the second derivative of c
 *     there is bounded by |c'' - t''| + 2 w |c' - t'| + (w^2 + w') |c - t|, with t, w, w' of the line's body.
 *
 * A candidate that does not count now can come to count only after its foot has moved into the piece, or after its
 * signed value has risen through zero from the inner side; both take at least (margin) / (bound on the speed).
 *
 * A corner at a smooth joint counts only where a foot on either of its pieces reaches the joint, at the same distance: their steps, taken
 * with a hair of room at the ends, hold for it (FOOT_MM in probeWork.ts), and it gives none of its own.
 *
 * Pieces that are far apart are passed over. All of B lies in an upright box of B's frame, as does each of its pieces; with q the box's
 * place nearest to the centre p of a disc that holds a piece of A, and n = (p - q) / |p - q|, the box lies behind the line through q square to n,
 * so that their distance stays at least n.(p(t) - q) less the disc's radius: a value of the third kind.
 */
import type { Motion } from '../plane/pose.ts';
import type { FlatOutline } from './flat.ts';
import {
  BR,
  BX,
  BY,
  CENTRE_REACH,
  CONVEX,
  CORNER,
  CORNER_REACH,
  CX,
  CY,
  HIGH,
  LEFT,
  LINE,
  LOW,
  R,
  RIGHT,
  STRIDE,
  X0,
  Y0,
} from './flat.ts';
import { discAndArcOfA, discAndArcOfB, sideBySide } from './probeDiscs.ts';
import { discAndLineOfA, discAndLineOfB } from './probeLines.ts';
import {
  AX,
  AY,
  accelInB,
  BACK,
  begin,
  COS,
  DSHIFT_X,
  DSHIFT_Y,
  DTURN,
  FORWARD,
  GAP,
  NEAR_A,
  NEAR_B,
  NOW_A,
  NOW_B,
  PBX,
  PBY,
  SHIFT_X,
  SHIFT_Y,
  SIN,
  SLOPE,
  TARGET,
  W,
} from './probeWork.ts';
import type { Relative } from './relative.ts';
import { carryPiece } from './relative.ts';

export { LONGEST_STEP_RAD } from './probeWork.ts';

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
  /** Safe turns forward and back, radians; only as far as asked for. */
  forwardRad: number;
  backRad: number;
  /** Pieces of the nearest candidate: tried first by the next call with this probe, as a bound, never as the answer. */
  pieceA: number;
  pieceB: number;
}

export function newProbe(): Probe {
  return { gapMm: 0, slopeMm: 0, ax: 0, ay: 0, bx: 0, by: 0, forwardRad: 0, backRad: 0, pieceA: 0, pieceB: 0 };
}

/** Pieces of A carried into B's frame as they are needed: grown when an outline with more pieces comes. */
let carried = new Float64Array(64 * STRIDE);

/**
 * Distance of A and B, A standing in B's frame as `rel` says. `bestMm`: candidates at or above it are of no interest; the gap is told
 * as `bestMm` when nothing is nearer. `forwardRad`, `backRad`: how far safe turns for `targetMm` are asked for, at most
 * LONGEST_STEP_RAD; both below zero: not at all. Fills and returns `result`.
 */
export function probe(
  fa: FlatOutline,
  ma: Motion,
  fb: FlatOutline,
  mb: Motion,
  rel: Relative,
  bestMm: number,
  forwardRad: number,
  backRad: number,
  targetMm: number,
  result: Probe,
): Probe {
  const steps = forwardRad >= 0;
  if (carried.length < fa.n * STRIDE) carried = new Float64Array(fa.n * STRIDE);
  begin(ma, mb, rel, bestMm, forwardRad, backRad, targetMm);
  // Last time's nearest pieces first: a good bound lets most others be passed over.
  const hintA = result.pieceA < fa.n ? result.pieceA : 0;
  const hintB = result.pieceB < fb.n ? result.pieceB : 0;
  W[NEAR_A] = hintA;
  W[NEAR_B] = hintB;
  if (!far(fa.discX, fa.discY, fa.discR, fb.left, fb.right, fb.low, fb.high, steps)) {
    carryPiece(fa, hintA * STRIDE, rel, carried);
    pieces(fa, hintA, fb, hintB, steps);
    rows(fa, fb, rel, hintA, hintB, steps);
  }
  result.gapMm = W[GAP]!;
  result.slopeMm = W[SLOPE]!;
  result.ax = W[AX]!;
  result.ay = W[AY]!;
  result.bx = W[PBX]!;
  result.by = W[PBY]!;
  result.forwardRad = W[FORWARD]!;
  result.backRad = W[BACK]!;
  result.pieceA = W[NEAR_A]!;
  result.pieceB = W[NEAR_B]!;
  return result;
}

/** Every piece of A that is not far from B, with every piece of B that is not far from it. */
function rows(fa: FlatOutline, fb: FlatOutline, rel: Relative, hintA: number, hintB: number, steps: boolean): void {
  const sa = fa.at;
  const tb = fb.at;
  const n = fb.n;
  for (let i = 0; i < fa.n; i++) {
    const o = i * STRIDE;
    const x = sa[o + BX]!;
    const y = sa[o + BY]!;
    const r = sa[o + BR]!;
    if (far(x, y, r, fb.left, fb.right, fb.low, fb.high, steps)) continue;
    if (i !== hintA) carryPiece(fa, o, rel, carried);
    for (let j = 0; j < n; j++) {
      const q = j * STRIDE;
      if (i === hintA && j === hintB) continue;
      if (far(x, y, r, tb[q + LEFT]!, tb[q + RIGHT]!, tb[q + LOW]!, tb[q + HIGH]!, steps)) continue;
      pieces(fa, i, fb, j, steps);
    }
  }
}

/**
 * True when a disc of A (centre x, y in A's own frame) and a box of B neither hold a nearer place nor limit the steps: the value of
 * the third kind is at least the gap known now, and above the target at both ends of the turns (it is concave).
 */
function far(
  x: number,
  y: number,
  r: number,
  left: number,
  right: number,
  low: number,
  high: number,
  steps: boolean,
): boolean {
  const ex = W[COS]! * x + W[SIN]! * y;
  const ey = W[COS]! * y - W[SIN]! * x;
  const px = W[SHIFT_X]! + ex;
  const py = W[SHIFT_Y]! + ey;
  const dx = px < left ? px - left : px > right ? px - right : 0;
  const dy = py < low ? py - low : py > high ? py - high : 0;
  const d2 = dx * dx + dy * dy;
  const near = W[GAP]! + r;
  if (d2 < near * near) return false;
  if (!steps) return true;
  const d = Math.sqrt(d2);
  const room = d - r - W[TARGET]!;
  if (room < 0) return false;
  const half = accelInB(Math.sqrt(x * x + y * y), Math.sqrt(px * px + py * py)) / 2;
  const slope = (dx * (W[DSHIFT_X]! + W[DTURN]! * ey) + dy * (W[DSHIFT_Y]! - W[DTURN]! * ex)) / d;
  const forward = W[FORWARD]!;
  const back = W[BACK]!;
  return room + (slope - half * forward) * forward >= 0 && room - (slope + half * back) * back >= 0;
}

/** All candidates of piece i of A with piece j of B: the start corners, the insides. Their end corners belong to the next pieces. */
function pieces(fa: FlatOutline, i: number, fb: FlatOutline, j: number, steps: boolean): void {
  const ta = carried;
  const sa = fa.at;
  const tb = fb.at;
  const o = i * STRIDE;
  const q = j * STRIDE;
  const kindA = fa.kind[i]!;
  const kindB = fb.kind[j]!;
  W[NOW_A] = i;
  W[NOW_B] = j;
  // Reflex corners (-1) are left out, smooth joints (0) limit no step.
  const cornerA = sa[o + CORNER]!;
  const cornerB = tb[q + CORNER]!;
  const ax = ta[o + X0]!;
  const ay = ta[o + Y0]!;
  const bx = tb[q + X0]!;
  const by = tb[q + Y0]!;
  const reachA = sa[o + CORNER_REACH]!;
  const reachB = tb[q + CORNER_REACH]!;
  if (cornerA >= 0) {
    const stepsA = steps && cornerA > 0;
    if (cornerB >= 0) sideBySide(ax, ay, 0, reachA, ta, -1, bx, by, 0, reachB, tb, -1, stepsA && cornerB > 0);
    // Corner of A, inside of the piece of B.
    if (kindB === LINE) discAndLineOfB(ax, ay, 0, reachA, ta, -1, tb, q, stepsA);
    else discAndArcOfB(ax, ay, 0, reachA, ta, -1, kindB, tb, q, stepsA);
  }
  if (cornerB >= 0) {
    const stepsB = steps && cornerB > 0;
    // Inside of the piece of A, corner of B.
    if (kindA === LINE) discAndLineOfA(bx, by, 0, reachB, tb, -1, ta, o, stepsB);
    else discAndArcOfA(bx, by, 0, reachB, tb, -1, kindA, ta, o, stepsB);
  }
  // Insides of both.
  if (kindA === LINE) {
    if (kindB === CONVEX)
      discAndLineOfA(tb[q + CX]!, tb[q + CY]!, tb[q + R]!, tb[q + CENTRE_REACH]!, tb, q, ta, o, steps);
    return;
  }
  if (kindB === LINE) {
    if (kindA === CONVEX)
      discAndLineOfB(ta[o + CX]!, ta[o + CY]!, ta[o + R]!, sa[o + CENTRE_REACH]!, ta, o, tb, q, steps);
    return;
  }
  if (kindA === CONVEX)
    discAndArcOfB(ta[o + CX]!, ta[o + CY]!, ta[o + R]!, sa[o + CENTRE_REACH]!, ta, o, kindB, tb, q, steps);
  else if (kindB === CONVEX)
    discAndArcOfA(tb[q + CX]!, tb[q + CY]!, tb[q + R]!, tb[q + CENTRE_REACH]!, tb, q, kindA, ta, o, steps);
}

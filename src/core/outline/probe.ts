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
 * Pieces that are far apart are passed over (probeRows.ts).
 */
import type { Motion } from '../plane/pose.ts';
import type { FlatOutline } from './flat.ts';
import { X0, Y0 } from './flat.ts';
import { rows } from './probeRows.ts';
import {
  AX,
  AY,
  BACK,
  begin,
  COS,
  FORWARD,
  GAP,
  NEAR_A,
  NEAR_B,
  PBX,
  PBY,
  rate,
  SHIFT_X,
  SHIFT_Y,
  SIN,
  SLOPE,
  SQUARE_X,
  SQUARE_Y,
  W,
} from './probeWork.ts';
import type { Relative } from './relative.ts';

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
  /**
   * For the next call with this probe, if it asks for the same outlines: the pieces of the nearest candidate, judged first, and its
   * two places, each in its own body's frame, whose distance then bounds the gap from the start.
   */
  readonly last: {
    a: FlatOutline | null;
    b: FlatOutline | null;
    pieceA: number;
    pieceB: number;
    own: Float64Array;
  };
}

export function newProbe(): Probe {
  return {
    gapMm: 0,
    slopeMm: 0,
    ax: 0,
    ay: 0,
    bx: 0,
    by: 0,
    forwardRad: 0,
    backRad: 0,
    last: { a: null, b: null, pieceA: 0, pieceB: 0, own: new Float64Array(4) },
  };
}

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
  begin(ma, mb, rel, bestMm, forwardRad, backRad, targetMm);
  const last = result.last;
  if (last.a !== fa || last.b !== fb) {
    last.a = fa;
    last.b = fb;
    last.pieceA = 0;
    last.pieceB = 0;
    last.own[0] = fa.at[X0]!;
    last.own[1] = fa.at[Y0]!;
    last.own[2] = fb.at[X0]!;
    last.own[3] = fb.at[Y0]!;
  }
  W[NEAR_A] = last.pieceA;
  W[NEAR_B] = last.pieceB;
  boundBy(last.own);
  rows(fa, fb, rel, last.pieceA, last.pieceB, steps);
  result.gapMm = W[GAP]!;
  const ax = W[AX]!;
  const ay = W[AY]!;
  result.slopeMm = steps ? W[SLOPE]! : rate(W[SQUARE_X]!, W[SQUARE_Y]!, ax, ay);
  result.ax = ax;
  result.ay = ay;
  result.bx = W[PBX]!;
  result.by = W[PBY]!;
  result.forwardRad = W[FORWARD]!;
  result.backRad = W[BACK]!;
  if (W[GAP]! < bestMm) {
    last.pieceA = W[NEAR_A]!;
    last.pieceB = W[NEAR_B]!;
    const ux = ax - W[SHIFT_X]!;
    const uy = ay - W[SHIFT_Y]!;
    last.own[0] = W[COS]! * ux - W[SIN]! * uy;
    last.own[1] = W[SIN]! * ux + W[COS]! * uy;
    last.own[2] = W[PBX]!;
    last.own[3] = W[PBY]!;
  }
  return result;
}

/** The distance of two places, one of A and one of B, each in its own frame: the gap is not above it. */
function boundBy(own: Float64Array): void {
  const ax = W[SHIFT_X]! + W[COS]! * own[0]! + W[SIN]! * own[1]!;
  const ay = W[SHIFT_Y]! - W[SIN]! * own[0]! + W[COS]! * own[1]!;
  const px = ax - own[2]!;
  const py = ay - own[3]!;
  const d2 = px * px + py * py;
  if (d2 === 0 || d2 >= W[GAP]! * W[GAP]!) return;
  const d = Math.sqrt(d2);
  W[GAP] = d;
  W[SQUARE_X] = px / d;
  W[SQUARE_Y] = py / d;
  W[SLOPE] = rate(px / d, py / d, ax, ay);
  W[AX] = ax;
  W[AY] = ay;
  W[PBX] = own[2]!;
  W[PBY] = own[3]!;
}

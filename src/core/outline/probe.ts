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
import { BR, BX, BY, CENTRE_REACH, CONVEX, CORNER_REACH, CX, CY, DISC_REACH, LINE, R, STRIDE, X0, Y0 } from './flat.ts';
import { discAndArcOfA, discAndArcOfB, sideBySide } from './probeDiscs.ts';
import { discAndLineOfA, discAndLineOfB } from './probeLines.ts';
import type { Probe } from './probeWork.ts';
import { accelA, accelB, accelPerReachA, accelPerReachB, begin, discsFar, nowAt } from './probeWork.ts';
import type { Relative } from './relative.ts';

export { newProbe, type Probe } from './probeWork.ts';

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
  begin(ta, ma, fb, mb, relative, bestMm, steps, targetMm, result);
  const tb = fb.at;
  const sa = fa.at;
  // Last time's nearest pieces first: a good bound lets most others be passed over.
  const hintA = result.pieceA < fa.n ? result.pieceA : 0;
  const hintB = result.pieceB < fb.n ? result.pieceB : 0;
  nowAt(hintA, hintB);
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
      nowAt(i, j);
      pieces(fa.kind[i]!, ta, sa, o, fb.kind[j]!, tb, q);
    }
  }
  return result;
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

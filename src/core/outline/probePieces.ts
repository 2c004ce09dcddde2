/** All candidates of probe.ts between one piece of A and one of B. */
import type { FlatOutline } from './flat.ts';
import { CONVEX, CORNER, LINE, STRIDE } from './flat.ts';
import { discOfAInside, discOfBInside, sideBySide } from './probeDiscs.ts';
import { discAndLineOfA, discAndLineOfB } from './probeLines.ts';
import { NOW_A, NOW_B, W } from './probeWork.ts';

/** All candidates of piece i of A, carried into B's frame in `ta`, with piece j of B: the start corners, the insides. Their end corners belong to the next pieces. */
export function pieces(fa: FlatOutline, ta: Float64Array, i: number, fb: FlatOutline, j: number): void {
  const tb = fb.at;
  const o = i * STRIDE;
  const q = j * STRIDE;
  const kindA = fa.kind[i]!;
  const kindB = fb.kind[j]!;
  W[NOW_A] = i;
  W[NOW_B] = j;
  // Reflex corners (-1) are left out, smooth joints (0) limit no step.
  const cornerA = fa.at[o + CORNER]!;
  const cornerB = tb[q + CORNER]!;
  if (cornerA >= 0) {
    const stepsA = cornerA > 0;
    if (cornerB >= 0) sideBySide(ta, o, 0, tb, q, 0, stepsA && cornerB > 0);
    // Corner of A, inside of the piece of B.
    if (kindB === LINE) discAndLineOfB(ta, o, 0, tb, q, stepsA);
    else if (kindB === CONVEX) sideBySide(ta, o, 0, tb, q, 1, stepsA);
    else discOfAInside(ta, o, 0, tb, q, stepsA);
  }
  if (cornerB >= 0) {
    const stepsB = cornerB > 0;
    // Inside of the piece of A, corner of B.
    if (kindA === LINE) discAndLineOfA(tb, q, 0, ta, o, stepsB);
    else if (kindA === CONVEX) sideBySide(ta, o, 1, tb, q, 0, stepsB);
    else discOfBInside(tb, q, 0, ta, o, stepsB);
  }
  // Insides of both.
  if (kindA === CONVEX) {
    if (kindB === LINE) discAndLineOfB(ta, o, 1, tb, q, true);
    else if (kindB === CONVEX) sideBySide(ta, o, 1, tb, q, 1, true);
    else discOfAInside(ta, o, 1, tb, q, true);
  } else if (kindB === CONVEX) {
    if (kindA === LINE) discAndLineOfA(tb, q, 1, ta, o, true);
    else discOfBInside(tb, q, 1, ta, o, true);
  }
}

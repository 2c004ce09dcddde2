/** Candidates of probe.ts with a straight piece: a disc (corner or convex arc) against a line. */
import type { Motion } from '../plane/pose.ts';
import { LEN, NX, NY, TX, TY, X0, Y0 } from './flat.ts';
import {
  accel,
  carriedA,
  idleStep,
  LONGEST_STEP_RAD,
  limit,
  motionA,
  motionB,
  out,
  outsideSector,
  ownB,
  quadraticStep,
  rate,
  record,
  rel,
  turnSum,
  wantStep,
} from './probeWork.ts';

/** Disc of A against a line of B, in B's frame. `pieceA`: the arc of A the disc belongs to, or -1. */
export function discAndLineOfB(
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
export function discAndLineOfA(
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

/** Candidates of probe.ts between round pieces and corners: two discs side by side, or one inside a concave arc. */
import { CENTRE_REACH, CONCAVE, CONVEX, CX, CY, R } from './flat.ts';
import {
  accelA,
  accelB,
  accelPerReachA,
  accelPerReachB,
  carriedA,
  limit,
  out,
  outsideSector,
  ownB,
  quadraticStep,
  rate,
  record,
  sectorStep,
  speed,
  target,
  wantStep,
} from './probeWork.ts';

/** Disc of A (centre ax, ay; radius ra) beside disc of B. */
export function sideBySide(
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
export function discAndArcOfB(
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
export function discAndArcOfA(
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

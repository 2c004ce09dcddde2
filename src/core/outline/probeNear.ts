/**
 * The candidates of probe.ts between one piece of A and one of B, where only the distance is asked for: the same as in probeDiscs.ts and
 * probeLines.ts, told apart by squares first, so that few take a root. How fast a distance changes is worked out for the nearest alone (probe.ts).
 *
 * A disc is a corner (0), of radius 0, or the circle of a convex arc (1), whose sector its foot must lie in; the place of its centre in a packed
 * piece is twice that number. One function without calls: a number that is handed to another one may be a new object each time.
 */
import type { FlatOutline } from './flat.ts';
import { CONCAVE, CONVEX, CORNER, CX, CY, E1X, E1Y, E2X, E2Y, LEN, LINE, NX, NY, R, STRIDE, TX, TY } from './flat.ts';
import { AX, AY, GAP, NEAR_A, NEAR_B, PBX, PBY, SQUARE_X, SQUARE_Y, W } from './probeWork.ts';

/** Of piece i of A, carried into B's frame in `ta`, with piece j of B. End corners belong to the next pieces; reflex corners are left out. */
export function nearer(fa: FlatOutline, ta: Float64Array, i: number, fb: FlatOutline, j: number): void {
  const tb = fb.at;
  const o = i * STRIDE;
  const q = j * STRIDE;
  const kindA = fa.kind[i]!;
  const kindB = fb.kind[j]!;
  const firstA = fa.at[o + CORNER]! >= 0 ? 0 : 1;
  const firstB = tb[q + CORNER]! >= 0 ? 0 : 1;
  const endA = kindA === CONVEX ? 2 : 1;
  const endB = kindB === CONVEX ? 2 : 1;
  let gap = W[GAP]!;
  // Nearest so far: the way from B to A, the place of A; the place of B lies the gap from it.
  let nearX = 0;
  let nearY = 0;
  let placeX = 0;
  let placeY = 0;
  let found = false;
  // Discs side by side.
  for (let c = firstA; c < endA; c++) {
    const ax = ta[o + 2 * c]!;
    const ay = ta[o + 2 * c + 1]!;
    const ra = c * ta[o + R]!;
    for (let e = firstB; e < endB; e++) {
      const px = ax - tb[q + 2 * e]!;
      const py = ay - tb[q + 2 * e + 1]!;
      const radii = ra + e * tb[q + R]!;
      const d2 = px * px + py * py;
      const near = gap + radii;
      if (d2 >= near * near || d2 < radii * radii) continue;
      if (e === 1 && (px * tb[q + E1X]! + py * tb[q + E1Y]! > 0 || px * tb[q + E2X]! + py * tb[q + E2Y]! > 0)) continue;
      if (c === 1 && (px * ta[o + E1X]! + py * ta[o + E1Y]! < 0 || px * ta[o + E2X]! + py * ta[o + E2Y]! < 0)) continue;
      const d = Math.sqrt(d2);
      const f = d - radii;
      if (!(f >= 0 && f < gap)) continue;
      gap = f;
      nearX = d > 0 ? px / d : 0;
      nearY = d > 0 ? py / d : 0;
      placeX = ax - nearX * ra;
      placeY = ay - nearY * ra;
      found = true;
    }
    // A disc of A before a line of B.
    if (kindB === LINE) {
      const nx = tb[q + NX]!;
      const ny = tb[q + NY]!;
      const dx = ax - tb[q]!;
      const dy = ay - tb[q + 1]!;
      const f = dx * nx + dy * ny - ra;
      if (!(f >= 0 && f < gap)) continue;
      const along = dx * tb[q + TX]! + dy * tb[q + TY]!;
      if (along < 0 || along > tb[q + LEN]!) continue;
      if (c === 1 && (nx * ta[o + E1X]! + ny * ta[o + E1Y]! < 0 || nx * ta[o + E2X]! + ny * ta[o + E2Y]! < 0)) continue;
      gap = f;
      nearX = nx;
      nearY = ny;
      placeX = ax - nx * ra;
      placeY = ay - ny * ra;
      found = true;
    } else if (kindB === CONCAVE) {
      // A disc of A inside a concave arc of B. Concentric: every direction is as near, and the corners of the arcs that face each other tell of it.
      const ux = ax - tb[q + CX]!;
      const uy = ay - tb[q + CY]!;
      const room = tb[q + R]! - ra;
      const d2 = ux * ux + uy * uy;
      const least = room - gap;
      if (room <= 0 || d2 > room * room || d2 === 0 || (least > 0 && d2 <= least * least)) continue;
      if (ux * tb[q + E1X]! + uy * tb[q + E1Y]! > 0 || ux * tb[q + E2X]! + uy * tb[q + E2Y]! > 0) continue;
      if (c === 1 && (ux * ta[o + E1X]! + uy * ta[o + E1Y]! > 0 || ux * ta[o + E2X]! + uy * ta[o + E2Y]! > 0)) continue;
      const d = Math.sqrt(d2);
      const f = room - d;
      if (!(f >= 0 && f < gap)) continue;
      gap = f;
      nearX = -ux / d;
      nearY = -uy / d;
      placeX = ax - nearX * ra;
      placeY = ay - nearY * ra;
      found = true;
    }
  }
  if (kindA !== CONVEX) {
    for (let e = firstB; e < endB; e++) {
      const bx = tb[q + 2 * e]!;
      const by = tb[q + 2 * e + 1]!;
      const rb = e * tb[q + R]!;
      if (kindA === LINE) {
        // A disc of B before a line of A.
        const nx = ta[o + NX]!;
        const ny = ta[o + NY]!;
        const dx = bx - ta[o]!;
        const dy = by - ta[o + 1]!;
        const f = dx * nx + dy * ny - rb;
        if (!(f >= 0 && f < gap)) continue;
        const along = dx * ta[o + TX]! + dy * ta[o + TY]!;
        if (along < 0 || along > ta[o + LEN]!) continue;
        if (e === 1 && (nx * tb[q + E1X]! + ny * tb[q + E1Y]! < 0 || nx * tb[q + E2X]! + ny * tb[q + E2Y]! < 0))
          continue;
        gap = f;
        nearX = -nx;
        nearY = -ny;
        placeX = bx - nx * (rb + f);
        placeY = by - ny * (rb + f);
        found = true;
      } else {
        // A disc of B inside a concave arc of A.
        const ux = bx - ta[o + CX]!;
        const uy = by - ta[o + CY]!;
        const room = ta[o + R]! - rb;
        const d2 = ux * ux + uy * uy;
        const least = room - gap;
        if (room <= 0 || d2 > room * room || d2 === 0 || (least > 0 && d2 <= least * least)) continue;
        if (ux * ta[o + E1X]! + uy * ta[o + E1Y]! > 0 || ux * ta[o + E2X]! + uy * ta[o + E2Y]! > 0) continue;
        if (e === 1 && (ux * tb[q + E1X]! + uy * tb[q + E1Y]! > 0 || ux * tb[q + E2X]! + uy * tb[q + E2Y]! > 0))
          continue;
        const d = Math.sqrt(d2);
        const f = room - d;
        if (!(f >= 0 && f < gap)) continue;
        gap = f;
        nearX = ux / d;
        nearY = uy / d;
        placeX = bx + nearX * (rb + f);
        placeY = by + nearY * (rb + f);
        found = true;
      }
    }
  }
  if (!found) return;
  W[GAP] = gap;
  W[SQUARE_X] = nearX;
  W[SQUARE_Y] = nearY;
  W[AX] = placeX;
  W[AY] = placeY;
  W[PBX] = placeX - nearX * gap;
  W[PBY] = placeY - nearY * gap;
  W[NEAR_A] = i;
  W[NEAR_B] = j;
}

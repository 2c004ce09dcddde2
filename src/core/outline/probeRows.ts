/**
 * Which pieces of A and B a probe (probe.ts) looks at: all but those that are far apart, those that neither hold a nearer place nor limit
 * the safe turns.
 *
 * WHY THEY MAY BE PASSED OVER. All of B lies in an upright box of B's frame, as does each of its pieces; with q the box's place nearest to the
 * centre p of a disc that holds a piece of A, or all of A, and n = (p - q) / |p - q|, the box lies behind the line through q square to n. So over
 * the turn t their distance stays at least n.(p(t) - q) - r, r the disc's radius: a value of the third kind of probe.ts. Now it is |p - q| - r,
 * which must not be below the smallest distance known; and it must stay at or above the target:
 *
 *   - at once, where |p - q| - r - target >= V T, with T the longer of the turns asked for and V the bound on the speed of p in B's frame;
 *   - else where room + f' t - A t^2 / 2, concave in t, is not below zero at both ends of the turns.
 *
 * The same holds with the bodies' parts exchanged: a disc of B and an upright box of A's frame.
 */
import type { FlatOutline } from './flat.ts';
import { STRIDE } from './flat.ts';
import { nearer } from './probeNear.ts';
import { pieces } from './probePieces.ts';
import {
  accelInA,
  accelInB,
  BACK,
  COS,
  DSHIFT_X,
  DSHIFT_Y,
  DTURN,
  FORWARD,
  GAP,
  LONGEST_STEP_RAD,
  SHIFT_X,
  SHIFT_Y,
  SIN,
  SPIN_A,
  SPIN_B,
  speed,
  TARGET,
  W,
} from './probeWork.ts';
import type { Relative } from './relative.ts';
import { carryPiece } from './relative.ts';

/** Pieces of A carried into B's frame as they are needed: grown when an outline with more pieces comes. */
let carried = new Float64Array(64 * STRIDE);

/** Looks at pieces i of A and j of B first where they are given. Without `steps` only the distance is asked for. */
export function rows(
  fa: FlatOutline,
  fb: FlatOutline,
  rel: Relative,
  hintA: number,
  hintB: number,
  steps: boolean,
): void {
  if (carried.length < fa.n * STRIDE) carried = new Float64Array(fa.n * STRIDE);
  carryPiece(fa, hintA * STRIDE, rel, carried);
  if (steps) {
    pieces(fa, carried, hintA, fb, hintB);
    rowsWithTurns(fa, fb, rel, hintA, hintB);
  } else {
    nearer(fa, carried, hintA, fb, hintB);
    rowsOfDistance(fa, fb, rel, hintA, hintB);
  }
}

function rowsOfDistance(fa: FlatOutline, fb: FlatOutline, rel: Relative, hintA: number, hintB: number): void {
  const { discs, n: na } = fa;
  const { boxes, n: nb } = fb;
  const { cos, sin, tx, ty } = rel;
  const ta = carried;
  const end = 4 * nb;
  // All of A first, then piece by piece.
  for (let k = na; k < 2 * na + 1; k++) {
    const i = k === na ? na : k - na - 1;
    const o = 4 * i;
    const x = discs[o]!;
    const y = discs[o + 1]!;
    const r = discs[o + 2]!;
    const px = tx + cos * x + sin * y;
    const py = ty + cos * y - sin * x;
    let near = W[GAP]! + r;
    let near2 = near * near;
    let dx = Math.max(boxes[end]! - px, 0, px - boxes[end + 1]!);
    let dy = Math.max(boxes[end + 2]! - py, 0, py - boxes[end + 3]!);
    if (dx * dx + dy * dy >= near2) {
      if (i === na) return;
      continue;
    }
    if (i === na) continue;
    let carry = i !== hintA;
    for (let j = 0; j < nb; j++) {
      const q = 4 * j;
      dx = Math.max(boxes[q]! - px, 0, px - boxes[q + 1]!);
      dy = Math.max(boxes[q + 2]! - py, 0, py - boxes[q + 3]!);
      if (dx * dx + dy * dy >= near2 || (i === hintA && j === hintB)) continue;
      if (carry) {
        carryPiece(fa, i * STRIDE, rel, ta);
        carry = false;
      }
      nearer(fa, ta, i, fb, j);
      near = W[GAP]! + r;
      near2 = near * near;
    }
  }
}

function rowsWithTurns(fa: FlatOutline, fb: FlatOutline, rel: Relative, hintA: number, hintB: number): void {
  const { discs, n: na } = fa;
  const { boxes, n: nb } = fb;
  const { cos, sin, tx, ty } = rel;
  const ta = carried;
  const spin = W[SPIN_B]!;
  const target = W[TARGET]!;
  const end = 4 * nb;
  for (let k = na; k < 2 * na + 1; k++) {
    const i = k === na ? na : k - na - 1;
    const o = 4 * i;
    const x = discs[o]!;
    const y = discs[o + 1]!;
    const r = discs[o + 2]!;
    const reach = discs[o + 3]!;
    const ex = cos * x + sin * y;
    const ey = cos * y - sin * x;
    const px = tx + ex;
    const py = ty + ey;
    const fromB = spin === 0 ? 0 : Math.sqrt(px * px + py * py);
    const v = speed(reach, 0);
    const swift = v + spin * (fromB + v * LONGEST_STEP_RAD);
    const vx = W[DSHIFT_X]! + W[DTURN]! * ey;
    const vy = W[DSHIFT_Y]! - W[DTURN]! * ex;
    const half = accelInB(reach, fromB) / 2;
    let carry = i !== hintA;
    let forward = W[FORWARD]!;
    let back = W[BACK]!;
    let near = W[GAP]! + r;
    let swept = r + target + swift * Math.max(forward, back);
    // The whole of B first, then piece by piece.
    for (let m = nb; m < 2 * nb + 1; m++) {
      const j = m === nb ? nb : m - nb - 1;
      const q = j === nb ? end : 4 * j;
      const left = boxes[q]! - px;
      const low = boxes[q + 2]! - py;
      const dx = Math.max(left, 0, px - boxes[q + 1]!);
      const dy = Math.max(low, 0, py - boxes[q + 3]!);
      const d2 = dx * dx + dy * dy;
      let far = d2 >= near * near;
      if (far && d2 < swept * swept) {
        const d = Math.sqrt(d2);
        const room = d - r - target;
        const slope = ((left > 0 ? -dx : dx) * vx + (low > 0 ? -dy : dy) * vy) / d;
        far = room >= 0 && room + (slope - half * forward) * forward >= 0 && room - (slope + half * back) * back >= 0;
      }
      if (far && j === nb) {
        if (i === na) return;
        break;
      }
      if (i === na) break;
      if (far || j === nb || (i === hintA && j === hintB) || farSeenFromA(fa, i, fb, j)) continue;
      if (carry) {
        carryPiece(fa, i * STRIDE, rel, ta);
        carry = false;
      }
      pieces(fa, ta, i, fb, j);
      forward = W[FORWARD]!;
      back = W[BACK]!;
      near = W[GAP]! + r;
      swept = r + target + swift * Math.max(forward, back);
    }
  }
}

/** The same with the bodies' parts exchanged: a disc that holds piece j of B against the box of piece i of A, upright in A's frame. */
function farSeenFromA(fa: FlatOutline, i: number, fb: FlatOutline, j: number): boolean {
  const { boxes } = fa;
  const { discs } = fb;
  const o = 4 * i;
  const q = 4 * j;
  const bx = discs[q]! - W[SHIFT_X]!;
  const by = discs[q + 1]! - W[SHIFT_Y]!;
  const r = discs[q + 2]!;
  const cos = W[COS]!;
  const sin = W[SIN]!;
  const x = cos * bx - sin * by;
  const y = sin * bx + cos * by;
  const left = boxes[o]! - x;
  const low = boxes[o + 2]! - y;
  const dx = Math.max(left, 0, x - boxes[o + 1]!);
  const dy = Math.max(low, 0, y - boxes[o + 3]!);
  const d2 = dx * dx + dy * dy;
  const near = W[GAP]! + r;
  if (d2 < near * near) return false;
  const d = Math.sqrt(d2);
  const room = d - r - W[TARGET]!;
  if (room < 0) return false;
  const forward = W[FORWARD]!;
  const back = W[BACK]!;
  const reach = discs[q + 3]!;
  const fromA = W[SPIN_A] === 0 ? 0 : Math.sqrt(x * x + y * y);
  const half = accelInA(reach, fromA) / 2;
  // The place of B moves against A at minus the velocity that A has there.
  const ux = W[DSHIFT_X]! + W[DTURN]! * by;
  const uy = W[DSHIFT_Y]! - W[DTURN]! * bx;
  const vx = sin * uy - cos * ux;
  const vy = -sin * ux - cos * uy;
  const slope = ((left > 0 ? -dx : dx) * vx + (low > 0 ? -dy : dy) * vy) / d;
  return room + (slope - half * forward) * forward >= 0 && room - (slope + half * back) * back >= 0;
}

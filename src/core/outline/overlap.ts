/**
 * Do two outlines overlap: does an edge of one cross an edge of the other, or does one lie wholly inside the other.
 * Touching without crossing is not an overlap; the distance is zero then, and the caller sees that.
 */
import type { FlatOutline } from './flat.ts';
import { CX, CY, E1X, E1Y, E2X, E2Y, LINE, NX, NY, R, STRIDE, TX, TY, X0, X1, Y0, Y1 } from './flat.ts';
import type { Relative } from './relative.ts';
import { carryPiece } from './relative.ts';
import { distanceOfPoint, nearestPlace, POINT } from './signedDistance.ts';

/** Pieces of A carried into B's frame as they are needed: grown when an outline with more pieces comes. */
let carried = new Float64Array(64 * STRIDE);

/** A standing in B's frame as `rel` says. True when the materials share a region. */
export function overlaps(fa: FlatOutline, fb: FlatOutline, rel: Relative): boolean {
  if (carried.length < fa.n * STRIDE) carried = new Float64Array(fa.n * STRIDE);
  const ta = carried;
  const tb = fb.at;
  const { discs, n: na } = fa;
  const { boxes, n: nb } = fb;
  const { cos, sin, tx, ty } = rel;
  const end = 4 * nb;
  for (let i = 0; i < na; i++) {
    const d = 4 * i;
    const x = discs[d]!;
    const y = discs[d + 1]!;
    const r = discs[d + 2]!;
    const r2 = r * r;
    const px = tx + cos * x + sin * y;
    const py = ty + cos * y - sin * x;
    let dx = Math.max(boxes[end]! - px, 0, px - boxes[end + 1]!);
    let dy = Math.max(boxes[end + 2]! - py, 0, py - boxes[end + 3]!);
    // A disc that holds the piece of A and a box that holds all of B.
    if (dx * dx + dy * dy > r2) continue;
    const o = i * STRIDE;
    const lineA = fa.kind[i] === LINE;
    let carry = true;
    for (let j = 0; j < nb; j++) {
      const b = 4 * j;
      dx = Math.max(boxes[b]! - px, 0, px - boxes[b + 1]!);
      dy = Math.max(boxes[b + 2]! - py, 0, py - boxes[b + 3]!);
      if (dx * dx + dy * dy > r2) continue;
      if (carry) {
        carryPiece(fa, o, rel, ta);
        carry = false;
      }
      const q = j * STRIDE;
      const lineB = fb.kind[j] === LINE;
      if (
        lineA
          ? lineB
            ? linesCross(ta, o, tb, q)
            : lineCrossesArc(ta, o, tb, q)
          : lineB
            ? lineCrossesArc(tb, q, ta, o)
            : arcsCross(ta, o, tb, q)
      )
        return true;
    }
  }
  // No edges cross: one lies wholly inside the other or not at all, so one point of each tells.
  const ax = fa.at[X0]!;
  const ay = fa.at[Y0]!;
  POINT[0] = tx + cos * ax + sin * ay;
  POINT[1] = ty + cos * ay - sin * ax;
  if (isInside(fb)) return true;
  const bx = tb[X0]! - tx;
  const by = tb[Y0]! - ty;
  POINT[0] = cos * bx - sin * by;
  POINT[1] = sin * bx + cos * by;
  return isInside(fa);
}

/** Is the point in POINT, own frame, inside the outline. */
function isInside(f: FlatOutline): boolean {
  const x = POINT[0]!;
  const y = POINT[1]!;
  const { boxes } = f;
  const o = 4 * f.n;
  if (x < boxes[o]! || x > boxes[o + 1]! || y < boxes[o + 2]! || y > boxes[o + 3]!) return false;
  distanceOfPoint(f, nearestPlace);
  return POINT[2]! < 0;
}

function linesCross(a: Float64Array, o: number, b: Float64Array, q: number): boolean {
  const side0 = (a[o + X0]! - b[q + X0]!) * b[q + NX]! + (a[o + Y0]! - b[q + Y0]!) * b[q + NY]!;
  const side1 = (a[o + X1]! - b[q + X0]!) * b[q + NX]! + (a[o + Y1]! - b[q + Y0]!) * b[q + NY]!;
  if (side0 * side1 >= 0) return false;
  const other0 = (b[q + X0]! - a[o + X0]!) * a[o + NX]! + (b[q + Y0]! - a[o + Y0]!) * a[o + NY]!;
  const other1 = (b[q + X1]! - a[o + X0]!) * a[o + NX]! + (b[q + Y1]! - a[o + Y0]!) * a[o + NY]!;
  return other0 * other1 < 0;
}

/** Is the direction (ux, uy) from its centre inside the arc's sector. */
function inSector(t: Float64Array, o: number, ux: number, uy: number): boolean {
  return ux * t[o + E1X]! + uy * t[o + E1Y]! <= 0 && ux * t[o + E2X]! + uy * t[o + E2Y]! <= 0;
}

function lineCrossesArc(line: Float64Array, o: number, arc: Float64Array, q: number): boolean {
  const dx = line[o + X0]! - arc[q + CX]!;
  const dy = line[o + Y0]! - arc[q + CY]!;
  const tx = line[o + TX]!;
  const ty = line[o + TY]!;
  const along = dx * tx + dy * ty;
  const across = dx * line[o + NX]! + dy * line[o + NY]!;
  const r = arc[q + R]!;
  const under = r * r - across * across;
  if (under <= 0) return false;
  const half = Math.sqrt(under);
  const length = (line[o + X1]! - line[o + X0]!) * tx + (line[o + Y1]! - line[o + Y0]!) * ty;
  for (let k = -1; k <= 1; k += 2) {
    const t = -along + k * half;
    if (t <= 0 || t >= length) continue;
    if (inSector(arc, q, dx + t * tx, dy + t * ty)) return true;
  }
  return false;
}

function arcsCross(a: Float64Array, o: number, b: Float64Array, q: number): boolean {
  const px = b[q + CX]! - a[o + CX]!;
  const py = b[q + CY]! - a[o + CY]!;
  const ra = a[o + R]!;
  const rb = b[q + R]!;
  const d2 = px * px + py * py;
  if (d2 >= (ra + rb) * (ra + rb) || d2 <= (ra - rb) * (ra - rb)) return false;
  const d = Math.sqrt(d2);
  const along = (d2 + ra * ra - rb * rb) / (2 * d);
  const half = Math.sqrt(Math.max(0, ra * ra - along * along));
  for (let k = -1; k <= 1; k += 2) {
    const ux = (along * px - k * half * py) / d;
    const uy = (along * py + k * half * px) / d;
    if (inSector(a, o, ux, uy) && inSector(b, q, ux - px, uy - py)) return true;
  }
  return false;
}

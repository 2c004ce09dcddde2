/**
 * Do two outlines overlap: does an edge of one cross an edge of the other, or does one lie wholly inside the other.
 * Touching without crossing is not an overlap; the distance is zero then, and the caller sees that.
 */
import type { FlatOutline } from './flat.ts';
import { BR, BX, BY, CX, CY, E1X, E1Y, E2X, E2Y, LINE, NX, NY, R, STRIDE, TX, TY, X0, X1, Y0, Y1 } from './flat.ts';
import type { Relative } from './relative.ts';
import { nearestPlace, signedDistance } from './signedDistance.ts';

/** `ta` holds A's pieces in B's frame (see carry). True when the materials share a region. */
export function overlaps(fa: FlatOutline, ta: Float64Array, fb: FlatOutline, rel: Relative): boolean {
  const tb = fb.at;
  for (let i = 0; i < fa.n; i++) {
    const o = i * STRIDE;
    const ix = ta[o + BX]!;
    const iy = ta[o + BY]!;
    const ir = ta[o + BR]!;
    const bodyX = ix - fb.whole[BX]!;
    const bodyY = iy - fb.whole[BY]!;
    const bodyReach = ir + fb.whole[BR]!;
    if (bodyX * bodyX + bodyY * bodyY > bodyReach * bodyReach) continue;
    for (let j = 0; j < fb.n; j++) {
      const q = j * STRIDE;
      const dx = ix - tb[q + BX]!;
      const dy = iy - tb[q + BY]!;
      const reach = ir + tb[q + BR]!;
      if (dx * dx + dy * dy > reach * reach) continue;
      if (fa.kind[i] === LINE) {
        if (fb.kind[j] === LINE ? linesCross(ta, o, tb, q) : lineCrossesArc(ta, o, tb, q)) return true;
      } else if (fb.kind[j] === LINE ? lineCrossesArc(tb, q, ta, o) : arcsCross(ta, o, tb, q)) return true;
    }
  }
  if (signedDistance(fb, ta[X0]!, ta[Y0]!, nearestPlace) < 0) return true;
  // The start of B's first piece in A's frame.
  const bx = tb[X0]! - rel.tx;
  const by = tb[Y0]! - rel.ty;
  return signedDistance(fa, rel.cos * bx - rel.sin * by, rel.sin * bx + rel.cos * by, nearestPlace) < 0;
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

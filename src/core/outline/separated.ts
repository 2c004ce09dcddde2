/**
 * Are two outlines apart, shown by a straight line between them: every point of A beyond every point of B in one direction.
 * True is a proof; false says nothing. What lies on either side of the line is the whole of each material, which no point
 * of it leaves.
 */
import type { FlatOutline } from './flat.ts';
import { CONVEX, CX, CY, E1X, E1Y, E2X, E2Y, HIGH, LEFT, LOW, R, RIGHT, STRIDE, X0, Y0 } from './flat.ts';
import type { Relative } from './relative.ts';

/** `nx`, `ny`: the direction from B to A, of length 1, in B's frame. */
export function separated(fa: FlatOutline, fb: FlatOutline, rel: Relative, nx: number, ny: number): boolean {
  // The direction in A's own frame; A's least is minus its farthest the other way.
  const ux = rel.cos * nx - rel.sin * ny;
  const uy = rel.sin * nx + rel.cos * ny;
  const shift = nx * rel.tx + ny * rel.ty;
  const boxB = farthestOfBox(fb.whole, nx, ny);
  if (shift - farthestOfBox(fa.whole, -ux, -uy) > boxB) return true;
  const least = shift - farthest(fa, -ux, -uy);
  return least > boxB || least > farthest(fb, nx, ny);
}

/** Largest value of n.p over an upright box: not below that over the outline in it. */
function farthestOfBox(box: Float64Array, nx: number, ny: number): number {
  return nx * (nx > 0 ? box[RIGHT]! : box[LEFT]!) + ny * (ny > 0 ? box[HIGH]! : box[LOW]!);
}

/** Largest value of n.p over an outline, own frame: at a corner, or on a convex arc that faces that way. */
function farthest(f: FlatOutline, nx: number, ny: number): number {
  const { at, kind, n } = f;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const o = i * STRIDE;
    const corner = nx * at[o + X0]! + ny * at[o + Y0]!;
    if (corner > most) most = corner;
    if (kind[i] !== CONVEX) continue;
    const arc = nx * at[o + CX]! + ny * at[o + CY]! + at[o + R]!;
    if (arc > most && nx * at[o + E1X]! + ny * at[o + E1Y]! <= 0 && nx * at[o + E2X]! + ny * at[o + E2Y]! <= 0)
      most = arc;
  }
  return most;
}

/**
 * Are two outlines apart, shown by a straight line between the boxes that hold them: all of A's beyond all of B's in one direction.
 * True is a proof; false says nothing.
 */
import type { FlatOutline } from './flat.ts';
import { HIGH, LEFT, LOW, RIGHT } from './flat.ts';
import type { Relative } from './relative.ts';

/** `nx`, `ny`: the direction from B to A, of length 1, in B's frame. */
export function separated(fa: FlatOutline, fb: FlatOutline, rel: Relative, nx: number, ny: number): boolean {
  // The direction in A's own frame; A's least is minus its farthest the other way.
  const ux = rel.cos * nx - rel.sin * ny;
  const uy = rel.sin * nx + rel.cos * ny;
  return nx * rel.tx + ny * rel.ty - farthestOfBox(fa.whole, -ux, -uy) > farthestOfBox(fb.whole, nx, ny);
}

/** Largest value of n.p over an upright box: not below that over the outline in it. */
function farthestOfBox(box: Float64Array, nx: number, ny: number): number {
  return nx * (nx > 0 ? box[RIGHT]! : box[LEFT]!) + ny * (ny > 0 ? box[HIGH]! : box[LOW]!);
}

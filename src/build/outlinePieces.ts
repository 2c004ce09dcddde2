/** A measured outline, points with bulges, as exact straight and circular pieces. */
import { bulgedPiece, type Outline } from '../core/outline/outline.ts';
import type { OutlinePoint } from './document.ts';
import { lengthMm } from './literal.ts';

/** Outlines of a document are frozen and shared between its versions: each is read once. */
const known = new WeakMap<readonly OutlinePoint[], Outline>();

/** Closed by the edge from the last point to the first. Millimetres. Points must be apart and |bulge| at most 1. */
export function outlinePieces(points: readonly OutlinePoint[]): Outline {
  const before = known.get(points);
  if (before !== undefined) return before;
  const at = points.map((p) => [lengthMm(p.x.value), lengthMm(p.y.value)] as const);
  const pieces = points.map((point, k) => bulgedPiece(...at[k]!, ...at[(k + 1) % at.length]!, point.bulge ?? 0));
  const outline = { pieces };
  if (Object.isFrozen(points)) known.set(points, outline);
  return outline;
}

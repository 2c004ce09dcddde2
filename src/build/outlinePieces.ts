/**
 * A measured outline, points with bulges, as exact straight and circular pieces.
 *
 * Bulge b = tan(included angle / 4), positive when the arc turns counterclockwise. For a chord of length d the radius is
 * d (1 + b^2) / (4 |b|), and the centre lies d (1 - b^2) / (4 b) to the left of the chord's middle.
 */
import type { Outline, Piece } from '../core/outline/outline.ts';
import type { OutlinePoint } from './document.ts';
import { lengthMm } from './literal.ts';

/** Closed by the edge from the last point to the first. Millimetres. Points must be apart and |bulge| at most 1. */
export function outlinePieces(points: readonly OutlinePoint[]): Outline {
  const at = points.map((p) => [lengthMm(p.x.value), lengthMm(p.y.value)] as const);
  const pieces = points.map((point, k): Piece => {
    const [x0, y0] = at[k]!;
    const [x1, y1] = at[(k + 1) % at.length]!;
    const bulge = point.bulge ?? 0;
    return bulge === 0 ? { kind: 'line', x0, y0, x1, y1 } : arc(x0, y0, x1, y1, bulge);
  });
  return { pieces };
}

function arc(x0: number, y0: number, x1: number, y1: number, bulge: number): Piece {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const left = (1 - bulge * bulge) / (4 * bulge);
  const cx = (x0 + x1) / 2 - dy * left;
  const cy = (y0 + y1) / 2 + dx * left;
  const r = (Math.hypot(dx, dy) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return { kind: 'arc', cx, cy, r, startRad: Math.atan2(y0 - cy, x0 - cx), sweepRad: 4 * Math.atan(bulge) };
}

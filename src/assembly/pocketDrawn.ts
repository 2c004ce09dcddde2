/** A valve pocket in the middle section of its piston, for the drawing: what it takes off a crown of straight edges. */
import type { Outline } from '../core/outline/outline.ts';
import { Path } from '../core/outline/path.ts';

type XY = readonly [number, number];

/** Slots smaller than this are not drawn, mm². */
const LEAST_AREA_MM2 = 1e-3;

/**
 * The part of the box from (-halfWidth, lowY) to (halfWidth, topY) that lies in a slot open at the top: floor middle at (x, y), half as wide as
 * `radiusMm`, leaning clockwise from up. Null where that is nothing.
 */
export function pocketDrawn(
  halfWidth: number,
  lowY: number,
  topY: number,
  pocket: { readonly x: number; readonly y: number; readonly radiusMm: number },
  leanRad: number,
): Outline | null {
  const [ax, ay] = [Math.sin(leanRad), Math.cos(leanRad)];
  const middle: XY = [pocket.x, pocket.y];
  const right: XY = [pocket.x + pocket.radiusMm * ay, pocket.y - pocket.radiusMm * ax];
  const left: XY = [pocket.x - pocket.radiusMm * ay, pocket.y + pocket.radiusMm * ax];
  const whole: XY[] = [
    [-halfWidth, lowY],
    [halfWidth, lowY],
    [halfWidth, topY],
    [-halfWidth, topY],
  ];
  const points = clip(clip(clip(whole, middle, ax, ay), right, -ay, ax), left, ay, -ax);
  if (points.length < 3 || area(points) < LEAST_AREA_MM2) return null;
  const path = new Path(points[0]![0], points[0]![1]);
  for (const [x, y] of points.slice(1)) path.line(x, y);
  return path.close();
}

/** The part of a convex polygon on the side of the line through `on` to which (nx, ny) points. */
function clip(points: readonly XY[], on: XY, nx: number, ny: number): XY[] {
  const side = ([x, y]: XY) => (x - on[0]) * nx + (y - on[1]) * ny;
  return points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length]!;
    const [a, b] = [side(p), side(q)];
    const met: XY[] = a * b < 0 ? [[p[0] + (a / (a - b)) * (q[0] - p[0]), p[1] + (a / (a - b)) * (q[1] - p[1])]] : [];
    return a >= 0 ? [p, ...met] : met;
  });
}

function area(points: readonly XY[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}

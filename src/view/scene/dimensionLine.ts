/**
 * One dimension line, after the ISO 129-1 manner: extension lines from two points, a line between them with closed
 * narrow arrowheads, arrows from outside where the space is short. Pixels, y down.
 */
import type { Pen } from './pen.ts';

const ARROW_PX = 10;
const ARROW_HALF_PX = 1.7;
const CLEAR_OF_PART_PX = 3;
const OVERSHOOT_PX = 4;
/** Below this length the arrows come from outside. */
const SHORT_PX = 3 * ARROW_PX;
const OUTSIDE_RUN_PX = 18;

export interface DimensionPlace {
  /** Middle of the dimension line, and its direction (radians, screen) turned so that words on it stand upright. */
  readonly x: number;
  readonly y: number;
  readonly rotationRad: number;
  readonly lengthPx: number;
  /** Unit vector away from the measured points. */
  readonly awayX: number;
  readonly awayY: number;
}

function arrow(g: Pen, x: number, y: number, ux: number, uy: number): void {
  g.poly([
    x,
    y,
    x - ux * ARROW_PX - uy * ARROW_HALF_PX,
    y - uy * ARROW_PX + ux * ARROW_HALF_PX,
    x - ux * ARROW_PX + uy * ARROW_HALF_PX,
    y - uy * ARROW_PX - ux * ARROW_HALF_PX,
  ]);
}

/** Upright reading direction of a line at `rad` (screen): never upside down. */
export function uprightRad(rad: number): number {
  const turned = Math.atan2(Math.sin(rad), Math.cos(rad));
  if (turned > Math.PI / 2 + 1e-6) return turned - Math.PI;
  return turned < -Math.PI / 2 + 1e-6 ? turned + Math.PI : turned;
}

/**
 * Draws the dimension between two points, moved aside by `offsetPx` along the left-hand normal (negative: the other
 * side); no extension lines at offset 0. `bothArrows` false leaves the arrow at the first point out, as for a radius.
 */
export function drawDimension(
  g: Pen,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  offsetPx: number,
  color: number,
  widthPx: number,
  bothArrows = true,
): DimensionPlace {
  const length = Math.max(Math.hypot(x1 - x0, y1 - y0), 1e-6);
  const ux = (x1 - x0) / length;
  const uy = (y1 - y0) / length;
  const side = offsetPx < 0 ? -1 : 1;
  const nx = uy * side;
  const ny = -ux * side;
  const off = Math.abs(offsetPx);
  const ax = x0 + nx * off;
  const ay = y0 + ny * off;
  const bx = x1 + nx * off;
  const by = y1 + ny * off;
  if (off > CLEAR_OF_PART_PX) {
    for (const [x, y] of [
      [x0, y0],
      [x1, y1],
    ] as const) {
      g.moveTo(x + nx * CLEAR_OF_PART_PX, y + ny * CLEAR_OF_PART_PX);
      g.lineTo(x + nx * (off + OVERSHOOT_PX), y + ny * (off + OVERSHOOT_PX));
    }
  }
  const outside = length < SHORT_PX;
  const run = outside ? OUTSIDE_RUN_PX : 0;
  g.moveTo(ax - ux * run, ay - uy * run).lineTo(bx + ux * run, by + uy * run);
  g.stroke({ width: widthPx, color });
  const turn = outside ? -1 : 1;
  arrow(g, bx, by, ux * turn, uy * turn);
  if (bothArrows) arrow(g, ax, ay, -ux * turn, -uy * turn);
  g.fill({ color });
  return {
    x: (ax + bx) / 2,
    y: (ay + by) / 2,
    rotationRad: uprightRad(Math.atan2(uy, ux)),
    lengthPx: length,
    awayX: nx,
    awayY: ny,
  };
}

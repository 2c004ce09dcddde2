/** How heavy the lines of the section are, and how close its hatching stands. */
import type { DrawnShape } from '../../assembly/engine.ts';
import type { Role } from '../inView.ts';

/** Line weights, px on the screen at any zoom. */
export const CUT_PX = 2;
export const BEHIND_PX = 1;
export const THIN_PX = 0.75;

/** Distance between hatching lines on the screen for a part that asks for 2.5 mm; finer or coarser parts follow. */
const HATCH_PX_AT_2_5_MM = 6.5;
const LEAST_HATCH_PX = 4.5;
const MOST_HATCH_PX = 12;

/** `open`: cut, but not hiding what lies behind, so that an overlap shows. */
export type Drawing = Role | 'open';

/** Whether a shape carries section hatching when drawn so. */
export function isHatched(shape: DrawnShape, drawing: Drawing): boolean {
  return shape.style === 'cut' && shape.hatch !== undefined && (drawing === 'cut' || drawing === 'open');
}

/** Distance between the hatching lines of a shape, px. */
export function hatchSpacingPx(spacingMm: number): number {
  return Math.min(Math.max((spacingMm / 2.5) * HATCH_PX_AT_2_5_MM, LEAST_HATCH_PX), MOST_HATCH_PX);
}

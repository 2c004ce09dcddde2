/** Where a valve head and its crown are nearest (headAndCrown.ts), in words and as points. */
import type { Crown, HeadGap } from './headAndCrown.ts';

/** What a machinist calls the part of the crown that a direction away from a wedge belongs to. */
export function crownPart(crown: Crown, gap: HeadGap): string {
  if (crown.shape.pocket === null || gap.ny > 1 - 1e-6) return 'crown';
  if (gap.wedge === 0) return 'pocket floor';
  const along = gap.nx * crown.sinLean + gap.ny * crown.cosLean;
  return Math.abs(along) < 1e-3 ? 'pocket wall' : 'pocket edge';
}

/** Point of the head nearest along the direction, and the place the gap away from it: x and y of each, with the face's middle at (x, y). */
export function headPoints(
  crown: Crown,
  gap: HeadGap,
  x: number,
  y: number,
): readonly [number, number, number, number] {
  const { headRadiusMm, marginMm } = crown.shape;
  const [ax, ay] = [crown.sinLean, crown.cosLean];
  const along = gap.nx * ax + gap.ny * ay;
  const square = Math.sqrt(Math.max(0, 1 - along * along));
  const out = square < 1e-9 ? 0 : headRadiusMm / square;
  const up = along < 0 ? marginMm : 0;
  const px = x - out * (gap.nx - along * ax) + up * ax;
  const py = y - out * (gap.ny - along * ay) + up * ay;
  return [px, py, px - gap.mm * gap.nx, py - gap.mm * gap.ny];
}

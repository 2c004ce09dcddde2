/**
 * Where an oil hole comes out of a crankpin after the pin was ground smaller and off-centre.
 *
 * The hole is a straight line in the section square to the shaft through the old pin's middle; in the pin's own axes (y outward,
 * away from the crank axis, angles clockwise from it) it came out at angle b of the old surface. The new pin has its middle at (0, c)
 * and radius r1; the line leaves it at distance t from the old middle with t² - 2 t c cos b + c² = r1².
 */

/** Angle about the new middle at which the hole comes out, radians, -pi to pi, from outward. Throws a RangeError unless the old middle lies inside the new pin. */
export function oilHoleAngleRad(oldAngleRad: number, pinShiftMm: number, newJournalMm: number): number {
  const r = newJournalMm / 2;
  if (!(Math.abs(pinShiftMm) < r)) {
    throw new RangeError(`pin shift ${pinShiftMm} mm must be smaller than the new radius of ${r} mm`);
  }
  const along = pinShiftMm * Math.cos(oldAngleRad);
  const t = along + Math.sqrt(along * along - pinShiftMm * pinShiftMm + r * r);
  return Math.atan2(t * Math.sin(oldAngleRad), t * Math.cos(oldAngleRad) - pinShiftMm);
}

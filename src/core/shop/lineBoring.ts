/**
 * Line boring takes the main bores, and with them the crank axis, toward the deck. Each bank keeps its bores: along a bore at an angle
 * from up the crank comes nearer to the deck by rise x cos(angle), and the bore axis stands beside it by rise x sin(angle).
 * Geometry. Lengths in one unit, whichever; angles in radians.
 */

export interface AfterLineBoring {
  /** To be taken off the deck height, and off the height of the lower end of the bore. */
  readonly alongBore: number;
  /** To be added to the bore offset, positive toward the side to which the crankpin moves just after TDC. */
  readonly acrossBore: number;
}

/** Throws a RangeError for a rise that is not finite. */
export function lineBoring(rise: number, bankAngleRad: number): AfterLineBoring {
  if (!Number.isFinite(rise)) throw new RangeError(`rise ${rise} must be finite`);
  // The crank moves by rise along up; the bank's u is (sin b, cos b), its v (cos b, -sin b): up is cos b along u and -sin b along v,
  // so the bore axis, seen from the crank, moves by sin b toward v.
  return { alongBore: rise * Math.cos(bankAngleRad), acrossBore: rise * Math.sin(bankAngleRad) };
}

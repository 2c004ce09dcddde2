/**
 * Rods side by side on a crankpin, between two cheeks: the side clearance they have, what has to come off the cheeks if it
 * is too little, and whether the chamfer of a rod clears the fillet of the journal.
 *
 * Lengths along the shaft are exact decimals in one unit, whichever; the fillet, where a root is taken, is in millimetres.
 */
import { Decimal } from 'decimal.js';

export interface SideClearance {
  /** Journal length less the widths of all rods on it; negative when they do not go in. */
  readonly clearance: Decimal;
  /** To come off each of the two cheek faces for the clearance wanted; 0 when there is enough. */
  readonly widenEachFace: Decimal;
}

/** Throws a RangeError for a length that is not positive, a negative wanted clearance, or no rod. */
export function sideClearance(
  journalLength: Decimal,
  bigEndWidths: readonly Decimal[],
  wanted: Decimal,
): SideClearance {
  if (bigEndWidths.length === 0) throw new RangeError('a crankpin without a rod has no side clearance');
  for (const [name, value] of [
    ['journal length', journalLength],
    ...bigEndWidths.map((w) => ['big-end width', w] as const),
  ] as const) {
    if (!(value.isFinite() && value.gt(0))) throw new RangeError(`${name} ${value} must be positive and finite`);
  }
  if (!wanted.gte(0)) throw new RangeError(`wanted side clearance ${wanted} must be 0 or more`);
  const clearance = bigEndWidths.reduce((left, width) => left.sub(width), journalLength);
  return { clearance, widenEachFace: Decimal.max(wanted.sub(clearance).div(2), 0) };
}

export interface FilletAndChamfer {
  /** Radius of the fillet between journal and cheek. */
  readonly filletMm: number;
  /** Chamfer of the rod on the side that faces the cheek: along the shaft and along the radius. */
  readonly chamferAxialMm: number;
  readonly chamferRadialMm: number;
  /** Rod's side face from the cheek, and its bearing from the journal on the side where they come together. */
  readonly sideMm: number;
  readonly bearingMm: number;
}

/**
 * Least distance of rod from fillet, mm; negative when the rod rides on the fillet. The fillet is a hollow quarter circle
 * about (R, R) from the corner; a rod stays out of its metal while both corners of its chamfer lie in the circle, since a
 * circle holds the line between two points that it holds. A corner beyond the fillet's end is measured to the face or to the
 * journal. Throws a RangeError for a negative length.
 */
export function filletClearanceMm(f: FilletAndChamfer): number {
  for (const [name, value] of Object.entries(f)) {
    if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`${name} ${value} must be 0 or more and finite`);
  }
  const r = f.filletMm;
  const from = (xMm: number, yMm: number): number => {
    if (xMm >= r) return yMm;
    if (yMm >= r) return xMm;
    return r - Math.hypot(r - xMm, r - yMm);
  };
  return Math.min(from(f.sideMm, f.bearingMm + f.chamferRadialMm), from(f.sideMm + f.chamferAxialMm, f.bearingMm));
}

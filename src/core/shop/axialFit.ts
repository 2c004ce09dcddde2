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
 * Least distance of the rod's chamfer from the fillet, mm; negative when the rod rides on it. The fillet is a hollow quarter
 * circle about (R, R) from the corner and holds only there, between its two ends. Along the part of the chamfer that lies
 * between them the distance is R less that from the middle of the circle, which is greatest at an end of that part. A
 * chamfer that passes the fillet altogether is as far from it as from the circle's middle, and R more. Throws a RangeError for
 * a negative length.
 */
export function filletClearanceMm(f: FilletAndChamfer): number {
  for (const [name, value] of Object.entries(f)) {
    if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`${name} ${value} must be 0 or more and finite`);
  }
  const r = f.filletMm;
  // Along the chamfer from the side face, t = 0, to the bearing, t = 1, seen from the circle's middle.
  const x = (t: number): number => f.sideMm + f.chamferAxialMm * t - r;
  const y = (t: number): number => f.bearingMm + f.chamferRadialMm * (1 - t) - r;
  // x grows and y falls with t: below 0 are t up to one place for x, and from one place for y.
  // Where there are none, that comes out below 0 for x, above 1 for y.
  const last = x(1) <= 0 ? 1 : -x(0) / f.chamferAxialMm;
  const first = y(0) <= 0 ? 0 : y(0) / f.chamferRadialMm;
  if (first <= last) return r - Math.max(Math.hypot(x(first), y(first)), Math.hypot(x(last), y(last)));
  return r + fromMiddleMm(x(0), y(0), x(1), y(1));
}

/** Distance of the origin from a stretch of line. */
function fromMiddleMm(x0: number, y0: number, x1: number, y1: number): number {
  const along = (x1 - x0) ** 2 + (y1 - y0) ** 2;
  const t = along === 0 ? 0 : Math.min(1, Math.max(0, -(x0 * (x1 - x0) + y0 * (y1 - y0)) / along));
  return Math.hypot(x0 + t * (x1 - x0), y0 + t * (y1 - y0));
}

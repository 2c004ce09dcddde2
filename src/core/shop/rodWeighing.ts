/**
 * Weighing a rod on two scales: big end on one, small end on the other, both bores level. What the scales show must add
 * up to the whole rod weighed by itself; where it does not, the rod stood askew or a scale is off. Grams, exact decimals.
 */
import type { Decimal } from 'decimal.js';

export interface RodWeighing {
  readonly bigEndGrams: Decimal;
  readonly smallEndGrams: Decimal;
  readonly totalGrams: Decimal;
}

export interface WeighingCheck {
  /** Both ends together less the whole. */
  readonly differenceGrams: Decimal;
  readonly agrees: boolean;
}

/**
 * Whether the two ends add up to the whole, within `readabilityGrams` of each of the three weighings (half a digit of the
 * scale, or what the shop allows). Throws a RangeError for weights that are not positive or a negative readability.
 */
export function checkWeighing(w: RodWeighing, readabilityGrams: Decimal): WeighingCheck {
  for (const [name, grams] of [
    ['big end', w.bigEndGrams],
    ['small end', w.smallEndGrams],
    ['whole rod', w.totalGrams],
  ] as const) {
    if (!(grams.isFinite() && grams.gt(0))) throw new RangeError(`${name} of ${grams} g must be positive and finite`);
  }
  if (!readabilityGrams.gte(0)) throw new RangeError(`readability ${readabilityGrams} g must be 0 or more`);
  const differenceGrams = w.bigEndGrams.add(w.smallEndGrams).sub(w.totalGrams);
  return { differenceGrams, agrees: differenceGrams.abs().lte(readabilityGrams.mul(3)) };
}

/**
 * Where along the rod its weight sits: distance of the centre of mass from the big end's centre, in the unit of the
 * length, length x small end / (big end + small end). The two-scale weights are those of a lever on two supports.
 */
export function centreOfMassFromBigEnd(w: RodWeighing, length: Decimal): Decimal {
  return length.mul(w.smallEndGrams).div(w.bigEndGrams.add(w.smallEndGrams));
}

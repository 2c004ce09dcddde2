/**
 * The confidence interval of a chance seen as `hits` out of `tries`: Wilson's score interval, without continuity correction.
 *
 * The ends are the two chances p for which the count seen lies z standard errors away, |hits/n - p| = z sqrt(p (1 - p) / n),
 * which is a quadratic in p. E. B. Wilson, Probable inference, the law of succession, and statistical inference, Journal of the
 * American Statistical Association 22 (1927), 209-212. It stays within 0 and 1 and is not empty where nothing was hit.
 */

/** Standard normal deviate that 95 % lie within, both sides. */
export const Z_95 = 1.959963984540054;

export interface Interval {
  /** 0 to 1. */
  readonly low: number;
  readonly high: number;
}

/** Throws RangeError unless 0 <= hits <= tries, whole numbers, tries above zero, z above zero. */
export function wilsonInterval(hits: number, tries: number, z = Z_95): Interval {
  if (!Number.isInteger(tries) || tries < 1 || !Number.isInteger(hits) || hits < 0 || hits > tries || !(z > 0)) {
    throw new RangeError(`wilsonInterval: ${hits} of ${tries} at z = ${z}; allowed: whole numbers, 0 <= hits <= tries`);
  }
  const z2 = z * z;
  const middle = (hits + z2 / 2) / (tries + z2);
  const half = (z / (tries + z2)) * Math.sqrt((hits * (tries - hits)) / tries + z2 / 4);
  // At none and at all one end is exact; rounding must not move it.
  return { low: hits === 0 ? 0 : middle - half, high: hits === tries ? 1 : middle + half };
}

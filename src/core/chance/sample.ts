/** What a sample of numbers says: mean, spread, quantiles, and how many fall into each of a row of equal bins. */

export interface Summary {
  readonly count: number;
  readonly mean: number;
  /** Of the sample, with n - 1; 0 for a single value. */
  readonly sd: number;
  readonly least: number;
  readonly greatest: number;
}

/** Throws RangeError on an empty sample. */
export function summaryOf(values: Float64Array): Summary {
  const count = values.length;
  if (count === 0) throw new RangeError('summaryOf: no values');
  // Two passes: the squares of what is left after the mean lose nothing to cancellation.
  let sum = 0;
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    sum += v;
    if (v < least) least = v;
    if (v > greatest) greatest = v;
  }
  const mean = sum / count;
  let squares = 0;
  for (const v of values) squares += (v - mean) ** 2;
  return { count, mean, sd: count > 1 ? Math.sqrt(squares / (count - 1)) : 0, least, greatest };
}

/**
 * Quantile of values sorted upward, straight lines between the values, the first at 0 and the last at 1: definition 7 of R. J.
 * Hyndman and Y. Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996), 361-365. `share` 0 to 1.
 */
export function quantile(sorted: Float64Array, share: number): number {
  if (sorted.length === 0 || !(share >= 0 && share <= 1))
    throw new RangeError(`quantile: ${share} of ${sorted.length} values`);
  const at = share * (sorted.length - 1);
  const k = Math.floor(at);
  const low = sorted[k]!;
  return k + 1 < sorted.length ? low + (at - k) * (sorted[k + 1]! - low) : low;
}

export interface Histogram {
  /** Lower end of the first bin. */
  readonly from: number;
  /** Width of every bin, above zero. */
  readonly width: number;
  /** From a bin's lower end, included, to its upper one. */
  readonly counts: readonly number[];
}

const MOST_BINS = 40;
const FEWEST_BINS = 8;

/**
 * Bins of a round width with their ends at multiples of it, so that zero, or any multiple, is an end: the width is the
 * first of 1, 2, 5 times a power of ten at or above Freedman and Diaconis' 2 IQR / n^(1/3) (On the histogram as a density
 * estimator, Zeitschrift für Wahrscheinlichkeitstheorie 57 (1981), 453-476), held so that there are 8 to 40 bins or so.
 * Throws RangeError on an empty sample.
 */
export function histogramOf(values: Float64Array): Histogram {
  const sorted = Float64Array.from(values).sort();
  if (sorted.length === 0) throw new RangeError('histogramOf: no values');
  const least = sorted[0]!;
  const range = sorted.at(-1)! - least;
  // All alike, but for rounding: one bin.
  if (range < 1e-9) return { from: least - 5e-4, width: 1e-3, counts: [sorted.length] };
  const wanted = (2 * (quantile(sorted, 0.75) - quantile(sorted, 0.25))) / Math.cbrt(sorted.length);
  const width = roundUp(Math.min(range / FEWEST_BINS, Math.max(range / MOST_BINS, wanted)));
  const first = Math.floor(least / width);
  const counts = new Array<number>(Math.floor(sorted.at(-1)! / width) - first + 1).fill(0);
  for (const v of sorted) counts[Math.floor(v / width) - first]! += 1;
  return { from: first * width, width, counts };
}

function roundUp(width: number): number {
  const ten = 10 ** Math.floor(Math.log10(width));
  for (const step of [1, 2, 5]) if (step * ten >= width) return step * ten;
  return 10 * ten;
}

/** Sums over samples against figures known otherwise. */
import fc from 'fast-check';
import { mean, quantileSeq, std } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { histogramOf, quantile, summaryOf } from '../../../src/core/chance/sample.ts';

const values = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 2, maxLength: 60 });

describe('a sample', () => {
  it('has mean, spread and quantiles as mathjs has them', () => {
    fc.assert(
      fc.property(values, fc.integer({ min: 0, max: 1000 }), (list, thousandths) => {
        const share = thousandths / 1000;
        const sample = Float64Array.from(list);
        const { mean: m, sd, least, greatest } = summaryOf(sample);
        expect(m).toBeCloseTo(mean(list) as number, 9);
        expect(sd).toBeCloseTo(Number(std(list)), 9);
        expect([least, greatest]).toEqual([Math.min(...list), Math.max(...list)]);
        expect(quantile(sample.slice().sort(), share)).toBeCloseTo(Number(quantileSeq(list, share)), 9);
      }),
    );
  });

  it('keeps its spread far from zero', () => {
    // Deviations -1, 0, 1 about a billion: variance 1.
    expect(summaryOf(Float64Array.of(1e9 - 1, 1e9, 1e9 + 1)).sd).toBe(1);
  });

  it('falls into bins that hold each value once, with ends at round places', () => {
    fc.assert(
      fc.property(values, (list) => {
        const { from, width, counts } = histogramOf(Float64Array.from(list));
        expect(counts.reduce((a, b) => a + b, 0)).toBe(list.length);
        expect(counts.length).toBeLessThanOrEqual(42);
        const range = Math.max(...list) - Math.min(...list);
        if (range < 1e-9) return;
        expect(Math.abs(from / width - Math.round(from / width))).toBeLessThan(1e-6);
        for (const [k, count] of counts.entries()) {
          const inside = list.filter((v) => v >= from + k * width - 1e-9 && v < from + (k + 1) * width + 1e-9);
          expect(inside.length).toBeGreaterThanOrEqual(count);
        }
      }),
    );
  });

  it('of one value has no spread, and every quantile is that value', () => {
    expect(summaryOf(Float64Array.of(7))).toEqual({ count: 1, mean: 7, sd: 0, least: 7, greatest: 7 });
    for (const share of [0, 0.5, 1]) expect(quantile(Float64Array.of(7), share)).toBe(7);
  });

  it('has its ends as the outermost quantiles, and none beyond', () => {
    const sorted = Float64Array.of(1, 2, 4);
    expect([quantile(sorted, 0), quantile(sorted, 1)]).toEqual([1, 4]);
    for (const share of [-0.01, 1.01, Number.NaN]) expect(() => quantile(sorted, share)).toThrow(RangeError);
  });

  // Widths by hand, after Freedman and Diaconis: 2 IQR / n^(1/3), at least a fortieth and at most an eighth of the range.
  const steps = (n: number, step: number): Float64Array => Float64Array.from({ length: n }, (_, k) => k * step);
  it('10 000 evenly over 100: 2 x 50 / 21.54 = 4.64, bins of 5', () => {
    const { from, width, counts } = histogramOf(steps(10_000, 1 / 100));
    expect([from, width, counts]).toEqual([0, 5, new Array(20).fill(500)]);
  });

  it('101 evenly over 100: 2 x 50 / 4.66 = 21.5, held to 100 / 8 = 12.5, bins of 20', () => {
    const { from, width, counts } = histogramOf(steps(101, 1));
    expect([from, width, counts]).toEqual([0, 20, [20, 20, 20, 20, 20, 1]]);
  });

  it('one far from 999 others: held to 80 / 40 = 2, which is round itself', () => {
    const values = new Float64Array(1000);
    values[0] = 80;
    const { from, width, counts } = histogramOf(values);
    expect([from, width, counts.length, counts[0], counts[40]]).toEqual([0, 2, 41, 999, 1]);
  });

  it('two at the ends of 56, .56 and .12: eighths of 7, .07 and .015, bins of 10, .1 and .02', () => {
    for (const [range, width] of [
      [56, 10],
      [0.56, 0.1],
      [0.12, 0.02],
    ] as const)
      expect(histogramOf(Float64Array.of(0, range)).width).toBeCloseTo(width, 12);
  });

  it('all alike: one bin about the value, a thousandth wide', () => {
    const { from, width, counts } = histogramOf(Float64Array.of(3, 3, 3));
    expect(from).toBeCloseTo(2.9995, 12);
    expect([width, counts]).toEqual([1e-3, [3]]);
  });

  it('of nothing says nothing', () => {
    const none = new Float64Array(0);
    for (const f of [summaryOf, histogramOf]) expect(() => f(none)).toThrow(/no values/);
    expect(() => quantile(none, 0.5)).toThrow(RangeError);
  });
});

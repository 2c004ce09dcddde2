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

  it('of nothing says nothing', () => {
    const none = new Float64Array(0);
    for (const f of [summaryOf, histogramOf]) expect(() => f(none)).toThrow(RangeError);
    expect(() => quantile(none, 0.5)).toThrow(RangeError);
  });
});

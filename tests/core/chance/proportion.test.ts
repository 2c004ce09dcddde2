/** Confidence interval of a chance against a published table. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wilsonInterval } from '../../../src/core/chance/proportion.ts';

describe('the score interval', () => {
  /**
   * R. G. Newcombe, Two-sided confidence intervals for the single proportion: comparison of seven methods, Statistics in Medicine 17
   * (1998), 857-872, table I, method 3, 95 %.
   */
  for (const [hits, tries, low, high] of [
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
    [29, 29, 0.883, 1],
  ] as const) {
    it(`of ${hits} in ${tries} is ${low} to ${high}`, () => {
      const interval = wilsonInterval(hits, tries);
      expect(Math.abs(interval.low - low)).toBeLessThan(5.1e-5);
      expect(Math.abs(interval.high - high)).toBeLessThan(5.1e-5);
    });
  }

  it('of one in one, by hand: the square root falls away, 1 / (1 + z²) to 1', () => {
    const { low, high } = wilsonInterval(1, 1, 2);
    expect([low, high]).toEqual([expect.closeTo(0.2, 12), 1]);
  });

  it('ends where the count seen lies z standard errors away, within 0 and 1', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.double({ min: 0, max: 1, noNaN: true }), (tries, share) => {
        const hits = Math.round(share * tries);
        const { low, high } = wilsonInterval(hits, tries, 1.96);
        const seen = hits / tries;
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(1);
        expect(low).toBeLessThanOrEqual(seen);
        expect(high).toBeGreaterThanOrEqual(seen);
        for (const p of [low, high]) {
          if (p === 0 || p === 1) continue;
          expect(Math.abs(seen - p) / Math.sqrt((p * (1 - p)) / tries)).toBeCloseTo(1.96, 5);
        }
      }),
    );
  });

  it('refuses counts that can not be', () => {
    for (const [hits, tries] of [
      [0, 0],
      [1, 0],
      [1, 2.5],
      [1, Number.NaN],
      [1, Number.POSITIVE_INFINITY],
      [3, 2],
      [-1, 2],
      [0.5, 2],
    ] as const)
      expect(() => wilsonInterval(hits, tries)).toThrow(RangeError);
    for (const z of [0, -1, Number.NaN]) expect(() => wilsonInterval(1, 2, z)).toThrow(RangeError);
  });
});

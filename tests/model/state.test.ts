/** When a gap clears, is tight, touches, or is unproven: against its limit, with and without an allowance for assumed outlines. */
import { describe, expect, it } from 'vitest';
import { gapState, touches } from '../../src/model/solve.ts';

describe('state of a gap', () => {
  it.each([
    // gap, limit, rests on assumed outlines, allowance
    [1.5, 1.5, false, null, 'clears'],
    [1.5, 1.5, false, 0.25, 'clears'],
    [1.499, 1.5, false, null, 'tight'],
    [0.001, 1.5, false, null, 'tight'],
    [0, 1.5, false, null, 'contact'],
    [-0.2, 1.5, false, null, 'contact'],
    [1.75, 1.5, true, 0.25, 'clears'],
    [1.74, 1.5, true, 0.25, 'tight'],
    // Less than the allowance is no contact yet.
    [0.1, 1.5, true, 0.25, 'tight'],
    [0, 1.5, true, 0.25, 'contact'],
    [20, 1.5, true, null, 'unproven'],
    [1.4, 1.5, true, null, 'tight'],
    // Limits may be zero; sums of inches meant to be at the limit come out a hair beside it.
    [0, 0, false, null, 'contact'],
    [0.07 * 25.4, 0.06 * 25.4, true, 0.01 * 25.4, 'clears'],
  ] as const)('gap %d, limit %d, assumed %s, allowance %s: %s', (gapMm, limitMm, assumed, allowanceMm, state) => {
    expect(gapState(gapMm, limitMm, assumed, allowanceMm)).toBe(state);
  });
});

describe('parts that just touch', () => {
  it.each([
    // gap found, bound proven, rests on assumed outlines: state against a limit of 1.5 and of nothing
    [0.0005, -0.0005, false, 'contact', 'contact'],
    [0.001, 0, false, 'contact', 'contact'],
    [0.000001, -0.000999, true, 'contact', 'contact'],
    // Proven apart, be it by a nanometre.
    [0.0005, 0.000001, false, 'tight', 'clears'],
    // Beyond the tolerance of the certificate: the work ran out before anything was proven, which is told otherwise.
    [0.0011, -0.5, false, 'tight', 'clears'],
    [-0.2, -0.201, false, 'contact', 'contact'],
  ] as const)('gap %d with a bound of %d, assumed %s', (gapMm, lowerMm, assumed, limited, unlimited) => {
    expect(gapState(gapMm, 1.5, assumed, 0, lowerMm)).toBe(limited);
    expect(gapState(gapMm, 0, assumed, 0, lowerMm)).toBe(unlimited);
  });

  it('without a bound the figure stands for itself', () => {
    expect(touches(1e-9)).toBe(false);
    expect(touches(0)).toBe(true);
  });
});

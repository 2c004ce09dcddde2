/** When a gap clears, is tight, touches, or is unproven: against its limit, with and without an allowance for assumed outlines. */
import { describe, expect, it } from 'vitest';
import { gapState } from '../../src/model/solve.ts';

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

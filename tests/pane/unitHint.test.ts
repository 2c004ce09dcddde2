/**
 * The other unit beside a literal, and results in words. Expected values are from 1 in = 25.4 mm exactly (international
 * yard and pound agreement, 1959), worked out by hand: 2.625 x 25.4 = 66.675, 87.9 / 25.4 = 3.46062…
 */
import { describe, expect, it } from 'vitest';
import { lengthText, unitHint } from '../../src/pane/unitHint.ts';

describe('the other unit', () => {
  it.each([
    ['2 5/8 in', 'both', '66.68 mm'],
    ['2 5/8 in', 'mm', '66.68 mm'],
    ['2 5/8 in', 'in', '2.625 in'],
    ['3.750 in', 'in', ''],
    ['3.750 ±0.001 in', 'both', '95.25 mm'],
    ['87.9 mm', 'both', '3.461 in'],
    ['87.9 mm', 'in', '3.461 in'],
    ['87.9 mm', 'mm', ''],
    ['60 thou', 'in', '.060 in'],
    ['60 thou', 'both', '1.52 mm'],
    ['-.005 in', 'both', '−0.13 mm'],
    ['-0.01 mm', 'in', '.000 in'],
    ['-5 mm', 'in', '−.197 in'],
    ['0 in', 'both', '0.00 mm'],
    ['66 deg', 'both', ''],
    ['3600 rpm', 'both', ''],
    ['', 'both', ''],
    ['junk', 'both', ''],
  ] as const)('%s, shown in %s: "%s"', (literal, units, expected) => {
    expect(unitHint(literal, units)).toBe(expected);
  });

  it('prints a result with its unit, inches without a leading zero', () => {
    expect(lengthText(0.3048, 'both')).toBe('0.30 mm (.012 in)');
    expect(lengthText(0.3048, 'in')).toBe('.012 in');
    expect(lengthText(-12.7, 'mm')).toBe('−12.70 mm');
    expect(lengthText(-12.7, 'in')).toBe('−.500 in');
  });

  it('refuses what is no figure', () => {
    expect(() => lengthText(Number.NaN, 'mm')).toThrow(RangeError);
  });
});

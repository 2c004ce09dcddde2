import { describe, expect, test } from 'vitest';
import { displacementCm3 } from '../../../src/core/shop/displacement.ts';
import { rodRatio } from '../../../src/core/shop/rodRatio.ts';

const IN = 25.4;
const CM3_PER_IN3 = 16.387064; // 2.54^3

function in3(boreIn: number, strokeIn: number, cylinders: number): number {
  return displacementCm3(boreIn * IN, strokeIn * IN, cylinders) / CM3_PER_IN3;
}

describe('displacement', () => {
  test.each([
    // D1, D2: "Engine Boring and Engine Stroking Fundamentals", Car Craft, December 1998.
    ['D1', 4.31, 4.0, 8, 466.9, 466.8683, 0.05],
    ['D2', 4.25, 4.25, 8, 482.3, 482.3326, 0.05],
    // D4: "Performance Perspectives", Motor, May 2009.
    ['D4', 4.0, 3.5, 8, 351.9, 351.8584, 0.05],
    // D5: "Calculation Formulas", arcracing.blogspot.com, November 1998.
    ['D5', 2.562, 2.437, 1, 12.5633, 12.5633, 0.00005],
    // D6: "How to Stroke Any Engine - Stroker Science", Car Craft, February 2007.
    ['D6', 4.03, 3.4, 8, 347, 346.9516, 0.5],
    // D8: Kates, Diesel and High Compression Gas Engines, ch. 4, pp. 61-62 (printed with pi/4 = 0.785).
    ['D8', 3, 4, 1, 28.26, 28.2743, 0.02],
  ] as const)('%s', (_id, bore, stroke, cylinders, printed, recomputed, tolerance) => {
    expect(Math.abs(in3(bore, stroke, cylinders) - printed)).toBeLessThan(tolerance);
    expect(in3(bore, stroke, cylinders)).toBeCloseTo(recomputed, 4);
  });

  test('D7, four cylinders in centimetres', () => {
    // D7: Mathur & Sharma, Internal Combustion Engine, ex. 1.1, p. 3.
    expect(Math.abs(displacementCm3(68, 75, 4) - 1089.5)).toBeLessThan(0.05);
    expect(displacementCm3(68, 75, 4)).toBeCloseTo(1089.5043, 4);
  });

  test('refuses what no engine has', () => {
    expect(() => displacementCm3(0, 75, 4)).toThrow(/bore 0 mm/);
    expect(() => displacementCm3(68, Number.NaN, 4)).toThrow(/stroke NaN mm/);
    expect(() => displacementCm3(68, 75, 3.5)).toThrow(/3.5 cylinders/);
    expect(() => displacementCm3(68, 75, 0)).toThrow(/0 cylinders/);
  });
});

describe('rod ratio', () => {
  test.each([
    // R1: L. Carley, "Understanding Rod Ratios", Engine Builder, July 2016, pp. 20 ff.
    ['R1', 5.7, 3.48, 1.64, 1.637931],
    ['R1', 6, 3.48, 1.72, 1.724138],
    ['R1', 6, 3.75, 1.6, 1.6],
    // R2: "Rod to Stroke Ratios", strokerengine.com/RodStroke.html.
    ['R2', 5.565, 3.75, 1.48, 1.484],
    ['R2', 5.7, 3.75, 1.52, 1.52],
  ] as const)('%s, %f over %f', (_id, rod, stroke, printed, recomputed) => {
    expect(Math.abs(rodRatio(rod * IN, stroke * IN) - printed)).toBeLessThan(0.005);
    expect(rodRatio(rod * IN, stroke * IN)).toBeCloseTo(recomputed, 6);
  });

  test('refuses lengths that are not positive', () => {
    expect(() => rodRatio(150, 0)).toThrow(/stroke 0 mm/);
    expect(() => rodRatio(-150, 80)).toThrow(/rod length -150 mm/);
  });
});

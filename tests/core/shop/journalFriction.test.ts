import { describe, expect, test } from 'vitest';
import { petroffFriction, projectedPressureMPa, surfaceSpeedMPerS } from '../../../src/core/shop/journalFriction.ts';

const IN = 25.4;
/** lbf s / in² in mPa s: 4.4482216152605 N / (0.0254 m)², exactly. */
const REYN = 6894.757293168 * 1000;
const LBF = 4.4482216152605;
const LBF_IN = 0.1129848290276167;
const HP = 745.69987158227;
const FT_PER_MIN = 0.3048 / 60;

describe('published', () => {
  test('F1, a bearing of 5 by 5 inches at 5000 rpm', () => {
    // F1: page "FHP" of a pump handbook: 16.32 hp through a rounded constant (16.3122 with all digits), radial clearance .0025 in.
    const f = petroffFriction(
      { diameterMm: 5 * IN, lengthMm: 5 * IN, clearanceMm: 0.005 * IN, viscosityMPaS: 2e-6 * REYN },
      5000,
    );
    expect(Math.abs(f.powerW / HP - 16.32)).toBeLessThan(0.02);
    expect(Math.abs(f.torqueNm / LBF_IN - 205.6168)).toBeLessThan(0.0001);
  });

  test('F2 and F3, a bearing of 3 by 3 inches at 400 rpm', () => {
    // Solution to Faires, Design of Machine Elements, problems 551a and 551b: diametral clearance .0015 in.
    const of = (reyn: number) =>
      petroffFriction(
        { diameterMm: 3 * IN, lengthMm: 3 * IN, clearanceMm: 0.0015 * IN, viscosityMPaS: reyn * REYN },
        400,
      );
    const a = of(7.25e-6);
    expect(Math.abs(a.forceN / LBF - 17.173)).toBeLessThan(0.0005);
    expect(Math.abs(a.torqueNm / LBF_IN - 25.76)).toBeLessThan(0.005);
    expect(Math.abs(a.powerW / HP - 0.1635)).toBeLessThan(0.00005);
    expect(Math.abs(a.surfaceSpeedMPerS / FT_PER_MIN - 314.16)).toBeLessThan(0.005);
    const b = of(2.2e-6);
    expect(Math.abs(b.forceN / LBF - 5.211)).toBeLessThan(0.0005);
    expect(Math.abs(b.torqueNm / LBF_IN - 7.817)).toBeLessThan(0.0005);
    expect(Math.abs(b.powerW / HP - 0.0496)).toBeLessThan(0.00005);
  });

  test('F5 without eccentricity', () => {
    // Course sheet after Norton, Machine Design, eq. 11.9: .0592 lbf in at an eccentricity of 0.78038, so times sqrt(1 - e²) without.
    const f = petroffFriction(
      { diameterMm: 0.5 * IN, lengthMm: 0.5 * IN, clearanceMm: 0.001 * IN, viscosityMPaS: 2e-6 * REYN },
      1800,
    );
    expect(Math.abs(f.torqueNm / LBF_IN - 0.0592 * Math.sqrt(1 - 0.78038 ** 2))).toBeLessThan(0.00005);
  });

  test('F6, and what a smaller journal saves in speed', () => {
    // F6: Sarkar, Theory of Machines, ch. 1 ill. 4, p. 17.
    expect(Math.abs(surfaceSpeedMPerS(50, 180) - 0.471)).toBeLessThan(0.0005);
    // Common practice, no published source: a 2.50 in journal has 4.8 % less surface speed than a 2.625 in one.
    const less = 1 - surfaceSpeedMPerS(2.5 * IN, 5000) / surfaceSpeedMPerS(2.625 * IN, 5000);
    expect(less.toFixed(3)).toBe('0.048');
  });
});

describe('in general', () => {
  test('power goes with the cube of the diameter and the square of the speed', () => {
    const b = { diameterMm: 60, lengthMm: 20, clearanceMm: 0.06, viscosityMPaS: 10 };
    const power = petroffFriction(b, 3000).powerW;
    expect(petroffFriction({ ...b, diameterMm: 120 }, 3000).powerW / power).toBeCloseTo(8, 10);
    expect(petroffFriction(b, 6000).powerW / power).toBeCloseTo(4, 10);
    expect(petroffFriction({ ...b, clearanceMm: 0.12 }, 3000).powerW / power).toBeCloseTo(0.5, 10);
  });

  test('pressure is load over the shadow of the bearing', () => {
    expect(projectedPressureMPa(30_000, 60, 20)).toBe(25);
  });

  test('refused by name', () => {
    const b = { diameterMm: 60, lengthMm: 20, clearanceMm: 0.06, viscosityMPaS: 10 };
    expect(() => petroffFriction({ ...b, clearanceMm: 0 }, 1000)).toThrow('clearance 0 mm');
    expect(() => petroffFriction({ ...b, viscosityMPaS: Number.NaN }, 1000)).toThrow('viscosity NaN mPa s');
    expect(() => petroffFriction(b, -1)).toThrow('-1 rpm');
    expect(() => projectedPressureMPa(-1, 60, 20)).toThrow('load -1 N');
  });
});

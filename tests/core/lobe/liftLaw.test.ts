import fc from 'fast-check';
import { derivative, parse } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  flankFromDurationRad,
  type LawName,
  type LiftLaw,
  leastLiftPlusAccelMm,
  liftAt,
  unitRise,
  unitRiseInverse,
  unitRisePeaks,
} from '../../../src/core/lobe/liftLaw.ts';
import { fewer } from '../../support/fewer.ts';

const DEG = Math.PI / 180;
const LAWS: readonly LawName[] = ['3-4-5', 'cycloidal'];
const FORMULA: Record<LawName, string> = {
  '3-4-5': '10*u^3 - 15*u^4 + 6*u^5',
  cycloidal: 'u - sin(2*pi*u)/(2*pi)',
};

describe('published rises', () => {
  test.each([
    // L1, course homework "HW4-fall08", scribd.com/document/402730349: lift 20 mm over 60 degrees, per degree of cam.
    [5, 0.075117, 0.044658, 0.017453],
    [10, 0.576689, 0.166667, 0.03023],
    [15, 1.816901, 0.333333, 0.034907],
    [20, 3.910022, 0.5, 0.03023],
    [25, 6.741784, 0.622008, 0.017453],
    [30, 10, 0.666667, 0],
    [35, 13.25822, 0.622008, -0.017453],
    [40, 16.08998, 0.5, -0.03023],
    [45, 18.1831, 0.333333, -0.034907],
    [50, 19.42331, 0.166667, -0.03023],
    [55, 19.92488, 0.044658, -0.017453],
    [60, 20, 0, 0],
  ])('L1, %d degrees into a cycloidal rise', (deg, s, v, a) => {
    const law: LiftLaw = { name: 'cycloidal', liftMm: 20, openingRad: 60 * DEG, closingRad: 60 * DEG };
    // Printed to six decimals above 1e-6; from 35 degrees on to five significant places after fewer decimals.
    const places = deg >= 35 ? 5e-6 : 5.1e-7;
    const onClosing = liftAt(law, (deg - 60) * DEG);
    expect(Math.abs(onClosing.h - s)).toBeLessThan(deg === 45 ? 5e-5 : places);
    expect(Math.abs(onClosing.h1 * DEG - v)).toBeLessThan(5.1e-7);
    expect(Math.abs(onClosing.h2 * DEG * DEG - a)).toBeLessThan(5.1e-7);
    // The opening flank is its mirror image: speed changes sign.
    const onOpening = liftAt(law, (60 - deg) * DEG);
    expect(onOpening.h).toBeCloseTo(onClosing.h, 12);
    expect(onOpening.h1).toBeCloseTo(-onClosing.h1, 12);
    expect(onOpening.h2).toBeCloseTo(onClosing.h2, 12);
  });

  test('L3, fractions of lift', () => {
    // L3: no published figure, regression values to six places.
    const us = [0.1, 0.2, 0.25, 0.3, 0.4, 0.5];
    const polynomial = [0.00856, 0.05792, 0.103516, 0.16308, 0.31744, 0.5];
    const cycloidal = [0.006451, 0.048635, 0.090845, 0.148635, 0.306451, 0.5];
    us.forEach((u, i) => {
      expect(Math.abs(unitRise('3-4-5', u).h - polynomial[i]!)).toBeLessThan(5.1e-7);
      expect(Math.abs(unitRise('cycloidal', u).h - cycloidal[i]!)).toBeLessThan(5.1e-7);
    });
  });

  test('peak factors', () => {
    // Norton, Design of Machinery (from memory, recomputed): 2 and 2 pi; 1.875 and 5.7735.
    expect(unitRisePeaks('cycloidal').h1).toBe(2);
    expect(unitRisePeaks('cycloidal').h2).toBeCloseTo(2 * Math.PI, 12);
    expect(unitRisePeaks('3-4-5').h1).toBe(1.875);
    expect(Math.abs(unitRisePeaks('3-4-5').h2 - 5.773503)).toBeLessThan(5.1e-7);
    for (const law of LAWS) {
      const samples = Array.from({ length: 20001 }, (_, k) => unitRise(law, k / 20000));
      for (const key of ['h1', 'h2', 'h3'] as const) {
        const sampled = Math.max(...samples.map((s) => Math.abs(s[key])));
        expect(sampled).toBeLessThanOrEqual(unitRisePeaks(law)[key] * (1 + 1e-12));
        expect(sampled).toBeGreaterThan(unitRisePeaks(law)[key] * (1 - 1e-6));
      }
    }
  });
});

describe('against symbolic derivatives', () => {
  test.each(LAWS)('%s', (law) => {
    const f0 = parse(FORMULA[law]);
    const f1 = derivative(f0, 'u');
    const f2 = derivative(f1, 'u');
    const f3 = derivative(f2, 'u');
    for (let k = 0; k <= 40; k++) {
      const u = k / 40;
      const s = unitRise(law, u);
      expect(Math.abs(s.h - f0.evaluate({ u }))).toBeLessThan(1e-13);
      expect(Math.abs(s.h1 - f1.evaluate({ u }))).toBeLessThan(1e-12);
      expect(Math.abs(s.h2 - f2.evaluate({ u }))).toBeLessThan(1e-12);
      expect(Math.abs(s.h3 - f3.evaluate({ u }))).toBeLessThan(1e-11);
    }
  });

  test('derivatives by psi, on flanks of unlike length', () => {
    const law: LiftLaw = { name: '3-4-5', liftMm: 8, openingRad: 1.3, closingRad: 1.6 };
    const g = 1e-4;
    for (const psi of [-1.7, -1.2, -0.4, 0.3, 0.9, 1.25, 1.5]) {
      const at = liftAt(law, psi);
      const [lower, upper] = [liftAt(law, psi - g), liftAt(law, psi + g)];
      expect(Math.abs((upper.h - lower.h) / (2 * g) - at.h1)).toBeLessThan(1e-6);
      expect(Math.abs((upper.h1 - lower.h1) / (2 * g) - at.h2)).toBeLessThan(1e-5);
      expect(Math.abs((upper.h2 - lower.h2) / (2 * g) - at.h3)).toBeLessThan(1e-3);
    }
    expect(liftAt(law, 0).h).toBe(8);
    expect(liftAt(law, 1.30001)).toEqual({ h: 0, h1: 0, h2: 0, h3: 0 });
    expect(liftAt(law, -1.5).h).toBeGreaterThan(0);
  });
});

test('the inverse of the rise returns its place', () => {
  for (const law of LAWS) {
    expect(unitRiseInverse(law, 0)).toBe(0);
    expect(unitRiseInverse(law, 1)).toBe(1);
    expect(unitRiseInverse(law, 0.5)).toBeCloseTo(0.5, 14);
    for (const u of [0.01, 0.1, 0.3, 0.7, 0.9]) {
      expect(unitRiseInverse(law, unitRise(law, u).h)).toBeCloseTo(u, 10);
    }
  }
  expect(() => unitRiseInverse('3-4-5', 1.01)).toThrow(RangeError);
  expect(() => unitRiseInverse('3-4-5', Number.NaN)).toThrow(RangeError);
});

test('duration at a stated lift: the lift stands there half the duration, in cam degrees, apart', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...LAWS),
      fc.double({ min: 3, max: 12, noNaN: true }),
      fc.double({ min: 0.05, max: 2, noNaN: true }),
      fc.double({ min: 160, max: 300, noNaN: true }),
      (name, liftMm, atMm, durationDeg) => {
        const flank = flankFromDurationRad(name, liftMm, durationDeg * DEG, atMm);
        const law: LiftLaw = { name, liftMm, openingRad: flank, closingRad: flank };
        const half = (durationDeg / 2 / 2) * DEG; // crank to cam, both sides to one
        expect(Math.abs(liftAt(law, half).h - atMm)).toBeLessThan(1e-11);
        expect(Math.abs(liftAt(law, -half).h - atMm)).toBeLessThan(1e-11);
      },
    ),
    { seed: 20250125, numRuns: fewer(200, 25), endOnFailure: true },
  );
});

test('the least of lift plus acceleration against dense sampling', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...LAWS),
      fc.double({ min: 2, max: 14, noNaN: true }),
      fc.double({ min: 0.4, max: Math.PI, noNaN: true }),
      (name, liftMm, flank) => {
        const law: LiftLaw = { name, liftMm, openingRad: flank, closingRad: flank };
        const STEPS = fewer(4000, 1000);
        let least = Number.POSITIVE_INFINITY;
        for (let k = 0; k <= STEPS; k++) {
          const at = liftAt(law, (k / STEPS) * flank);
          least = Math.min(least, at.h + at.h2);
        }
        const closed = leastLiftPlusAccelMm(name, liftMm, flank);
        expect(closed).toBeLessThanOrEqual(least + 1e-12 * liftMm * 100);
        expect(least - closed).toBeLessThan(1e-4 * liftMm);
      },
    ),
    { seed: 20250126, numRuns: fewer(200, 25), endOnFailure: true },
  );
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkLobe, type LobeSpec, lobeLaw } from '../../../src/core/lobe/lobeSpec.ts';
import { fewer } from '../../support/fewer.ts';
import { envelopeLift } from './followerEnvelope.ts';

const DEG = Math.PI / 180;

// Invented lobes of ordinary size.
const FLAT: LobeSpec = {
  baseRadiusMm: 18,
  liftMm: 7,
  law: '3-4-5',
  durationAtLiftCrankRad: 260 * DEG,
  durationAtLiftMm: 1.27,
  follower: { kind: 'flat' },
};
const ROLLER: LobeSpec = { ...FLAT, durationAtLiftCrankRad: 230 * DEG, follower: { kind: 'roller', radiusMm: 9.5 } };

describe('a lobe that can be followed', () => {
  test('passes', () => {
    expect(checkLobe(FLAT)).toBeNull();
    expect(checkLobe(ROLLER)).toBeNull();
    expect(checkLobe({ ...FLAT, durationAtLiftMm: 0, durationAtLiftCrankRad: 330 * DEG })).toBeNull();
  });

  test('has both flanks alike, the duration at the stated lift', () => {
    const law = lobeLaw(ROLLER);
    expect(law.openingRad).toBe(law.closingRad);
    const spec = { baseRadiusMm: 18, liftMm: 7, law: '3-4-5', flankRad: law.openingRad } as const;
    expect(envelopeLift(spec, 57.5 * DEG)).toBeCloseTo(1.27, 10);
  });
});

describe('fields out of range', () => {
  test.each([
    [
      { ...FLAT, baseRadiusMm: 0 },
      { reason: 'base radius', unit: 'mm', value: 0, above: 0 },
    ],
    [
      { ...FLAT, baseRadiusMm: Number.NaN },
      { reason: 'base radius', unit: 'mm', value: Number.NaN, above: 0 },
    ],
    [
      { ...FLAT, liftMm: -1 },
      { reason: 'lift', unit: 'mm', value: -1, above: 0 },
    ],
    [
      { ...FLAT, durationAtLiftMm: 7 },
      { reason: 'lift of stated duration', unit: 'mm', value: 7, above: 0, below: 7 },
    ],
    [
      { ...FLAT, durationAtLiftMm: -0.1 },
      { reason: 'lift of stated duration', unit: 'mm', value: -0.1, above: 0, below: 7 },
    ],
    [
      { ...FLAT, durationAtLiftCrankRad: 0 },
      { reason: 'duration', unit: 'rad', value: 0, above: 0 },
    ],
    [
      { ...FLAT, follower: { kind: 'roller', radiusMm: 0 } as const },
      { reason: 'roller radius', unit: 'mm', value: 0, above: 0 },
    ],
  ])('%#', (spec, fault) => {
    expect(checkLobe(spec)).toEqual(fault);
  });

  test('a duration so long that the flanks would meet behind the cam', () => {
    const fault = checkLobe({ ...ROLLER, durationAtLiftCrankRad: 600 * DEG })!;
    expect(fault.reason).toBe('duration too long');
    // At the longest allowed the flank is half a turn.
    const longest = lobeLaw({ ...ROLLER, durationAtLiftCrankRad: fault.below! });
    expect(longest.openingRad).toBeCloseTo(Math.PI, 12);
  });
});

describe('a flat face', () => {
  test('needs the base radius that the fault states, by dense second differences', () => {
    const spec: LobeSpec = { ...FLAT, baseRadiusMm: 8, durationAtLiftCrankRad: 220 * DEG };
    const fault = checkLobe(spec)!;
    expect(fault.reason).toBe('too sharp for a flat face');
    const own = { baseRadiusMm: 8, liftMm: 7, law: '3-4-5', flankRad: lobeLaw(spec).openingRad } as const;
    const g = 1e-4;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 1; k < 4000; k++) {
      const psi = (k / 4000) * own.flankRad;
      const h = envelopeLift(own, psi);
      const h2 = (envelopeLift(own, psi + g) - 2 * h + envelopeLift(own, psi - g)) / (g * g);
      least = Math.min(least, h + h2);
    }
    expect(fault.above!).toBeCloseTo(-least, 3);
    expect(checkLobe({ ...spec, baseRadiusMm: fault.above! + 1e-6 })).toBeNull();
    expect(checkLobe({ ...spec, baseRadiusMm: fault.above! })).not.toBeNull();
  });
});

describe('a roller', () => {
  /** Greatest outward curvature of the roller's path, from three neighbouring centres of its own lift law. */
  function sampledCurvature(spec: LobeSpec, rollerRadiusMm: number): number {
    const flankRad = lobeLaw(spec).openingRad;
    const own = { baseRadiusMm: spec.baseRadiusMm, liftMm: spec.liftMm, law: spec.law, flankRad };
    const centre = (psi: number): [number, number] => {
      const p = spec.baseRadiusMm + rollerRadiusMm + envelopeLift(own, psi);
      return [p * Math.sin(psi), p * Math.cos(psi)];
    };
    const STEPS = fewer(3000, 600);
    let greatest = Number.NEGATIVE_INFINITY;
    for (let k = 0; k <= STEPS; k++) {
      const psi = (k / STEPS) * flankRad;
      const [[ax, ay], [bx, by], [cx, cy]] = [centre(psi + 1e-3), centre(psi), centre(psi - 1e-3)];
      // Menger curvature: four times the triangle's area over the product of its sides; positive when turning left.
      const twiceArea = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      const sides = Math.hypot(bx - ax, by - ay) * Math.hypot(cx - bx, cy - by) * Math.hypot(cx - ax, cy - ay);
      greatest = Math.max(greatest, (2 * twiceArea) / sides);
    }
    return greatest;
  }

  test('the verdict follows the path curvature of seeded random lobes', () => {
    let refused = 0;
    let passed = 0;
    fc.assert(
      fc.property(
        fc.constantFrom('3-4-5' as const, 'cycloidal' as const),
        fc.double({ min: 8, max: 20, noNaN: true }),
        fc.double({ min: 5, max: 14, noNaN: true }),
        fc.double({ min: 120, max: 280, noNaN: true }),
        fc.double({ min: 4, max: 20, noNaN: true }),
        (law, baseRadiusMm, liftMm, deg, radiusMm) => {
          const spec: LobeSpec = {
            ...ROLLER,
            law,
            baseRadiusMm,
            liftMm,
            durationAtLiftCrankRad: deg * DEG,
            follower: { kind: 'roller', radiusMm },
          };
          const ratio = sampledCurvature(spec, radiusMm) * radiusMm;
          fc.pre(Math.abs(ratio - 1) > 2e-3); // the sampled figure is no better than that
          const fault = checkLobe(spec);
          if (ratio > 1) {
            refused += 1;
            expect(fault?.reason).toBe('too sharp for the roller');
            expect(Math.abs(fault!.below! * (ratio / radiusMm) - 1)).toBeLessThan(2e-3);
          } else {
            passed += 1;
            expect(fault?.reason).not.toBe('too sharp for the roller');
          }
        },
      ),
      { seed: 20250127, numRuns: fewer(150, 24), endOnFailure: true },
    );
    expect(Math.min(refused, passed)).toBeGreaterThan(fewer(20, 2));
  });
});

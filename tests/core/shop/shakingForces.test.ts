import { describe, expect, test } from 'vitest';
import { inertiaLoads } from '../../../src/core/shop/pistonLoads.ts';
import {
  inertiaOrder,
  type ShakingCylinder,
  shakingOrder,
  type TurningMass,
} from '../../../src/core/shop/shakingForces.ts';

const DEG = Math.PI / 180;

function cylinder(rMm: number, lMm: number, bankDeg: number, pinDeg: number, zMm: number, kg: number): ShakingCylinder {
  // The pin's direction at crank angle 0, less the bank's.
  return {
    slider: { crankRadiusMm: rMm, rodLengthMm: lMm, offsetMm: 0 },
    bankAngleRad: bankDeg * DEG,
    alphaAtZeroRad: (pinDeg - bankDeg) * DEG,
    zMm,
    reciprocatingKg: kg,
  };
}

describe('orders of one slider-crank', () => {
  test('against the series in 1/n', () => {
    // Bevan, ch. 14, and Taylor vol. 2 (series from memory): n = 4.
    const n = 4;
    const s = { crankRadiusMm: 40, rodLengthMm: 160, offsetMm: 0 };
    expect(Math.abs(inertiaOrder(s, 1).cos - 1)).toBeLessThan(1e-12);
    const second = 1 / n + 1 / (4 * n ** 3) + 15 / (128 * n ** 5);
    expect(Math.abs(inertiaOrder(s, 2).cos - second)).toBeLessThan(1e-5);
    const fourth = -(1 / (4 * n ** 3) + 3 / (16 * n ** 5));
    expect(Math.abs(inertiaOrder(s, 4).cos - fourth)).toBeLessThan(1e-4 / 3);
    expect(Math.abs(inertiaOrder(s, 3).cos)).toBeLessThan(1e-12);
    expect(Math.abs(inertiaOrder(s, 2).sin)).toBeLessThan(1e-12);
  });
});

describe('layouts', () => {
  const omega = 100;

  test('an inline four leaves four times one second order', () => {
    const four = [0, 180, 180, 0].map((pin, k) => cylinder(40, 160, 0, pin, 100 * k, 1));
    expect(shakingOrder(four, [], 1, omega, 150).forceN.greatest).toBeLessThan(1e-9);
    const second = shakingOrder(four, [], 2, omega, 150);
    // All four in step: 4 m r omega² C2; to the first term of the series 4 x 1 kg x .04 m x 10⁴ / 4 = 400 N.
    expect(Math.abs(second.forceN.greatest / 400 - (1 + 1 / 64 + 15 / (128 * 256)))).toBeLessThan(1e-4);
    // One line, not round: the two half axes are the length and nothing.
    expect(Math.abs(second.forceN.least)).toBeLessThan(1e-9);
    expect(second.coupleNm.greatest).toBeLessThan(1e-9);
  });

  test('an inline six has no force and no couple of the first or second order', () => {
    const six = [0, 240, 120, 120, 240, 0].map((pin, k) => cylinder(40, 150, 0, pin, 105 * k, 0.9));
    for (const order of [1, 2]) {
      const s = shakingOrder(six, [], order, omega, 0);
      expect(s.forceN.greatest).toBeLessThan(1e-9);
      expect(s.coupleNm.greatest).toBeLessThan(1e-9);
    }
    expect(shakingOrder(six, [], 6, omega, 0).forceN.greatest).toBeGreaterThan(0.01);
  });

  test('a cross-plane V8 leaves a first-order couple that half-reciprocating bobweights annul, and a fourth-order force', () => {
    const phases = [0, 90, 270, 180];
    const kg = 0.9;
    const [r, l] = [44, 155];
    const eight = phases.flatMap((pin, k) => [
      cylinder(r, l, 45, 45 + pin, 110 * k, kg),
      cylinder(r, l, -45, 45 + pin, 110 * k, kg),
    ]);
    for (const order of [1, 2]) expect(shakingOrder(eight, [], order, omega, 0).forceN.greatest).toBeLessThan(1e-9);
    expect(shakingOrder(eight, [], 2, omega, 0).coupleNm.greatest).toBeLessThan(1e-9);
    const first = shakingOrder(eight, [], 1, omega, 0).coupleNm;
    // Two pistons at 90° make a vector of one whole mass that turns with the pin: the couple goes round in a circle.
    // By hand, about the middle: pins at -165, -55, 55, 165 mm toward 0, 90, 270, 180: (330, 110) kg mm² per kg mm.
    const byHand = (kg * r * Math.hypot(330, 110) * omega ** 2) / 1e6;
    expect(Math.abs(first.greatest / byHand - 1)).toBeLessThan(1e-9);
    expect(Math.abs(first.least / byHand - 1)).toBeLessThan(1e-9);
    const opposite: TurningMass[] = phases.map((pin, k) => ({
      angleRad: (45 + pin + 180) * DEG,
      zMm: 110 * k,
      massRadiusKgMm: 0.5 * 2 * kg * r,
    }));
    const balanced = shakingOrder(eight, opposite, 1, omega, 0);
    expect(balanced.coupleNm.greatest).toBeLessThan(1e-9);
    expect(balanced.forceN.greatest).toBeLessThan(1e-9);
    expect(shakingOrder(eight, opposite, 4, omega, 0).forceN.greatest).toBeGreaterThan(1);
  });

  test('B10, K12: the two orders of one cylinder add up to its inertia force', () => {
    // K12: Khurmi & Gupta, ex. 15.6, p. 532: r = .1 m, l = .4 m, 500 rpm, 180 kg, 60° past TDC: 18.53 kN by two orders with omega rounded to 52.4.
    const one = [cylinder(100, 400, 0, 0, 0, 180)];
    const at = 60 * DEG;
    const first = shakingOrder(one, [], 1, 52.4, 0).forceN.greatest * Math.cos(at);
    const second = ((180 * 0.1 * 52.4 ** 2) / 4) * Math.cos(2 * at);
    expect(Math.abs((first + second) / 1000 - 18.53)).toBeLessThan(0.005);
    // The exact motion with the full speed: 18.511 kN, recomputed beside K12.
    const exact = inertiaLoads({ crankRadiusMm: 100, rodLengthMm: 400, offsetMm: 0 }, 180, at, 500);
    expect(Math.abs(exact.alongBoreN / 1000 - 18.511)).toBeLessThan(0.0005);
  });
});

describe('one cylinder', () => {
  const s = { crankRadiusMm: 45, rodLengthMm: 150, offsetMm: 0 };

  test('K11: exact at the dead centres', () => {
    // K11: r omega² (1 + 1/n) and (1 - 1/n).
    const w2 = ((6000 * 2 * Math.PI) / 60) ** 2;
    const top = inertiaLoads(s, 0.8, 0, 6000);
    expect(Math.abs(top.rodTensionN / (0.8 * 0.045 * w2 * (1 + 0.3)) - 1)).toBeLessThan(1e-12);
    expect(top.wallN).toBeCloseTo(0, 9);
    const low = inertiaLoads(s, 0.8, Math.PI, 6000);
    expect(Math.abs(low.rodTensionN / (-0.8 * 0.045 * w2 * (1 - 0.3)) - 1)).toBeLessThan(1e-12);
  });

  test('rod force, wall force and inertia force close their triangle', () => {
    for (let deg = 5; deg < 360; deg += 10) {
      const { alongBoreN, rodTensionN, wallN } = inertiaLoads(s, 0.8, deg * DEG, 5000);
      expect(Math.abs(Math.hypot(alongBoreN, wallN) / Math.abs(rodTensionN) - 1)).toBeLessThan(1e-12);
    }
  });

  test('refused by name', () => {
    expect(() => inertiaLoads(s, 0, 0, 5000)).toThrow('reciprocating mass 0 kg');
    expect(() => shakingOrder([], [], 0, 100, 0)).toThrow('order 0');
  });
});

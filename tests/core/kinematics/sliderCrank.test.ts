import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { derivative, parse } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  bdcAlphaRad,
  bdcPinHeightMm,
  canTurn,
  mustTurn,
  pinHeightMm,
  pinHeightPerRad2Mm,
  pinHeightPerRadMm,
  rodAnglePerRad,
  rodAnglePerRad2,
  rodAngleRad,
  type SliderCrank,
  strokeTravelledMm,
  tdcAlphaRad,
  tdcPinHeightMm,
} from '../../../src/core/kinematics/sliderCrank.ts';
import { fewer } from '../../support/fewer.ts';

const DEG = Math.PI / 180;

function inLine(crankRadiusMm: number, rodLengthMm: number): SliderCrank {
  return { crankRadiusMm, rodLengthMm, offsetMm: 0 };
}

/** Slider-cranks that turn: rod 1.05 to 6 times crank radius plus offset. */
const turning = fc
  .record({
    r: fc.double({ min: 1, max: 120, noNaN: true }),
    offset: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
    n: fc.double({ min: 1.05, max: 6, noNaN: true }),
  })
  .map(({ r, offset, n }) => ({ crankRadiusMm: r, offsetMm: offset * r, rodLengthMm: n * (r + Math.abs(offset) * r) }));
const angle = fc.double({ min: -7, max: 14, noNaN: true });
const SEED = { seed: 20250117, numRuns: fewer(300, 60) };

// --- Oracles: mathjs symbolic derivatives of the textbook expressions, and decimal.js at 50 digits.
const S = 'r*cos(a) + sqrt(l^2 - (r*sin(a) - e)^2)';
const PHI = 'asin((r*sin(a) - e)/l)';
const oracle = {
  s1: derivative(parse(S), 'a').compile(),
  s2: derivative(derivative(parse(S), 'a'), 'a').compile(),
  phi1: derivative(parse(PHI), 'a').compile(),
  phi2: derivative(derivative(parse(PHI), 'a'), 'a').compile(),
};
const D50 = Decimal.clone({ precision: 50 });

function decimalPinHeight(s: SliderCrank, alphaRad: number): number {
  const a = new D50(alphaRad);
  const q = new D50(s.crankRadiusMm).mul(a.sin()).sub(s.offsetMm);
  return new D50(s.crankRadiusMm)
    .mul(a.cos())
    .add(new D50(s.rodLengthMm).pow(2).sub(q.pow(2)).sqrt())
    .toNumber();
}

describe('against general-purpose arithmetic', () => {
  test('pin height and rod angle agree with 50-digit decimal arithmetic', () => {
    fc.assert(
      fc.property(turning, angle, (s, a) => {
        const scale = s.rodLengthMm;
        expect(Math.abs(pinHeightMm(s, a) - decimalPinHeight(s, a)) / scale).toBeLessThan(2e-15);
        const sinPhi = new D50(s.crankRadiusMm).mul(new D50(a).sin()).sub(s.offsetMm).div(s.rodLengthMm);
        expect(Math.abs(rodAngleRad(s, a) - sinPhi.asin().toNumber())).toBeLessThan(5e-15);
      }),
      { seed: 20250118, numRuns: fewer(60, 12) },
    );
  });

  test('first and second derivatives agree with symbolic ones', () => {
    fc.assert(
      fc.property(turning, angle, (s, a) => {
        const scope = { r: s.crankRadiusMm, l: s.rodLengthMm, e: s.offsetMm, a };
        const near = (mine: number, other: number, scale: number) =>
          expect(Math.abs(mine - other) / scale).toBeLessThan(1e-10);
        // The size that the terms reach when the rod lies at its flattest.
        const q = s.crankRadiusMm + Math.abs(s.offsetMm);
        const steep = s.rodLengthMm / Math.sqrt(s.rodLengthMm ** 2 - q ** 2);
        near(pinHeightPerRadMm(s, a), oracle.s1.evaluate(scope), s.crankRadiusMm * steep);
        near(pinHeightPerRad2Mm(s, a), oracle.s2.evaluate(scope), s.crankRadiusMm * steep ** 3);
        near(rodAnglePerRad(s, a), oracle.phi1.evaluate(scope), steep);
        near(rodAnglePerRad2(s, a), oracle.phi2.evaluate(scope), steep ** 3);
      }),
      SEED,
    );
  });

  test('rod, crankpin and pin close at every angle', () => {
    fc.assert(
      fc.property(turning, angle, (s, a) => {
        // From the crankpin along (cos phi, -sin phi) by the rod's length lies the pin: (s, e).
        const phi = rodAngleRad(s, a);
        const u = s.crankRadiusMm * Math.cos(a) + s.rodLengthMm * Math.cos(phi);
        const v = s.crankRadiusMm * Math.sin(a) - s.rodLengthMm * Math.sin(phi);
        expect(Math.abs(u - pinHeightMm(s, a)) / s.rodLengthMm).toBeLessThan(1e-14);
        expect(Math.abs(v - s.offsetMm) / s.rodLengthMm).toBeLessThan(1e-14);
      }),
      SEED,
    );
  });
});

describe('published positions and speeds', () => {
  test('K4, speed and acceleration at 40 degrees', () => {
    // K4, Khurmi & Gupta, Theory of Machines, ex. 15.4, p. 528 (recomputed exact; the book prints the two-term form).
    const s = inLine(0.3, 1.5);
    const w = (2 * Math.PI * 180) / 60;
    expect(-pinHeightPerRadMm(s, 40 * DEG) * w).toBeCloseTo(4.19643, 5);
    expect(-pinHeightPerRad2Mm(s, 40 * DEG) * w * w).toBeCloseTo(85.5989, 4);
  });

  test('K5 and K6, piston and rod at 60 degrees', () => {
    // K5, Khurmi & Gupta, ex. 15.5, p. 528, exact form recomputed; K6, ex. 15.2, p. 522, by drawing, to 2 %.
    const s = inLine(0.15, 0.6);
    const w = (2 * Math.PI * 450) / 60;
    const speed = -pinHeightPerRadMm(s, 60 * DEG) * w;
    const accel = -pinHeightPerRad2Mm(s, 60 * DEG) * w * w;
    const rodSpeed = rodAnglePerRad(s, 60 * DEG) * w;
    const rodAccel = -rodAnglePerRad2(s, 60 * DEG) * w * w;
    expect(speed).toBeCloseTo(6.90536, 5);
    expect(accel).toBeCloseTo(124.9493, 4);
    expect(rodSpeed).toBeCloseTo(6.0336, 5);
    expect(rodAccel).toBeCloseTo(484.395, 3);
    for (const [mine, drawn] of [
      [speed, 6.833],
      [accel, 124.4],
      [rodSpeed, 6.126],
      [rodAccel, 481.14],
    ] as const) {
      expect(Math.abs(mine / drawn - 1)).toBeLessThan(0.02);
    }
  });

  test('K7, speeds and rod angle at 45 degrees', () => {
    // K7, course worksheet "fourbar-mathcad", printed figures, exact form.
    const s = inLine(10, 20);
    expect(Math.abs(-pinHeightPerRadMm(s, 45 * DEG) - 9.744)).toBeLessThan(0.0005);
    expect(Math.abs(rodAnglePerRad(s, 45 * DEG) - 0.378)).toBeLessThan(0.0005);
    expect(Math.abs(180 - rodAngleRad(s, 45 * DEG) / DEG - 159.295)).toBeLessThan(0.0005);
  });

  test('K8, pin height at TDC and at the first zero of acceleration', () => {
    // K8, rework of a page on piston speed, forum quartermile.ws, topic 7907: inches.
    const s = inLine(3.307 / 2, 6.024);
    expect(Math.abs(pinHeightMm(s, 0) - 7.68)).toBeLessThan(0.005);
    expect(Math.abs(pinHeightMm(s, 75.623523 * DEG) - 6.218)).toBeLessThan(0.0005);
    expect(-pinHeightPerRadMm(s, 75.623523 * DEG) * 200 * Math.PI).toBeCloseTo(1077.5402, 3);
  });

  test('K11, the accelerations at the dead centres are exact', () => {
    // K11, mailing-list post by J. Torset, audifans.com archive, January 1998: r w^2 (1 ± 1/n).
    for (const n of [2, 3, 3.5, 4, 6]) {
      expect(pinHeightPerRad2Mm(inLine(1, n), 0)).toBeCloseTo(-(1 + 1 / n), 12);
      expect(pinHeightPerRad2Mm(inLine(1, n), Math.PI)).toBeCloseTo(1 - 1 / n, 12);
    }
  });
});

describe('offset', () => {
  test('K14, dead centres and stroke of an offset slider-crank', () => {
    // K14, Graduate Aptitude Test in Engineering 2025, Mechanical, question 60, published solution.
    const s = { crankRadiusMm: 30, rodLengthMm: 50, offsetMm: 10 };
    expect(Math.abs(tdcPinHeightMm(s) - 79.37)).toBeLessThan(0.005);
    expect(Math.abs(bdcPinHeightMm(s) - 17.32)).toBeLessThan(0.005);
    expect(Math.abs(strokeTravelledMm(s) - 62.05)).toBeLessThan(0.005);
    // Recomputed from the same inputs.
    expect(tdcPinHeightMm(s)).toBeCloseTo(79.372539, 6);
    expect(bdcPinHeightMm(s)).toBeCloseTo(17.320508, 6);
    expect(strokeTravelledMm(s)).toBeCloseTo(62.052031, 6);
    expect(tdcAlphaRad(s) / DEG).toBeCloseTo(7.180756, 6);
    expect(bdcAlphaRad(s) / DEG).toBeCloseTo(210, 9);
    const forward = (bdcAlphaRad(s) - tdcAlphaRad(s)) / DEG;
    expect(forward).toBeCloseTo(202.819244, 6);
    expect(forward / (360 - forward)).toBeCloseTo(1.290357, 6);
  });

  test.each([
    // K15 and K16: no published figure, recomputed from the formulas of K14; inches.
    { id: 'K15', e: 0.06, stroke: 3.5002141, tdc: 0.4614475, bdc: 180.8703491, rod: 18.514453 },
    { id: 'K16', e: 0.04, stroke: 3.5000952, tdc: 0.3076298, bdc: 180.5802203, rod: 18.302573 },
  ])('$id, stroke and dead centres at an offset of $e', ({ e, stroke, tdc, bdc, rod }) => {
    const s = { crankRadiusMm: 1.75, rodLengthMm: 5.7, offsetMm: e };
    expect(Math.abs(strokeTravelledMm(s) - stroke)).toBeLessThan(1e-7);
    expect(Math.abs(tdcAlphaRad(s) / DEG - tdc)).toBeLessThan(1e-7);
    expect(Math.abs(bdcAlphaRad(s) / DEG - bdc)).toBeLessThan(1e-7);
    expect(Math.abs(-rodAngleRad(s, 1.5 * Math.PI) / DEG - rod)).toBeLessThan(1e-6);
  });

  test('K15, the pin stands lower at TDC than without offset, and the rod leans less without', () => {
    const s = { crankRadiusMm: 1.75, rodLengthMm: 5.7, offsetMm: 0.06 };
    expect(1.75 + 5.7 - tdcPinHeightMm(s)).toBeCloseTo(0.0002416, 7);
    expect(rodAngleRad(inLine(1.75, 5.7), Math.PI / 2) / DEG).toBeCloseTo(17.879585, 6);
  });

  test('the dead centres are where the speed vanishes, and the heights there the stated ones', () => {
    fc.assert(
      fc.property(turning, (s) => {
        const scale = s.rodLengthMm;
        for (const [alpha, height] of [
          [tdcAlphaRad(s), tdcPinHeightMm(s)],
          [bdcAlphaRad(s), bdcPinHeightMm(s)],
        ] as const) {
          expect(Math.abs(pinHeightMm(s, alpha) - height) / scale).toBeLessThan(1e-12);
          expect(Math.abs(pinHeightPerRadMm(s, alpha)) / scale).toBeLessThan(1e-11);
        }
        expect(Math.abs(strokeTravelledMm(s) - (tdcPinHeightMm(s) - bdcPinHeightMm(s))) / scale).toBeLessThan(1e-13);
      }),
      SEED,
    );
  });
});

// Table 1c: fraction of the stroke below TDC by rod / stroke; no published figure, regression values to six places.
const TABLE_1C: Record<string, readonly number[]> = {
  '1.50': [0.010111, 0.087967, 0.188709, 0.313859, 0.450468, 0.585786, 0.813859, 0.953993],
  '1.60': [0.009954, 0.086639, 0.185998, 0.309708, 0.445223, 0.580132, 0.809708, 0.952665],
  '1.70': [0.009815, 0.08547, 0.183618, 0.306072, 0.440637, 0.575192, 0.806072, 0.951496],
  '1.75': [0.009751, 0.084936, 0.182533, 0.304418, 0.438554, 0.572949, 0.804418, 0.950962],
  '2.00': [0.009482, 0.082674, 0.177945, 0.297438, 0.42978, 0.563508, 0.797438, 0.948699],
};

test('table 1c, position by rod ratio', () => {
  for (const [ratio, row] of Object.entries(TABLE_1C)) {
    const s = inLine(0.5, Number(ratio));
    [10, 30, 45, 60, 75, 90, 120, 150].forEach((deg, i) => {
      expect(Math.abs(pinHeightMm(s, 0) - pinHeightMm(s, deg * DEG) - row[i]!)).toBeLessThan(5.1e-7);
    });
  }
});

describe('an assembly that cannot turn', () => {
  test('is told apart at rod = crank radius + offset', () => {
    expect(canTurn({ crankRadiusMm: 40, rodLengthMm: 50, offsetMm: 9.999 })).toBe(true);
    expect(canTurn({ crankRadiusMm: 40, rodLengthMm: 50, offsetMm: 10 })).toBe(false);
    expect(canTurn({ crankRadiusMm: 40, rodLengthMm: 50, offsetMm: -10.001 })).toBe(false);
    expect(canTurn({ crankRadiusMm: 0, rodLengthMm: 50, offsetMm: 0 })).toBe(false);
    expect(canTurn({ crankRadiusMm: 40, rodLengthMm: Number.POSITIVE_INFINITY, offsetMm: 0 })).toBe(false);
    expect(canTurn({ crankRadiusMm: 40, rodLengthMm: Number.NaN, offsetMm: 0 })).toBe(false);
    expect(canTurn({ crankRadiusMm: 40, rodLengthMm: 150, offsetMm: Number.NaN })).toBe(false);
  });

  test('is refused with its three lengths', () => {
    expect(() => mustTurn({ crankRadiusMm: 40, rodLengthMm: 45, offsetMm: -10 })).toThrow(
      /rod length 45 mm must exceed crank radius 40 mm plus offset 10 mm/,
    );
  });
});

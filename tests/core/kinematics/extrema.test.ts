import fc from 'fast-check';
import { derivative, parse } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { motionExtrema } from '../../../src/core/kinematics/extrema.ts';
import {
  accelMPerS2,
  meanPistonSpeedMPerS,
  secondsForCrankAngle,
  speedMPerS,
} from '../../../src/core/kinematics/realTime.ts';
import { fewer } from '../../support/fewer.ts';

const DEG = Math.PI / 180;

function extremaOf(n: number, e = 0) {
  return motionExtrema({ crankRadiusMm: 1, rodLengthMm: n, offsetMm: e });
}

// Oracle: the textbook expression differentiated symbolically by mathjs and sampled.
const S1 = derivative(parse('cos(a) + sqrt(l^2 - (sin(a) - e)^2)'), 'a');
const speedAt = S1.compile();
const accelAt = derivative(S1, 'a').compile();

describe('published angles of greatest speed', () => {
  test('K1 and K2, rod three times the crank radius', () => {
    // K1, encyclopedia page "Piston motion equations", recomputed (the printed 73.17615 only to 0.001);
    // K2, the cubic in sin^2.
    const m = extremaOf(3);
    const deg = m.inwardSpeed.alphaRad / DEG;
    expect(Math.abs(deg - 73.175297)).toBeLessThan(1e-5);
    expect(Math.abs(deg - 73.17615)).toBeLessThan(0.001);
    expect(Math.abs(-m.inwardSpeed.value - 1.0546395)).toBeLessThan(1e-6);
    const x = Math.sin(m.inwardSpeed.alphaRad) ** 2;
    expect(Math.abs(x ** 3 - 9 * x ** 2 - 81 * x + 81)).toBeLessThan(1e-10);
  });

  test('K2 at other ratios: sin^2 of the angle solves s^3 - n^2 s^2 - n^4 s + n^4 = 0', () => {
    for (const n of [1.2, 2, 3.5, 4, 6, 10]) {
      const x = Math.sin(extremaOf(n).inwardSpeed.alphaRad) ** 2;
      expect(Math.abs(x ** 3 - n ** 2 * x ** 2 - n ** 4 * x + n ** 4) / n ** 4).toBeLessThan(1e-12);
    }
  });

  test('K4 and K9, angles of zero acceleration', () => {
    // K4, Khurmi & Gupta ex. 15.4, p. 528, exact form recomputed. K9, J. Torset, audifans.com, January 1998: exact.
    expect(extremaOf(5).inwardSpeed.alphaRad / DEG).toBeCloseTo(79.1001, 4);
    expect(extremaOf(5).outwardSpeed.alphaRad / DEG).toBeCloseTo(360 - 79.1001, 4);
    expect(extremaOf(2).inwardSpeed.alphaRad / DEG).toBeCloseTo(67.7, 3);
  });

  test('K8, times and speed at 6000 rpm', () => {
    // K8, forum quartermile.ws, topic 7907: ten printed digits; inches.
    const m = motionExtrema({ crankRadiusMm: 3.307 / 2, rodLengthMm: 6.024, offsetMm: 0 });
    expect(Math.abs(secondsForCrankAngle(m.inwardSpeed.alphaRad, 6000) - 0.002100653404)).toBeLessThan(1e-12);
    expect(Math.abs(secondsForCrankAngle(m.outwardSpeed.alphaRad, 6000) - 0.007899346596)).toBeLessThan(1e-12);
    expect(Math.abs(m.inwardSpeed.alphaRad / DEG - 75.6)).toBeLessThan(0.05);
    expect(Math.abs(-speedMPerS(m.inwardSpeed.value * 1000, 6000) - 1078)).toBeLessThan(0.5);
  });

  test.each([
    // Table 1c, second part: no published figure; the kfz-tech.de rule of about 1.6 times the mean agrees.
    [1.5, 73.175297, 1.0546395, 1.6566239, 19.471221],
    [1.6, 74.01114, 1.0480709, 1.6463059, 18.209957],
    [1.7, 74.776811, 1.042625, 1.6377515, 17.104635],
    [1.75, 75.135587, 1.0402441, 1.6340116, 16.60155],
    [1.8, 75.479449, 1.0380579, 1.6305775, 16.12762],
    [2.0, 76.720978, 1.0308827, 1.6193068, 14.477512],
  ])('table 1c, rod / stroke %f', (ratio, deg, peak, byMean, rodDeg) => {
    const m = extremaOf(2 * ratio);
    expect(Math.abs(m.inwardSpeed.alphaRad / DEG - deg)).toBeLessThan(6e-7);
    expect(Math.abs(-m.inwardSpeed.value - peak)).toBeLessThan(6e-8);
    expect(Math.abs((-m.inwardSpeed.value * Math.PI) / 2 - byMean)).toBeLessThan(6e-8);
    expect(Math.abs(m.rodAngleToV.value / DEG - rodDeg)).toBeLessThan(6e-7);
    expect(m.rodAngleToV.alphaRad).toBe(Math.PI / 2);
  });
});

describe('extremes of acceleration', () => {
  test.each([
    // Table "Warning for n below 4": exact form, recomputed; outward positive here.
    [3.0, 0.666667, 0.697525, 137.61],
    [3.2, 0.6875, 0.703517, 143.69],
    [3.4, 0.705882, 0.712437, 150.72],
    [3.5, 0.714286, 0.717803, 154.84],
  ])('n = %f: the greatest stands beside BDC, which is a local least', (n, bdc, greatest, deg) => {
    const m = extremaOf(n);
    expect(m.accels.map((a) => a.kind)).toEqual(['minimum', 'maximum', 'minimum', 'maximum']);
    const [tdc, before, atBdc, after] = m.accels;
    expect(tdc!.alphaRad).toBe(0);
    expect(tdc!.value).toBeCloseTo(-(1 + 1 / n), 12); // K11
    expect(Math.abs(atBdc!.alphaRad - Math.PI)).toBeLessThan(1e-12);
    expect(Math.abs(atBdc!.value - bdc)).toBeLessThan(6e-7);
    expect(Math.abs(before!.value - greatest)).toBeLessThan(6e-7);
    expect(Math.abs(before!.alphaRad / DEG - deg)).toBeLessThan(0.006);
    expect(Math.abs(before!.alphaRad + after!.alphaRad - 2 * Math.PI)).toBeLessThan(1e-11);
  });

  test('K10, exact form: the extreme at l / r = 2.5', () => {
    // K10, HELM Workbook 12.2, Engineering Example 4; its figures are two-term, these are the exact ones (r = 0.15 m).
    const a = extremaOf(2.5).accels[1]!;
    expect(0.15 * a.value).toBeCloseTo(0.10525, 6);
    expect(a.alphaRad / DEG).toBeCloseTo(124.44, 2);
  });

  test('K10, 7/5 and 3/5 at the dead centres', () => {
    // K10 and K11: these fractions of r w^2 are exact in the two-term form and in the exact one.
    const m = extremaOf(2.5);
    expect(m.accels[0]!.value).toBeCloseTo(-7 / 5, 12);
    expect(m.accels[2]!.value).toBeCloseTo(3 / 5, 12);
  });

  test('above n = 3.7913 the greatest is at BDC, below it is not', () => {
    // The bifurcation value stands in the warning to K10.
    expect(extremaOf(3.7914).accels.map((a) => a.kind)).toEqual(['minimum', 'maximum']);
    expect(extremaOf(3.7912).accels.length).toBe(4);
    expect(extremaOf(4).outwardAccel.alphaRad).toBeCloseTo(Math.PI, 12);
    expect(extremaOf(4).outwardAccel.value).toBeCloseTo(1 - 1 / 4, 12);
  });
});

test('every extreme agrees with dense samples of the symbolic derivatives, offset included', () => {
  const STEPS = fewer(2880, 240);
  fc.assert(
    fc.property(
      fc.double({ min: 1.15, max: 6, noNaN: true }),
      fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      (n, e) => {
        const l = n * (1 + Math.abs(e));
        const m = extremaOf(l, e);
        const scopes = Array.from({ length: STEPS }, (_, k) => ({ l, e, a: (k / STEPS) * 2 * Math.PI }));
        const speeds = scopes.map((scope) => speedAt.evaluate(scope) as number);
        const accels = scopes.map((scope) => accelAt.evaluate(scope) as number);
        // No sample beats the extreme, and the extreme is the value at its own angle.
        expect(Math.max(...speeds)).toBeLessThanOrEqual(m.outwardSpeed.value + 1e-12);
        expect(Math.min(...speeds)).toBeGreaterThanOrEqual(m.inwardSpeed.value - 1e-12);
        expect(Math.max(...accels)).toBeLessThanOrEqual(m.outwardAccel.value + 1e-11);
        expect(Math.min(...accels)).toBeGreaterThanOrEqual(m.inwardAccel.value - 1e-11);
        expect(speedAt.evaluate({ l, e, a: m.outwardSpeed.alphaRad })).toBeCloseTo(m.outwardSpeed.value, 10);
        expect(Math.abs(accelAt.evaluate({ l, e, a: m.outwardSpeed.alphaRad }))).toBeLessThan(1e-9);
        expect(Math.abs(accelAt.evaluate({ l, e, a: m.inwardSpeed.alphaRad }))).toBeLessThan(1e-9);
        for (const x of m.accels) expect(accelAt.evaluate({ l, e, a: x.alphaRad })).toBeCloseTo(x.value, 9);
        // Every turn of the sampled acceleration has its extreme within a step, and kinds alternate.
        for (let k = 0; k < STEPS; k++) {
          const [before, here, after] = [accels[(k + STEPS - 1) % STEPS]!, accels[k]!, accels[(k + 1) % STEPS]!];
          if ((here - before) * (here - after) <= 0) continue;
          const step = (2 * Math.PI) / STEPS;
          const off = m.accels.map((x) => Math.abs(Math.sin((x.alphaRad - k * step) / 2)) * 2);
          expect(Math.min(...off)).toBeLessThan(1.01 * step);
        }
        expect(m.accels.length % 2).toBe(0);
        m.accels.forEach((x, i) => {
          expect(x.kind).not.toBe(m.accels[(i + 1) % m.accels.length]!.kind);
        });
        const rods = scopes.map(({ a }) => Math.asin((Math.sin(a) - e) / l));
        expect(Math.max(...rods)).toBeCloseTo(m.rodAngleToV.value, 12);
        expect(Math.min(...rods)).toBeCloseTo(m.rodAngleFromV.value, 12);
      },
    ),
    { seed: 20250119, numRuns: fewer(40, 8) },
  );
});

test('an assembly that cannot turn has no extremes', () => {
  expect(() => extremaOf(1.2, 0.2)).toThrow(/can't turn/);
});

describe('in seconds', () => {
  test('mean piston speed', () => {
    // S1, encyclopedia page "Mean piston speed"; S2, kfz-tech.de "Average piston-speed".
    expect(meanPistonSpeedMPerS(90, 3000)).toBeCloseTo(9, 12);
    expect(Math.abs(meanPistonSpeedMPerS(85, 5500) - 15.58)).toBeLessThan(0.005);
  });

  test('acceleration in m/s^2', () => {
    // K11 with K4's figures: r = 0.3 m, n = 5, 180 rpm at TDC: r w^2 (1 + 1/5).
    const w = 6 * Math.PI;
    expect(accelMPerS2(-300 * 1.2, 180)).toBeCloseTo(-0.3 * w * w * 1.2, 9);
  });

  test('a speed that is not positive is refused', () => {
    for (const rpm of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => secondsForCrankAngle(1, rpm)).toThrow(RangeError);
    }
  });
});

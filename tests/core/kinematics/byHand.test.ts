/**
 * Bounds and figures of the motion worked by hand on a crank of 30 mm and a rod of 50 mm, with an offset of 10 mm: the crankpin then
 * stands at most 40 mm beside the pin line and the rod is never shorter along the bore than 30 mm (3-4-5 triangles). Others
 * against plain sampling of the pin's height by Pythagoras.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  harmonicBelowTdcMm,
  harmonicDifferenceExtrema,
  harmonicDifferenceMm,
} from '../../../src/core/kinematics/harmonicDifference.ts';
import {
  accelAmplitudePerRad2Mm,
  accelPartPerRad2Mm,
  pinHeightHarmonics,
  textbookAccelPerRad2Mm,
} from '../../../src/core/kinematics/harmonics.ts';
import {
  heightBounds,
  heightDerivatives,
  tangentBounds,
  tangentDerivatives,
} from '../../../src/core/kinematics/heightDerivatives.ts';
import { motionMeasures } from '../../../src/core/kinematics/motionMeasures.ts';
import { pistonMotion, rodMotion, swingMotion } from '../../../src/core/kinematics/motions.ts';
import {
  inertiaSideForceExtrema,
  inertiaSideForcePerRad2Mm,
  sideForceShare,
} from '../../../src/core/kinematics/sideForce.ts';
import { type SliderCrank, strokeTravelledMm } from '../../../src/core/kinematics/sliderCrank.ts';
import { alphasBelowTdc, belowTdcAfterMm, dwellAtBdc, dwellAtTdc } from '../../../src/core/kinematics/travel.ts';
import { rootsOverTurn, type SmoothTurn } from '../../../src/core/kinematics/turnRoots.ts';
import { newPose } from '../../../src/core/plane/pose.ts';
import { fewer } from '../../support/fewer.ts';

const PI = Math.PI;
const slider = (crankRadiusMm: number, rodLengthMm: number, offsetMm = 0): SliderCrank => ({
  crankRadiusMm,
  rodLengthMm,
  offsetMm,
});
const height = ({ crankRadiusMm: r, rodLengthMm: l, offsetMm: e }: SliderCrank, a: number): number =>
  r * Math.cos(a) + Math.sqrt(l * l - (r * Math.sin(a) - e) ** 2);
/** First and second derivative by differences of the fourth order. */
const slope = (f: (a: number) => number, a: number, h = 1e-3): number =>
  (8 * (f(a + h) - f(a - h)) - (f(a + 2 * h) - f(a - 2 * h))) / (12 * h);
const bend = (f: (a: number) => number, a: number, h = 2e-3): number =>
  (16 * (f(a + h) + f(a - h)) - f(a + 2 * h) - f(a - 2 * h) - 30 * f(a)) / (12 * h * h);

describe('bounds of motions by hand', () => {
  it.each([10, -10])('offset %d', (e) => {
    const s = slider(30, 50, e);
    const rod = rodMotion(s, 0.3, 0.4);
    const piston = pistonMotion(s, 0.3, 0.4, 0);
    const swing = swingMotion(s, 0.4, 2);
    // (Q (l² - r² + e²) + |e| (l² + Q²)) / w³ = (40 x 1700 + 10 x 4100) / 27000.
    for (const [bound, byHand] of [
      [rod.originSpeedMm, 30],
      [rod.originAccelMm, 30],
      [rod.turnSpeed, 1],
      [rod.turnAccel, 109 / 27],
      [piston.originSpeedMm, 50],
      [piston.originAccelMm, 50 + 250 / 3],
      [swing.turnSpeed, 1],
      [swing.turnAccel, 109 / 27],
    ] as const) {
      expect(bound).toBeGreaterThan(byHand);
      expect(bound / byHand - 1).toBeLessThan(1e-11);
    }
    expect([swing.originSpeedMm, swing.originAccelMm, piston.turnSpeed, piston.turnAccel]).toEqual([0, 0, 0, 0]);
  });

  it('of height and rod angle on a stretch, from q 40, w 30, and inside it where that is less', () => {
    const [w1, w2, w3] = [40, 370 / 3, 1870 / 3];
    const w4 = (1200 + 6300 + 4 * w1 * w3 + 3 * w2 * w2) / 30;
    const w5 = (1200 + 13500 + 5 * w1 * w4 + 10 * w2 * w3) / 30;
    const t1 = (30 + (4 / 3) * 40) / 30;
    const t2 = (30 + 80 * t1 + (4 / 3) * w2) / 30;
    const t3 = (30 + 120 * t2 + 3 * t1 * w2 + (4 / 3) * w3) / 30;
    const near = (found: readonly number[], byHand: readonly number[]): void => {
      expect(found.length).toBe(byHand.length);
      byHand.forEach((b, k) => {
        expect(found[k]! / b - 1).toBeCloseTo(0, 12);
      });
    };
    // The whole turn, and the one place where the crankpin stands farthest off.
    for (const [middle, half, e] of [
      [0, 4, 10],
      [1.5 * PI, 0, 10],
      [0.5 * PI, 0, -10],
    ] as const) {
      near(heightBounds(slider(30, 50, e), middle, half), [80, 30 + w1, 30 + w2, 30 + w3, 30 + w4, 30 + w5]);
      near(tangentBounds(slider(30, 50, e), middle, half), [4 / 3, t1, t2, t3]);
    }
    // Half a radian about the upright crank: the pin line is 10 off, and 30 x .5 more at most.
    const w = Math.sqrt(50 ** 2 - 25 ** 2);
    expect(heightBounds(slider(30, 50, 10), 0, 0.5)[1]).toBeCloseTo(30 + (25 * 30) / w, 12);
    expect(tangentBounds(slider(30, 50, 10), 0, 0.5)[0]).toBeCloseTo(25 / w, 12);
  });

  it('no derivative leaves its bound on a stretch', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.1, max: 5, noNaN: true }),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }),
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (n, e, middle, half) => {
          const s = slider(1, n * (1 + Math.abs(e)), e);
          const [h, t] = [heightBounds(s, middle, half), tangentBounds(s, middle, half)];
          for (let k = -8; k <= 8; k++) {
            const a = middle + (half * k) / 8;
            heightDerivatives(s, a).forEach((v, i) => {
              expect(Math.abs(v)).toBeLessThanOrEqual(h[i]! * (1 + 1e-12));
            });
            tangentDerivatives(s, a).forEach((v, i) => {
              expect(Math.abs(v)).toBeLessThanOrEqual(t[i]! * (1 + 1e-12));
            });
          }
        },
      ),
      { seed: 20251125, numRuns: fewer(100, 20) },
    );
  });
});

it('the piston sees the rod swing about the pin: its big end is the crankpin, less the piston’s own height', () => {
  const s = slider(40, 130, 7);
  const [alpha0, pinX] = [0.8, 3];
  const swing = swingMotion(s, alpha0, pinX);
  const p = newPose();
  const turnAt = (crank: number): number => {
    const q = newPose();
    swing.write(crank, q);
    return q[2]!;
  };
  for (let crank = 0; crank < 6.3; crank += 0.37) {
    p.fill(Number.NaN);
    swing.write(crank, p);
    const a = crank + alpha0;
    // Body -y by the rod's length from the pin; clockwise turns.
    expect(p[0]! - 130 * Math.sin(p[2]!)).toBeCloseTo(40 * Math.sin(a) - 7 + pinX, 10);
    expect(p[1]! - 130 * Math.cos(p[2]!)).toBeCloseTo(40 * Math.cos(a) - height(s, a), 10);
    expect([p[0], p[1], p[3], p[4]]).toEqual([pinX, 0, 0, 0]);
    expect(p[5]).toBeCloseTo(slope(turnAt, crank), 8);
  }
});

describe.each([slider(40, 130, 9), slider(40, 150, -12), slider(45, 135)])('figures of %o by sampling', (s) => {
  const STEPS = 7200;
  const m = motionMeasures(s, 2.5);
  const [heights, speeds, accels, sides] = [0, 1, 2, 3].map(() => new Float64Array(STEPS));
  const f = (a: number): number => height(s, a);
  for (let k = 0; k < STEPS; k++) {
    const a = (2 * PI * k) / STEPS;
    heights![k] = f(a);
    speeds![k] = slope(f, a);
    accels![k] = bend(f, a);
    const q = s.crankRadiusMm * Math.sin(a) - s.offsetMm;
    sides![k] = (-accels![k]! * q) / Math.sqrt(s.rodLengthMm ** 2 - q * q);
  }
  const top = heights!.indexOf(Math.max(...heights!));
  const low = heights!.indexOf(Math.min(...heights!));
  const after = (k: number): number => (((k - top + STEPS) % STEPS) * 2 * PI) / STEPS;
  /** As an angle: within two steps and what the top itself is off by; a difference of a whole turn is none. */
  const atAngle = (found: number, k: number): void => {
    expect(found).toBeGreaterThanOrEqual(0);
    expect(found).toBeLessThan(2 * PI);
    expect(Math.abs(Math.sin((found - after(k)) / 2))).toBeLessThan((3 * PI) / STEPS);
  };

  it('travel, rod ratio, dwell', () => {
    expect(m.travelMm).toBeCloseTo(heights![top]! - heights![low]!, 4);
    expect(m.rodRatio).toBeCloseTo(s.rodLengthMm / (2 * s.crankRadiusMm), 12);
    const step = (2 * PI) / STEPS;
    const within = (of: (h: number) => boolean): number => heights!.filter((h) => of(h)).length * step;
    expect(Math.abs(m.dwellTdcRad - within((h) => h > heights![top]! - 2.5))).toBeLessThan(2.1 * step);
    expect(Math.abs(m.dwellBdcRad - within((h) => h < heights![low]! + 2.5))).toBeLessThan(2.1 * step);
  });

  it('greatest speeds', () => {
    const [down, up] = [speeds!.indexOf(Math.min(...speeds!)), speeds!.indexOf(Math.max(...speeds!))];
    expect(m.peakSpeedDown.value).toBeCloseTo(-speeds![down]!, 4);
    expect(m.peakSpeedUp.value).toBeCloseTo(speeds![up]!, 4);
    atAngle(m.peakSpeedDown.afterTdcRad, down);
    atAngle(m.peakSpeedUp.afterTdcRad, up);
  });

  it('accelerations', () => {
    const out = accels!.indexOf(Math.max(...accels!));
    expect(m.peakAccelOutward.value).toBeCloseTo(accels![out]!, 4);
    // Flat about its greatest: told by the value there.
    expect(
      bend(f, m.peakAccelOutward.afterTdcRad + Math.asin(s.offsetMm / (s.rodLengthMm + s.crankRadiusMm))),
    ).toBeCloseTo(accels![out]!, 4);
    expect(m.accelTdcPerRad2Mm).toBeCloseTo(-accels![top]!, 1);
    expect(m.accelBdcPerRad2Mm).toBeCloseTo(accels![low]!, 1);
    expect(m.accelRatio).toBeCloseTo(m.accelTdcPerRad2Mm / m.accelBdcPerRad2Mm, 12);
  });

  it('lean and side force', () => {
    const [down, up] = [s.crankRadiusMm - s.offsetMm, s.crankRadiusMm + s.offsetMm].map((q) =>
      Math.asin(q / s.rodLengthMm),
    );
    expect(m.rodAngleDownRad).toBeCloseTo(down!, 12);
    expect(m.rodAngleUpRad).toBeCloseTo(up!, 12);
    expect(m.sideForceShare).toBeCloseTo(Math.tan(Math.max(down!, up!)), 12);
    const sizes = sides!.map((x) => Math.abs(x));
    const greatest = Math.max(...sizes);
    expect(m.inertiaSideForce.value).toBeCloseTo(greatest, 3);
    const a = m.inertiaSideForce.afterTdcRad + Math.asin(s.offsetMm / (s.rodLengthMm + s.crankRadiusMm));
    const q = s.crankRadiusMm * Math.sin(a) - s.offsetMm;
    expect(Math.abs((bend(f, a) * q) / Math.sqrt(s.rodLengthMm ** 2 - q * q))).toBeCloseTo(greatest, 3);
  });

  it('a quarter turn after TDC', () => {
    const tdc = Math.asin(s.offsetMm / (s.rodLengthMm + s.crankRadiusMm));
    const below = f(tdc) - f(tdc + PI / 2);
    expect(m.belowAt90Mm).toBeCloseTo(below, 9);
    expect(belowTdcAfterMm(s, PI / 2)).toBeCloseTo(below, 9);
    expect(m.shareAt90).toBeCloseTo(below / m.travelMm, 9);
  });

  it('no side force and no difference from a harmonic motion is beyond the extremes found, and each is met', () => {
    const side = inertiaSideForceExtrema(s);
    expect(Math.max(...side.map((x) => x.value))).toBeCloseTo(Math.max(...sides!), 3);
    expect(Math.min(...side.map((x) => x.value))).toBeCloseTo(Math.min(...sides!), 3);
    // Textbook form: half the travel, less its cosine from the top.
    const tdc = Math.asin(s.offsetMm / (s.rodLengthMm + s.crankRadiusMm));
    const differ = (a: number): number => f(tdc) - f(a) - (m.travelMm / 2) * (1 - Math.cos(a - tdc));
    const all = Array.from({ length: STEPS }, (_, k) => differ((2 * PI * k) / STEPS));
    const found = harmonicDifferenceExtrema(s);
    expect(Math.max(...found.map((x) => x.value))).toBeCloseTo(Math.max(...all), 4);
    expect(Math.min(...found.map((x) => x.value))).toBeCloseTo(Math.min(...all), 4);
    for (const list of [found, side]) {
      expect(list.map((x) => x.alphaRad)).toEqual(list.map((x) => x.alphaRad).sort((p, q) => p - q));
      list.forEach((x, i) => {
        const other = list[(i + 1) % list.length]!;
        expect(x.kind).not.toBe(other.kind);
        expect(x.kind === 'maximum').toBe(x.value > other.value);
      });
    }
    expect(harmonicDifferenceMm(s, 1.2)).toBeCloseTo(differ(1.2), 9);
    expect(harmonicBelowTdcMm(s, tdc + PI)).toBeCloseTo(m.travelMm, 9);
  });
});

it('side force by hand at a quarter turn, crank 30, rod 50: -r³ / w² with w 40', () => {
  expect(sideForceShare(slider(30, 50), PI / 2)).toBeCloseTo(3 / 4, 12);
  expect(inertiaSideForcePerRad2Mm(slider(30, 50), PI / 2)).toBeCloseTo(-27000 / 1600, 12);
  expect(() => inertiaSideForceExtrema(slider(30, 30))).toThrow(/can't turn/);
  expect(() => harmonicDifferenceExtrema(slider(30, 30))).toThrow(/can't turn/);
});

describe('angles of a travel', () => {
  it('stand at the dead centres for nothing and for all, on both ways for what is between', () => {
    for (const s of [slider(30, 50, 10), slider(40, 150), slider(45, 140, -8)]) {
      const tdc = Math.asin(s.offsetMm / (s.rodLengthMm + s.crankRadiusMm));
      const bdc = PI + Math.asin(s.offsetMm / (s.rodLengthMm - s.crankRadiusMm));
      const travel = height(s, tdc) - height(s, bdc);
      expect(alphasBelowTdc(s, 0).downAlphaRad).toBeCloseTo(tdc, 7);
      expect(alphasBelowTdc(s, 0).upAlphaRad).toBeCloseTo(tdc + 2 * PI, 7);
      const most = alphasBelowTdc(s, travel * (1 - 1e-15));
      expect(most.downAlphaRad).toBeCloseTo(bdc, 6);
      expect(most.upAlphaRad).toBeCloseTo(bdc, 6);
      for (let k = 1; k < 40; k++) {
        const d = (travel * k) / 40;
        const { downAlphaRad, upAlphaRad } = alphasBelowTdc(s, d);
        for (const a of [downAlphaRad, upAlphaRad]) expect(height(s, tdc) - height(s, a)).toBeCloseTo(d, 9);
        expect(downAlphaRad > tdc && downAlphaRad < bdc && upAlphaRad > bdc && upAlphaRad < tdc + 2 * PI).toBe(true);
      }
      for (const bad of [-1e-9, travel + 1e-9, Number.NaN])
        expect(() => alphasBelowTdc(s, bad)).toThrow(/can't be reached/);
      // All of it is within reach, and dwells begin before their dead centre and end after it, as far apart as they say.
      expect(alphasBelowTdc(s, strokeTravelledMm(s)).downAlphaRad).toBeCloseTo(bdc, 6);
      for (const [dwell, centre] of [
        [dwellAtTdc(s, 2), tdc],
        [dwellAtBdc(s, 2), bdc],
      ] as const) {
        expect(dwell.toAlphaRad - dwell.fromAlphaRad).toBeCloseTo(dwell.dwellRad, 12);
        expect(dwell.fromAlphaRad < centre && centre < dwell.toAlphaRad).toBe(true);
        for (const a of [dwell.fromAlphaRad, dwell.toAlphaRad])
          expect(Math.abs(height(s, a) - height(s, centre))).toBeCloseTo(2, 9);
      }
      for (const dwell of [dwellAtTdc, dwellAtBdc])
        for (const bad of [0, travel + 1e-9, Number.NaN]) expect(() => dwell(s, bad)).toThrow(/from a dead centre/);
    }
  });

  it('a hair from the dead centre, where cosines cancel: sqrt(2 d (l + r) / (l r)) to either side without offset', () => {
    // cos a = 1 - a²/2, and the rod takes r² / l of it more: d = a² (r + r² / l) / 2.
    const d = 1e-12;
    const [r, l] = [40, 150];
    expect(dwellAtTdc(slider(r, l), d).toAlphaRad / Math.sqrt((2 * d) / (r + (r * r) / l))).toBeCloseTo(1, 6);
    expect(dwellAtBdc(slider(r, l), d).dwellRad / 2 / Math.sqrt((2 * d) / (r - (r * r) / l))).toBeCloseTo(1, 6);
  });

  it('a crank that can’t turn has none', () => {
    for (const f of [alphasBelowTdc, dwellAtTdc, dwellAtBdc]) expect(() => f(slider(40, 40), 1)).toThrow(/can't turn/);
  });
});

describe('harmonics', () => {
  it.each([slider(40, 43, 1.5), slider(40, 160, -7), slider(30, 100)])('of %o are those of 8192 even steps', (s) => {
    const { meanMm, orders } = pinHeightHarmonics(s, 8);
    const N = 8192;
    for (let k = 0; k <= 8; k++) {
      let [cos, sin] = [0, 0];
      for (let n = 0; n < N; n++) {
        const a = (2 * PI * n) / N;
        cos += (2 * height(s, a) * Math.cos(k * a)) / N;
        sin += (2 * height(s, a) * Math.sin(k * a)) / N;
      }
      if (k === 0) {
        expect(meanMm).toBeCloseTo(cos / 2, 9);
        continue;
      }
      const found = orders[k - 1]!;
      expect(found.order).toBe(k);
      expect(found.cosMm).toBeCloseTo(cos, 9);
      expect(found.sinMm).toBeCloseTo(sin, 9);
      expect(accelAmplitudePerRad2Mm(found)).toBeCloseTo(k * k * Math.sqrt(cos * cos + sin * sin), 7);
      expect(accelPartPerRad2Mm(found, 0.3)).toBeCloseTo(
        -k * k * (cos * Math.cos(0.3 * k) + sin * Math.sin(0.3 * k)),
        7,
      );
    }
  });

  it('two terms of the books by hand: crank 30, rod 100, at 60 degrees -15 and +4.5', () => {
    const { first, second } = textbookAccelPerRad2Mm(slider(30, 100), PI / 3);
    expect([first, second]).toEqual([expect.closeTo(-15, 12), expect.closeTo(4.5, 12)]);
    expect(() => pinHeightHarmonics(slider(30, 30), 4)).toThrow(/can't turn/);
  });
});

describe('roots over a turn', () => {
  /** sum of size * sin(k a + phase) + level, with its derivatives. */
  const waves = (level: number, ...terms: readonly (readonly [number, number, number])[]): SmoothTurn => ({
    at: (a) =>
      [0, 1, 2, 3, 4].map((order) =>
        terms.reduce(
          (sum, [size, k, phase]) => sum + size * k ** order * Math.sin(k * a + phase + (order * PI) / 2),
          order === 0 ? level : 0,
        ),
      ),
    bounds: () =>
      [0, 1, 2, 3, 4].map((order) =>
        terms.reduce((sum, [size, k]) => sum + Math.abs(size) * k ** order, order === 0 ? Math.abs(level) : 0),
      ),
  });

  it('of sin 3a: six, every 60 degrees, falling and rising in turn; of its derivatives likewise', () => {
    for (const [order, first] of [
      [0, 0],
      [1, PI / 6],
      [2, 0],
    ] as const) {
      const found = rootsOverTurn(waves(0, [1, 3, 0]), order);
      expect(found.length).toBe(6);
      found.forEach((root, i) => {
        expect(Math.abs(root.alphaRad - first - (i * PI) / 3)).toBeLessThan(1e-12);
        // sin rises through 0; cos falls at 30 degrees; -sin falls at 0.
        expect(root.falling).toBe(i % 2 === (order === 0 ? 1 : 0));
      });
    }
  });

  it('two a hair apart are both found, two that touch are none', () => {
    const near = rootsOverTurn(waves(-1 + 5e-11, [1, 1, 0]), 0);
    // cos(x) = 1 - 5e-11 at x = 1e-5 to either side of 90 degrees.
    expect(near.map((x) => x.falling)).toEqual([false, true]);
    expect(near[0]!.alphaRad).toBeCloseTo(PI / 2 - 1e-5, 8);
    expect(near[1]!.alphaRad).toBeCloseTo(PI / 2 + 1e-5, 8);
    expect(rootsOverTurn(waves(-1 - 1e-9, [1, 1, 0]), 0)).toEqual([]);
    expect(rootsOverTurn(waves(2, [1, 1, 0]), 0)).toEqual([]);
  });

  it('of unlike waves: each is a change of sign, and there are as many as a fine row of samples has', () => {
    const turn = waves(0.3, [1, 1, 0.4], [0.8, 3, 1.1], [0.5, 5, 2]);
    for (const order of [0, 1, 2]) {
      const found = rootsOverTurn(turn, order);
      let changes = 0;
      for (let k = 0; k < 3600; k++) {
        const [here, next] = [turn.at((k * PI) / 1800)[order]!, turn.at(((k + 1) * PI) / 1800)[order]!];
        if (here >= 0 !== next >= 0) changes += 1;
      }
      expect(found.length).toBe(changes);
      for (const { alphaRad, falling } of found) {
        const [before, after] = [turn.at(alphaRad - 1e-9)[order]!, turn.at(alphaRad + 1e-9)[order]!];
        expect([before > 0, after > 0]).toEqual([falling, !falling]);
        expect(alphaRad >= 0 && alphaRad < 2 * PI).toBe(true);
      }
    }
  });
});

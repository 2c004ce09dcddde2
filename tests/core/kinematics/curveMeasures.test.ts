/** Dwell, extremes, harmonics and side force of the slider-crank against closed forms, a general-purpose library and print. */
import fc from 'fast-check';
import { derivative, evaluate } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { harmonicDifferenceExtrema } from '../../../src/core/kinematics/harmonicDifference.ts';
import {
  accelPartPerRad2Mm,
  heightPartMm,
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
import {
  inertiaSideForceExtrema,
  inertiaSideForcePerRad2Mm,
  inertiaSideForceTurn,
} from '../../../src/core/kinematics/sideForce.ts';
import {
  canTurn,
  pinHeightMm,
  pinHeightPerRad2Mm,
  type SliderCrank,
  strokeTravelledMm,
} from '../../../src/core/kinematics/sliderCrank.ts';
import { alphasBelowTdc, belowTdcMm, dwellAtBdc, dwellAtTdc } from '../../../src/core/kinematics/travel.ts';

const DEG = 180 / Math.PI;
const plain = (crankRadiusMm: number, rodLengthMm: number, offsetMm = 0): SliderCrank => ({
  crankRadiusMm,
  rodLengthMm,
  offsetMm,
});
const any = fc
  .record({
    crankRadiusMm: fc.double({ min: 10, max: 80, noNaN: true }),
    ratio: fc.double({ min: 2.2, max: 6, noNaN: true }),
    share: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
  })
  .map(({ crankRadiusMm, ratio, share }) => plain(crankRadiusMm, crankRadiusMm * ratio, crankRadiusMm * share))
  .filter(canTurn);

describe('derivatives to the fifth', () => {
  it('are those that mathjs finds, the two last by differences of the third', () => {
    const [r, l, e] = [40, 130, 3];
    let text = `${r} * cos(a) + sqrt(${l}^2 - (${r} * sin(a) - ${e})^2)`;
    let tangent = `(${r} * sin(a) - ${e}) / sqrt(${l}^2 - (${r} * sin(a) - ${e})^2)`;
    for (let order = 0; order <= 3; order++) {
      for (const a of [0.3, 1.9, 4.4]) {
        expect(heightDerivatives(plain(r, l, e), a)[order]!).toBeCloseTo(evaluate(text, { a }), 6);
        expect(tangentDerivatives(plain(r, l, e), a)[order]!).toBeCloseTo(evaluate(tangent, { a }), 9);
      }
      if (order === 3) break;
      text = derivative(text, 'a').toString();
      tangent = derivative(tangent, 'a').toString();
    }
    for (const a of [0.3, 1.9, 4.4]) {
      const at = (x: number): readonly number[] => heightDerivatives(plain(r, l, e), x);
      const h = 1e-4;
      for (const order of [4, 5])
        expect(at(a)[order]!).toBeCloseTo((at(a + h)[order - 1]! - at(a - h)[order - 1]!) / (2 * h), 4);
    }
  });
});

describe('dwell', () => {
  it('without offset, by the law of cosines: cos a = ((r + l - d)² + r² - l²) / (2 r (r + l - d))', () => {
    const [r, l, d] = [45, 150, 2.5];
    const at = (D: number): number => Math.acos((D * D + r * r - l * l) / (2 * r * D));
    expect(dwellAtTdc(plain(r, l), d).dwellRad).toBeCloseTo(2 * at(r + l - d), 12);
    expect(dwellAtBdc(plain(r, l), d).dwellRad).toBeCloseTo(2 * (Math.PI - at(l - r + d)), 12);
  });

  it('begins and ends where the piston is just so far from the dead centre; longer at the bottom than at the top', () => {
    fc.assert(
      fc.property(any, fc.double({ min: 0.001, max: 0.4, noNaN: true }), (s, share) => {
        const d = share * strokeTravelledMm(s);
        const top = dwellAtTdc(s, d);
        const bottom = dwellAtBdc(s, d);
        for (const a of [top.fromAlphaRad, top.toAlphaRad]) expect(belowTdcMm(s, a)).toBeCloseTo(d, 7);
        for (const a of [bottom.fromAlphaRad, bottom.toAlphaRad])
          expect(belowTdcMm(s, a)).toBeCloseTo(strokeTravelledMm(s) - d, 7);
        expect(bottom.dwellRad).toBeGreaterThan(top.dwellRad);
        const { downAlphaRad } = alphasBelowTdc(s, d);
        expect(downAlphaRad).toBeCloseTo(top.toAlphaRad, 9);
      }),
    );
  });

  it('is refused at nothing and at the whole travel', () => {
    for (const d of [0, -1, 90, Number.NaN]) expect(() => dwellAtTdc(plain(45, 150), d)).toThrow(RangeError);
  });
});

describe('what rod ratio does', () => {
  it('a longer rod: more dwell at the top and less at the bottom, peak speed later and smaller, less lean, accelerations more alike', () => {
    const [short, long] = [motionMeasures(plain(45, 135), 2.5), motionMeasures(plain(45, 180), 2.5)];
    expect(long.dwellTdcRad).toBeGreaterThan(short.dwellTdcRad);
    expect(long.dwellBdcRad).toBeLessThan(short.dwellBdcRad);
    expect(long.peakSpeedDown.afterTdcRad).toBeGreaterThan(short.peakSpeedDown.afterTdcRad);
    expect(long.peakSpeedDown.value).toBeLessThan(short.peakSpeedDown.value);
    expect(long.sideForceShare).toBeLessThan(short.sideForceShare);
    expect(long.accelRatio).toBeLessThan(short.accelRatio);
    expect(long.shareAt90).toBeLessThan(short.shareAt90);
    expect(long.shareAt90).toBeGreaterThan(0.5);
  });

  it('in closed form without offset: at 90° l - sqrt(l² - r²) past half-way, lean asin(r / l), dead centres r (1 ± r / l)', () => {
    const m = motionMeasures(plain(45, 150), 2.5);
    expect(m.belowAt90Mm).toBeCloseTo(45 + 150 - Math.sqrt(150 ** 2 - 45 ** 2), 9);
    expect(m.rodAngleDownRad).toBeCloseTo(Math.asin(45 / 150), 12);
    expect(m.accelTdcPerRad2Mm).toBeCloseTo(45 * (1 + 45 / 150), 9);
    expect(m.accelBdcPerRad2Mm).toBeCloseTo(45 * (1 - 45 / 150), 9);
    expect(m.rodRatio).toBeCloseTo(150 / 90, 12);
  });

  it('peak speed by sampling the library’s own derivative every hundredth of a degree', () => {
    const s = plain(40, 130, 3);
    const { peakSpeedDown } = motionMeasures(s, 2);
    let best = 0;
    for (let k = 0; k < 36_000; k++) {
      const a = k / 100 / DEG;
      best = Math.min(best, (pinHeightMm(s, a + 1e-5) - pinHeightMm(s, a - 1e-5)) / 2e-5);
    }
    expect(peakSpeedDown.value).toBeCloseTo(-best, 4);
  });
});

describe('harmonics', () => {
  it('add up to the motion, and to its acceleration', () => {
    fc.assert(
      fc.property(any, fc.double({ min: 0, max: 6.28, noNaN: true }), (s, a) => {
        const { meanMm, orders } = pinHeightHarmonics(s, 60);
        const height = orders.reduce((sum, h) => sum + heightPartMm(h, a), meanMm);
        expect(height).toBeCloseTo(pinHeightMm(s, a), 6);
        const accel = orders.reduce((sum, h) => sum + accelPartPerRad2Mm(h, a), 0);
        expect(accel).toBeCloseTo(pinHeightPerRad2Mm(s, a), 3);
      }),
      { numRuns: 40 },
    );
  });

  it('Bevan, The Theory of Machines, ch. 14: the first order is r, the second about r λ / 1 with λ = r / l; long rods agree with it', () => {
    const s = plain(40, 400);
    const [first, second] = pinHeightHarmonics(s, 2).orders;
    const book = textbookAccelPerRad2Mm(s, 0.7);
    expect(accelPartPerRad2Mm(first!, 0.7)).toBeCloseTo(book.first, 6);
    // The next term of the series is λ² / 4 of it, here 0.25 %.
    expect(Math.abs(accelPartPerRad2Mm(second!, 0.7) / book.second - 1)).toBeLessThan(0.004);
  });
});

describe('against simple harmonic motion', () => {
  it('the piston is lowest against it at 90° and 270°, by l - sqrt(l² - r²)', () => {
    const found = harmonicDifferenceExtrema(plain(45, 150)).filter((x) => x.kind === 'maximum');
    expect(found.map((x) => x.alphaRad * DEG)).toEqual([expect.closeTo(90, 6), expect.closeTo(270, 6)]);
    for (const { value } of found) expect(value).toBeCloseTo(150 - Math.sqrt(150 ** 2 - 45 ** 2), 9);
  });
});

describe('side force of inertia', () => {
  it('presses on the side to which the crankpin moves while the rod pulls: just after the top, and before it on the other', () => {
    const s = plain(45, 150);
    // About the top the rod pulls the piston toward the crank; leaning to the `v` side after it, it pulls it to that side too.
    expect(inertiaSideForcePerRad2Mm(s, 0.4)).toBeGreaterThan(0);
    expect(inertiaSideForcePerRad2Mm(s, -0.4)).toBeLessThan(0);
    // About the bottom the rod pushes: it leans to the `v` side before it, and presses the piston the other way.
    expect(inertiaSideForcePerRad2Mm(s, Math.PI - 0.4)).toBeLessThan(0);
  });

  it('balances the moments about the crank axis: N s + F e + T = 0, with T = F s’ by virtual work and F = -s’’ at unit mass', () => {
    // Statics: Khurmi & Gupta, Theory of Machines, ch. 15 (thrust on the cylinder wall and turning moment), here with offset; derivatives by mathjs.
    const [r, l, e] = [40, 130, 3];
    const height = `${r} * cos(a) + sqrt(${l}^2 - (${r} * sin(a) - ${e})^2)`;
    const [speed, accel] = [derivative(height, 'a'), derivative(derivative(height, 'a'), 'a')];
    for (const a of [0.3, 1.2, 1.9, 2.8, 4.4, 5.9]) {
      const force = -accel.evaluate({ a });
      const moment = force * speed.evaluate({ a });
      expect(inertiaSideForcePerRad2Mm(plain(r, l, e), a)).toBeCloseTo(
        -(moment + force * e) / evaluate(height, { a }),
        9,
      );
    }
  });

  it('has the derivatives that differences of the one before find, to the third', () => {
    const { at } = inertiaSideForceTurn(plain(40, 130, 3));
    const h = 1e-4;
    for (const a of [0.3, 1.9, 4.4]) {
      expect(at(a)[0]!).toBeCloseTo(inertiaSideForcePerRad2Mm(plain(40, 130, 3), a), 9);
      for (const order of [1, 2, 3])
        expect(at(a)[order]!, `${order}`).toBeCloseTo((at(a + h)[order - 1]! - at(a - h)[order - 1]!) / (2 * h), 4);
    }
  });

  it('no derivative exceeds its bound anywhere on a stretch, nor does one of height or tangent', () => {
    fc.assert(
      fc.property(
        any,
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.5, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (s, middle, half, share) => {
          const a = middle + share * half;
          const pairs = [
            [inertiaSideForceTurn(s).at(a), inertiaSideForceTurn(s).bounds(middle, half)],
            [heightDerivatives(s, a), heightBounds(s, middle, half)],
            [tangentDerivatives(s, a), tangentBounds(s, middle, half)],
          ] as const;
          for (const [values, bounds] of pairs)
            for (const [order, value] of values.entries())
              expect(Math.abs(value), `${order}`).toBeLessThanOrEqual(bounds[order]! * (1 + 1e-12));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('no sample is beyond its extremes', () => {
    fc.assert(
      fc.property(any, (s) => {
        const values = inertiaSideForceExtrema(s).map((x) => x.value);
        const [least, greatest] = [Math.min(...values), Math.max(...values)];
        for (let k = 0; k < 720; k++) {
          const v = inertiaSideForcePerRad2Mm(s, (k * Math.PI) / 360);
          expect(v).toBeLessThanOrEqual(greatest + 1e-9 * Math.abs(greatest));
          expect(v).toBeGreaterThanOrEqual(least - 1e-9 * Math.abs(least));
        }
      }),
      { numRuns: 30 },
    );
  });
});

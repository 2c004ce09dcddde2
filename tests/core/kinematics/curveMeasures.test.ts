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
  sideForceShare,
} from '../../../src/core/kinematics/sideForce.ts';
import {
  canTurn,
  pinHeightMm,
  pinHeightPerRad2Mm,
  type SliderCrank,
  strokeTravelledMm,
} from '../../../src/core/kinematics/sliderCrank.ts';
import { alphasBelowTdc, belowTdcMm, dwellAtBdc, dwellAtTdc } from '../../../src/core/kinematics/travel.ts';
import { fewer } from '../../support/fewer.ts';

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
      text = derivative(text, 'a', { simplify: false }).toString();
      tangent = derivative(tangent, 'a', { simplify: false }).toString();
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
      { numRuns: fewer(40, 8) },
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

  it('its bounds are those of Leibniz’ rule, no smaller: of the n-th derivative of a product, sums of binomials of the bounds of its factors', () => {
    const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k);
    const leibniz = (n: number, f: readonly number[], g: readonly number[], from = 0): number =>
      Array.from({ length: n + 1 - from }, (_, k) => choose(n, k + from) * f[n - k - from]! * g[k + from]!).reduce(
        (sum, x) => sum + x,
        0,
      );
    fc.assert(
      fc.property(any, fc.double({ min: 0, max: 6.28, noNaN: true }), (s, middle) => {
        const [half, r, l, e] = [0.05, s.crankRadiusMm, s.rodLengthMm, s.offsetMm];
        const height = heightBounds(s, middle, half);
        const tangent = tangentBounds(s, middle, half);
        const product = inertiaSideForceTurn(s).bounds(middle, half);
        for (let n = 0; n <= 3; n++)
          expect(product[n]!).toBeGreaterThanOrEqual(leibniz(n, height.slice(2), tangent) * (1 - 1e-12));
        // tan w = q: of the n-th derivative of the tangent, w times it is q's less the others of the product.
        const q = Math.min(r + Math.abs(e), Math.abs(r * Math.sin(middle) - e) + r * half);
        const w = [Math.sqrt(l * l - q * q), ...height.slice(1).map((x) => x - r)];
        for (let n = 1; n <= 3; n++)
          expect(tangent[n]! * w[0]!).toBeGreaterThanOrEqual((r + leibniz(n, tangent, w, 1)) * (1 - 1e-9));
      }),
      { numRuns: 50 },
    );
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
      { numRuns: fewer(30, 5) },
    );
  });
});

describe('against print', () => {
  const IN = 25.4;

  it('peak speed: 75.6°, 1078 in/s, stroke 3.307 in, rod 6.024 in at 6000 rpm (rework of a 2003 page on piston speed, quartermile.ws, topic 7907)', () => {
    const s = plain((3.307 / 2) * IN, 6.024 * IN);
    const { peakSpeedDown } = motionMeasures(s, 2.5);
    expect(Math.abs(peakSpeedDown.afterTdcRad * DEG - 75.6)).toBeLessThan(0.05);
    // Printed as a time too, to twelve decimals of a second: 0.002100653404 s, 36,000 degrees a second.
    expect(peakSpeedDown.afterTdcRad * DEG).toBeCloseTo(0.002100653404 * 36_000, 7);
    const inPerSecond = (peakSpeedDown.value / IN) * ((6000 * 2 * Math.PI) / 60);
    expect(Math.abs(inPerSecond - 1078)).toBeLessThan(0.5);
  });

  it('place: the same page has the pin at 7.68 in at the top and 6.218 in at .0021 s; that far down it is found 75.6° after the top', () => {
    const s = plain((3.307 / 2) * IN, 6.024 * IN);
    const top = 3.307 / 2 + 6.024;
    const { downAlphaRad } = alphasBelowTdc(s, (top - 6.218) * IN);
    // Half the last printed digit, at 1078 in/s, is 0.017 degrees.
    expect(Math.abs(downAlphaRad * DEG - 0.0021 * 36_000)).toBeLessThan(0.017);
  });

  it('with offset: 62.05 mm of travel, bottom at 210° (Graduate Aptitude Test in Engineering 2025, Mechanical, question 60: r 30, l 50, e 10 mm)', () => {
    const s = plain(30, 50, 10);
    expect(Math.abs(motionMeasures(s, 1).travelMm - 62.05)).toBeLessThan(0.005);
    expect(alphasBelowTdc(s, strokeTravelledMm(s)).downAlphaRad * DEG).toBeCloseTo(210, 6);
  });

  it('accelerations at the dead centres: +0.21 and 0.6 of 0.15, greatest 57/80 of r where cos t = -5/8, two terms (HELM Workbook 12.2, Engineering Example 4)', () => {
    const s = plain(150, 375);
    const twoTerms = (a: number): number => {
      const { first, second } = textbookAccelPerRad2Mm(s, a);
      return first + second;
    };
    expect(Math.abs(twoTerms(0))).toBeCloseTo(210, 9);
    expect(Math.abs(twoTerms(Math.PI))).toBeCloseTo(0.6 * 150, 9);
    expect(Math.abs(twoTerms(Math.acos(-5 / 8)))).toBeCloseTo((57 / 80) * 150, 9);
    // At the dead centres the two terms are exact.
    const m = motionMeasures(s, 2.5);
    expect([m.accelTdcPerRad2Mm, m.accelBdcPerRad2Mm]).toEqual([expect.closeTo(210, 9), expect.closeTo(90, 9)]);
  });

  it('acceleration in two terms: 85.36 m/s² at 40°, r 0.3 m, l 1.5 m, 180 rpm (Khurmi & Gupta, Theory of Machines, ex. 15.4, p. 528)', () => {
    const { first, second } = textbookAccelPerRad2Mm(plain(300, 1500), 40 / DEG);
    const omega = (180 * 2 * Math.PI) / 60;
    expect(Math.abs((-(first + second) / 1000) * omega ** 2 - 85.36)).toBeLessThan(0.005);
  });

  it('rod angle 159.295° from the far side, so a lean of 20.705°, r 10 and l 20 at 45° (course worksheet “fourbar-mathcad”): its tangent presses on the wall', () => {
    expect(Math.abs(Math.atan(sideForceShare(plain(10, 20), 45 / DEG)) * DEG - (180 - 159.295))).toBeLessThan(0.0005);
  });

  it('rod ratios 1.64 and 1.72 (L. Carley, “Understanding Rod Ratios”, Engine Builder, July 2016); peak speed some 1.6 times the mean (kfz-tech.de)', () => {
    for (const [rod, printed] of [
      [5.7, 1.64],
      [6, 1.72],
    ] as const) {
      const m = motionMeasures(plain(3.48 / 2, rod), 0.1);
      expect(Math.abs(m.rodRatio - printed)).toBeLessThan(0.005);
      const mean = (2 * m.travelMm) / (2 * Math.PI);
      expect(Math.abs(m.peakSpeedDown.value / mean - 1.6)).toBeLessThan(0.06);
    }
  });
});

import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { filletClearanceMm, sideClearance } from '../../../src/core/shop/axialFit.ts';
import { oilClearance, shellForClearance } from '../../../src/core/shop/bearingClearance.ts';
import { boreLeftBelowCrownMm, boreLeftBelowPinMm, oilGrooveToPinMm } from '../../../src/core/shop/boreEnd.ts';
import { oilHoleAngleRad } from '../../../src/core/shop/oilHole.ts';
import { turnedToFit } from '../../../src/core/shop/turnedToFit.ts';

const d = (value: string | number): Decimal => new Decimal(value);

describe('rods on their pin', () => {
  test('by hand: 1.890 in between cheeks, two rods of .940 in', () => {
    const fit = sideClearance(d('1.890'), [d('.940'), d('.940')], d('.015'));
    expect(fit.clearance.toString()).toBe('0.01');
    expect(fit.widenEachFace.toString()).toBe('0.0025');
    expect(sideClearance(d('1.900'), [d('.940'), d('.940')], d('.015')).widenEachFace.toString()).toBe('0');
  });

  test('a stack of tenths is exact', () => {
    expect(sideClearance(d('0.3'), [d('0.1'), d('0.1')], d(0)).clearance.toString()).toBe('0.1');
  });

  test('the chamfer against the fillet, against points of both', () => {
    const length = fc.double({ min: 0, max: 4, noNaN: true });
    fc.assert(
      fc.property(
        length,
        length,
        length,
        length,
        length,
        (filletMm, chamferAxialMm, chamferRadialMm, sideMm, bearingMm) => {
          const said = filletClearanceMm({ filletMm, chamferAxialMm, chamferRadialMm, sideMm, bearingMm });
          // Points along the chamfer: those between the fillet's ends by how deep they lie in the hollow; else the nearest to its middle.
          let inside = Number.POSITIVE_INFINITY;
          let beyond = Number.POSITIVE_INFINITY;
          for (let k = 0; k <= 4000; k++) {
            const x = sideMm + (chamferAxialMm * k) / 4000;
            const y = bearingMm + chamferRadialMm * (1 - k / 4000);
            const fromMiddle = Math.hypot(filletMm - x, filletMm - y);
            beyond = Math.min(beyond, filletMm + fromMiddle);
            if (x <= filletMm && y <= filletMm) inside = Math.min(inside, filletMm - fromMiddle);
          }
          const least = inside === Number.POSITIVE_INFINITY ? beyond : inside;
          // 4000 points on at most 6 mm of chamfer.
          if (inside === Number.POSITIVE_INFINITY && said < filletMm) return;
          expect(Math.abs(said - least)).toBeLessThan(0.002);
        },
      ),
    );
  });

  test('no chamfer rides on any fillet', () => {
    const f = { filletMm: 3, chamferAxialMm: 0, chamferRadialMm: 0, sideMm: 0.2, bearingMm: 0.03 };
    expect(filletClearanceMm(f)).toBeLessThan(0);
    expect(filletClearanceMm({ ...f, chamferAxialMm: 3, chamferRadialMm: 3 })).toBeGreaterThan(0);
    // Pushed against the cheek without oil: a chamfer as large as the fillet just meets its two ends; a larger one clears by hand's sum,
    // chamfer 4 over fillet 3 crossing the ends at 1 mm from journal and face.
    const pushed = { filletMm: 3, sideMm: 0, bearingMm: 0 };
    expect(filletClearanceMm({ ...pushed, chamferAxialMm: 3, chamferRadialMm: 3 })).toBe(0);
    expect(filletClearanceMm({ ...pushed, chamferAxialMm: 4, chamferRadialMm: 4 })).toBeCloseTo(1, 12);
    expect(() => filletClearanceMm({ ...f, sideMm: -1 })).toThrow('sideMm -1');
  });
});

describe('bearings', () => {
  test('published: 2.1018 less 2.0989 in is .0029 in', () => {
    // "Engine bearing clearance tips", Car Craft, May 2008; the shells are already in the bore there.
    const shell = d('.0600');
    const housing = d('2.1018').add(shell.mul(2));
    expect(oilClearance({ housingBore: housing, shell, journal: d('2.0989') }).toString()).toBe('0.0029');
    expect(shellForClearance(housing, d('2.0989'), d('.0029')).eq(shell)).toBe(true);
    expect(() => shellForClearance(d(2), d(2), d('.001'))).toThrow('leave a shell of');
    expect(() => oilClearance({ housingBore: d(2), shell: d(0), journal: d(1) })).toThrow('shell 0');
  });
});

describe('at the lower end of the bore', () => {
  test('by hand', () => {
    // Pin 100 mm above the crank axis, crown 35 above that, bore ending at 60: oil ring's lower edge 22 below the crown.
    const p = { pinHeightMm: 100, compressionHeightMm: 35, boreBottomMm: 60 };
    expect(boreLeftBelowCrownMm(p, 22)).toBe(53);
    expect(boreLeftBelowPinMm(p, 22)).toBe(29);
    expect(oilGrooveToPinMm(35, 22, 22)).toBe(2);
    expect(oilGrooveToPinMm(30, 22, 22)).toBe(-3);
  });
});

describe('oil hole', () => {
  test('stays where it was outward and inward, and on a pin that is not moved', () => {
    expect(oilHoleAngleRad(0, 1.5, 50)).toBe(0);
    expect(Math.abs(oilHoleAngleRad(Math.PI, 1.5, 50))).toBeCloseTo(Math.PI, 12);
    expect(oilHoleAngleRad(1, 0, 50)).toBeCloseTo(1, 12);
  });

  test('square to the throw it moves toward the crank by asin(c / r)', () => {
    // By hand: the line y = 0 of the old middle lies c below the new one.
    expect(oilHoleAngleRad(Math.PI / 2, 2, 50) - Math.PI / 2).toBeCloseTo(Math.asin(2 / 25), 12);
    expect(() => oilHoleAngleRad(1, 25, 50)).toThrow('pin shift 25 mm');
  });
});

describe('a crank of another engine', () => {
  test('by hand: mains from 3.000 to 2.748 in, case .040 in deep', () => {
    const main = turnedToFit({ name: 'main journal', is: 'diameter', has: d('3.000'), takes: d('2.748') }, d('.040'));
    expect(main.comesOff.toString()).toBe('0.252');
    expect(main.depth.toString()).toBe('0.126');
    expect(main.can).toBe(true);
    expect(main.caseLeft?.toString()).toBe('-0.086');
    const width = turnedToFit({ name: 'thrust width', is: 'width', has: d('1.200'), takes: d('1.210') }, null);
    expect(width.can).toBe(false);
    expect(width.comesOff.toString()).toBe('-0.01');
    expect(() => turnedToFit({ name: 'snout', is: 'diameter', has: d(0), takes: d(1) }, null)).toThrow('snout: has 0');
  });
});

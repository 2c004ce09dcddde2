/** Sums of the shop by hand where they have no other check, at their edges, and what they refuse. */
import { describe, expect, it } from 'vitest';
import {
  plugLengthMm,
  plugMassG,
  radialHoleDepthMm,
  radialHoleGMm,
  segmentMomentKgMm,
} from '../../../src/core/shop/balanceCorrection.ts';
import { counterweightMomentLostKgMm, STEEL_DENSITY_KG_PER_MM3 } from '../../../src/core/shop/counterweightMoment.ts';
import { lineBoring } from '../../../src/core/shop/lineBoring.ts';
import { centrifugalN } from '../../../src/core/shop/pistonLoads.ts';

const STEEL = STEEL_DENSITY_KG_PER_MM3;

describe('a counterweight turned down', () => {
  it('by hand: a half disc of steel 20 mm thick from 90 to 80 mm loses 2/3 x 7.85e-6 x 20 x (729 000 - 512 000) kg mm', () => {
    expect(counterweightMomentLostKgMm(90, 80, Math.PI / 2, 20, STEEL)).toBeCloseTo(22.7126667, 6);
    // A sector of 30 degrees to either side: its sine is a half.
    expect(counterweightMomentLostKgMm(90, 80, Math.PI / 6, 20, STEEL)).toBeCloseTo(11.3563333, 6);
  });

  it('as a ring of segments summed: the moment of a half disc is that of its segment at a chord through the middle', () => {
    const whole = segmentMomentKgMm(90, 0, 20, STEEL) - segmentMomentKgMm(80, 0, 20, STEEL);
    expect(counterweightMomentLostKgMm(90, 80, Math.PI / 2, 20, STEEL)).toBeCloseTo(whole, 9);
  });
});

describe('line boring', () => {
  it('lifts the crank: upright banks come nearer by all of it, banks at 45 degrees by .7071 of it and as far aside', () => {
    expect(lineBoring(0.5, 0)).toEqual({ alongBore: 0.5, acrossBore: 0 });
    const { alongBore, acrossBore } = lineBoring(0.5, Math.PI / 4);
    expect(alongBore).toBeCloseTo(0.353553391, 8);
    expect(acrossBore).toBeCloseTo(0.353553391, 8);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) expect(() => lineBoring(bad, 0)).toThrow(/rise/);
  });
});

it('centrifugal pull by hand: 0.6 kg at 50 mm and 3000 rpm is 0.6 x 0.05 x 314.159² = 2960.9 N', () => {
  expect(centrifugalN(0.6, 50, 3000)).toBeCloseTo(2960.88, 2);
});

describe('a balance hole', () => {
  it('by hand: 20 mm wide and 10 deep from a rim of 100 mm takes 314.159 x 10 x 7.85e-3 x 95 g mm', () => {
    expect(radialHoleGMm(20, 10, 100, STEEL)).toBeCloseTo(2342.84, 2);
    expect(radialHoleDepthMm(2342.843, 20, 100, STEEL)).toBeCloseTo(10, 5);
    // Nothing to take off: no hole. To the very middle: the deepest there is, and no more than that.
    expect(radialHoleDepthMm(0, 20, 100, STEEL)).toBe(0);
    const most = radialHoleGMm(20, 99.999999, 100, STEEL);
    expect(radialHoleDepthMm(most, 20, 100, STEEL)).toBeGreaterThan(99.9);
    expect(radialHoleDepthMm(most * 1.01, 20, 100, STEEL)).toBeNull();
  });

  it('a hole to the axis, none at all, no rim, and what is no number are refused', () => {
    for (const depth of [100, 101]) expect(() => radialHoleGMm(20, depth, 100, STEEL)).toThrow(/depth/);
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => radialHoleGMm(bad, 10, 100, STEEL)).toThrow(/diameter/);
      expect(() => radialHoleGMm(20, bad, 100, STEEL)).toThrow(/depth/);
      expect(() => radialHoleGMm(20, 10, 100, bad)).toThrow(/density/);
      expect(() => plugLengthMm(10, bad, STEEL)).toThrow(/diameter/);
      expect(() => radialHoleDepthMm(100, bad, 100, STEEL)).toThrow(/diameter/);
      expect(() => plugMassG(100, bad, STEEL, 2 * STEEL)).toThrow(/radius/);
    }
    for (const [unbalance, rim] of [
      [-1, 100],
      [100, 0],
      [100, -5],
      [Number.NaN, 100],
    ] as const)
      expect(() => radialHoleDepthMm(unbalance, 20, rim, STEEL)).toThrow(/rim/);
  });
});

describe('heavy metal', () => {
  it('by hand: twice as dense as the crank, half of it counts; a plug of 10 mm and 78.5 g of steel is 127.3 mm long', () => {
    expect(plugMassG(1000, 50, STEEL, 2 * STEEL)).toBeCloseTo(40, 9);
    expect(plugLengthMm(78.5, 10, STEEL)).toBeCloseTo(127.324, 3);
  });

  it('no denser than the crank adds nothing, and is refused; so is a crank of no density', () => {
    for (const plug of [STEEL, 0.5 * STEEL]) expect(() => plugMassG(1000, 50, STEEL, plug)).toThrow(/denser/);
    for (const crank of [0, -STEEL]) expect(() => plugMassG(1000, 50, crank, STEEL)).toThrow(/denser/);
  });
});

describe('a segment', () => {
  it('by hand: of a half disc 2/3 rho t R³, of a chord at the rim nothing, the same on either side', () => {
    expect(segmentMomentKgMm(60, 0, 10, STEEL)).toBeCloseTo(11.304, 9);
    for (const chord of [60, -60]) expect(segmentMomentKgMm(60, chord, 10, STEEL)).toBe(0);
    expect(segmentMomentKgMm(60, -20, 10, STEEL)).toBe(segmentMomentKgMm(60, 20, 10, STEEL));
  });

  it('beyond its radius, or of none, is refused', () => {
    for (const [radius, chord] of [
      [60, 60.001],
      [60, -61],
      [0, 0],
      [-1, 0],
    ] as const)
      expect(() => segmentMomentKgMm(radius, chord, 10, STEEL)).toThrow(/chord/);
  });
});

/** Sums of the shop where one regime ends and another begins, by hand, and what each refuses. */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { filletClearanceMm, sideClearance } from '../../../src/core/shop/axialFit.ts';
import {
  clearanceCm3,
  compressionRatio,
  creviceCm3,
  discCm3,
  partForRatioCm3,
} from '../../../src/core/shop/compressionRatio.ts';
import { petroffFriction, projectedPressureMPa } from '../../../src/core/shop/journalFriction.ts';
import { oilHoleAngleRad } from '../../../src/core/shop/oilHole.ts';
import { checkWeighing } from '../../../src/core/shop/rodWeighing.ts';
import { type ShakingCylinder, shakingOrder } from '../../../src/core/shop/shakingForces.ts';
import { turnedToFit } from '../../../src/core/shop/turnedToFit.ts';
import { inTwoPlanes, permissibleUnbalanceGMm, resultant } from '../../../src/core/shop/unbalance.ts';

const d = (value: string | number): Decimal => new Decimal(value);
const NONE = [0, -1, Number.NaN, Number.POSITIVE_INFINITY];

describe('volumes above the piston', () => {
  const volumes = { chamberCm3: 60, gasketCm3: 10, deckCm3: 5, pistonCm3: 20, creviceCm3: 5 };

  it('a disc without a diameter, or with a height that is no number, is refused', () => {
    for (const bad of NONE) expect(() => discCm3(bad, 1)).toThrow(/diameter/);
    for (const bad of [Number.NaN, Number.NEGATIVE_INFINITY]) expect(() => discCm3(100, bad)).toThrow(/height/);
    expect(discCm3(100, -1)).toBeCloseTo(-7.853981634, 9);
  });

  it('a land of no diameter or height, or in a bore without end, is refused; one of no height has no room', () => {
    for (const bad of [0, -1, Number.NaN]) expect(() => creviceCm3(100, bad, 5)).toThrow(/land diameter/);
    expect(() => creviceCm3(Number.POSITIVE_INFINITY, 99, 5)).toThrow(/land diameter/);
    for (const bad of [-1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => creviceCm3(100, 99, bad)).toThrow(/land height/);
    expect(creviceCm3(100, 99, 0)).toBe(0);
  });

  it('that leave nothing are refused', () => {
    expect(clearanceCm3(volumes)).toBe(100);
    for (const pistonCm3 of [-80, -81, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => clearanceCm3({ ...volumes, pistonCm3 })).toThrow(/more than 0/);
    for (const swept of NONE) expect(() => compressionRatio(swept, volumes)).toThrow(/swept volume/);
  });

  it('a part may come out as nothing, a dish and the deck below it, a chamber not', () => {
    // 900 cm³ at 10 to 1 want 100 cm³: with 100 in the others nothing is left, with 101 one less than that.
    const full = (part: string, cm3: number) => ({
      chamberCm3: 0,
      gasketCm3: 0,
      deckCm3: 0,
      pistonCm3: 0,
      creviceCm3: 0,
      [part]: cm3,
    });
    for (const part of ['chamberCm3', 'gasketCm3', 'creviceCm3'] as const) {
      expect(partForRatioCm3(part, 900, full('deckCm3', 100), 10)).toBe(0);
      expect(() => partForRatioCm3(part, 900, full('deckCm3', 101), 10)).toThrow(/can't be had/);
      expect(() => partForRatioCm3(part, 900, full('deckCm3', Number.NaN), 10)).toThrow(/finite/);
    }
    expect(partForRatioCm3('pistonCm3', 900, full('chamberCm3', 101), 10)).toBe(-1);
    expect(partForRatioCm3('deckCm3', 900, full('chamberCm3', 101), 10)).toBe(-1);
    expect(() => partForRatioCm3('deckCm3', 900, full('chamberCm3', Number.NEGATIVE_INFINITY), 10)).toThrow(/finite/);
  });
});

describe('vectors along a shaft', () => {
  it('by hand: (2, 3) at 10 and (5, -1) at 40 about 20', () => {
    const found = resultant(
      [
        { xGMm: 2, yGMm: 3, zMm: 10 },
        { xGMm: 5, yGMm: -1, zMm: 40 },
      ],
      20,
    );
    expect(found).toEqual({ xGMm: 7, yGMm: 2, momentXGMm2: 80, momentYGMm2: -50 });
  });

  it('that are no numbers, and grades of nothing, are refused', () => {
    const good = { xGMm: 1, yGMm: 1, zMm: 1 };
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY])
      for (const key of ['xGMm', 'yGMm', 'zMm'])
        expect(() => inTwoPlanes([{ ...good, [key]: bad }], 0, 100)).toThrow(/must be finite/);
    for (const bad of NONE) {
      expect(() => permissibleUnbalanceGMm(bad, 30, 6000)).toThrow(/grade/);
      expect(() => permissibleUnbalanceGMm(6.3, bad, 6000)).toThrow(/mass/);
      expect(() => permissibleUnbalanceGMm(6.3, 30, bad)).toThrow(/speed/);
    }
  });
});

describe('rods on their pin', () => {
  it('no rod, lengths of nothing and a negative wish are refused', () => {
    expect(() => sideClearance(d(50), [], d(0))).toThrow(/without a rod/);
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => sideClearance(d(bad), [d(20)], d(0))).toThrow(/journal length/);
      expect(() => sideClearance(d(50), [d(20), d(bad)], d(0))).toThrow(/big-end width/);
    }
    for (const bad of [-0.1, Number.NaN]) expect(() => sideClearance(d(50), [d(20)], d(bad))).toThrow(/wanted/);
  });

  // The middle of the fillet's circle lies its radius from cheek and journal; distances by Pythagoras.
  it('a chamfer past the fillet is as far from it as from the middle, and the radius more', () => {
    // A square corner at (2, 3) of a fillet of 1: (1, 2) from the middle.
    const corner = { filletMm: 1, chamferAxialMm: 0, chamferRadialMm: 0, sideMm: 2, bearingMm: 3 };
    expect(filletClearanceMm(corner)).toBeCloseTo(1 + Math.sqrt(5), 12);
    // From (-1, 3) to (3, 1) of the middle: nearest half way, at (1, 2).
    const across = { filletMm: 2, chamferAxialMm: 4, chamferRadialMm: 2, sideMm: 1, bearingMm: 3 };
    expect(filletClearanceMm(across)).toBeCloseTo(2 + Math.sqrt(5), 12);
    // Beyond the cheek's end of it alone: from (1, -1) to (2, -2), nearest at the first.
    const beside = { filletMm: 2, chamferAxialMm: 1, chamferRadialMm: 1, sideMm: 3, bearingMm: 0 };
    expect(filletClearanceMm(beside)).toBeCloseTo(2 + Math.SQRT2, 12);
    // Beyond the journal's end alone: from (-2, 2) to (-1, 1), nearest at the last.
    const above = { filletMm: 2, chamferAxialMm: 1, chamferRadialMm: 1, sideMm: 0, bearingMm: 3 };
    expect(filletClearanceMm(above)).toBeCloseTo(2 + Math.SQRT2, 12);
  });

  it('a corner just at an end of the fillet touches it there', () => {
    const square = { chamferAxialMm: 0, chamferRadialMm: 0, filletMm: 3 };
    expect(filletClearanceMm({ ...square, sideMm: 0, bearingMm: 3 })).toBe(0);
    expect(filletClearanceMm({ ...square, sideMm: 3, bearingMm: 0 })).toBe(0);
    // A chamfer that begins 1 from the middle, at the end's height, and leaves the fillet.
    const leaving = { filletMm: 2, sideMm: 2, bearingMm: 0, chamferAxialMm: 1, chamferRadialMm: 1 };
    expect(filletClearanceMm(leaving)).toBe(1);
    const entering = { filletMm: 2, sideMm: 0, bearingMm: 2, chamferAxialMm: 1, chamferRadialMm: 1 };
    expect(filletClearanceMm(entering)).toBe(1);
  });
});

describe('a plain bearing', () => {
  const bearing = { diameterMm: 50, lengthMm: 25, clearanceMm: 0.05, viscosityMPaS: 10 };
  it('as wide as its clearance is refused; without load it has no pressure', () => {
    for (const clearanceMm of [50, 51])
      expect(() => petroffFriction({ ...bearing, clearanceMm }, 6000)).toThrow(/below the diameter/);
    expect(projectedPressureMPa(0, 50, 25)).toBe(0);
    for (const bad of [-1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => projectedPressureMPa(bad, 50, 25)).toThrow(/load/);
  });
});

it('an oil hole in a journal of nothing is refused', () => {
  for (const journal of [0, -50, Number.NaN]) expect(() => oilHoleAngleRad(1, 0, journal)).toThrow(/pin shift/);
});

describe('a rod on two scales', () => {
  const rod = { bigEndGrams: d(450), smallEndGrams: d(150), totalGrams: d(600) };
  it('weights of nothing, and a scale read better than it can be, are refused', () => {
    for (const key of ['bigEndGrams', 'smallEndGrams', 'totalGrams'])
      for (const bad of NONE) expect(() => checkWeighing({ ...rod, [key]: d(bad) }, d(1))).toThrow(/positive/);
    for (const bad of [-0.1, Number.NaN]) expect(() => checkWeighing(rod, d(bad))).toThrow(/readability/);
    expect(checkWeighing(rod, d(0)).agrees).toBe(true);
  });
});

describe('a crank turned to fit', () => {
  it('a width loses all of it on one face, and case is left where something comes off', () => {
    const width = { name: 'thrust width', is: 'width', has: d('30.5'), takes: d('30') } as const;
    expect(turnedToFit(width, d('0.8')).depth.toString()).toBe('0.5');
    expect(turnedToFit(width, d('0.8')).caseLeft?.toString()).toBe('0.3');
    expect(turnedToFit(width, null).caseLeft).toBeNull();
    for (const takes of ['30.5', '31']) {
      const found = turnedToFit({ ...width, takes: d(takes) }, d('0.8'));
      expect([found.caseLeft, found.can]).toEqual([null, takes === '30.5']);
    }
    for (const bad of [-0.1, Number.NaN]) expect(() => turnedToFit(width, d(bad))).toThrow(/case depth/);
    expect(turnedToFit(width, d(0)).caseLeft?.toString()).toBe('-0.5');
  });
});

describe('shaking forces with offset, any bank and phase', () => {
  const omega = 120;
  const cylinders: readonly ShakingCylinder[] = [
    {
      slider: { crankRadiusMm: 40, rodLengthMm: 120, offsetMm: 6 },
      bankAngleRad: 0.6,
      alphaAtZeroRad: 0.9,
      zMm: 30,
      reciprocatingKg: 0.7,
    },
    {
      slider: { crankRadiusMm: 38, rodLengthMm: 130, offsetMm: -9 },
      bankAngleRad: -0.4,
      alphaAtZeroRad: 2.2,
      zMm: 170,
      reciprocatingKg: 0.9,
    },
  ];
  const turning = [{ angleRad: 1.3, zMm: 200, massRadiusKgMm: 20 }];

  /** Across and up, force and couple about z = 50 mm: the order's part of the pins' heights by their Fourier sums, times -(k omega)² and -m. */
  function reach(order: number): { force: [number, number]; couple: [number, number] } {
    const N = 720;
    const parts = cylinders.map((c) => {
      let [cos, sin] = [0, 0];
      for (let n = 0; n < N; n++) {
        const a = (2 * Math.PI * n) / N;
        const q = c.slider.crankRadiusMm * Math.sin(a + c.alphaAtZeroRad) - c.slider.offsetMm;
        const s =
          c.slider.crankRadiusMm * Math.cos(a + c.alphaAtZeroRad) + Math.sqrt(c.slider.rodLengthMm ** 2 - q * q);
        cos += (2 * s * Math.cos(order * a)) / N;
        sin += (2 * s * Math.sin(order * a)) / N;
      }
      return (a: number): number =>
        (c.reciprocatingKg * (order * omega) ** 2 * (cos * Math.cos(order * a) + sin * Math.sin(order * a))) / 1000;
    });
    const [force, couple]: [number[], number[]] = [[], []];
    for (let n = 0; n < 1440; n++) {
      const a = (2 * Math.PI * n) / 1440;
      let [fx, fy, mx, my] = [0, 0, 0, 0];
      const add = (size: number, angle: number, zMm: number): void => {
        fx += size * Math.sin(angle);
        fy += size * Math.cos(angle);
        mx += (size * Math.sin(angle) * (zMm - 50)) / 1000;
        my += (size * Math.cos(angle) * (zMm - 50)) / 1000;
      };
      cylinders.forEach((c, i) => {
        add(parts[i]!(a), c.bankAngleRad, c.zMm);
      });
      if (order === 1) for (const t of turning) add((t.massRadiusKgMm * omega ** 2) / 1000, t.angleRad + a, t.zMm);
      force.push(Math.hypot(fx, fy));
      couple.push(Math.hypot(mx, my));
    }
    const ends = (list: number[]): [number, number] => [Math.max(...list), Math.min(...list)];
    return { force: ends(force), couple: ends(couple) };
  }

  for (const order of [1, 2, 3, 4])
    it(`order ${order} reaches as far as the pins’ own motion taken apart says`, () => {
      const found = shakingOrder(cylinders, turning, order, omega, 50);
      const { force, couple } = reach(order);
      // 1440 places round an ellipse miss its ends by at most (k pi / 1440)² / 2 of its greatest reach, near a flat one's middle by more.
      for (const [ellipse, [greatest, least]] of [
        [found.forceN, force],
        [found.coupleNm, couple],
      ] as const) {
        expect(Math.abs(ellipse.greatest / greatest - 1)).toBeLessThan(1e-4);
        // 1440 places round a flat ellipse miss its middle by up to k pi / 1440 of its greatest reach.
        expect(Math.abs(Math.abs(ellipse.least) - least)).toBeLessThan(0.01 * greatest);
      }
    });

  it('orders from 1 to 16, whole ones', () => {
    expect(shakingOrder(cylinders, turning, 16, omega, 0).order).toBe(16);
    for (const bad of [17, 1.5, Number.NaN, -1])
      expect(() => shakingOrder(cylinders, turning, bad, omega, 0)).toThrow(/order/);
  });
});

import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  plugLengthMm,
  plugMassG,
  radialHoleDepthMm,
  radialHoleGMm,
  segmentMomentKgMm,
} from '../../../src/core/shop/balanceCorrection.ts';
import { bobweight, type PinLoad } from '../../../src/core/shop/bobweight.ts';
import { centreOfMassFromBigEnd, checkWeighing } from '../../../src/core/shop/rodWeighing.ts';
import { inTwoPlanes, permissibleUnbalanceGMm, resultant } from '../../../src/core/shop/unbalance.ts';

const d = (value: string | number): Decimal => new Decimal(value);

function load(
  bigEnd: string,
  bearing: string,
  smallEnd: string,
  piston: string,
  pin: string,
  rings: string,
  locks: string,
): PinLoad {
  return {
    bigEndGrams: d(bigEnd),
    bearingGrams: d(bearing),
    smallEndGrams: d(smallEnd),
    pistonGrams: d(piston),
    pinGrams: d(pin),
    ringsGrams: d(rings),
    locksGrams: d(locks),
  };
}

describe('bobweight', () => {
  test('B1, the rotating part', () => {
    // B1: "Rotating Assembly", FordMuscle, April 2008: big end 621.5 g and bearing 45 g make 666.5, for two rods 1333.
    const rod = load('621.5', '45', '0', '0', '0', '0', '0');
    expect(bobweight([rod, rod], d(0), d('0.5')).rotatingGrams.toString()).toBe('1333');
  });

  test('B2, a whole card of a V8 pin', () => {
    // B2: parts of "Balanced rotating assembly", Chevy High Performance, June 2009: 2 x 229.8 = 459.6 is printed; rings
    // 69.5, piston 583.9, pin 173.6, locks 4.8, small end 162.4, oil 4, bearings of the pin 47.4. Added by hand: 994.2
    // reciprocating a rod, 511.0 rotating, and with half of two rods 1505.2.
    const rod = load('229.8', '23.7', '162.4', '583.9', '173.6', '69.5', '4.8');
    const card = bobweight([rod, rod], d(4), d('0.5'));
    expect(card.rotatingGrams.toString()).toBe('511');
    expect(card.reciprocatingGrams.toString()).toBe('1988.4');
    expect(card.bobweightGrams.toString()).toBe('1505.2');
  });

  test('B4, a share of the reciprocating weight balanced at another radius', () => {
    // B4: Bevan ch. 14 ex. 5, p. 500: rotating 180 lb, reciprocating 150 lb, half of it balanced; crank 7.5 in, balance
    // radius 6 in: 318.8 lb.
    const pin = bobweight([load('180', '0', '150', '0', '0', '0', '0')], d(0), d('0.5')).bobweightGrams;
    expect(Math.abs(pin.mul('7.5').div(6).toNumber() - 318.8)).toBeLessThan(0.0501);
  });

  test('is linear in every weight', () => {
    const grams = fc.integer({ min: 0, max: 200_000 }).map((n) => d(n).div(100));
    const some = fc
      .array(grams, { minLength: 7, maxLength: 7 })
      .map((g) => load(...(g.map(String) as [string, string, string, string, string, string, string])));
    const names = [
      'bigEndGrams',
      'bearingGrams',
      'smallEndGrams',
      'pistonGrams',
      'pinGrams',
      'ringsGrams',
      'locksGrams',
    ] as const;
    fc.assert(
      fc.property(
        some,
        some,
        grams,
        fc.constantFrom(...names),
        fc.integer({ min: 0, max: 100 }),
        (a, b, more, name, percent) => {
          const factor = d(percent).div(100);
          const before = bobweight([a, b], d(3), factor).bobweightGrams;
          const after = bobweight([{ ...a, [name]: a[name].add(more) }, b], d(3), factor).bobweightGrams;
          const share = name === 'bigEndGrams' || name === 'bearingGrams' ? d(1) : factor;
          expect(after.sub(before).eq(more.mul(share))).toBe(true);
        },
      ),
    );
  });

  test('refused by name', () => {
    const rod = load('500', '40', '150', '500', '120', '60', '4');
    expect(() => bobweight([], d(0), d('0.5'))).toThrow('without a rod');
    expect(() => bobweight([rod], d(0), d('1.1'))).toThrow('balance factor 1.1');
    expect(() => bobweight([{ ...rod, pinGrams: d(-1) }], d(0), d('0.5'))).toThrow('a weight of -1 g');
  });
});

describe('two scales', () => {
  test('B3, four rods', () => {
    // B3: owners' forum thread "Reciprocating Weights", December 2008: total = big end + small end, all four close exactly.
    for (const [total, big, small] of [
      ['696.5', '490.5', '206'],
      ['702', '494.5', '207.5'],
      ['702.5', '495.5', '207'],
      ['696', '489.5', '206.5'],
    ] as const) {
      const check = checkWeighing({ bigEndGrams: d(big), smallEndGrams: d(small), totalGrams: d(total) }, d(0));
      expect(check.agrees).toBe(true);
      expect(check.differenceGrams.isZero()).toBe(true);
    }
  });

  test('a gram too much is told apart from a tenth', () => {
    const rod = { bigEndGrams: d('490.5'), smallEndGrams: d('206'), totalGrams: d('695.5') };
    expect(checkWeighing(rod, d('0.25'))).toEqual({ differenceGrams: d(1), agrees: false });
    expect(checkWeighing({ ...rod, totalGrams: d('696.4') }, d('0.25')).agrees).toBe(true);
  });

  test('the lever: 3 to 1 puts the centre of mass a quarter up the rod', () => {
    const rod = { bigEndGrams: d(450), smallEndGrams: d(150), totalGrams: d(600) };
    expect(centreOfMassFromBigEnd(rod, d(6)).toString()).toBe('1.5');
  });
});

const vector = fc.record({
  xGMm: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  yGMm: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  zMm: fc.double({ min: -600, max: 600, noNaN: true }),
});

describe('two planes', () => {
  test('the correction annuls the vectors it was made for', () => {
    fc.assert(
      fc.property(fc.array(vector, { minLength: 1, maxLength: 12 }), (vectors) => {
        const { a, b } = inTwoPlanes(vectors, -40, 560);
        const left = resultant(
          [...vectors, { xGMm: -a.xGMm, yGMm: -a.yGMm, zMm: -40 }, { xGMm: -b.xGMm, yGMm: -b.yGMm, zMm: 560 }],
          123,
        );
        for (const force of [left.xGMm, left.yGMm]) expect(Math.abs(force)).toBeLessThan(1e-6);
        for (const moment of [left.momentXGMm2, left.momentYGMm2]) expect(Math.abs(moment)).toBeLessThan(1e-3);
      }),
    );
  });

  test('by hand: 90 g mm a quarter of the way takes 67.5 and 22.5', () => {
    expect(inTwoPlanes([{ xGMm: 90, yGMm: 0, zMm: 75 }], 0, 300)).toEqual({
      a: { xGMm: 67.5, yGMm: 0 },
      b: { xGMm: 22.5, yGMm: 0 },
    });
  });

  test('planes in one place are refused', () => {
    expect(() => inTwoPlanes([], 5, 5)).toThrow('planes at 5 mm and 5 mm');
  });
});

describe('grades', () => {
  test('B11, B12, B13', () => {
    // B11: ISO 21940-11, e_per x omega = G: 2.5 mm/s at 3000 rpm is 7.95775 micrometres. B13 from the same definition.
    expect(Math.abs(permissibleUnbalanceGMm(2.5, 1, 3000) - 7.95775)).toBeLessThan(0.000005);
    expect(Math.abs(permissibleUnbalanceGMm(6.3, 1, 3000) - 20.0535)).toBeLessThan(0.00005);
    expect(Math.abs(permissibleUnbalanceGMm(16, 1, 6000) - 25.4648)).toBeLessThan(0.00005);
    // B12, from memory of the annex of ISO 1940-1: 3600 kg at 3000 rpm and G 2.5, about 28.6 kg mm.
    expect(Math.abs(permissibleUnbalanceGMm(2.5, 3600, 3000) - 28_600)).toBeLessThan(50);
  });
});

describe('holes and plugs', () => {
  const STEEL = 7.85e-6;

  test('a hole drilled to the depth asked for removes what was asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 4000, noNaN: true }),
        fc.double({ min: 6, max: 30, noNaN: true }),
        (unbalance, diameter) => {
          const depth = radialHoleDepthMm(unbalance, diameter, 90, STEEL);
          if (depth === null) {
            // Beyond what a hole to the axis takes: pi/4 d² rho R²/2.
            expect(unbalance).toBeGreaterThan((Math.PI / 4) * diameter ** 2 * STEEL * 4050 * 1000);
          } else if (depth > 0 && depth < 90) {
            expect(Math.abs(radialHoleGMm(diameter, depth, 90, STEEL) / unbalance - 1)).toBeLessThan(1e-9);
          }
        },
      ),
    );
  });

  test('by hand: 20 mm bit, 30 mm deep, rim at 80 mm', () => {
    // pi/4 x 400 mm² x 30 mm x 7.85e-3 g/mm³ = 73.98 g, its middle at 65 mm.
    expect(Math.abs(radialHoleGMm(20, 30, 80, STEEL) - 73.98 * 65)).toBeLessThan(1);
  });

  test('a plug adds by its density less that of the crank', () => {
    // Tungsten alloy of 17.0 against steel of 7.85 g/cm³: of every 17 g, 7.85 only replace what was drilled out.
    const mass = plugMassG(1000, 80, 7.85e-6, 17e-6);
    expect(Math.abs(mass * 80 * (1 - 7.85 / 17) - 1000)).toBeLessThan(1e-9);
    expect(Math.abs(plugLengthMm(mass, 25, 17e-6) * (Math.PI / 4) * 625 * 17e-3 - mass)).toBeLessThan(1e-9);
    expect(() => plugMassG(1000, 80, 7.85e-6, 7.85e-6)).toThrow('denser');
  });

  test('a segment’s moment, against slices', () => {
    // A disc of radius 80 beyond a chord at 60: sum of x times the width of each thin slice.
    let sum = 0;
    const slices = 20_000;
    for (let k = 0; k < slices; k++) {
      const x = 60 + (20 * (k + 0.5)) / slices;
      sum += (x * 2 * Math.sqrt(6400 - x * x) * 20) / slices;
    }
    expect(Math.abs(segmentMomentKgMm(80, 60, 10, 1e-6) / (sum * 10 * 1e-6) - 1)).toBeLessThan(1e-5);
  });
});

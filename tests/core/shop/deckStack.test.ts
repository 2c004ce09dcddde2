import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DeckStack, DeckStackPart } from '../../../src/core/shop/deckStack.ts';
import { solveDeckStack, solveOffsetDeckStackMm } from '../../../src/core/shop/deckStack.ts';

function d(text: string): Decimal {
  return new Decimal(text);
}

describe('published stacks, in inches', () => {
  test('H1 and H2, deck clearance', () => {
    // H1, H2: "How To Stroke Any Engine: First Steps", Hot Rod, March 2002.
    const h1 = { deckHeight: d('9.025'), stroke: d('4.00'), rodLength: d('6.000'), compressionHeight: d('1.000') };
    expect(solveDeckStack('deckClearance', h1).toString()).toBe('0.025');
    const h2 = { deckHeight: d('9.325'), stroke: d('4.00'), rodLength: d('6.200'), compressionHeight: d('1.125') };
    expect(solveDeckStack('deckClearance', h2).toString()).toBe('0');
    // H1 also prints the room above the crank throw: 7.025, what rod and piston have together.
    const room = solveDeckStack('rodLength', { ...h1, compressionHeight: d('0'), deckClearance: d('0') });
    expect(room.toString()).toBe('7.025');
  });

  test('H3 and H6, compression height', () => {
    // H3: "Rod Length and Piston Compression Height", Car Craft, February 2007.
    const h3 = { deckHeight: d('9.800'), stroke: d('4.250'), rodLength: d('6.385'), deckClearance: d('0') };
    expect(solveDeckStack('compressionHeight', h3).toString()).toBe('1.29');
    // H6: "Calculation Formulas", arcracing.blogspot.com, November 1998 (deck 6.2835; its other line misprints it).
    const h6 = { deckHeight: d('6.2835'), stroke: d('2.437'), rodLength: d('3.875'), deckClearance: d('0') };
    expect(solveDeckStack('compressionHeight', h6).toString()).toBe('1.19');
    const back = { deckHeight: d('6.2835'), stroke: d('2.437'), compressionHeight: d('1.19'), deckClearance: d('0') };
    expect(solveDeckStack('rodLength', back).toString()).toBe('3.875');
  });

  test('H5, the stack itself', () => {
    // H5: RPM Magazine, April 2021, p. 76.
    const h5 = { stroke: d('4.0'), rodLength: d('6.00'), compressionHeight: d('1.200'), deckClearance: d('0') };
    expect(solveDeckStack('deckHeight', h5).toString()).toBe('9.2');
  });

  test('H7, the clearance that a quench of 0.043 in leaves under a 0.038 in gasket', () => {
    // H7: Car Craft, July 2006: 0.005 + 0.038 = 0.043. Stack invented around it.
    const s = { deckHeight: d('9.205'), stroke: d('4'), rodLength: d('6'), compressionHeight: d('1.2') };
    expect(solveDeckStack('deckClearance', s).add(d('0.038')).toString()).toBe('0.043');
  });
});

const PARTS: readonly DeckStackPart[] = ['deckHeight', 'stroke', 'rodLength', 'compressionHeight', 'deckClearance'];
const thousandths = (min: number, max: number) => fc.integer({ min, max }).map((n) => new Decimal(n).div(1000));

test('any part comes back from the four others, to the last digit', () => {
  const stacks = fc.record({
    stroke: thousandths(1000, 6000),
    rodLength: thousandths(4000, 9000),
    compressionHeight: thousandths(800, 2500),
    deckClearance: thousandths(-50, 100),
  });
  fc.assert(
    fc.property(stacks, (s) => {
      const deckHeight = s.stroke.div(2).plus(s.rodLength).plus(s.compressionHeight).plus(s.deckClearance);
      const whole: DeckStack<Decimal> = { ...s, deckHeight };
      for (const part of PARTS) expect(solveDeckStack(part, whole).equals(whole[part])).toBe(true);
    }),
    { seed: 20250122, numRuns: 200 },
  );
});

describe('with the pin line offset', () => {
  test('K15, the pin is 0.0002416 in lower at TDC, so the clearance greater by that', () => {
    // K15: no published figure; recomputed, inches as plain numbers. 9.025 = 1.75 + 5.7 + 1.575.
    const s = { deckHeight: 9.025, stroke: 3.5, rodLength: 5.7, compressionHeight: 1.575 };
    expect(solveOffsetDeckStackMm('deckClearance', s, 0.06)).toBeCloseTo(0.0002416, 7);
    expect(solveOffsetDeckStackMm('deckClearance', s, -0.06)).toBeCloseTo(0.0002416, 7);
  });

  test('K14, far dead centre 79.37 mm', () => {
    // K14: Graduate Aptitude Test in Engineering 2025, Mechanical, question 60, published solution.
    const s = { stroke: 60, rodLength: 50, compressionHeight: 30, deckClearance: 1 };
    expect(Math.abs(solveOffsetDeckStackMm('deckHeight', s, 10) - 31 - 79.37)).toBeLessThan(0.005);
  });

  test('any part comes back from the four others, and without offset as the exact one', () => {
    const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const stacks = fc.record({
      stroke: mm(40, 150),
      rodLength: mm(110, 240),
      compressionHeight: mm(20, 60),
      deckClearance: mm(-1, 2),
    });
    fc.assert(
      fc.property(stacks, mm(-8, 8), (s, e) => {
        const pin = new Decimal(s.stroke).div(2).plus(s.rodLength).pow(2).minus(new Decimal(e).pow(2)).sqrt();
        const deckHeight = pin.plus(s.compressionHeight).plus(s.deckClearance).toNumber();
        const whole: DeckStack<number> = { ...s, deckHeight };
        for (const part of PARTS) {
          expect(Math.abs(solveOffsetDeckStackMm(part, whole, e) - whole[part])).toBeLessThan(1e-12 * 400);
        }
      }),
      { seed: 20250123, numRuns: 200 },
    );
  });
});

test('a part that cannot be is refused by name', () => {
  const s = { deckHeight: d('6'), stroke: d('4'), rodLength: d('6'), deckClearance: d('0') };
  expect(() => solveDeckStack('compressionHeight', s)).toThrow(/compression height of -2; it must be above 0/);
  const flat = { deckHeight: 230, stroke: 10, rodLength: 3, compressionHeight: 30 };
  expect(() => solveOffsetDeckStackMm('deckClearance', flat, 20)).toThrow(/deck clearance of NaN; it must be finite/);
});

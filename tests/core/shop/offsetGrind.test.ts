import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { OffsetGrind } from '../../../src/core/shop/offsetGrind.ts';
import { journalOverlap, offIndexMovement, offsetGrind } from '../../../src/core/shop/offsetGrind.ts';

function d(value: string | number): Decimal {
  return new Decimal(value);
}

function grind(stroke: string, before: string, after: string, shift: string, stock: string): OffsetGrind {
  return {
    strokeBefore: d(stroke),
    journalBefore: d(before),
    journalAfter: d(after),
    pinShift: d(shift),
    leastStock: d(stock),
  };
}

describe('on index', () => {
  test('O1, a journal ground from 2.10 to 2.00 in', () => {
    // O1: "Offset Grinding", Car Craft, December 1998: the centre moves 0.050, the stroke gains 0.100 at most.
    const g = offsetGrind(grind('3.48', '2.10', '2.00', '0.050', '0'));
    expect(g.strokeAfter.toString()).toBe('3.58');
    expect(g.longestStroke.toString()).toBe('3.58');
    expect(g.removedThinSide.toString()).toBe('0');
    expect(g.removedThickSide.toString()).toBe('0.1');
    expect(g.cleansUp).toBe(true);
    expect(offsetGrind(grind('3.48', '2.10', '2.00', '0.0501', '0')).cleansUp).toBe(false);
  });

  test('O2, two millimetres of movement are four of stroke', () => {
    // O2: "Crankshaft stroking", caraid.co.nz/portfolio prints 2 mm of stroke for it; two radii make a stroke.
    expect(offsetGrind(grind('80', '50', '45', '2', '0')).strokeAfter.toString()).toBe('84');
  });

  test('2 5/8 in to 2 1/2 in loses exactly 1/8 in', () => {
    // Common practice, no published source.
    const g = offsetGrind(grind('4.5', '2.625', '2.5', '0', '0'));
    expect(g.diameterLost.equals(d(1).div(8))).toBe(true);
    expect(g.removedThinSide.toString()).toBe('0.0625');
    expect(g.removedThickSide.toString()).toBe('0.0625');
  });

  test('3/16 in off the journal allows 3/16 in of stroke; a gain of 0.160 leaves 0.0275 in to clean up', () => {
    // Common practice, no published source.
    const g = offsetGrind(grind('4', '2.6875', '2.5', '0.080', '0'));
    expect(g.longestStroke.minus(d(4)).equals(d(3).div(16))).toBe(true);
    expect(g.strokeAfter.toString()).toBe('4.16');
    expect(g.spareDiameter.toString()).toBe('0.0275');
  });

  test('least stock is taken off both sides', () => {
    const g = offsetGrind(grind('4', '2.6875', '2.5', '0.080', '0.005'));
    expect(g.spareDiameter.toString()).toBe('0.0175');
    expect(g.longestStroke.toString()).toBe('4.1775');
    expect(offsetGrind(grind('4', '2.6875', '2.5', '0.08875', '0.005')).cleansUp).toBe(true);
    expect(offsetGrind(grind('4', '2.6875', '2.5', '0.08876', '0.005')).cleansUp).toBe(false);
  });

  test('a stroke can be shortened, and cleans up alike', () => {
    const g = offsetGrind(grind('4', '2.6875', '2.5', '-0.080', '0'));
    expect(g.strokeAfter.toString()).toBe('3.84');
    expect(g.spareDiameter.toString()).toBe('0.0275');
  });
});

describe('two circles by brute force', () => {
  test('least and most removed are the gaps between old and new surface, off index too', () => {
    const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(mm(30, 60), mm(-2, 4), mm(-0.03, 0.03), mm(0, 6), (radius, shift, index, lost) => {
        const before = 54;
        const g = offsetGrind(
          {
            strokeBefore: d(2 * radius),
            journalBefore: d(before),
            journalAfter: d(before - lost),
            pinShift: d(shift),
            leastStock: d(0),
          },
          offIndexMovement(d(shift), d(radius), index),
        );
        // Old centre off index at its radius, new one on index: the new surface, sampled, against the old circle.
        const oldX = radius * Math.sin(index);
        const oldY = radius * Math.cos(index);
        let least = Number.POSITIVE_INFINITY;
        let most = Number.NEGATIVE_INFINITY;
        for (let k = 0; k < 3600; k++) {
          const a = (k / 3600) * 2 * Math.PI;
          const x = ((before - lost) / 2) * Math.sin(a);
          const y = radius + shift + ((before - lost) / 2) * Math.cos(a);
          const removed = before / 2 - Math.hypot(x - oldX, y - oldY);
          least = Math.min(least, removed);
          most = Math.max(most, removed);
        }
        // Samples are a tenth of a degree apart: they miss the extreme by at most movement * angle^2 / 8.
        expect(Math.abs(g.removedThinSide.toNumber() - least)).toBeLessThan(5e-6);
        expect(Math.abs(g.removedThickSide.toNumber() - most)).toBeLessThan(5e-6);
        expect(g.cleansUp).toBe(g.removedThinSide.gte(0));
      }),
      { seed: 20250124, numRuns: 60 },
    );
  });

  test('on index the true movement is the shift itself', () => {
    expect(offIndexMovement(d('1.25'), d(44), 0).toString()).toBe('1.25');
  });
});

describe('journal overlap', () => {
  test('O3 and O4', () => {
    // O3, O4: "Crankshaft Journal Overlap", victorylibrary.com/mopar/journal-c.htm (O4's result recomputed).
    expect(journalOverlap(d('2.00'), d('2.00'), d('4.00')).toString()).toBe('0');
    expect(journalOverlap(d('2.30'), d('2.00'), d('3.00')).toString()).toBe('0.65');
  });
});

describe('refused', () => {
  test.each([
    [grind('0', '2.1', '2', '0', '0'), /stroke before 0/],
    [grind('3', '0', '2', '0', '0'), /journal before 0/],
    [grind('3', '2.1', '-2', '0', '0'), /journal after -2/],
    [grind('3', '2.1', '2.2', '0', '0'), /journal after 2.2 must not exceed journal before 2.1/],
    [grind('3', '2.1', '2', '0', '-0.01'), /least stock -0.01/],
    [grind('3', '2.1', '2', '-1.5', '0'), /stroke after 0/],
    [grind('NaN', '2.1', '2', '0', '0'), /stroke before NaN/],
  ])('%#', (g, message) => {
    expect(() => offsetGrind(g)).toThrow(message);
  });

  test('a movement smaller than the shift, an index error that is no number', () => {
    expect(() => offsetGrind(grind('3', '2.1', '2', '0.05', '0'), d('0.04'))).toThrow(/movement 0.04/);
    expect(() => offIndexMovement(d(1), d(40), Number.NaN)).toThrow(/index error/);
    expect(() => journalOverlap(d(0), d(2), d(3))).toThrow(/main journal 0/);
  });
});

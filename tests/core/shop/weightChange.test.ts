import { Decimal } from 'decimal.js';
import { expect, test } from 'vitest';
import { weightChanges } from '../../../src/core/shop/weightChange.ts';

const d = (value: string | number) => new Decimal(value);

test('45 g a rod and 92 g a piston on eight cylinders is 1096 g, about 2.4 lb', () => {
  // Common practice, no published source. Weights before are invented.
  const w = weightChanges([
    { name: 'rod', count: 8, beforeGrams: d('645'), afterGrams: d('600') },
    { name: 'piston', count: 8, beforeGrams: d('640.5'), afterGrams: d('548.5') },
  ]);
  expect(w.perPiece.map((p) => [p.name, p.grams.toString()])).toEqual([
    ['rod', '-45'],
    ['piston', '-92'],
  ]);
  expect(w.set.grams.toString()).toBe('-1096');
  expect(w.set.pounds.toFixed(1)).toBe('-2.4');
});

test('pounds and ounces', () => {
  // International yard and pound agreement of 1959: 453.59237 g. T. Eaton, "Engine Balancing Part 5", 2007: 28.35 g an ounce.
  const w = weightChanges([{ name: 'pin', count: 3, beforeGrams: d(0), afterGrams: d('453.59237') }]);
  expect(w.perPiece[0]!.pounds.toString()).toBe('1');
  expect(w.perPiece[0]!.ounces.toString()).toBe('16');
  expect(w.set.ounces.toString()).toBe('48');
  const ounce = weightChanges([{ name: 'lock', count: 1, beforeGrams: d(0), afterGrams: d('28.35') }]);
  expect(ounce.set.ounces.toNumber()).toBeCloseTo(1, 4);
});

test('decimals stay exact over a set', () => {
  // 0.1 + 0.2 style sums that binary floats get wrong.
  const w = weightChanges([{ name: 'ring', count: 3, beforeGrams: d('0.3'), afterGrams: d('0.1') }]);
  expect(w.set.grams.toString()).toBe('-0.6');
});

test('refuses weights and counts that cannot be', () => {
  const piece = { name: 'rod', count: 8, beforeGrams: d(600), afterGrams: d(600) };
  expect(() => weightChanges([{ ...piece, afterGrams: d(-1) }])).toThrow(/weight of rod, -1 g/);
  expect(() => weightChanges([{ ...piece, beforeGrams: d(Number.NaN) }])).toThrow(/weight of rod, NaN g/);
  expect(() => weightChanges([{ ...piece, count: 0 }])).toThrow(/0 of rod/);
});

/** Steps of the keys and of the grip. */
import { describe, expect, it } from 'vitest';
import { stepLiteral, unitOfLiteral } from '../../src/build/literal.ts';
import { incrementOf, sizeByKeys, stepsOfKey, stepsOfTravel } from '../../src/pane/increments.ts';

const step = (literal: string, key: string, held = { altKey: false, shiftKey: false }) =>
  stepLiteral(literal, stepsOfKey(key), incrementOf(unitOfLiteral(literal), sizeByKeys(held)));

const ALT = { altKey: true, shiftKey: false };
const SHIFT = { altKey: false, shiftKey: true };

describe('steps', () => {
  it.each([
    ['3.750 in', 'ArrowUp', undefined, '3.760 in'],
    ['3.750 in', 'ArrowDown', ALT, '3.749 in'],
    ['3.750 in', 'ArrowUp', SHIFT, '3.850 in'],
    ['3.750 in', 'PageUp', undefined, '3.850 in'],
    ['3.750 in', 'PageDown', SHIFT, '2.750 in'],
    ['3.750"', 'ArrowUp', undefined, '3.760"'],
    ['60 thou', 'ArrowUp', undefined, '70 thou'],
    ['60 thou', 'ArrowDown', ALT, '59 thou'],
    ['87.90 mm', 'ArrowUp', ALT, '87.91 mm'],
    ['87.9 mm', 'ArrowUp', undefined, '88.0 mm'],
    ['87.9 mm', 'ArrowDown', SHIFT, '86.9 mm'],
    ['66 deg', 'ArrowUp', ALT, '66.1 deg'],
    ['66 deg', 'ArrowUp', undefined, '67 deg'],
    ['66 deg', 'PageDown', undefined, '56 deg'],
    ['66°', 'ArrowUp', SHIFT, '76°'],
    ['3600 rpm', 'ArrowUp', undefined, '3700 rpm'],
    ['.009 in', 'ArrowDown', undefined, '-.001 in'],
  ] as const)('%s by %s %o is %s', (literal, key, held, expected) => {
    expect(step(literal, key, held)).toBe(expected);
  });

  it('steps a hundred times and back without drift', () => {
    let literal = '3.875 in';
    for (let k = 0; k < 100; k++) literal = step(literal, 'ArrowUp', ALT);
    expect(literal).toBe('3.975 in');
    for (let k = 0; k < 100; k++) literal = step(literal, 'ArrowDown', ALT);
    expect(literal).toBe('3.875 in');
  });

  it('lets Alt win over Shift, and other keys alone', () => {
    expect(sizeByKeys({ altKey: true, shiftKey: true })).toBe('fine');
    for (const key of ['a', 'Enter', 'Home', 'toString', 'ArrowLeft']) expect(stepsOfKey(key)).toBe(0);
  });

  it('counts whole steps of travel alike to both sides', () => {
    expect([0, 3, 4, 9, 40].map(stepsOfTravel)).toEqual([0, 0, 1, 2, 10]);
    expect([-3, -4, -9, -40].map((px) => stepsOfTravel(px) + 0)).toEqual([0, -1, -2, -10]);
  });
});

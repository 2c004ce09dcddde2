/** The gap that the bench times, by three means: the program, a library with exact arcs, a library of convex distances. */
import { describe, expect, test } from 'vitest';
import {
  a,
  b,
  byConvexLibrary,
  byExactLibrary,
  byProgram,
  CHORD_MM,
  counterweight,
  EXACT_MM,
  piston,
} from '../../bench/oneGap.ts';
import { fewer } from '../../support/fewer.ts';

const POSES = fewer(48, 8);

describe('one gap by the program and by two general-purpose libraries', () => {
  test('the outlines have the numbers of edges the bench tells', () => {
    expect([counterweight.length, piston.length]).toEqual([10, 16]);
    expect([a.flat.n, b.flat.n]).toEqual([12, 16]);
  });

  test.each([0, 1, 2, 3])('agree all round the turn, quarter %d', (quarter) => {
    for (let k = quarter; k < POSES; k += 4) {
      const at = (k * 2 * Math.PI) / POSES;
      const gapMm = byProgram(at);
      expect(gapMm).toBeGreaterThan(1);
      expect(Math.abs(byExactLibrary(at) - gapMm)).toBeLessThan(EXACT_MM);
      const overMm = byConvexLibrary(at) - gapMm;
      expect(overMm).toBeGreaterThan(-1e-6);
      expect(overMm).toBeLessThan(2 * CHORD_MM + 1e-6);
    }
  });
});

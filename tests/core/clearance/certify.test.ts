import { describe, expect, test } from 'vitest';
import { certify } from '../../../src/core/clearance/certify.ts';
import { gapOf } from '../../oracle/plane.ts';
import { seeded } from '../../oracle/random.ts';
import { lowestOver } from '../../oracle/sweep.ts';
import { fewer } from '../../support/fewer.ts';
import { type Kind, type Moving, randomMoving, slider } from './movers.ts';

const TOLERANCE_MM = 0.001;
const BUDGET = 400_000;

const KINDS: readonly (readonly [Kind, Kind])[] = [
  ['crank', 'piston'],
  ['crank', 'fixed'],
  ['crank', 'cam'],
  ['rod', 'cam'],
  ['rod', 'fixed'],
  ['cam', 'fixed'],
  ['piston', 'piston'],
  ['piston', 'rod'],
];

const SEEDS_PER_KIND = fewer(10, 1);

function periodOf(a: Kind, b: Kind): number {
  return (a === 'cam' || b === 'cam' ? 4 : 2) * Math.PI;
}

function pairOf(a: Kind, b: Kind, seed: number): [Moving, Moving] {
  const random = seeded(seed);
  const one = slider(random);
  // Two bodies of one rod and piston, or of two; a piston meets one of the opposite bank.
  const other = slider(random);
  const two = a === b ? { ...other, bank: one.bank - Math.PI / 2 } : random() < 0.5 ? one : other;
  return [randomMoving(a, random, one), randomMoving(b, random, two)];
}

/** Gap by trying points: never below the true one. */
function tried(a: Moving, b: Moving, crank: number): number {
  return gapOf(a.at(crank), b.at(crank), 2).gapMm;
}

const met = { apart: 0, overlapping: 0 };

describe('certified minimum against trying points at many angles', () => {
  const cases = KINDS.flatMap(([a, b], k) =>
    Array.from({ length: SEEDS_PER_KIND }, (_, n) => [a, b, 1000 * (k + 1) + n] as const),
  );
  test.each(cases)('%s and %s, seed %d', (kindA, kindB, seed) => {
    const [a, b] = pairOf(kindA, kindB, seed);
    const period = periodOf(kindA, kindB);
    const c = certify(a.mover, b.mover, period, { toleranceMm: TOLERANCE_MM, budget: BUDGET });
    expect(c.outcome).toBe('certified');
    expect(c.lowerBoundMm).toBeLessThanOrEqual(c.minimumMm);
    expect(c.minimumMm - c.lowerBoundMm).toBeLessThanOrEqual(TOLERANCE_MM + 1e-9);
    expect(c.atCrankRad).toBeGreaterThanOrEqual(0);
    expect(c.atCrankRad).toBeLessThan(period);
    const lowest = lowestOver((t) => tried(a, b, t), period, fewer(period > 7 ? 240 : 120, 40), 2);
    expect(lowest.value).toBeGreaterThan(c.lowerBoundMm - 1e-7);
    // The minimum is really there, at the angle told: points tried at it come as near, but for what refining leaves.
    const there = gapOf(a.at(c.atCrankRad), b.at(c.atCrankRad), 0.5).gapMm;
    expect(Math.abs(there - c.minimumMm)).toBeLessThan(1e-4);
    if (c.minimumMm < 0) met.overlapping += 1;
    else met.apart += 1;
  });

  test('the samples hold pairs that clear and pairs that meet', () => {
    expect(met.apart).toBeGreaterThan(fewer(15, -1));
    expect(met.overlapping).toBeGreaterThan(fewer(15, -1));
  });
});

/**
 * Random builds in every layout, certified by the program, against engines put together in space by hand: the bound is never
 * violated, the smallest gap never more than a micrometre high beyond what slicing is said to add, no contact is missed, and the
 * nearest points lie on the bodies. `npm run examine` does the same for as many builds as wanted.
 */
import { describe, expect, test } from 'vitest';
import { readContent } from '../../src/build/index.ts';
import { solveGaps } from '../../src/model/solve.ts';
import type { Examining, Tally } from '../examine/examine.ts';
import { examineBuild, newTally } from '../examine/examine.ts';
import type { RandomBuild } from '../examine/randomBuild.ts';
import { RANDOM_LAYOUTS, randomBuild } from '../examine/randomBuild.ts';
import { touchingBuild } from '../examine/touching.ts';
import { seeded } from './random.ts';

/** Builds of a layout that break no rule, from its seed on; every second one is brought to touch where it can be. */
function builds(layout: string, seed: number, count: number): RandomBuild[] {
  const out: RandomBuild[] = [];
  for (let k = 0; out.length < count && k < 40; k++) {
    const file = randomBuild(seeded(seed + 977 * k), layout);
    if (!readContent(file).ok) continue;
    out.push((out.length % 2 === 1 ? touchingBuild(file) : null) ?? file);
  }
  return out;
}

const LOOKING = { looks: 6, sweeps: 2, angles: 60 };

describe('random builds against an engine put together in space', () => {
  const all: Tally = newTally();

  test.each(RANDOM_LAYOUTS.map((layout, k) => [layout, 100 * k + 5] as const))('%s, seed %i', (layout, seed) => {
    const tally = newTally();
    for (const file of builds(layout, seed, 2)) {
      const how: Examining = { ...LOOKING, random: seeded(seed) };
      examineBuild(file, how, tally);
    }
    expect(tally.faults).toEqual([]);
    expect(tally.builds).toBe(2);
    for (const key of ['pairs', 'swept', 'contacts', 'touching', 'depths', 'points', 'axial'] as const)
      all[key] += tally[key];
    all.builds += tally.builds;
  });

  test('enough of every kind was looked at', () => {
    expect(all.builds).toBe(2 * RANDOM_LAYOUTS.length);
    expect(all.pairs).toBeGreaterThan(130);
    expect(all.swept).toBeGreaterThan(45);
    expect(all.contacts).toBeGreaterThan(25);
    expect(all.touching).toBeGreaterThan(10);
    expect(all.depths).toBeGreaterThan(20);
    expect(all.points).toBeGreaterThan(80);
    expect(all.axial).toBeGreaterThan(10);
  });
});

describe('a wrong answer is found', () => {
  const file = builds('inline-3', 4, 1)[0]!;
  const faultsWith = (change: (gapMm: number) => number): number => {
    const tally = newTally();
    const gaps: Examining['gaps'] = (engine) =>
      solveGaps(engine, { assumedAllowanceMm: null }).map((g) => {
        const gapMm = change(g.gapMm);
        return { ...g, gapMm, lowerBoundMm: g.lowerBoundMm + gapMm - g.gapMm };
      });
    examineBuild(file, { ...LOOKING, random: seeded(1), gaps }, tally);
    return tally.faults.length;
  };

  test('the same answers pass', () => {
    expect(faultsWith((gapMm) => gapMm)).toBe(0);
  });

  test.each([
    ['0.003 mm too high', (gapMm: number) => gapMm + 0.003],
    ['one that misses every contact', (gapMm: number) => Math.max(gapMm, 0.05)],
    ['0.02 mm too low', (gapMm: number) => gapMm - 0.02],
  ] as const)('%s', (_, change) => {
    expect(faultsWith(change)).toBeGreaterThan(0);
  });
});

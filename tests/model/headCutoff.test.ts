/** A valve and its crown certified for a value of interest: what is found below it, and what is proven where nothing is. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import { parseBuild } from '../../src/build/index.ts';
import { certifyHead, headGapAt } from '../../src/core/clearance/certifyHead.ts';
import { type HeadGap, newDirections } from '../../src/core/clearance/headAndCrown.ts';

const read = parseBuild(readFileSync(new URL('../../assets/demos/quarry-v8.json', import.meta.url), 'utf8'));
if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
const engine = layOut(read.doc, read.doc.proposed);
const pairs = engine.pairs.filter((pair) => pair.head !== undefined && pair.a.cylinder === 1);

describe('a valve and its crown', () => {
  it('are two pairs in each cylinder', () => {
    expect(pairs).toHaveLength(2);
  });

  it.each(pairs.map((pair) => [pair.id, pair] as const))('%s', (_, { head, periodRad }) => {
    const { crown, motion } = head!;
    // Tried all round the cycle, each time with directions of its own: no gap may lie below what is proven.
    const here: HeadGap = { mm: 0, wedge: 0, nx: 0, ny: 0, nz: 0 };
    let tried = Number.POSITIVE_INFINITY;
    let triedAt = 0;
    for (let k = 0; k < 1440; k++) {
      headGapAt(crown, motion, (k / 1440) * periodRad, newDirections(crown), here);
      if (here.mm >= tried) continue;
      tried = here.mm;
      triedAt = (k / 1440) * periodRad;
    }
    const work = { toleranceMm: 0.001, budget: 100_000 };
    const whole = certifyHead(crown, motion, periodRad, work);
    expect(whole.found).toBe(true);
    expect(whole.lowerBoundMm).toBeLessThanOrEqual(tried);
    expect(whole.minimumMm).toBeLessThanOrEqual(tried + 1e-6);
    for (const hint of [{}, { hintRad: 3 }, { hintRad: triedAt }]) {
      for (const above of [0.002, 0.3, 5, 60]) {
        const cutoffMm = whole.minimumMm + above;
        const below = certifyHead(crown, motion, periodRad, { ...work, ...hint, cutoffMm });
        expect([below.found, below.budgetSpent]).toEqual([true, false]);
        expect(Math.abs(below.minimumMm - whole.minimumMm)).toBeLessThanOrEqual(0.001);
        expect(below.lowerBoundMm).toBeLessThanOrEqual(tried);
        expect(below.lowerBoundMm).toBeGreaterThan(below.minimumMm - 0.0011);
      }
      for (const under of [0.002, 0.3, 2, 5]) {
        const cutoffMm = whole.minimumMm - under;
        const none = certifyHead(crown, motion, periodRad, { ...work, ...hint, cutoffMm });
        expect([none.found, none.minimumMm, none.lowerBoundMm]).toEqual([false, cutoffMm, cutoffMm]);
        // With nothing to follow it is a walk round the cycle.
        if (under > 0.1) expect(none.evaluations).toBeLessThan(whole.evaluations);
      }
    }
  });
});

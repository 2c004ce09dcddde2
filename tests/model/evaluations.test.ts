/** How many evaluations the certificates take: counts are stable where milliseconds are not. Figures as found, with head room. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { parseBuild } from '../../src/build/index.ts';
import { solveGaps } from '../../src/model/solve.ts';

function demo(name: string): BuildDocument {
  const read = parseBuild(readFileSync(new URL(`../../assets/demos/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
  return read.doc;
}

const doc = demo('quarry-v8');
const engine = layOut(doc, doc.proposed);
const pairs = engine.pairs.filter((p) => p.a.kind !== 'valve');
const gaps = solveGaps(engine, { assumedAllowanceMm: null, wanted: (p) => p.a.kind !== 'valve' });
const byKey = new Map(pairs.map((p, k) => [p.key, gaps[k]!]));

describe('the V8, all pairs of outlines, from nothing', () => {
  test('pairs that go round alike are solved once', () => {
    // Eight cheeks pass the same walls and the same core: one situation each; eight rods on two banks: two each.
    const wall = pairs.filter((p) => p.id.startsWith('counterweight') && p.b.name === 'crankcase wall');
    expect(wall.length).toBe(8);
    expect(new Set(wall.map((p) => p.key)).size).toBe(1);
    const core = pairs.filter((p) => p.a.kind === 'counterweight' && p.b.kind === 'cam core');
    expect(new Set(core.map((p) => p.key)).size).toBe(1);
    const rods = pairs.filter((p) => p.a.kind === 'rod' && p.b.name === 'crankcase wall');
    expect(rods.length).toBe(8);
    expect(new Set(rods.map((p) => p.key)).size).toBe(2);
    expect(byKey.size).toBeLessThanOrEqual(40);
  });

  test('every answer is certified', () => {
    for (const gap of gaps) {
      expect(gap.certified).toBe(true);
      expect(gap.gapMm - gap.lowerBoundMm).toBeLessThanOrEqual(0.001 + 1e-9);
    }
  });

  test('evaluations of all situations, and of the costliest', () => {
    const apart = [...byKey.values()].filter((g) => g.gapMm > 0).map((g) => g.evaluations);
    expect(apart.reduce((sum, n) => sum + n, 0)).toBeLessThan(9500);
    expect(Math.max(...apart)).toBeLessThan(1100);
    const met = [...byKey.values()].filter((g) => g.gapMm <= 0).map((g) => g.evaluations);
    expect(Math.max(0, ...met)).toBeLessThan(3800);
  });

  test('a pair alike by its key gives by itself what it was told: gap and angle', () => {
    for (const [key, told] of byKey) {
      const alike = pairs.map((p, k) => ({ p, gap: gaps[k]! })).filter(({ p }) => p.key === key);
      const last = alike.at(-1)!;
      if (last.gap === gaps[pairs.findIndex((p) => p.key === key)]) continue;
      const [own] = solveGaps({ ...engine, pairs: [last.p] }, { assumedAllowanceMm: null });
      expect(own!.gapMm, last.p.id).toBeCloseTo(told.gapMm, 3);
      const [ax, ay, az] = last.gap.pointsMm[0];
      const [bx, by, bz] = last.gap.pointsMm[1];
      if (last.gap.gapMm > 0) expect(Math.hypot(ax - bx, ay - by, az - bz)).toBeCloseTo(last.gap.gapMm, 3);
    }
  });
});

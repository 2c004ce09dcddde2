/** All gaps of an engine: situations that are alike solved once, points that tell the gap, cures that restore the limit. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { checkBuild, parseBuild } from '../../src/build/index.ts';
import { counterweightMomentLostKgMm } from '../../src/core/shop/counterweightMoment.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { findCures } from '../../src/model/cures.ts';
import { withLiteral } from '../../src/model/edit.ts';
import { solveGaps } from '../../src/model/solve.ts';

function demo(name: string): BuildDocument {
  const read = parseBuild(readFileSync(new URL(`../../assets/demos/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
  return read.doc;
}

const DEMOS = ['quarry-v8', 'lake-launch-six', 'bench-rig'] as const;

describe('situations that are alike', () => {
  it.each(DEMOS)('%s: solved once and told for each gives what solving each alone gives', (name) => {
    const doc = demo(name);
    const engine = layOut(doc, doc.proposed);
    const once = new Map(solveGaps(engine, { assumedAllowanceMm: null }).map((g) => [g.id, g]));
    const apart = { ...engine, pairs: engine.pairs.map((p) => ({ ...p, key: p.id })) };
    for (const alone of solveGaps(apart, { assumedAllowanceMm: null })) {
      const told = once.get(alone.id);
      // Each is within a micrometre of the true minimum of the same sliced bodies; slicing may stop at another cut.
      const room = 0.002 + Math.abs(alone.slicingMm) + Math.abs(told?.slicingMm ?? 0);
      expect(Math.abs((told?.gapMm ?? Number.NaN) - alone.gapMm), alone.id).toBeLessThan(room);
    }
    expect(new Set(engine.pairs.map((p) => p.key)).size).toBeLessThan(name === 'bench-rig' ? 99 : engine.pairs.length);
  });
});

describe('the two points of a gap', () => {
  it.each(DEMOS)('%s: are as far apart as the gap says', (name) => {
    const doc = demo(name);
    for (const { name: assembly } of doc.assemblies) {
      for (const g of certifiedGaps(doc, layOut(doc, assembly), new Map())) {
        const [[ax, ay, az], [bx, by, bz]] = g.pointsMm;
        const apart = Math.hypot(ax - bx, ay - by, az - bz);
        expect(Math.abs(apart - Math.abs(g.gapMm)), `${assembly}: ${g.id}`).toBeLessThan(1e-4);
        expect(g.lowerBoundMm).toBeLessThanOrEqual(g.gapMm);
        expect(g.gapMm - g.lowerBoundMm).toBeLessThanOrEqual(0.001 + 1e-9);
      }
    }
  });
});

describe('cures', () => {
  it.each([
    ['quarry-v8', 'Core crank ground off-centre'],
    ['lake-launch-six', 'Core crank, old rods'],
    ['bench-rig', 'Short rod'],
  ])('%s, %s: each restores the limit to 0.01 mm when set from scratch', (name, assembly) => {
    const doc = demo(name);
    const gaps = certifiedGaps(doc, layOut(doc, assembly), new Map());
    const ill = gaps[0];
    if (ill === undefined) throw new Error('no gap');
    const allowance = ill.assumed.length > 0 ? certifiedAllowance(doc) : 0;
    const needed = ill.limitMm + allowance;
    const cures = findCures(doc, assembly, gaps, ill.id);
    expect(cures.length).toBeGreaterThan(1);
    for (const cure of cures) {
      const next = cure.changes.reduce((d, c) => withLiteral(d, c.path, c.text), doc);
      expect(checkBuild(next)).toEqual([]);
      const after = certifiedGaps(next, layOut(next, assembly), new Map());
      const cured = after.find((g) => g.id === ill.id);
      expect(cured?.gapMm, cure.what).toBeGreaterThanOrEqual(needed);
      expect(cured?.gapMm, cure.what).toBeLessThanOrEqual(needed + 0.01);
      expect(cured?.state, cure.what).toBe('clears');
      // The deck clearance is kept where the compression height follows.
      const deck = (list: typeof after) => list.find((g) => g.id === 'piston 1 · deck')?.gapMm ?? Number.NaN;
      expect(deck(after), cure.what).toBeCloseTo(deck(gaps), 3);
    }
  });

  it('a gap that needs none has none', () => {
    const doc = demo('bench-rig');
    const gaps = certifiedGaps(doc, layOut(doc, doc.replaced), new Map());
    expect(findCures(doc, doc.replaced, gaps, gaps[0]?.id ?? '')).toEqual([]);
  });

  it('the balance moment lost is that of the ring sector, by summing small pieces', () => {
    const [r0, r1, half, t, rho] = [87.5, 85.1, 1.1, 21, 7.85e-6];
    let sum = 0;
    const [rings, steps] = [200, 4000];
    const [dr, da] = [(r0 - r1) / rings, (2 * half) / steps];
    for (let i = 0; i < rings; i++) {
      for (let k = 0; k < steps; k++) {
        const r = r1 + (i + 0.5) * dr;
        sum += rho * t * r * Math.cos(-half + (k + 0.5) * da) * r * dr * da;
      }
    }
    expect(counterweightMomentLostKgMm(r0, r1, half, t, rho)).toBeCloseTo(sum, 6);
  });
});

function certifiedAllowance(doc: BuildDocument): number {
  const text = doc.assumedAllowance?.value ?? '0 mm';
  const [number, unit] = text.split(' ');
  return Number(number) * (unit === 'in' ? 25.4 : 1);
}

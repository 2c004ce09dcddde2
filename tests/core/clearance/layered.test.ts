/** What may be asked of a layered gap beside its value: only whether it lies below something, and a far gap without the share that slicing may add. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import { cellsOf } from '../../../src/core/clearance/cells.ts';
import type { LayeredGap } from '../../../src/core/clearance/layered.ts';
import { certifyLayered } from '../../../src/core/clearance/layered.ts';
import { fixedMotion } from '../../../src/core/kinematics/motions.ts';
import type { Layer } from '../../../src/core/outline/layers.ts';
import { pairCells } from '../../../src/model/solve.ts';
import { exampleV8 } from '../../support/exampleBuild.ts';

const doc = exampleV8();
const engine = layOut(doc, doc.proposed);
const one = (kind: string, more: object): LayeredGap => {
  const pair = engine.pairs.find((p) => p.kind === kind)!;
  const { a, b } = pair.relative ?? pair;
  return certifyLayered(a.motion, b.motion, pairCells(pair), pair.periodRad, {
    toleranceMm: 0.001,
    slicingMm: 0.001,
    budget: 400_000,
    ...more,
  });
};

describe('a gap asked for only below a value', () => {
  for (const kind of ['counterweight-piston', 'rod-camshaft', 'rod-block', 'rod-piston', 'piston-piston']) {
    it(`is found where it lies below, and the value is proven where it does not: ${kind}`, () => {
      const whole = one(kind, {});
      const below = one(kind, { belowMm: whole.gapMm + 0.5 });
      expect(Math.abs(below.gapMm - whole.gapMm)).toBeLessThan(0.003);
      const limit = whole.gapMm - 0.5;
      const not = one(kind, { belowMm: limit, hintRad: whole.atCrankRad });
      expect(not.gapMm).toBe(limit);
      expect(not.lowerBoundMm).toBeLessThanOrEqual(limit);
      expect(not.lowerBoundMm).toBeGreaterThan(limit - 0.0011);
      expect(not.evaluations).toBeLessThan(one(kind, { hintRad: whole.atCrankRad }).evaluations);
    });
  }
});

describe('slicing of a far gap', () => {
  it('may add a share of the gap, or no more than of a near one when that is asked for', () => {
    const usual = one('counterweight-block', {});
    const close = one('counterweight-block', { farShare: 0 });
    expect(usual.gapMm).toBeGreaterThan(3);
    expect(close.slicingMm).toBeLessThanOrEqual(0.005);
    expect(usual.slicingMm).toBeGreaterThan(0.1);
    // Both are on the safe side of the same gap.
    expect(close.gapMm).toBeGreaterThanOrEqual(usual.gapMm - 0.001);
    expect(close.gapMm).toBeLessThanOrEqual(usual.gapMm + usual.slicingMm + 0.001);
  });
});

describe('a budget that one cell can’t do with', () => {
  it('leaves the others something: the contact of a part that comes later is told', () => {
    // Plain discs turning about centres of their own, 1 apart in one cell; a constant overlap by 2 in the other.
    const disc = (r: number): Layer => ({
      part: `disc of ${r}`,
      z0Mm: 0,
      z1Mm: 10,
      outline: { pieces: [{ kind: 'arc', cx: 0, cy: 0, r, startRad: 0, sweepRad: 2 * Math.PI }] },
    });
    const still = fixedMotion();
    const cells = cellsOf(
      { layers: [disc(50), { ...disc(53), z0Mm: 20, z1Mm: 30 }], round: [], motion: still },
      { layers: [beside(30, 81), { ...beside(30, 81), z0Mm: 20, z1Mm: 30 }], round: [], motion: still },
      () => false,
    );
    const found = certifyLayered(still, still, cells, 2 * Math.PI, { toleranceMm: 0.001, slicingMm: 0.001, budget: 3 });
    expect(Math.abs(found.gapMm + 2)).toBeLessThan(0.001);
  });
});

/** A disc whose middle stands to the right of the axis. */
function beside(r: number, xMm: number): Layer {
  return {
    part: 'stud',
    z0Mm: 0,
    z1Mm: 10,
    outline: { pieces: [{ kind: 'arc', cx: xMm, cy: 0, r, startRad: 0, sweepRad: 2 * Math.PI }] },
  };
}

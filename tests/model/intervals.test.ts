/** Intervals below the limits, of a whole build: deck clearances by hand, alike pairs at their own angles, work that runs out. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { type Intervals, intervalsOf } from '../../src/model/intervals.ts';
import type { Gap } from '../../src/model/results.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleSingle, exampleV8 } from '../support/exampleBuild.ts';

const TURN = 2 * Math.PI;
const DEGREE = Math.PI / 180;

function found(
  doc: BuildDocument,
  changes: Record<string, unknown>,
  budget?: number,
): [Gap[], ReadonlyMap<string, Intervals>] {
  const altered = changed(doc, changes) as unknown as BuildDocument;
  const engine = layOut(altered, altered.proposed);
  const gaps = certifiedGaps(altered, engine, new Map());
  return [gaps, intervalsOf(altered, engine, gaps, budget)];
}

describe('deck clearance', () => {
  // The single: crank radius and rod as laid out; the limit is put .5 mm above the deck clearance it has.
  const doc = exampleSingle();
  const engine = layOut(doc, doc.proposed);
  const [c] = engine.cylinders;
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = c!.slider;
  const limitMm = c!.deckClearanceMm + 0.5;

  it('is below its limit while the pin stands within half a millimetre of its top', () => {
    const [, intervals] = found(doc, { limits: { deck: dim(`${limitMm.toFixed(6)} mm`) } });
    const [arc] = intervals.get('piston 1 · deck')!.below;
    // Height of the pin by the two triangles, at both ends and in the middle.
    const height = (crank: number): number => {
      const a = crank + c!.alphaAtZeroRad;
      return r * Math.cos(a) + Math.sqrt(l * l - (r * Math.sin(a) - e) ** 2);
    };
    const top = Math.sqrt((l + r) ** 2 - e * e);
    expect(height(arc!.fromRad)).toBeCloseTo(top - 0.5, 5);
    expect(height(arc!.toRad)).toBeCloseTo(top - 0.5, 5);
    expect(height((arc!.fromRad + arc!.toRad) / 2)).toBeGreaterThan(top - 0.01);
    expect(intervals.get('piston 1 · deck')!.touching).toEqual([]);
  });
});

describe('a V8 whose counterweights meet the pistons', () => {
  const wide = { 'assemblies[1].crank.counterweight.radius': dim('3.46 in') };
  const [gaps, intervals] = found(exampleV8(), wide);
  const ill = gaps.filter((g) => g.state === 'contact' || g.state === 'tight');

  it('has intervals for every gap below its limit, and for no other', () => {
    expect(ill.length).toBeGreaterThan(4);
    expect([...intervals.keys()].sort()).toEqual(ill.map((g) => g.id).sort());
    for (const { finished } of intervals.values()) expect(finished).toBe(true);
  });

  it('holds the closest place; touching lies within below', () => {
    for (const g of ill) {
      const { below, touching } = intervals.get(g.id)!;
      const holds = (arcs: Intervals['below']): boolean =>
        arcs.some((a) =>
          [0, g.periodRad].some((more) => g.atCrankRad + more >= a.fromRad && g.atCrankRad + more <= a.toRad),
        );
      expect(holds(below), g.id).toBe(true);
      expect(holds(touching), g.id).toBe(g.state === 'contact');
      for (const t of touching) {
        expect(below.some((a) => t.fromRad >= a.fromRad - 1e-9 && t.toRad <= a.toRad + 1e-9)).toBe(true);
      }
      for (const arc of [...below, ...touching]) {
        expect(arc.fromRad).toBeGreaterThanOrEqual(0);
        expect(arc.fromRad).toBeLessThan(g.periodRad);
        expect(arc.toRad).toBeGreaterThan(arc.fromRad);
      }
    }
  });

  it('of alike pairs each has its own, a throw’s angle from the other’s', () => {
    // Throw 2 stands a quarter turn after throw 1: its front cheek meets piston 3 that much earlier in the turn.
    const [one, two] = ['counterweight 1 front · piston 1', 'counterweight 2 front · piston 3'].map((id) => ({
      gap: gaps.find((g) => g.id === id)!,
      arcs: intervals.get(id)!.below,
    }));
    const later = two!.gap.atCrankRad - one!.gap.atCrankRad;
    expect(Math.abs(Math.sin(later))).toBeCloseTo(1, 6);
    two!.arcs.forEach((arc, k) => {
      const first = one!.arcs[k]!;
      expect(Math.sin((arc.fromRad - first.fromRad - later) / 2)).toBeCloseTo(0, 9);
      expect(arc.toRad - arc.fromRad).toBeCloseTo(first.toRad - first.fromRad, 9);
    });
    expect(two!.arcs.length).toBeGreaterThan(0);
  });

  it('is symmetrical about bottom dead centre where the pin is not offset', () => {
    const changes = { ...wide, 'assemblies[1].piston.pinOffset': dim('0 in') };
    const [, straight] = found(exampleV8(), changes);
    const bdc = layOut(changed(exampleV8(), changes) as unknown as BuildDocument, 'Stroker').cylinders[0]!.bdcRad;
    const [arc] = straight.get('counterweight 1 front · piston 1')!.below;
    const off = (((arc!.fromRad + arc!.toRad) / 2 - bdc + Math.PI) % TURN) - Math.PI;
    expect(Math.abs(off)).toBeLessThan(0.0005 * DEGREE);
  });

  it('says so when the work allowed runs out', () => {
    const [, short] = found(exampleV8(), wide, 50);
    const { finished } = short.get('counterweight 1 front · piston 1')!;
    expect(finished).toBe(false);
  });
});

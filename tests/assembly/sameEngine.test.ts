/** Builds that describe the same engine in other words have the same gaps. */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { exampleInline6, exampleSingle, exampleV8 } from '../support/exampleBuild.ts';

function gapsOf(doc: BuildDocument): Gap[] {
  return solveGaps(layOut(doc, doc.proposed), { assumedAllowanceMm: null });
}

/** Every length written in inches written in millimetres instead, exactly: 1 in = 25.4 mm. */
function inMillimetres(doc: BuildDocument): BuildDocument {
  const text = JSON.stringify(doc).replace(
    /"(-?)(\d*)\.?(\d*)( ±[\d.]+)? in"/g,
    (_, sign: string, whole: string, part: string) => {
      // As whole units of the last decimal place times 254, so that no binary fraction enters.
      const digits = BigInt(`${whole}${part}` || '0') * 254n;
      const places = part.length + 1;
      const padded = digits.toString().padStart(places + 1, '0');
      return `"${sign}${padded.slice(0, -places)}.${padded.slice(-places)} mm"`;
    },
  );
  return JSON.parse(text) as BuildDocument;
}

/** The two answers differ by no more than two certificates may, and are the same pairs. */
function expectSame(one: readonly Gap[], other: readonly Gap[]): void {
  expect(other.map((g) => g.id)).toEqual(one.map((g) => g.id));
  one.forEach((g, k) => {
    expect(Math.abs(other[k]!.gapMm - g.gapMm)).toBeLessThan(1e-6);
    expect(Math.abs(other[k]!.lowerBoundMm - g.lowerBoundMm)).toBeLessThan(1e-6);
    expect(other[k]!.certified).toBe(g.certified);
  });
}

describe('inches written as millimetres', () => {
  test('the conversion itself, by hand', () => {
    const doc = inMillimetres(exampleV8());
    expect(doc.block.bore.value).toBe('103.1240 mm');
    expect(doc.block.bankOffset.value).toBe('24.0792 mm');
    expect(doc.assemblies[1]!.piston.pinOffset.value).toBe('-1.0160 mm');
    expect(JSON.stringify(doc)).not.toContain(' in"');
  });

  test.each([
    ['V8', exampleV8()],
    ['inline six', exampleInline6()],
    ['single', exampleSingle()],
  ] as const)('%s: the same gaps', (_, doc) => {
    expectSame(gapsOf(doc), gapsOf(inMillimetres(doc)));
  });
});

describe('turning the other way', () => {
  test.each([
    ['V8', exampleV8()],
    ['inline six', exampleInline6()],
    ['single', exampleSingle()],
  ] as const)('%s: the mirror image, the same gaps at the same crank angles', (_, doc) => {
    const one = gapsOf(doc);
    const other = gapsOf(changed(doc, { 'block.rotation': 'counterclockwise' }) as unknown as BuildDocument);
    expectSame(one, other);
    one.forEach((g, k) => {
      expect(other[k]!.atCrankRad).toBe(g.atCrankRad);
      g.pointsMm.forEach(([x, y, z], n) => {
        const [mx, my, mz] = other[k]!.pointsMm[n as 0 | 1];
        expect([mx + x, my - y, mz - z].every((d) => Math.abs(d) < 1e-9)).toBe(true);
      });
    });
  });
});

describe('firing order', () => {
  // Two even orders of the same crank: those in which a pair of tops is taken the other way round.
  const orders = [
    [1, 5, 6, 3, 4, 2, 7, 8],
    [1, 2, 7, 3, 4, 5, 6, 8],
    [1, 2, 7, 8, 4, 5, 6, 3],
  ];
  const found = orders.map((firingOrder) =>
    gapsOf(changed(exampleV8(), { 'block.firingOrder': firingOrder }) as unknown as BuildDocument),
  );

  test('moves no gap that the camshaft has no part in', () => {
    const without = found.map((gaps) => gaps.filter((g) => !g.id.includes('lobe')));
    for (const gaps of without.slice(1)) {
      gaps.forEach((g, k) => {
        expect(g.id).toBe(without[0]![k]!.id);
        // Solved from another cylinder's firing: to the tolerance of the certificate.
        expect(Math.abs(g.gapMm - without[0]![k]!.gapMm)).toBeLessThan(0.001);
      });
    }
  });

  test('turns the lobes of the cylinders that changed places by half a turn of the cam, no others', () => {
    // Orders 1 and 2 differ in 5 and 2, and in 6 and 7: each fires a whole turn of the crank earlier or later.
    const engines = orders.map((firingOrder) =>
      layOut(changed(exampleV8(), { 'block.firingOrder': firingOrder }) as unknown as BuildDocument, 'Stroker'),
    );
    const moved = (a: number, b: number): number[] =>
      engines[a]!.cylinders.filter((c, k) => c.firingTdcRad !== engines[b]!.cylinders[k]!.firingTdcRad).map(
        (c) => c.number,
      );
    expect(moved(0, 1)).toEqual([2, 5, 6, 7]);
    expect(moved(1, 2)).toEqual([3, 8]);
    for (const n of [2, 5, 6, 7]) {
      const [p, q] = [0, 1].map((k) => engines[k]!.cylinders[n - 1]!.firingTdcRad);
      expect(Math.abs(p! - q!)).toBeCloseTo(2 * Math.PI, 9);
    }
  });

  test('cylinders alike in the layout have alike gaps, a firing interval apart', () => {
    // Cylinder 1 and cylinder 3: the same bank, with their own rod, bore and piston.
    const gaps = new Map(found[0]!.map((g) => [g.id, g]));
    for (const part of ['bore', 'piston', 'intake lobe', 'exhaust lobe']) {
      const one = gaps.get(`rod 1 · ${part} 1`)!;
      for (const n of [3, 5, 7]) {
        const other = gaps.get(`rod ${n} · ${part} ${n}`)!;
        expect(Math.abs(other.gapMm - one.gapMm)).toBeLessThan(0.001);
        // Cylinders 3, 5, 7 fire at 270, 90 and 540 degrees.
        const later = ({ 3: 270, 5: 90, 7: 540 }[n]! * Math.PI) / 180;
        const off = (other.atCrankRad - one.atCrankRad - later) / one.periodRad;
        expect(Math.abs(off - Math.round(off)) * one.periodRad).toBeLessThan(1e-6);
      }
    }
  });
});

describe('effort', () => {
  test.each([
    // Counts of evaluations as found, with head room: the certificate is to stay affordable.
    ['V8', exampleV8(), 450, 30_000],
    ['inline six', exampleInline6(), 320, 16_000],
    ['single', exampleSingle(), 700, 6_000],
  ] as const)('%s: every gap certified, within a stated number of evaluations', (_, doc, each, most) => {
    const engine = layOut(doc, doc.proposed);
    const gaps = solveGaps(engine, { assumedAllowanceMm: null });
    const alike = new Map(gaps.map((g, k) => [engine.pairs[k]!.key, g]));
    const total = [...alike.values()].reduce((s, g) => s + g.evaluations, 0);
    for (const g of gaps) {
      expect(g.certified).toBe(true);
      expect(g.gapMm - g.lowerBoundMm).toBeLessThanOrEqual(0.001 + 1e-9);
      expect(g.lowerBoundMm).toBeLessThanOrEqual(g.gapMm);
    }
    expect(total / alike.size).toBeLessThan(each);
    expect(total).toBeLessThan(most);
  });
});

/** What moves along the shaft when one thing is shifted, and what that does to the gaps: by hand. */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument, Own } from '../../src/build/document.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleV8 } from '../support/exampleBuild.ts';

const IN = 25.4;

function withOwn(own: readonly Own[], more: Readonly<Record<string, unknown>> = {}): BuildDocument {
  return changed(exampleV8(), { 'assemblies[1].own': own, ...more }) as unknown as BuildDocument;
}

function gapsOf(doc: BuildDocument): Map<string, Gap> {
  const gaps = solveGaps(layOut(doc, 'Stroker'), { assumedAllowanceMm: null });
  return new Map(gaps.map((g) => [g.id, g]));
}

const before = gapsOf(exampleV8());

/** Pairs whose gap differs, by more than two certificates may. */
function differing(after: ReadonlyMap<string, Gap>): string[] {
  return [...after]
    .filter(([id, g]) => Math.abs(g.gapMm - (before.get(id)?.gapMm ?? Number.NaN)) > 0.0021)
    .map(([id]) => id);
}

function gap(gaps: ReadonlyMap<string, Gap>, id: string): Gap {
  const g = gaps.get(id);
  if (g === undefined) throw new Error(`${id} is not among the pairs`);
  return g;
}

// Along the shaft from the bore of cylinder 1, in inches, by the build's dimensions:
//   rod 1, big end and small end ±.470; rod 2 about .948; intake lobe 1 from .640 to 1.240; lobes of cylinder 2 about
//   1.888 and .008; cheeks of throw 1, centre .474: front from -1.276 to -.476, rear from 1.424 to 2.224.

describe('one lobe shifted', () => {
  // Rod 1 ends at .470, its own intake lobe begins at .640. Where the lobe passes the rod's outline closest they overlap in
  // the plane or are g apart; the gap is then sqrt(g^2 + a^2), a the axial distance.
  const id = 'rod 1 · intake lobe 1';
  const shifts = [0, -0.05, -0.1, -0.15, 0.02];
  const found = shifts.map((shift) => {
    const own: Own = { body: 'lobe', cylinder: 1, valve: 'intake', axialShift: dim(`${shift.toFixed(3)} in`) };
    return { axial: (0.17 + shift) * IN, gap: gap(gapsOf(withOwn([own])), id) };
  });

  test('own rod: the axial distance and the same gap in the plane, squared and added', () => {
    const inPlane = found.map(({ axial, gap: g }) => Math.sqrt(g.gapMm ** 2 - axial ** 2));
    expect(gap(before, id).direction).toBe('axial');
    for (const g of inPlane) expect(Math.abs(g - inPlane[0]!)).toBeLessThan(0.005);
    for (const { axial, gap: g } of found) {
      expect(g.gapMm).toBeGreaterThanOrEqual(axial - 1e-9);
      expect(Math.abs(g.pointsMm[0][2] - g.pointsMm[1][2])).toBeCloseTo(axial, 6);
    }
  });

  test('no pair without that lobe changes', () => {
    const own: Own = { body: 'lobe', cylinder: 1, valve: 'intake', axialShift: dim('-.100 in') };
    const after = differing(gapsOf(withOwn([own])));
    expect(after).toContain(id);
    expect(after.every((name) => name.includes('intake lobe 1'))).toBe(true);
  });
});

describe('one counterweight shifted', () => {
  const shifted = (inches: string): Map<string, Gap> =>
    gapsOf(withOwn([{ body: 'counterweight', throw: 2, side: 'rear', axialShift: dim(inches) }]));

  test('only its own pairs change', () => {
    const after = differing(shifted('.080 in'));
    expect(after.length).toBeGreaterThan(0);
    expect(after.every((id) => id.startsWith('counterweight 2 rear'))).toBe(true);
  });

  test('against the pin boss beside it: the axial distance by hand', () => {
    // The boss of piston 3 reaches from its bore, 4.480, to 5.780; the cheek begins at 4.954 + .950 = 5.904: .124 apart,
    // and .044 with the cheek .080 nearer.
    const id = 'counterweight 2 rear · piston 3';
    const here = gap(before, id);
    const there = gap(shifted('-.080 in'), id);
    expect(here.parts).toEqual(['counterweight', 'pin boss']);
    expect(there.parts).toEqual(['counterweight', 'pin boss']);
    expect(Math.abs(here.pointsMm[0][2] - here.pointsMm[1][2])).toBeCloseTo(0.124 * IN, 6);
    expect(Math.abs(there.pointsMm[0][2] - there.pointsMm[1][2])).toBeCloseTo(0.044 * IN, 6);
    const inPlane = Math.sqrt(here.gapMm ** 2 - (0.124 * IN) ** 2);
    expect(there.gapMm).toBeCloseTo(Math.hypot(inPlane, 0.044 * IN), 2);
  });
});

describe('one rod shifted', () => {
  test('only its own pairs change, and an axial gap by the shift', () => {
    const after = gapsOf(withOwn([{ body: 'rod', cylinder: 5, axialShift: dim('.060 in') }]));
    const names = differing(after);
    expect(names.every((id) => id.startsWith('rod 5 '))).toBe(true);
    const id = 'rod 5 · intake lobe 5';
    expect(names).toContain(id);
    // As rod 1 and its lobe: .170 apart, .110 once the rod stands .060 nearer.
    const inPlane = Math.sqrt(gap(before, id).gapMm ** 2 - (0.17 * IN) ** 2);
    expect(Math.abs(gap(after, id).gapMm - Math.hypot(inPlane, 0.11 * IN))).toBeLessThan(0.005);
  });
});

describe('the banks moved along the shaft', () => {
  // Bank offset .948 -> .968: bores of bank 2 move back by .020, throws by half of that.
  const doc = withOwn([], { 'block.bankOffset.value': '.968 in' });
  const engine = layOut(doc, 'Stroker');
  const old = layOut(exampleV8(), 'Stroker');

  test.each([
    ['rod 1', 0],
    ['piston 3', 0],
    ['intake lobe 5', 0],
    ['rod 2', 0.02],
    ['piston 4', 0.02],
    ['exhaust lobe 6', 0.02],
    ['bore 8', 0.02],
    ['counterweight 1 front', 0.01],
    ['counterweight 4 rear', 0.01],
  ])('%s by %d in', (name, inches) => {
    const [was, is] = [old, engine].map((e) => e.bodies.find((b) => b.name === name)!);
    expect(is!.z0Mm - was!.z0Mm).toBeCloseTo(inches * IN, 9);
    expect(is!.z1Mm - was!.z1Mm).toBeCloseTo(inches * IN, 9);
  });

  test('rod 2 leaves the cam lobe of bank 1 no nearer in the plane; own pairs along one bank stay as they were', () => {
    const after = gapsOf(doc);
    // Rod 1 and its own lobes, its own bore and its own piston stand as before.
    for (const id of [
      'rod 1 · intake lobe 1',
      'rod 1 · bore 1',
      'rod 3 · piston 3',
      'rod 2 · intake lobe 2',
      'rod 4 · bore 4',
    ]) {
      expect(Math.abs(gap(after, id).gapMm - gap(before, id).gapMm)).toBeLessThan(0.0021);
    }
    // Counterweight 2 rear moves back by .010 in from the boss of piston 3: .134 apart.
    const id = 'counterweight 2 rear · piston 3';
    expect(Math.abs(gap(after, id).pointsMm[0][2] - gap(after, id).pointsMm[1][2])).toBeCloseTo(0.134 * IN, 6);
  });
});

describe('places along the shaft, by hand', () => {
  const { bodies } = layOut(exampleV8(), 'Stroker');
  test.each([
    ['counterweight 1 front', -1.276, -0.476],
    ['counterweight 1 rear', 1.424, 2.224],
    ['counterweight 3 front', 7.684, 8.484],
    ['rod 1', -0.47, 0.47],
    ['rod 2', 0.478, 1.418],
    ['rod 8', 13.918, 14.858],
    ['piston 3', 2.452, 6.508],
    ['intake lobe 1', 0.64, 1.24],
    ['exhaust lobe 1', -1.24, -0.64],
    ['intake lobe 6', 10.548, 11.148],
    ['bore 1', -2.28, 2.28],
  ])('%s from %d to %d in', (name, front, rear) => {
    const b = bodies.find((body) => body.name === name)!;
    expect(b.z0Mm).toBeCloseTo(front * IN, 9);
    expect(b.z1Mm).toBeCloseTo(rear * IN, 9);
  });

  test('an offset rod carries its big end to the cheek it faces, its beam stays in the bore', () => {
    const doc = withOwn([], { 'assemblies[1].rod.beamOffset': dim('.040 in') });
    const engine = layOut(doc, 'Stroker');
    for (const [name, middle, big] of [
      ['rod 1', 0, -0.04],
      ['rod 2', 0.948, 0.988],
    ] as const) {
      const rod = engine.bodies.find((b) => b.name === name)!;
      for (const l of rod.layers) {
        const expected = l.part === 'big end' ? big : middle;
        expect((l.z0Mm + l.z1Mm) / 2).toBeCloseTo(expected * IN, 9);
      }
    }
  });
});

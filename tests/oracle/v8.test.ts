/** Gaps of a whole V8, laid out and certified by the program, against an engine put together in x, y, z by hand. */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { LOBE_ERROR_MM } from '../../src/core/lobe/lobeOutline.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { exampleV8 } from '../support/exampleBuild.ts';
import { gapAtCrank, lowestGap, strayFrom } from './solid.ts';
import { bore, core, counterweight, crankcase, lobe, type Part, piston, rod, type Variant } from './v8.ts';

const usual = { camAcrossIn: 0, boreOffsetIn: 0, beamOffsetIn: 0, rollerRadiusIn: 0.375, baseCircleIn: 1.2 };

const VARIANTS: readonly (Variant & { readonly title: string })[] = [
  {
    title: 'clockwise, chain-driven camshaft',
    counterclockwise: false,
    sense: 'same',
    firingOrder: [1, 5, 6, 3, 4, 2, 7, 8],
    ...usual,
  },
  {
    title: 'clockwise, geared camshaft off the middle',
    counterclockwise: false,
    sense: 'opposite',
    firingOrder: [1, 2, 7, 3, 4, 5, 6, 8],
    ...usual,
    camAcrossIn: 0.12,
    beamOffsetIn: 0.03,
  },
  {
    title: 'counterclockwise, chain-driven camshaft off the middle, bores offset, flat followers',
    counterclockwise: true,
    sense: 'same',
    firingOrder: [1, 2, 7, 8, 4, 5, 6, 3],
    ...usual,
    camAcrossIn: 0.12,
    boreOffsetIn: 0.05,
    rollerRadiusIn: 0,
    baseCircleIn: 1.5,
  },
  {
    title: 'counterclockwise, geared camshaft, offset rods',
    counterclockwise: true,
    sense: 'opposite',
    firingOrder: [1, 5, 6, 3, 4, 2, 7, 8],
    ...usual,
    camAcrossIn: -0.08,
    beamOffsetIn: 0.04,
  },
];

function documentOf(v: Variant): BuildDocument {
  const inches = (x: number): string => `${x.toFixed(3)} in`;
  return changed(exampleV8(), {
    'block.rotation': v.counterclockwise ? 'counterclockwise' : 'clockwise',
    'block.firingOrder': v.firingOrder,
    'block.camAxis.across.value': inches(v.camAcrossIn),
    'block.boreOffset.value': inches(v.boreOffsetIn),
    'assemblies[1].camshaft.sense': v.sense,
    'assemblies[1].camshaft.baseCircle.value': inches(v.baseCircleIn),
    'assemblies[1].camshaft.follower':
      v.rollerRadiusIn === 0
        ? { kind: 'flat' }
        : { kind: 'roller', radius: { value: inches(v.rollerRadiusIn), from: 'stated' } },
    'assemblies[1].rod.beamOffset': { value: inches(v.beamOffsetIn), from: 'stated' },
  }) as unknown as BuildDocument;
}

/** The oracle's part by the program's name of it. */
function partOf(v: Variant, name: string): Part {
  const n = Number(/\d+/.exec(name)?.[0] ?? 0);
  if (name.startsWith('counterweight')) return counterweight(n, name.endsWith('front') ? 'front' : 'rear');
  if (name.startsWith('rod')) return rod(v, n);
  if (name.startsWith('piston')) return piston(v, n);
  if (name.startsWith('bore')) return bore(v, n);
  if (name.startsWith('intake lobe')) return lobe(v, n, 'intake');
  if (name.startsWith('exhaust lobe')) return lobe(v, n, 'exhaust');
  if (name === 'camshaft core') return core(v);
  if (name === 'crankcase wall') return crankcase(v);
  throw new RangeError(`no part called ${name}`);
}

// Own and neighbour's parts, of both banks, of several throws. Those with round parts take longest: some for each variant.
const ROUND_PAIRS: readonly (readonly string[])[] = [
  ['counterweight 1 front · piston 1', 'counterweight 1 rear · piston 2', 'rod 1 · bore 1'],
  ['counterweight 1 rear · piston 1', 'counterweight 3 rear · piston 6'],
  ['counterweight 2 front · piston 4', 'rod 2 · bore 1'],
  ['counterweight 4 front · piston 7', 'counterweight 1 rear · piston 2'],
];
const PAIRS: readonly string[] = [
  'rod 2 · intake lobe 1',
  'rod 1 · exhaust lobe 2',
  'rod 1 · intake lobe 1',
  'rod 6 · intake lobe 5',
  'rod 7 · exhaust lobe 8',
  'rod 1 · camshaft core',
  'rod 4 · camshaft core',
  'rod 5 · crankcase wall',
  'rod 8 · crankcase wall',
  'counterweight 1 front · crankcase wall',
  'counterweight 2 rear · camshaft core',
];

/** What trying points leaves: sections some thousandths apart, lobe points 0.03 mm apart. */
const TRYING_MM = 0.001;

describe.each(VARIANTS)('$title', (v) => {
  const engine = layOut(documentOf(v), 'Stroker');
  const pairs = [...PAIRS, ...ROUND_PAIRS[VARIANTS.indexOf(v)]!];
  const gaps = new Map<string, Gap>(
    solveGaps(engine, { assumedAllowanceMm: null, wanted: (p) => pairs.includes(p.id) }).map((g) => [g.id, g]),
  );

  test('the frame: mirrored when counterclockwise', () => {
    expect(engine.mirrored).toBe(v.counterclockwise);
  });

  test.each(pairs)('%s', (id) => {
    const g = gaps.get(id);
    if (g === undefined) throw new Error(`${id} is not among the pairs`);
    const [a, b] = g.between.map((name) => partOf(v, name)) as [Part, Part];
    expect(g.certified).toBe(true);
    expect(g.gapMm - g.lowerBoundMm).toBeLessThanOrEqual(0.001 + 1e-9);
    const outline = id.includes('lobe') ? LOBE_ERROR_MM : 0;
    // Where the program says the gap is smallest, it is that small.
    const there = gapAtCrank(v, a, b, g.atCrankRad, true);
    expect(there).toBeGreaterThan(g.lowerBoundMm - 1e-6);
    if (g.gapMm > 0) expect(there).toBeLessThan(g.gapMm + g.slicingMm + outline + TRYING_MM);
    else expect(there).toBeLessThan(TRYING_MM);
    // And nowhere smaller.
    const lowest = lowestGap(v, a, b, g.periodRad, g.periodRad > 7 ? 144 : 72);
    expect(lowest.value).toBeGreaterThan(g.lowerBoundMm - 1e-6);
    if (g.gapMm > 0) expect(lowest.value).toBeLessThan(g.gapMm + g.slicingMm + outline + TRYING_MM);
    // Nearest points of even parts lie on the parts as they really stand.
    if (g.gapMm > 0) {
      [a, b].forEach((part, k) => {
        if (part.round) return;
        const [x, y] = g.pointsMm[k as 0 | 1];
        expect(strayFrom(v, part, g.atCrankRad, x, y)).toBeLessThan(part.cloud ? LOBE_ERROR_MM + 0.02 : 1e-6);
      });
    }
  });
});

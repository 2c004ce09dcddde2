/** The same engine turned about its crank, or seen in a mirror, has the same gaps; and no gap grows when a body does. */
import { describe, expect, test } from 'vitest';
import type { Pair } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/index.ts';
import { type BuildDocument, readContent } from '../../src/build/index.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../src/core/clearance/certify.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { randomBuild } from '../examine/randomBuild.ts';
import { mm } from '../oracle/buildFile.ts';
import { seeded } from '../oracle/random.ts';
import { changed } from '../support/changed.ts';

const BUDGET = 4_000;

function docs(seed: number, count: number, layout: string, without: readonly string[] = []): BuildDocument[] {
  const out: BuildDocument[] = [];
  for (let k = 0; out.length < count && k < 60; k++) {
    const gone = Object.fromEntries(without.map((place) => [place, undefined]));
    const read = readContent(changed(randomBuild(seeded(seed + 53 * k), layout), gone));
    if (read.ok) out.push(read.doc);
  }
  return out;
}

function gapsOf(doc: BuildDocument, wanted: (p: Pair) => boolean): Map<string, Gap> {
  const engine = layOut(doc, doc.proposed);
  return new Map(solveGaps(engine, { assumedAllowanceMm: null, budget: BUDGET, wanted }).map((g) => [g.id, g]));
}

/** Gaps of two documents that have to be the same; how many were compared. */
function compare(one: BuildDocument, other: BuildDocument, wanted: (p: Pair) => boolean, faults: string[]): number {
  const [before, after] = [gapsOf(one, wanted), gapsOf(other, wanted)];
  if ([...before.keys()].sort().join() !== [...after.keys()].sort().join()) faults.push(`${one.name}: other pairs`);
  let compared = 0;
  for (const [id, g] of before) {
    const h = after.get(id);
    if (h === undefined || !g.certified || !h.certified) continue;
    compared += 1;
    const slack = CERTIFICATE_TOLERANCE_MM + Math.max(g.slicingMm, h.slicingMm) + 2e-5;
    if (g.gapMm < 0 && id.includes('bore') && h.gapMm < 0) continue;
    if (!(Math.abs(g.gapMm - h.gapMm) <= slack)) faults.push(`${one.name}: ${id} ${g.gapMm}, ${h.gapMm}`);
  }
  return compared;
}

// The crankcase goes straight down whatever the banks do, and is not turned with them.
const movable = (p: Pair): boolean => p.b.cylinder !== undefined || p.b.kind === 'cam core';

type Angled = { readonly value: string; readonly from: string };
const deg = (dim: Angled, by: number, sign = 1): Angled => ({
  ...dim,
  value: `${(sign * mm(dim) + by).toFixed(6)} deg`,
});
const long = (x: number): Angled => ({ value: `${x.toFixed(9)} mm`, from: 'measured' });
const other = (dim: Angled): Angled => long(-mm(dim));

describe('a free layout', () => {
  test('turned as a whole, camshaft and followers with it: the same gaps', () => {
    const faults: string[] = [];
    let compared = 0;
    for (const doc of docs(400, 6, 'free', ['block.fixed', 'block.panRail.height']).concat(docs(900, 6, 'free'))) {
      const by = doc.block.freeLayout!.banks.some((b) => mm(b.angle) > 60) ? -13 : 11;
      const { camAxis } = doc.block;
      const [c, s] = [Math.cos((by * Math.PI) / 180), Math.sin((by * Math.PI) / 180)];
      const turned = changed(doc, {
        'block.freeLayout.banks': doc.block.freeLayout!.banks.map((b) => ({ angle: deg(b.angle, by) })),
        // Far below everything, so that no rule about it is broken by the turn.
        'block.panRail.height': long(-400),
      }) as unknown as BuildDocument;
      const moved =
        camAxis === undefined
          ? turned
          : (changed(turned, {
              'block.camAxis': {
                across: long(c * mm(camAxis.across) + s * mm(camAxis.height)),
                height: long(-s * mm(camAxis.across) + c * mm(camAxis.height)),
              },
              'assemblies[0].camshaft.followerAngles': doc.assemblies[0]!.camshaft!.followerAngles.map((f) =>
                deg(f, by),
              ),
            }) as unknown as BuildDocument);
      const read = readContent(moved);
      if (!read.ok) continue;
      compared += compare(doc, read.doc, (p) => movable(p) && p.cylinder <= 2, faults);
    }
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThan(60);
  });

  test('seen in a mirror while it turns on the same way: the same gaps where no lobe has a part, at the opposite angles', () => {
    const faults: string[] = [];
    let compared = 0;
    for (const doc of docs(1400, 14, 'free')) {
      const { block } = doc;
      const free = block.freeLayout!;
      const side = { 'after-tdc': 'before-tdc', 'before-tdc': 'after-tdc', both: 'both' } as const;
      const own = doc.assemblies[0]!.own ?? [];
      // Measured outlines have a hand of their own; fixed ones too.
      if (JSON.stringify(doc).includes('"outline"')) continue;
      const mirrored = changed(doc, {
        'block.freeLayout': {
          banks: free.banks.map((b) => ({ angle: deg(b.angle, 0, -1) })),
          throws: free.throws.map((t) => ({ phase: deg(t.phase, 0, -1) })),
          cylinders: free.cylinders.map((k) => (k.pinSplit ? { ...k, pinSplit: deg(k.pinSplit, 0, -1) } : k)),
        },
        'block.boreOffset': other(block.boreOffset),
        'assemblies[0].piston.pinOffset': other(doc.assemblies[0]!.piston.pinOffset),
        'assemblies[0].camshaft': undefined,
        'block.camAxis': undefined,
        // Backwards a firing order is another one; any that goes with the throws will do.
        'block.firingOrder': [1, ...block.firingOrder.slice(1).reverse()],
        'assemblies[0].own': own
          .filter((o) => o.body !== 'lobe')
          .map((o) =>
            o.body === 'counterweight' && o.phase
              ? { ...o, phase: deg(o.phase, 0, -1) }
              : o.body === 'piston' && o.set?.pinOffset
                ? { ...o, set: { pinOffset: other(o.set.pinOffset) } }
                : o,
          ),
        ...(block.boreNotch ? { 'block.boreNotch.side': side[block.boreNotch.side] } : {}),
      });
      const plain = changed(doc, {
        'assemblies[0].camshaft': undefined,
        'block.camAxis': undefined,
        'assemblies[0].own': own.filter((o) => o.body !== 'lobe'),
      });
      const [one, two] = [readContent(plain), readContent(mirrored)];
      if (!one.ok || !two.ok) continue;
      compared += compare(one.doc, two.doc, (p) => p.cylinder <= 2, faults);
    }
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThan(40);
  });
});

describe('no gap grows when a body does', () => {
  const GROWS = [
    ['counterweight radius', 'assemblies[0].crank.counterweight.radius', 0.7, /^counterweight/],
    ['skirt', 'assemblies[0].piston.skirtBelowPin', 0.7, /piston/],
    ['pin boss', 'assemblies[0].piston.bossRadius', 0.4, /piston/],
    ['bolt', 'assemblies[0].rod.boltLength', 0.7, /rod/],
    ['shoulder', 'assemblies[0].rod.shoulderHeight', 0.5, /rod/],
    ['big end', 'assemblies[0].rod.bigEndRadius', 0.3, /rod/],
    ['camshaft core', 'assemblies[0].camshaft.coreDiameter', 0.3, /core/],
    ['bore, downward', 'block.boreBottom', -0.7, /bore/],
  ] as const;

  test.each(GROWS)('%s', (_, place, by, whose) => {
    const faults: string[] = [];
    let compared = 0;
    for (const layout of ['single', 'inline-3', 'v6-60-split-pins', 'v8-flat-plane']) {
      for (const doc of docs(77, 2, layout)) {
        const path = place.split(/[.[\]]+/).filter((key) => key !== '');
        // biome-ignore lint/suspicious/noExplicitAny: walks a document by a path that is text
        const dim = path.reduce<any>((at, key) => at?.[key], doc) as Angled | undefined;
        if (dim === undefined) continue;
        const grown = readContent(changed(doc, { [place]: long(mm(dim) + by) }));
        if (!grown.ok) continue;
        const wanted = (p: Pair): boolean => whose.test(p.id) && p.cylinder === 1;
        const [before, after] = [gapsOf(doc, wanted), gapsOf(grown.doc, wanted)];
        for (const [id, g] of before) {
          const h = after.get(id);
          if (h === undefined) continue;
          compared += 1;
          // How deep a swallowed part lies may lessen; that it is swallowed may not.
          const slack = CERTIFICATE_TOLERANCE_MM + g.slicingMm + h.slicingMm + 1e-6;
          if (!(h.gapMm <= Math.max(0, g.gapMm) + slack)) faults.push(`${doc.name}: ${id} ${g.gapMm}, then ${h.gapMm}`);
        }
      }
    }
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThan(5);
  });
});

/** Bands of the pairs of an engine, against sums by hand and against the certified gap; the drawing made from them. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../../src/build/document.ts';
import { readContent } from '../../../src/build/index.ts';
import { certifiedGaps } from '../../../src/model/certified.ts';
import { bandTemplate } from '../../../src/model/envelope/bandTemplate.ts';
import { bandGroups, hasBand } from '../../../src/model/envelope/pairBand.ts';
import { EXCEEDS_MM } from '../../../src/model/envelope/sweep.ts';
import { type Band, watchBand } from '../../../src/model/envelope/watcher.ts';
import { directPool } from '../../../src/model/pieces/kind.ts';
import { WORK } from '../../../src/model/pieces/table.ts';
import type { Solver } from '../../../src/model/solver.ts';
import { createStore } from '../../../src/model/store.ts';
import { templateDxf } from '../../../src/model/template.ts';
import { changed } from '../../support/changed.ts';
import { dim, exampleV8 } from '../../support/exampleBuild.ts';
import { boundary, winding } from './places.ts';

const IN = 25.4;

/** The skirt is short, so that the pin boss is nearest to the crank: 6.000 - 1.905 - .680 = 3.415 in from its axis. */
function build(): BuildDocument {
  const read = readContent(changed(exampleV8(), { 'assemblies[1].piston.skirtBelowPin': dim('.300 in') }));
  if (!read.ok) throw new Error('the build is refused');
  return read.doc;
}
const PAIR = 'counterweight 2 front · piston 3';
const NEAREST_MM = 3.415 * IN;

/** Gaps alone: neither ribbons nor cures are asked for here. */
const solver: Solver = {
  start: ({ doc, assembly, hints, gaps }, answer) => {
    if (gaps === undefined) answer({ gaps: certifiedGaps(doc, layOut(doc, assembly), hints) });
  },
};
const store = createStore(build(), { solver });
const watcher = watchBand(store, directPool(WORK));
function band(of: 'a' | 'b', from: 'block' | 'partner', withLimit: boolean, pairId = PAIR): Band {
  watcher.ask({ pairId, of, from, withLimit });
  return watcher.state.band!;
}
const radii = (b: Band): number[] => boundary(b.polygons).map(([x, y]) => Math.hypot(x, y));

describe('what a piston sweeps as its counterweight sees it', () => {
  it('leaves the counterweight the radius by hand, and with the limit so much less', () => {
    const least = Math.min(...radii(band('b', 'partner', false)));
    expect(least).toBeLessThanOrEqual(NEAREST_MM);
    expect(least).toBeGreaterThanOrEqual(NEAREST_MM - EXCEEDS_MM);
    const kept = band('b', 'partner', true);
    expect(kept.limitMm).toBeCloseTo(0.06 * IN, 9);
    const leastKept = Math.min(...radii(kept));
    expect(leastKept).toBeLessThanOrEqual(NEAREST_MM - 0.06 * IN);
    expect(leastKept).toBeGreaterThanOrEqual(NEAREST_MM - 0.06 * IN - EXCEEDS_MM);
  });

  it('is clear of the counterweight while the gap is above its limit, and reaches into it where it is not', () => {
    const into = (radius: string): number => {
      const doc = changed(build(), {
        'assemblies[1].crank.counterweight.radius': dim(radius),
      }) as unknown as BuildDocument;
      const engine = layOut(doc, doc.proposed);
      const rim = engine.bodies.find((b) => b.name === 'counterweight 2 front')!.layers[0]!.outline;
      const kept = band('b', 'partner', true).polygons;
      const points = rim.pieces.flatMap((p) =>
        p.kind === 'line'
          ? [[p.x0, p.y0] as const]
          : Array.from({ length: 40 }, (_, k) => {
              const angle = p.startRad + (p.sweepRad * k) / 40;
              return [p.cx + p.r * Math.cos(angle), p.cy + p.r * Math.sin(angle)] as const;
            }),
      );
      return points.filter(([x, y]) => winding(kept, x, y) !== 0).length;
    };
    // The limit is kept up to 3.355 in.
    expect(into('3.352 in')).toBe(0);
    expect(into('3.358 in')).toBeGreaterThan(0);
  });
});

describe('bands of an engine', () => {
  it('stand still in the block, or go with the other body', () => {
    expect(band('a', 'block', false).from).toBeNull();
    expect(band('b', 'partner', false)).toMatchObject({ name: 'piston 3', from: 'counterweight 2 front' });
    // A counterweight goes round: seen from the block it sweeps a disc, out to the cheek's end beyond the crankpin, 1.905 + 1.400 in.
    const disc = radii(band('a', 'block', false));
    expect(Math.max(...disc)).toBeLessThanOrEqual(3.305 * IN + EXCEEDS_MM);
    expect(Math.min(...disc)).toBeGreaterThanOrEqual(3.305 * IN - 1e-3);
  });

  it('are offered only where something moves', () => {
    const pair = store.state.engine.pairs.find((p) => p.id === 'rod 3 · crankcase wall')!;
    expect([hasBand(pair, 'b', 'block'), hasBand(pair, 'a', 'block')]).toEqual([false, true]);
    expect(hasBand(pair, 'a', 'partner')).toBe(false);
  });

  it('hold only what shares a stretch along the shaft', () => {
    const apart = store.state.engine.pairs.find(
      (p) => Math.max(p.a.z0Mm - p.b.z1Mm, p.b.z0Mm - p.a.z1Mm) > 0 && p.b.kind !== 'block',
    );
    if (apart === undefined) throw new Error('the example has no such pair');
    expect(bandGroups(store.state.engine, { pairId: apart.id, of: 'a', from: 'block', withLimit: false })).toEqual([]);
  });

  it('are made anew when the build changes', () => {
    const before = Math.min(...radii(band('b', 'partner', false)));
    const path = ['assemblies', 1, 'rod', 'length'];
    store.send({ do: 'set dimension', path, text: '6.010 in', last: true });
    const after = Math.min(...radii(watcher.state.band!));
    expect(after - before).toBeCloseTo(0.01 * IN, 1);
    store.send({ do: 'undo' });
  });
});

it('the drawing holds the counterweight and the band, each on a layer of its own', () => {
  const { doc, engine } = store.state;
  const template = bandTemplate(doc, engine, band('b', 'partner', true));
  const text = templateDxf(doc, template, { unit: 'mm', seenFrom: 'front', date: '2026-11-25' });
  expect(template.outlines.length).toBeGreaterThanOrEqual(2);
  for (const layer of ['COUNTERWEIGHT_2_FRONT', 'KEEP_OUT_PISTON_3']) expect(text).toContain(layer);
  expect(text.match(/\nPOLYLINE\r/g)).toHaveLength(template.outlines.length);
});

/** Outlines put in and taken out: every body, one step of undo each, and which layers then stand by them. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import type { OutlinePoint } from '../../src/build/index.ts';
import { parseBuild } from '../../src/build/index.ts';
import { createStore, directSolver } from '../../src/model/index.ts';
import { createOutlineDraft, NEW_PART } from '../../src/model/outlineDraft.ts';
import { directReader } from '../../src/model/outlineReader.ts';
import {
  type OutlineTarget,
  outlineAt,
  outlineTargets,
  targetName,
  withOutline,
  withoutOutline,
} from '../../src/model/outlineTarget.ts';
import { dim, exampleSingle, exampleV8 } from '../support/exampleBuild.ts';

const chain = (...list: readonly (readonly [number, number])[]): OutlinePoint[] =>
  list.map(([x, y]) => ({ x: dim(`${x} mm`), y: dim(`${y} mm`) }));
const entry = (outline: OutlinePoint[], deviation = '0.2 mm') => ({
  outline,
  outlineFrom: 'measured' as const,
  outlineDeviation: dim(deviation),
});

/** About rod and pin of the V8: its big end stops at 35.56 mm, its small end begins at 136.14 mm. */
const ROD = chain(
  ...([
    [-45, -45],
    [45, -45],
    [45, 30],
    [12, 50],
    [12, 135],
    [18, 140],
  ] as const),
  ...([
    [18, 172],
    [-18, 172],
    [-18, 140],
    [-12, 135],
    [-12, 50],
    [-45, 30],
  ] as const),
);
const BOSS = chain([-16, -15], [15, -15], [15, 30], [-16, 30]);
const CHEEK = chain([-80, -70], [80, -70], [80, 20], [40, 90], [-40, 90], [-80, 20]);

const TARGETS: readonly (readonly [OutlineTarget, OutlinePoint[]])[] = [
  [{ body: 'counterweight', throw: 2, side: 'rear' }, CHEEK],
  [{ body: 'rod', cylinder: null }, ROD],
  [{ body: 'rod', cylinder: 4 }, ROD],
  [{ body: 'piston', cylinder: null }, BOSS],
  [{ body: 'piston', cylinder: 4 }, BOSS],
  [{ body: 'fixed', name: 'stop', front: dim('0 mm'), rear: dim('9 mm') }, BOSS],
];

describe('an outline', () => {
  it.each(TARGETS.map(([target, points]) => [targetName(target), target, points] as const))(
    'of %s goes in, is found there, obeys the rules, and leaves nothing behind',
    (name, target, points) => {
      const doc = exampleV8();
      const next = withOutline(doc, 'Stroker', target, entry(points));
      const read = parseBuild(JSON.stringify(next));
      expect(read.ok ? [] : read.problems).toEqual([]);
      expect(outlineAt(next, 'Stroker', target)).toMatchObject({ outline: points, outlineFrom: 'measured' });
      expect(outlineTargets(next, next.assemblies[1]!).map(targetName)).toContain(name);
      expect(withoutOutline(next, 'Stroker', target)).toEqual(doc);
      expect(withoutOutline(doc, 'Stroker', target)).toBe(doc);
      // A second one takes the place of the first.
      expect(withOutline(next, 'Stroker', target, entry(points))).toEqual(next);
    },
  );

  it('joins what the body already has of its own, and leaves that when it goes', () => {
    const doc = exampleV8();
    const own = [{ body: 'rod' as const, cylinder: 4, axialShift: dim('.010 in') }];
    const shifted = { ...doc, assemblies: doc.assemblies.map((a) => (a.name === 'Stroker' ? { ...a, own } : a)) };
    const target: OutlineTarget = { body: 'rod', cylinder: 4 };
    const next = withOutline(shifted, 'Stroker', target, entry(ROD));
    expect(next.assemblies[1]!.own).toHaveLength(1);
    expect(withoutOutline(next, 'Stroker', target)).toEqual(shifted);
  });
});

describe('layers', () => {
  const engineWith = (target: OutlineTarget, points: OutlinePoint[]) =>
    layOut(withOutline(exampleV8(), 'Stroker', target, entry(points)), 'Stroker');
  const heights = (outline: { readonly pieces: readonly object[] }): number[] =>
    outline.pieces.flatMap((p) => ('y0' in p && 'y1' in p ? [p.y0 as number, p.y1 as number] : []));

  it('of a traced rod: all of it, its foot, its head, each as wide as the dimensions say; the other rods as they were', () => {
    const rods = engineWith({ body: 'rod', cylinder: 4 }, ROD).bodies.filter((b) => b.kind === 'rod');
    const plain = layOut(exampleV8(), 'Stroker').bodies.filter((b) => b.kind === 'rod');
    const traced = rods[3]!;
    const [bigEnd, beam, smallEnd] = traced.layers;
    expect(traced.layers.map((l) => l.part)).toEqual(['big end', 'beam', 'small end']);
    expect(Math.max(...heights(bigEnd!.outline))).toBeCloseTo(1.4 * 25.4, 9);
    expect(Math.min(...heights(bigEnd!.outline))).toBe(-45);
    expect([Math.min(...heights(beam!.outline)), Math.max(...heights(beam!.outline))]).toEqual([-45, 172]);
    expect(Math.min(...heights(smallEnd!.outline))).toBeCloseTo((6 - 0.64) * 25.4, 9);
    for (const [k, layer] of traced.layers.entries()) {
      expect(layer.deviationMm).toBe(0.2);
      expect([layer.z0Mm, layer.z1Mm]).toEqual([plain[3]!.layers[k]!.z0Mm, plain[3]!.layers[k]!.z1Mm]);
    }
    expect(rods.filter((_, k) => k !== 3).map((r) => r.shapeKey)).toEqual(
      plain.filter((_, k) => k !== 3).map((r) => r.shapeKey),
    );
  });

  it('of a traced pin boss: both bosses, and nothing else of the piston', () => {
    const target: OutlineTarget = { body: 'piston', cylinder: null };
    const piston = engineWith(target, BOSS).bodies.find((b) => b.name === 'piston 1')!;
    const plain = layOut(exampleV8(), 'Stroker').bodies.find((b) => b.name === 'piston 1')!;
    expect(piston.layers.map((l) => [Math.min(...heights(l.outline)), l.deviationMm])).toEqual([
      [-15, 0.2],
      [-15, 0.2],
    ]);
    expect(piston.round.map((r) => r.slice(r.z0Mm, r.z1Mm))).toEqual(plain.round.map((r) => r.slice(r.z0Mm, r.z1Mm)));
    expect(piston.assumed).not.toContain('piston boss radius');
  });

  it('alike outlines of two bodies are one situation, others are two', () => {
    const doc = withOutline(exampleV8(), 'Stroker', { body: 'rod', cylinder: 1 }, entry(ROD));
    const keys = (second: OutlinePoint[], deviation?: string) => {
      const both = withOutline(doc, 'Stroker', { body: 'rod', cylinder: 3 }, entry(second, deviation));
      return layOut(JSON.parse(JSON.stringify(both)), 'Stroker').bodies.flatMap((b) =>
        b.name === 'rod 1' || b.name === 'rod 3' ? [b.shapeKey] : [],
      );
    };
    expect(new Set(keys(ROD)).size).toBe(1);
    expect(new Set(keys(ROD, '0.3 mm')).size).toBe(2);
    expect(new Set(keys(ROD.map((p, k) => (k === 0 ? { ...p, y: dim('-45.1 mm') } : p)))).size).toBe(2);
  });
});

describe('the way from a file into the build', () => {
  const csv = (text: string) => ({ name: 'a.csv', bytes: new TextEncoder().encode(text) });
  const rows = (points: readonly OutlinePoint[]) =>
    `x mm,y mm\n${points.map((p) => `${parseFloat(p.x.value)},${parseFloat(p.y.value)}`).join('\n')}\n`;

  it('is one command and one step of undo, and asks the rules first', () => {
    const store = createStore(exampleSingle(), { solver: directSolver() });
    const before = store.state.doc;
    const draft = createOutlineDraft(store, directReader);
    draft.choose({ body: 'counterweight 1 rear' });
    draft.load(csv('x,y\n0,0\n9,0\n0,9\n'));
    expect(draft.state.refused.join()).toMatch(/unit of the lengths/);
    draft.choose({ unit: 'mm' });
    expect(draft.state.read?.ok).toBe(true);
    draft.apply();
    expect(draft.state.barred.join()).toMatch(/around its shafts/);
    expect(store.state.doc).toBe(before);

    draft.load(csv(rows(CHEEK)));
    // What was chosen for a file of the same name stays; the heading says the same.
    draft.choose({ deviation: '.004' });
    expect(draft.state).toMatchObject({ read: null, refused: [expect.stringMatching(/^Deviation .004/)] });
    draft.choose({ deviation: '.004 in' });
    draft.apply();
    expect(draft.state.barred).toEqual([]);
    expect(outlineAt(store.state.doc, store.state.assembly, draft.target()!)).toMatchObject({
      outlineDeviation: { value: '.004 in', from: 'stated' },
    });
    const gap = store.state.gaps.find((g) => g.between[0] === 'counterweight 1 rear')!;
    expect(gap.deviationMm).toBeCloseTo(0.1016, 12);
    store.send({ do: 'undo' });
    expect(store.state.doc).toEqual(before);
    expect(store.state.canUndo).toBe(false);
  });

  it('of a new part: its own pairs are proven at once, the others followed until their proof comes', () => {
    const store = createStore(exampleSingle(), { solver: { start: () => {} } });
    const others = store.state.gaps.length;
    store.send({
      do: 'set outline',
      target: { body: 'fixed', name: 'tray', front: dim('-9 mm'), rear: dim('9 mm') },
      entry: entry(chain([-60, -160], [60, -160], [60, -140], [-60, -140])),
    });
    const [fresh, old] = [true, false].map((is) => store.state.gaps.filter((g) => g.id.endsWith('· tray') === is));
    expect(fresh!.length).toBeGreaterThan(0);
    expect(fresh!.every((g) => g.certified)).toBe(true);
    expect(old).toHaveLength(others);
    expect(old!.filter((g) => g.kind !== 'deck').every((g) => !g.certified)).toBe(true);
  });

  it('makes a new fixed part only with name and faces, and not twice', () => {
    const store = createStore(exampleSingle(), { solver: directSolver() });
    const draft = createOutlineDraft(store, directReader);
    draft.choose({ body: NEW_PART });
    draft.load(csv(rows(BOSS.map((p) => ({ ...p, y: dim(`${parseFloat(p.y.value) - 200} mm`) })))));
    draft.apply();
    expect(draft.state.barred.join()).toMatch(/needs a name/);
    draft.choose({ name: 'tray', front: '9 mm', rear: '9 mm' });
    draft.apply();
    expect(draft.state.barred.join()).toMatch(/fixed part faces/);
    draft.choose({ front: '-9 mm' });
    draft.apply();
    expect(store.state.doc.block.fixed).toMatchObject([{ name: 'tray' }]);
    expect(draft.state.choices.body).toBe('tray');
    draft.choose({ body: NEW_PART, name: 'tray', front: '0 mm', rear: '9 mm' });
    draft.load(csv(rows(BOSS)));
    draft.apply();
    expect(draft.state.barred.join()).toMatch(/is there already/);
    store.send({ do: 'clear outline', target: { body: 'fixed', name: 'tray' } });
    expect(store.state.doc.block.fixed).toBeUndefined();
  });
});

/** The log in the running state: written, put right, undone; held against the build by the pool as by one call; dropped when overtaken. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { BuildDocument, MockUpEntry } from '../../../src/build/document.ts';
import { formatBuild, parseBuild } from '../../../src/build/index.ts';
import { compareLog } from '../../../src/model/mockUp/compare.ts';
import { assemblyIndex, dimensionsOf } from '../../../src/model/mockUp/dimensions.ts';
import { onlyLogDiffers, withLogChange } from '../../../src/model/mockUp/editLog.ts';
import { explain } from '../../../src/model/mockUp/explain.ts';
import { watchMockUp } from '../../../src/model/mockUp/watcher.ts';
import { directPool } from '../../../src/model/pieces/kind.ts';
import { WORK } from '../../../src/model/pieces/table.ts';
import type { Solver, SolveTask } from '../../../src/model/solver.ts';
import { runTask } from '../../../src/model/solver.ts';
import { createStore } from '../../../src/model/store.ts';

function bench(): BuildDocument {
  const read = parseBuild(readFileSync(new URL('../../../assets/demos/bench-rig.json', import.meta.url), 'utf8'));
  if (!read.ok) throw new Error('the demo is refused');
  return read.doc;
}

const entry = (more: Partial<MockUpEntry> = {}): MockUpEntry => ({
  assembly: bench().proposed,
  between: ['counterweight 1 front', 'piston 1'],
  measured: '5.20 ±0.05 mm',
  with: 'clay',
  date: '2026-11-25',
  ...more,
});

/** Tasks are counted and done when asked for. */
function opened(doc: BuildDocument) {
  const waiting: (() => void)[] = [];
  const solver: Solver = { start: (task: SolveTask, answer) => waiting.push(() => runTask(task, answer)) };
  const store = createStore(doc, { solver });
  const settle = (): void => {
    for (const run of waiting.splice(0)) run();
  };
  settle();
  return { store, waiting, settle };
}

describe('an entry', () => {
  it('is written, put right and taken out, each as one step that can be undone, and nothing is proven anew', () => {
    const { store, waiting } = opened(bench());
    const start = store.state.doc;
    store.send({ do: 'change log', change: { do: 'add', entry: entry() } });
    store.send({
      do: 'change log',
      change: { do: 'add', entry: entry({ between: ['piston 1', 'deck'], measured: '.012 in' }) },
    });
    store.send({ do: 'change log', change: { do: 'replace', index: 0, entry: entry({ measured: '5.25 mm' }) } });
    expect(store.state.doc.mockUp!.map((e) => e.measured)).toEqual(['5.25 mm', '.012 in']);
    store.send({ do: 'change log', change: { do: 'remove', index: 0 } });
    expect(store.state.doc.mockUp!.map((e) => e.measured)).toEqual(['.012 in']);
    expect(waiting).toHaveLength(0);
    expect(store.state.gaps.every((g) => g.certified)).toBe(true);
    for (let k = 0; k < 4; k++) store.send({ do: 'undo' });
    expect(store.state.doc).toBe(start);
    expect(store.state.canUndo).toBe(false);
  });

  it('that the rules refuse is said so, and the next undo is a build again', () => {
    const { store, settle } = opened(bench());
    store.send({ do: 'change log', change: { do: 'add', entry: entry({ between: ['piston 1', 'piston 2'] }) } });
    expect(store.state.refused.map((p) => [p.rule, p.place])).toEqual([['mock-up pair', 'mockUp[0].between[1]']]);
    store.send({ do: 'undo' });
    settle();
    expect(store.state.refused).toEqual([]);
    expect(store.state.gaps.every((g) => g.certified)).toBe(true);
  });

  it('comes back from a file as it was', () => {
    const log = [entry(), entry({ at: { cylinder: 1, afterTdc: '176 ±1 deg' }, note: 'Bolts torqued.\nSecond try.' })];
    const doc = { ...bench(), mockUp: log };
    const read = parseBuild(formatBuild(doc));
    expect(read.ok && read.doc.mockUp).toEqual(log);
  });

  it('taken out as the last one leaves no log behind', () => {
    const doc = withLogChange({ ...bench(), mockUp: [entry()] }, { do: 'remove', index: 0 });
    expect(doc).toEqual(bench());
    expect(onlyLogDiffers(doc, bench())).toBe(false);
    expect(onlyLogDiffers({ ...doc, mockUp: [entry()] }, doc)).toBe(true);
    expect(onlyLogDiffers({ ...doc, job: { reference: 'Order 4711' } }, doc)).toBe(true);
  });
});

describe('a value that explains an entry', () => {
  it('goes into the build as one step, marked as assumed, with a note where it came from', () => {
    const doc = { ...bench(), mockUp: [entry({ note: 'Cold.' })] };
    const { store, settle } = opened(doc);
    const index = assemblyIndex(doc, doc.proposed);
    const comparisons = compareLog(doc, doc.proposed);
    const found = explain(doc, doc.proposed, comparisons, 0, dimensionsOf(doc, index));
    const skirt = found.find((e) => e.label === 'piston skirt below pin')!;
    store.send({ do: 'change log', change: { do: 'use', explanation: skirt } });
    settle();
    expect(store.state.doc.assemblies[index]!.piston.skirtBelowPin).toEqual({ value: skirt.to, from: 'assumed' });
    expect(store.state.doc.mockUp![0]!.note).toBe(
      `Cold.\nExplained by piston skirt below pin: ${skirt.to} instead of ${skirt.from}.`,
    );
    expect(compareLog(store.state.doc, doc.proposed)[0]!.differs).toBe(false);
    // What rests on it says so from now on.
    const gap = store.state.gaps.find((g) => g.id === 'counterweight 1 front · piston 1')!;
    expect(gap.assumed).toContain('piston skirt below pin');
    store.send({ do: 'undo' });
    expect(store.state.doc).toEqual(doc);
  });
});

describe('the log held against the build', () => {
  const log = [
    entry(),
    entry({ between: ['piston 1', 'deck'], measured: '.012 in' }),
    entry({ assembly: bench().replaced }),
  ];

  it('in pieces is what it is in one call, for every assembly it speaks of', () => {
    const { store } = opened({ ...bench(), mockUp: log });
    const watcher = watchMockUp(store, directPool(WORK));
    const { doc } = store.state;
    const whole = [
      ...compareLog(doc, doc.proposed),
      ...(doc.replaced === doc.proposed ? [] : compareLog(doc, doc.replaced)),
    ];
    expect(watcher.state.comparisons).toEqual(whole.sort((a, b) => a.index - b.index));
    watcher.explain(0);
    const index = assemblyIndex(doc, doc.proposed);
    const mine = whole.filter((c) => c.entry.assembly === doc.proposed);
    expect(watcher.state.explaining).toEqual({
      index: 0,
      done: 1,
      list: explain(doc, doc.proposed, mine, 0, dimensionsOf(doc, index)),
    });
  });

  it('is void while a control is dragged and made anew when the proof has come', () => {
    const { store, settle } = opened({ ...bench(), mockUp: log });
    const watcher = watchMockUp(store, directPool(WORK));
    const before = watcher.state.comparisons![0]!.predicted!.gapMm;
    const path = ['assemblies', assemblyIndex(store.state.doc, store.state.assembly), 'rod', 'length'];
    store.send({ do: 'set dimension', path, text: '138.2 mm', last: false });
    expect(watcher.state.comparisons).toBeNull();
    store.send({ do: 'set dimension', path, text: '138.3 mm', last: true });
    expect(watcher.state.comparisons).toBeNull();
    settle();
    // A longer rod takes the piston away from the counterweight.
    expect(watcher.state.comparisons![0]!.predicted!.gapMm).toBeGreaterThan(before + 0.2);
    expect(watcher.state.explaining).toBeNull();
  });
});

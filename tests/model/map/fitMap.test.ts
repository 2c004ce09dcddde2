/** The map: every figure held against the certified gaps of the same build, solved by themselves and from nothing. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../../src/build/document.ts';
import { parseBuild } from '../../../src/build/index.ts';
import { checkBuild } from '../../../src/build/rules.ts';
import { allowanceMm, certifiedGaps } from '../../../src/model/certified.ts';
import { createStore, directSolver } from '../../../src/model/index.ts';
import { between, rangeAxis, usualAxis } from '../../../src/model/map/axis.ts';
import { CROSSING_MM } from '../../../src/model/map/crossings.ts';
import type { MapGrowing } from '../../../src/model/map/run.ts';
import { runMap } from '../../../src/model/map/run.ts';
import type { MapAxis, MapCell, MapSpec } from '../../../src/model/map/spec.ts';
import { changesTo, withValues } from '../../../src/model/map/spec.ts';
import type { Pool } from '../../../src/model/pieces/kind.ts';
import { directPool } from '../../../src/model/pieces/kind.ts';
import { createPool } from '../../../src/model/pieces/pool.ts';
import type { ToWorker } from '../../../src/model/pieces/serve.ts';
import { serve } from '../../../src/model/pieces/serve.ts';
import type { Work } from '../../../src/model/pieces/table.ts';
import { WORK } from '../../../src/model/pieces/table.ts';

function demo(name: string): BuildDocument {
  const read = parseBuild(readFileSync(new URL(`../../../assets/demos/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
  return read.doc;
}

function axis(doc: BuildDocument, tail: readonly string[], from: string, to: string, cells: number): MapAxis {
  const index = doc.assemblies.findIndex((a) => a.name === doc.proposed);
  const made = rangeAxis(doc, ['assemblies', index, ...tail], from, to, cells);
  if (typeof made === 'string') throw new Error(made);
  return made;
}

/** Stroke across, rod length upward. */
function specOf(
  doc: BuildDocument,
  a: readonly [string, string, number],
  b: readonly [string, string, number],
): MapSpec {
  return {
    doc,
    assembly: doc.proposed,
    deckHeld: true,
    a: axis(doc, ['crank', 'stroke'], ...a),
    b: axis(doc, ['rod', 'length'], ...b),
  };
}

function mapOf(spec: MapSpec, pool: Pool<Work> = directPool(WORK)): MapGrowing {
  const told: MapGrowing[] = [];
  const gaps = certifiedGaps(spec.doc, layOut(spec.doc, spec.assembly), new Map());
  runMap(pool, spec, gaps, {
    grown: (map) => told.push(map),
    failed: (why) => {
      throw new Error(why);
    },
  });
  const last = told.at(-1);
  if (last === undefined || !last.finished) throw new Error('the map came to no end');
  return last;
}

/** Least margin by the definition: gap, less the allowance where it rests on assumed outlines, less its limit; deck only below its limit. */
function worst(
  doc: BuildDocument,
  assembly: string,
): { marginMm: number; slicingMm: number; contact: boolean; kind: string } {
  const allowance = allowanceMm(doc) ?? 0;
  let marginMm = Number.POSITIVE_INFINITY;
  let slicingMm = 0;
  let kind = '';
  let contact = false;
  for (const gap of certifiedGaps(doc, layOut(doc, assembly), new Map())) {
    expect(gap.certified, gap.id).toBe(true);
    const margin = gap.gapMm - (gap.assumed.length > 0 ? allowance : 0) - gap.limitMm;
    if (gap.state === 'contact') contact = true;
    if (gap.kind === 'deck' && margin >= 0) continue;
    if (margin >= marginMm) continue;
    marginMm = margin;
    slicingMm = gap.slicingMm;
    kind = gap.kind;
  }
  return { marginMm, slicingMm, contact, kind };
}

/** Certificates allow 0.001 mm each way, slices what they say. */
const CERTIFIED_MM = 0.002;

/** A depth is followed, not proven: it may miss the deepest place by so much, never exceed it. */
const DEPTH_MM = 0.05;

function holds(spec: MapSpec, cell: MapCell): void {
  const doc = withValues(spec, spec.a.values[cell.i]!, spec.b.values[cell.j]!);
  const where = `${spec.a.values[cell.i]} ${spec.b.values[cell.j]}`;
  const { marginMm, slicingMm, contact, kind } = worst(doc, spec.assembly);
  expect(cell.certified, where).toBe(true);
  expect(cell.state === 'contact', where).toBe(contact);
  if (contact) {
    expect(cell.marginMm, where).toBeGreaterThan(marginMm - CERTIFIED_MM);
    expect(cell.marginMm, where).toBeLessThan(marginMm + DEPTH_MM);
    return;
  }
  expect(cell.pair?.kind, where).toBe(kind);
  expect(Math.abs(cell.marginMm - marginMm), where).toBeLessThan(
    CERTIFIED_MM + slicingMm + (cell.pair?.slicingMm ?? 0),
  );
}

describe('the figure of a cell', () => {
  it('is the worst margin of the build it stands for, certified from nothing: one cylinder', () => {
    const spec = specOf(demo('bench-rig'), ['80 mm', '92 mm', 5], ['122 mm', '150 mm', 6]);
    const { cells } = mapOf(spec);
    expect(cells).toHaveLength(30);
    expect(new Set(cells.map((cell) => cell?.state))).toEqual(new Set(['clears', 'tight', 'contact']));
    for (let k = 0; k < cells.length; k += 7) holds(spec, cells[k]!);
  });

  it('and of a V8 and a six with a camshaft', () => {
    for (const [name, a, b] of [
      ['quarry-v8', ['3.5 in', '3.9 in', 3], ['5.8 in', '6.5 in', 3]],
      ['lake-launch-six', ['92 mm', '104 mm', 2], ['150 mm', '170 mm', 2]],
    ] as const) {
      const spec = specOf(demo(name), a, b);
      const { cells } = mapOf(spec);
      for (const k of [0, 1, cells.length - 2]) holds(spec, cells[k]!);
    }
  });

  it('where a valve is what comes nearest', () => {
    const spec = specOf(demo('quarry-v8'), ['3.40 in', '3.46 in', 2], ['5.96 in', '6.62 in', 2]);
    const { cells } = mapOf(spec);
    const valves = cells.filter((cell) => cell?.pair?.kind === 'piston-intake-valve');
    expect(valves.length).toBeGreaterThan(1);
    for (const cell of valves.slice(0, 2)) holds(spec, cell!);
  });

  it('over dimensions that change shapes, and with the piston as it is, where the deck comes in', () => {
    const doc = demo('bench-rig');
    const spec: MapSpec = {
      doc,
      assembly: doc.proposed,
      deckHeld: false,
      a: axis(doc, ['crank', 'counterweight', 'radius'], '60 mm', '75 mm', 3),
      b: axis(doc, ['crank', 'stroke'], '84 mm', '89 mm', 3),
    };
    const { cells } = mapOf(spec);
    for (const cell of cells) holds(spec, cell!);
    expect(cells.some((cell) => cell?.pair?.kind === 'deck')).toBe(true);
  });
});

describe('what can’t be built', () => {
  it('says why, in the words of the rules', () => {
    const spec = specOf(demo('bench-rig'), ['80 mm', '88 mm', 2], ['40 mm', '140 mm', 2]);
    const { cells } = mapOf(spec);
    for (const cell of cells) {
      const doc = withValues(spec, spec.a.values[cell!.i]!, spec.b.values[cell!.j]!);
      const [first] = checkBuild(doc);
      expect(cell!.refused === null).toBe(first === undefined);
      if (first !== undefined) {
        expect(cell!.refused).toContain(first.allowed);
        expect(cell!.refused).toContain(first.place);
      }
    }
    expect(cells.some((cell) => cell!.refused !== null)).toBe(true);
    expect(cells.some((cell) => cell!.refused === null)).toBe(true);
  });
});

describe('the fit boundary', () => {
  it('runs where the margin is nothing: its points, certified again from nothing, to the error stated', () => {
    const spec = specOf(demo('bench-rig'), ['80 mm', '92 mm', 5], ['122 mm', '150 mm', 5]);
    const map = mapOf(spec);
    expect(map.crossings.length).toBeGreaterThan(3);
    for (const { i, j, along, share, fitMm } of map.crossings) {
      expect(Math.abs(fitMm)).toBeLessThanOrEqual(CROSSING_MM);
      const a = spec.a.values;
      const b = spec.b.values;
      const doc =
        along === 'a'
          ? withValues(spec, between(a[i]!, a[i + 1]!, share), b[j]!)
          : withValues(spec, a[i]!, between(b[j]!, b[j + 1]!, share));
      const { marginMm, slicingMm } = worst(doc, spec.assembly);
      expect(Math.abs(marginMm), `${along} ${i} ${j}`).toBeLessThan(CROSSING_MM + CERTIFIED_MM + 2 * slicingMm);
    }
    // Each point of the lines is one of them.
    const places = map.crossings.map((c) => (c.along === 'a' ? [c.i + c.share, c.j] : [c.i, c.j + c.share]));
    for (const [x, y] of map.boundary.flat()) {
      expect(Math.min(...places.map(([p, q]) => Math.hypot(x - p!, y - q!)))).toBeLessThan(1e-9);
    }
    expect(map.boundary.flat().length).toBeGreaterThanOrEqual(map.crossings.length);
  });
});

describe('work', () => {
  /** Workers that take their messages in an order of their own. */
  function shuffled(workers: number): { pool: Pool<Work>; runAll: () => void } {
    const mail: { message: ToWorker; take: (message: ToWorker) => void }[][] = [];
    const pool = createPool(WORK, {
      workers,
      make: (answered) => {
        const mine: (typeof mail)[number] = [];
        mail.push(mine);
        const take = serve(WORK, (answer) => answered(structuredClone(answer)));
        return { post: (message) => mine.push({ message: structuredClone(message), take }), stop: () => {} };
      },
      later: () => {},
      clock: () => 0,
    });
    return {
      pool,
      runAll: () => {
        for (let turn = 0; mail.some((m) => m.length > 0); turn++) {
          const next = mail[(turn * 7 + 3) % mail.length]!.shift() ?? mail.find((m) => m.length > 0)!.shift()!;
          next.take(next.message);
        }
      },
    };
  }

  const spec = specOf(demo('bench-rig'), ['82 mm', '90 mm', 9], ['126 mm', '146 mm', 4]);

  it('gives the same map at any number of workers', () => {
    const alone = mapOf(spec);
    for (const workers of [3]) {
      const { pool, runAll } = shuffled(workers);
      let last: MapGrowing | null = null;
      runMap(pool, spec, certifiedGaps(spec.doc, layOut(spec.doc, spec.assembly), new Map()), {
        grown: (map) => {
          last = map;
        },
        failed: (why) => {
          throw new Error(why);
        },
      });
      runAll();
      const map = last as MapGrowing | null;
      expect(map?.finished).toBe(true);
      expect(map?.cells).toEqual(alone.cells);
      expect(map?.crossings).toEqual(alone.crossings);
    }
    // Most of a design is known from the one beside it: solved from nothing this build takes some hundreds of evaluations.
    const evaluations = alone.cells.map((cell) => cell!.evaluations).sort((p, q) => p - q);
    const fromNothing = certifiedGaps(spec.doc, layOut(spec.doc, spec.assembly), new Map());
    const whole = fromNothing.reduce((sum, gap) => sum + gap.evaluations, 0);
    expect(evaluations[Math.floor(evaluations.length / 2)]! * 2).toBeLessThan(whole);
  });

  it('cancelled, tells nothing more', () => {
    const { pool, runAll } = shuffled(2);
    let told = 0;
    const cancel = runMap(pool, spec, [], {
      grown: () => {
        told += 1;
        if (told === 2) cancel();
      },
      failed: (why) => {
        throw new Error(why);
      },
    });
    runAll();
    expect(told).toBe(2);
  });
});

describe('going to a cell', () => {
  it('is one step that undoes as one, and the build then has the figure of the cell', () => {
    const doc = demo('bench-rig');
    const store = createStore(doc, { solver: directSolver() });
    const spec = specOf(doc, ['80 mm', '90 mm', 3], ['130 mm', '150 mm', 3]);
    const { cells } = mapOf(spec);
    const cell = cells.find((each) => each!.i === 2 && each!.j === 1)!;
    const before = store.state.doc;
    const deck = store.state.figures.deckClearanceMm;
    store.send({ do: 'set dimensions', changes: changesTo(spec, cell.i, cell.j) });
    const shown = store.state.doc.assemblies.find((a) => a.name === doc.proposed)!;
    expect([shown.crank.stroke.value, shown.rod.length.value]).toEqual([spec.a.values[2], spec.b.values[1]]);
    expect(store.state.figures.deckClearanceMm).toBeCloseTo(deck, 6);
    holds(spec, cell);
    store.send({ do: 'undo' });
    expect(store.state.doc).toBe(before);
    expect(store.state.canUndo).toBe(false);
  });
});

describe('the values along a side', () => {
  it('are round steps in the unit of the present literal, which is one of them', () => {
    const v8 = demo('quarry-v8');
    const { values } = usualAxis(v8, ['assemblies', 1, 'crank', 'stroke'], 64);
    expect(values).toHaveLength(64);
    expect(values).toContain(v8.assemblies[1]!.crank.stroke.value);
    expect(values[1]).toBe('3.410 in');
    // A fraction stays one where it can.
    expect(usualAxis(v8, ['assemblies', 2, 'crank', 'stroke'], 16).values).toContain('3 3/4 in');
    const rig = demo('bench-rig');
    expect(usualAxis(rig, ['assemblies', 0, 'crank', 'counterweight', 'halfAngle'], 16).values[3]).toMatch(/ deg$/);
  });

  it('of a range that is none are refused with the reason', () => {
    const doc = demo('quarry-v8');
    const path = ['assemblies', 1, 'crank', 'stroke'];
    for (const [from, to, cells, why] of [
      ['3.9 in', '3.5 in', 16, 'rises'],
      ['3.5', 'tall', 16, 'tall is refused'],
      ['3.5', '3.5003', 16, '0.0001 in'],
      ['3.5', '3.9', 97, '2 to 96'],
      ['3.5', '66 deg', 16, 'refused'],
    ] as const) {
      expect(rangeAxis(doc, path, from, to, cells), `${from} ${to}`).toContain(why);
    }
    expect(rangeAxis(doc, path, '3.5', '90 mm', 3)).toEqual({ path, values: ['3.500 in', '3.5217 in', '3.5433 in'] });
  });
});

/** The figures of the job sheet: by hand, and against the sums and the gaps that they are taken from. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import { exactBase } from '../../../src/build/literal.ts';
import { certifiedGaps } from '../../../src/model/certified.ts';
import { findCures } from '../../../src/model/cures.ts';
import { distinct } from '../../../src/model/distinct.ts';
import { balanceCardOf } from '../../../src/model/paper/balanceCard.ts';
import { deckStacksOf } from '../../../src/model/paper/deckStack.ts';
import { dimensionsOf } from '../../../src/model/paper/dimensions.ts';
import { grindSheetOf } from '../../../src/model/paper/grindSheet.ts';
import { orderListOf } from '../../../src/model/paper/orderList.ts';
import { watchPaper } from '../../../src/model/paper/watcher.ts';
import { directPool } from '../../../src/model/pieces/kind.ts';
import { WORK } from '../../../src/model/pieces/table.ts';
import { directSolver } from '../../../src/model/solver.ts';
import { createStore } from '../../../src/model/store.ts';
import { type Amount, sumsOf, written } from '../../../src/model/sums/index.ts';
import { DEMO_NAMES, demo } from '../../support/demo.ts';
import { dim } from '../../support/exampleBuild.ts';

const CORE = 'Core crank ground off-centre';
const inches = (amount: Amount | null): string => (amount === null ? 'none' : written(amount, 'in'));

describe('the grind sheet', () => {
  it('says of each throw what the wheel takes, by hand', () => {
    const sheet = grindSheetOf(demo('quarry-v8'), CORE)!;
    expect(sheet.rows.map((r) => r.throwNumber)).toEqual([1, 2, 3, 4]);
    const last = sheet.rows[3]!;
    // Throw 4 was measured at a radius of 1.749 and a journal of 2.624 in; wanted 1.860 and 2.375 in: the middle moves
    // .111 in, and (2.624 − 2.375) / 2 = .1245 in comes off all round, less and more by it; stock to leave .004 in.
    expect(
      [last.radiusBefore, last.radiusAfter, last.journalBefore, last.journalAfter, last.movement].map(inches),
    ).toEqual(['1.7490 in', '1.8600 in', '2.6240 in', '2.3750 in', '.1110 in']);
    expect([last.thin, last.thick, last.spare, last.caseLeft].map(inches)).toEqual([
      '.0135 in',
      '.2355 in',
      '.0190 in',
      '−.1105 in',
    ]);
  });

  it('spares what the sums say, throw by throw', () => {
    const doc = demo('quarry-v8');
    const sums = sumsOf(doc, CORE).flatMap((g) => g.sums);
    for (const row of grindSheetOf(doc, CORE)!.rows) {
      const thin = sums.find((s) => s.key === `removed on the thin side of throw ${row.throwNumber}`)!;
      expect(thin.remark!.words).toBe(`cleans up, ${written(row.spare, 'both')} of diameter to spare`);
    }
  });

  it('lacks where a core does not clean up, as the sums do', () => {
    const small = demo('quarry-v8', { 'assemblies[1].core.throws[3].rodJournal': dim('2.600 in', 'measured') });
    const row = grindSheetOf(small, CORE)!.rows[3]!;
    // (2.600 − 2.375) / 2 − .111 = .0015 in on the thin side, .0025 less than the stock: .005 in of diameter.
    expect(inches(row.spare)).toBe('−.0050 in');
  });

  it('is none without a core, and says what it lacks', () => {
    expect(grindSheetOf(demo('quarry-v8'), 'As removed')).toBeNull();
    const bare = grindSheetOf(
      demo('quarry-v8', { 'assemblies[1].core.leastStock': undefined, 'assemblies[1].core.throws': undefined }),
      CORE,
    )!;
    expect(bare.rows).toEqual([]);
    expect(bare.lacks).toEqual(['least stock, on the radius']);
  });
});

describe('the deck stack', () => {
  it('adds up exactly, in every demo and with an offset pin', () => {
    const docs = [
      ...DEMO_NAMES.map((name) => demo(name)),
      demo('quarry-v8', { 'assemblies[1].piston.pinOffset': dim('.040 in') }),
    ];
    for (const doc of docs) {
      for (const { name } of doc.assemblies) {
        for (const { lines } of deckStacksOf(doc, name)) {
          let sum = lines[0]!.amount.value;
          for (const line of lines.slice(1)) {
            if (line.sign === '=') expect(line.amount.value.toFixed()).toBe(sum.toFixed());
            else sum = line.sign === '−' ? sum.minus(line.amount.value) : sum.plus(line.amount.value);
          }
          expect(lines.filter((l) => l.sign === '=')).toHaveLength(2);
        }
      }
    }
  });

  it('of the V8, by hand', () => {
    const [stack, ...others] = deckStacksOf(demo('quarry-v8'), CORE);
    expect(others).toEqual([]);
    // 9.480 − 1.860 − 6.000 − 1.610 = .010 in, and .041 in of gasket.
    expect(stack!.lines.map((l) => `${l.sign}${inches(l.amount)}`)).toEqual([
      '9.4800 in',
      '−1.8600 in',
      '−6.0000 in',
      '−1.6100 in',
      '=.0100 in',
      '+.0410 in',
      '=.0510 in',
    ]);
    // For .005 in of clearance the piston is .005 in higher.
    expect(
      stack!.wanted
        .find((w) => w.name === 'compression height')!
        .amount.value.div(25.4)
        .toFixed(),
    ).toBe('1.615');
  });
});

describe('the balance card', () => {
  it('adds up to the bobweight, by hand', () => {
    const { bobweights } = balanceCardOf(demo('quarry-v8'), CORE);
    expect(bobweights).toHaveLength(1);
    const [card] = bobweights;
    // Two rods, half of what goes up and down: 2 x (472.5 + 44) + (498 + 128.5 + 48 + 3 + 186) + 5 = 1901.5 g.
    const parts = card!.lines.map((l) => [l.name, l.part!.value.toNumber()]);
    expect(Object.fromEntries(parts)).toEqual({
      'rod, big end': 945,
      'bearing of a rod': 88,
      'rod, small end': 186,
      piston: 498,
      'piston pin': 128.5,
      'rings of a piston': 48,
      'locks of a pin': 3,
      'oil of a crankpin': 5,
    });
    expect(card!.lines.reduce((sum, l) => sum + l.part!.value.toNumber(), 0)).toBe(1901.5);
    expect(card!.total!.value.toNumber()).toBe(1901.5);
  });

  it('has no total where weights are not stated, and says which', () => {
    const [card] = balanceCardOf(demo('bench-rig'), 'Longer stroke').bobweights;
    expect(card!.total).toBeNull();
    expect(card!.lacks).toContain('piston');
    expect(card!.lines.every((l) => l.each === null && l.part === null)).toBe(true);
  });
});

describe('the list of parts', () => {
  it('counts them and holds them against those before', () => {
    const of = (doc: ReturnType<typeof demo>, name: string): unknown[] =>
      orderListOf(doc, name).map((i) => [i.what, i.count, i.cylinders, i.against]);
    expect(of(demo('quarry-v8'), CORE)).toEqual([
      ['Rod', 8, [], 'other'],
      ['Piston', 8, [], 'other'],
      ['Piston pin', 8, [], 'other'],
      ['Rod bearing, pair of shells', 8, [], 'other'],
      ['Main bearing, pair of shells', 5, [], 'same'],
    ]);
    // The rods are kept; rods 2 and 5 are others than the rest, before and after.
    expect(of(demo('lake-launch-six'), 'Core crank, old rods').slice(0, 3)).toEqual([
      ['Rod', 4, [1, 3, 4, 6], 'other journal'],
      ['Rod', 2, [2, 5], 'other journal'],
      ['Piston', 6, [], 'other'],
    ]);
    expect(of(demo('bench-rig'), 'As it stands on the bench').map((row) => (row as unknown[])[3])).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('the dimensions', () => {
  it('are every dimension of block and parts, as written, with where it comes from', () => {
    const doc = demo('quarry-v8');
    const groups = dimensionsOf(doc, CORE, doc.replaced);
    const row = (title: string, label: string) =>
      groups.find((g) => g.title === title)!.rows.find((r) => r.label === label)!;
    expect(row('Block', 'bore')).toMatchObject({
      replaced: null,
      proposed: { text: '4.180 +0.001/-0.000 in', from: 'measured' },
    });
    const stroke = row('Crankshaft', 'stroke');
    expect([stroke.replaced, stroke.proposed]).toEqual([
      { text: '3 1/2 in', from: 'measured' },
      { text: '3.720 in', from: 'stated' },
    ]);
    // 3.720 − 3.500 in.
    expect(inches(stroke.change)).toBe('.220 in');
    expect(row('Crankshaft', 'counterweight corner radius').proposed).toEqual({ text: '.250 in', from: 'assumed' });
    // Counted without the code under test: every { value, from } of these parts of the proposed assembly.
    const assembly = doc.assemblies.find((a) => a.name === CORE)!;
    for (const [title, part] of [
      ['Rod', assembly.rod],
      ['Bearings', assembly.bearings],
      ['Weights', assembly.weights],
      ['Valves', assembly.valvetrain],
    ] as const) {
      const dims = JSON.stringify(part).match(/"from":/g)!.length;
      const rows = groups.find((g) => g.title === title)!.rows.filter((r) => r.proposed?.from != null);
      expect(rows, title).toHaveLength(dims);
    }
  });

  it('tell what single parts have of their own', () => {
    const doc = demo('lake-launch-six');
    const own = dimensionsOf(doc, 'As removed', null).find((g) => g.title === 'Parts with dimensions of their own')!;
    expect(own.rows.map((r) => r.label)).toContain('rod 2, shoulder height');
    const entry = doc.assemblies[0]!.own!.find((o) => o.body === 'rod' && o.cylinder === 2)!;
    const set = (entry as { set: Record<string, { value: string }> }).set;
    expect(own.rows.find((r) => r.label === 'rod 2, shoulder height')!.proposed!.text).toBe(
      set['shoulderHeight']!.value,
    );
    expect(exactBase(set['shoulderHeight']!.value, 'length').gt(0)).toBe(true);
  });
});

describe('what takes longer', () => {
  it('is the certified gaps before, a story for each close gap, the cures of each that does not clear', () => {
    const doc = demo('bench-rig');
    const store = createStore(doc, { solver: directSolver() });
    store.send({ do: 'show assembly', name: 'Short rod' });
    let told = 0;
    const watcher = watchPaper(store, directPool(WORK), 'test', { before: true, closeGaps: true }, () => {
      told += 1;
    });
    expect(watcher.worked.of).toBe(0);
    watcher.ask(true);
    const { worked } = watcher;
    expect(worked.failed).toBeNull();
    expect(worked.done).toBe(worked.of);
    expect(told).toBeGreaterThan(0);
    const before = certifiedGaps(doc, layOut(doc, doc.replaced), new Map());
    const byId = new Map(worked.before!.map((g) => [g.id, g.gapMm]));
    expect(byId.size).toBe(before.length);
    for (const gap of before) expect(byId.get(gap.id)!).toBeCloseTo(gap.gapMm, 3);
    const { gaps, engine, assembly } = store.state;
    const ill = distinct(engine, gaps).filter(({ gap }) => gap.state === 'contact');
    expect(ill.length).toBeGreaterThan(0);
    for (const { gap } of ill) {
      expect(worked.cures.get(gap.id)).toEqual(findCures(doc, assembly, gaps, gap.id));
      expect(worked.stories.has(gap.id)).toBe(true);
    }
    // Words for the papers change nothing; a dimension does.
    store.send({ do: 'put', path: ['job', 'reference'], value: 'Order 4711' });
    expect(watcher.worked).toBe(worked);
    store.send({
      do: 'set dimension',
      path: ['assemblies', 1, 'crank', 'counterweight', 'radius'],
      text: '62 mm',
      last: true,
    });
    expect(watcher.worked).not.toBe(worked);
    expect(watcher.worked.done).toBe(watcher.worked.of);
  });
});

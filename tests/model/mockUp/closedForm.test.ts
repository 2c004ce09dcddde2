/**
 * The mock-up log against sums done by hand. In this build the pin boss meets the round rim of the counterweight: the rim has the crank axis
 * for its centre, the boss the pin. So their gap is the distance of the pin from the crank axis less both radii; it is smallest with crank
 * and rod in line, where that distance is rod length less half the stroke, whatever the offset: 6.000 - 1.905 - .680 - 2.900 = .515 in.
 */
import { describe, expect, it } from 'vitest';
import type { BuildDocument, MockUpEntry } from '../../../src/build/document.ts';
import { readContent } from '../../../src/build/index.ts';
import { type Comparison, compareLog } from '../../../src/model/mockUp/compare.ts';
import { assemblyIndex, dimensionsOf } from '../../../src/model/mockUp/dimensions.ts';
import { type Explanation, explain } from '../../../src/model/mockUp/explain.ts';
import { withValue } from '../../../src/model/mockUp/setValue.ts';
import { changed } from '../../support/changed.ts';
import { dim, exampleV8 } from '../../support/exampleBuild.ts';

const IN = 25.4;
const A = 'assemblies[1]';
const GAP_IN = 0.515;

const entry = (measured: string, more: Partial<MockUpEntry> = {}): MockUpEntry => ({
  assembly: 'Stroker',
  between: ['counterweight 2 front', 'piston 3'],
  measured,
  with: 'clay',
  date: '2026-11-25',
  ...more,
});

function build(log: readonly MockUpEntry[], changes: Record<string, unknown> = {}): BuildDocument {
  const read = readContent(
    changed(exampleV8(), { [`${A}.piston.skirtBelowPin`]: dim('.300 in'), mockUp: log, ...changes }),
  );
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.place} ${p.rule}`).join('; '));
  return read.doc;
}

function compare(measured: string, more: Partial<MockUpEntry> = {}, changes: Record<string, unknown> = {}): Comparison {
  return compareLog(build([entry(measured, more)], changes), 'Stroker')[0]!;
}

function explained(doc: BuildDocument, index = 0): Explanation[] {
  const comparisons = compareLog(doc, 'Stroker');
  return explain(doc, 'Stroker', comparisons, index, dimensionsOf(doc, assemblyIndex(doc, 'Stroker')));
}

describe('a prediction', () => {
  it('of the smallest gap is the sum by hand, and the difference is measured less predicted', () => {
    const { predicted, differenceMm } = compare('.500 in');
    expect(predicted!.gapMm).toBeCloseTo(GAP_IN * IN, 6);
    expect(predicted!.certified).toBe(true);
    expect(differenceMm).toBeCloseTo(-0.015 * IN, 6);
  });

  it('does not mind which body is named first', () => {
    const { predicted } = compare('.500 in', { between: ['piston 3', 'counterweight 2 front'] });
    expect(predicted!.gapMm).toBeCloseTo(GAP_IN * IN, 6);
  });

  // The pin offset is -.040 in. True TDC stands at asin(e / (l + r)) from the bore line.
  it.each([160, 170, 180, 185, 190, -170])('at %s degrees after TDC is the slider-crank by hand', (afterTdc) => {
    const [l, r, e] = [6, 1.905, -0.04];
    const alpha = Math.asin(e / (l + r)) + (afterTdc * Math.PI) / 180;
    const height = r * Math.cos(alpha) + Math.sqrt(l * l - (r * Math.sin(alpha) - e) ** 2);
    const gapIn = Math.hypot(height, e) - 0.68 - 2.9;
    const { predicted } = compare('.500 in', { at: { cylinder: 3, afterTdc: `${afterTdc} deg` } });
    expect(predicted!.gapMm).toBeCloseTo(gapIn * IN, 5);
  });

  it('at a place counted from another cylinder is the same place', () => {
    // Cross plane, cylinder 1 on the right bank at +45 of a clockwise engine: cylinders 3 and 1 stand on one bank, throw 2 is 90 degrees from throw 1.
    const from3 = compare('.500 in', { at: { cylinder: 3, afterTdc: '175 deg' } }).predicted!.gapMm;
    const from1 = [85, 265].map(
      (deg) => compare('.500 in', { at: { cylinder: 1, afterTdc: `${deg} deg` } }).predicted!.gapMm,
    );
    expect(Math.min(...from1.map((gap) => Math.abs(gap - from3)))).toBeLessThan(1e-6);
  });

  it('of a deck clearance is the sum of the stack', () => {
    // Deck height less pin height at true TDC, sqrt((l + r)² - e²) = sqrt(7.905² - .040²) in, less compression height.
    const doc = exampleV8();
    const deck = Number.parseFloat(doc.block.deckHeight.value);
    const height = Number.parseFloat(doc.assemblies[1]!.piston.compressionHeight.value);
    const { predicted } = compare('.010 in', { between: ['piston 3', 'deck'] });
    expect(predicted!.gapMm).toBeCloseTo((deck - Math.sqrt(7.905 ** 2 - 0.04 ** 2) - height) * IN, 6);
  });

  it('is left out where the two never come within reach of one another', () => {
    const { predicted, differenceMm, differs } = compare('.500 in', { between: ['counterweight 1 front', 'piston 8'] });
    expect([predicted, differenceMm, differs]).toEqual([null, null, false]);
  });
});

describe('what the tolerances explain', () => {
  it('is the root of the sum of the squares of reading, rod, boss, counterweight and half the stroke’s', () => {
    const { shares, explainedUpMm, explainedDownMm, withoutTolerance } = compare(
      '.500 ±0.003 in',
      {},
      {
        [`${A}.rod.length`]: dim('6.000 ±0.004 in'),
        [`${A}.piston.bossRadius`]: dim('.680 +0.002/-0.001 in'),
        [`${A}.crank.counterweight.radius`]: dim('2.900 ±0.012 in'),
        [`${A}.crank.stroke`]: dim('3.810 ±0.002 in'),
        [`${A}.rod.beamWidth`]: dim('.900 ±0.020 in'),
      },
    );
    const root = (boss: number) => Math.hypot(0.003, 0.004, boss, 0.012, 0.001) * IN;
    expect(explainedUpMm).toBeCloseTo(root(0.001), 4);
    // The certificate's own micrometre is added on the side to which it may lie.
    expect(explainedDownMm - 0.001).toBeCloseTo(root(0.002), 4);
    expect(shares.map((s) => s.label).sort()).toEqual(
      ['the reading', 'rod length', 'piston boss radius', 'counterweight radius', 'stroke'].sort(),
    );
    expect(withoutTolerance).toBeGreaterThan(5);
  });

  it('of a reading without a tolerance is half its last place', () => {
    for (const [measured, halfMm] of [
      ['.500 in', 0.0127],
      ['500 thou', 0.0127],
      ['12.7 mm', 0.05],
      ['33/64 in', 25.4 / 128],
    ] as const) {
      expect(compare(measured).explainedUpMm).toBeCloseTo(halfMm, 6);
    }
  });

  it('of a crank angle is what the gap does within it', () => {
    const at = (afterTdc: string) => compare('.5000000 in', { at: { cylinder: 3, afterTdc } });
    const [here, before, after] = ['150.00000 deg', '148.00000 deg', '152.00000 deg'].map(
      (deg) => at(deg).predicted!.gapMm,
    ) as [number, number, number];
    const { explainedUpMm, explainedDownMm } = at('150 ±2 deg');
    expect(explainedUpMm).toBeCloseTo(before - here, 4);
    expect(explainedDownMm - 0.001).toBeCloseTo(here - after, 4);
  });

  it('decides whether the difference is one', () => {
    // .515 predicted, counterweight ±.012: down to .503.
    const changes = { [`${A}.crank.counterweight.radius`]: dim('2.900 ±0.012 in') };
    expect(compare('.5035 ±0.0001 in', {}, changes).differs).toBe(false);
    expect(compare('.5025 ±0.0001 in', {}, changes).differs).toBe(true);
    expect(compare('.5265 ±0.0001 in', {}, changes).differs).toBe(false);
    expect(compare('.5275 ±0.0001 in', {}, changes).differs).toBe(true);
  });

  it('parts that are found to touch agree with any contact predicted', () => {
    const deep = { [`${A}.crank.counterweight.radius`]: dim('3.500 in') };
    const touching = compare('0 in', {}, deep);
    expect(touching.predicted!.gapMm).toBeLessThan(-2);
    expect([touching.differenceMm, touching.differs]).toEqual([0, false]);
    expect(compare('.020 in', {}, deep).differs).toBe(true);
  });
});

describe('what would explain a difference', () => {
  // Measured .495 against .515: each of these by itself takes .020 in off the gap.
  const HAND: readonly [label: string, toIn: number][] = [
    ['counterweight radius', 2.92],
    ['piston boss radius', 0.7],
    ['rod length', 5.98],
    ['stroke', 3.85],
  ];

  it('has each dimension of the sum at the value by hand, and every value restores the measured gap', () => {
    const doc = build([entry('.495 ±0.001 in')]);
    const list = explained(doc);
    for (const [label, toIn] of HAND) {
      const found = list.find((e) => e.label === label && e.body === null);
      expect(Number.parseFloat(found!.to), label).toBeCloseTo(toIn, 3);
    }
    for (const e of list) {
      const next = withValue(doc, e.target, { value: e.to, from: 'assumed' });
      const after = compareLog(next, 'Stroker')[0]!;
      expect(Math.abs(after.differenceMm!), `${e.label} ${e.to}`).toBeLessThanOrEqual(0.01);
      expect(Math.abs(e.change), e.label).toBeLessThanOrEqual(6.36);
    }
  });

  it('puts first what lies within its tolerance, then what was assumed, then what was stated', () => {
    const doc = build([entry('.495 ±0.001 in')], {
      [`${A}.rod.length`]: dim('6.000 ±0.025 in', 'measured'),
      [`${A}.piston.bossRadius`]: dim('.680 in', 'assumed'),
      [`${A}.crank.counterweight.radius`]: dim('2.900 ±0.005 in', 'measured'),
    });
    const grounds = explained(doc).filter((e) => HAND.some(([label]) => label === e.label && e.body === null));
    expect(grounds.map((e) => [e.label, e.ground])).toEqual([
      ['rod length', 'tolerance'],
      ['piston boss radius', 'assumed'],
      ['stroke', 'stated'],
      ['counterweight radius', 'measured'],
    ]);
  });

  it('tells a fault of all from a fault of one by the other measurements', () => {
    const others = [
      entry('.495 ±0.002 in', { between: ['counterweight 1 front', 'piston 1'] }),
      entry('.495 ±0.002 in', { between: ['counterweight 3 front', 'piston 5'] }),
    ];
    const all = explained(build([entry('.495 ±0.002 in'), ...others]));
    const radius = all.filter((e) => e.label === 'counterweight radius');
    expect(radius.map((e) => [e.body, e.others.map((o) => o.agreesAfter)])).toEqual([
      [null, [true, true]],
      ['counterweight 2 front', [false, false]],
    ]);
    const one = explained(
      build([entry('.495 ±0.002 in'), ...others.map((o) => ({ ...o, measured: '.515 ±0.002 in' }))]),
    );
    expect(
      one.filter((e) => e.label === 'counterweight radius').map((e) => [e.body, e.others.map((o) => o.agreesAfter)]),
    ).toEqual([
      ['counterweight 2 front', [true, true]],
      [null, [false, false]],
    ]);
  });

  it('of a deck clearance are deck, rod, half the stroke and compression height', () => {
    const doc = build([entry('.030 in', { between: ['piston 3', 'deck'] })]);
    const before = compareLog(doc, 'Stroker')[0]!.differenceMm! / IN;
    const changeIn = (label: string) => explained(doc).find((e) => e.label === label && e.body === null)!.change / IN;
    expect(changeIn('deck height')).toBeCloseTo(before, 3);
    expect(changeIn('piston compression height')).toBeCloseTo(-before, 3);
    expect(changeIn('rod length')).toBeCloseTo(-before, 3);
    expect(changeIn('stroke')).toBeCloseTo(-2 * before, 3);
  });

  it('is nothing where measured and predicted agree, or no value within a quarter inch does it', () => {
    expect(explained(build([entry('.515 in')]))).toEqual([]);
    const far = explained(build([entry('1.000 in')]));
    expect(far.filter((e) => e.label === 'counterweight radius')).toEqual([]);
  });
});

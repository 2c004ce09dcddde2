/** Curves and comparisons: values of the core, marks at true angles, gaps as certified, tables read back, bad input refused. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../../src/build/document.ts';
import type { MotionMeasures } from '../../../src/core/kinematics/motionMeasures.ts';
import type { SliderCrank } from '../../../src/core/kinematics/sliderCrank.ts';
import { comparisonsOf, engineOf } from '../../../src/model/curves/compare.ts';
import { csvOf } from '../../../src/model/curves/csv.ts';
import { accelerationParts, DEGREES, motionLine, valueAt } from '../../../src/model/curves/lines.ts';
import {
  againstRatio,
  type Held,
  keyOf,
  MEASURES,
  measuresOverRatios,
  RATIOS,
} from '../../../src/model/curves/measured.ts';
import { toTheEnd } from '../../../src/model/pieces/kind.ts';
import { changed } from '../../support/changed.ts';
import { exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';

const doc = exampleSingle();
const engine = layOut(doc, doc.proposed);
const cylinder = engine.cylinders[0]!;
const X = { name: 'x', look: 0 };
const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = cylinder.slider;

describe('a curve', () => {
  it('of position is the slider-crank’s: r cos a + sqrt(l² - (r sin a - e)²) below its top', () => {
    const { values, marks } = motionLine(X, cylinder, 'position', 1000);
    const tdc = Math.asin(e / (r + l));
    const top = Math.sqrt((r + l) ** 2 - e ** 2);
    for (const k of [0, 60, 180, 333, 720]) {
      const a = tdc + (DEGREES[k]! * Math.PI) / 180;
      const height = r * Math.cos(a) + Math.sqrt(l * l - (r * Math.sin(a) - e) ** 2);
      expect(values[k]!).toBeCloseTo(top - height, 9);
    }
    expect(marks[0]).toEqual({ deg: 0, value: expect.closeTo(0, 9) });
    expect(marks[1]!.value).toBeCloseTo(top - Math.sqrt((l - r) ** 2 - e ** 2), 9);
  });

  it('has its marks where no sample is beyond them', () => {
    for (const of of [
      'speed',
      'acceleration',
      'rod angle',
      'side force share',
      'side force of inertia',
      'difference from harmonic',
    ] as const) {
      const { values, marks } = motionLine(X, cylinder, of, 1500);
      const own = marks.map((m) => m.value);
      const span = Math.max(...own) - Math.min(...own);
      expect(Math.max(...values), of).toBeLessThanOrEqual(Math.max(...own, 0) + 1e-9 * span);
      expect(Math.min(...values), of).toBeGreaterThanOrEqual(Math.min(...own, 0) - 1e-9 * span);
      for (const { deg } of marks) expect(deg >= 0 && deg <= 360).toBe(true);
    }
  });

  it('is read at the cursor’s own angle, not at the nearest point that is drawn', () => {
    const line = motionLine(X, cylinder, 'position', 1000);
    const deg = 67.33;
    const a = Math.asin(e / (r + l)) + (deg * Math.PI) / 180;
    const height = r * Math.cos(a) + Math.sqrt(l * l - (r * Math.sin(a) - e) ** 2);
    expect(line.at(deg)).toEqual({
      value: expect.closeTo(Math.sqrt((r + l) ** 2 - e ** 2) - height, 9),
      exact: true,
    });
    // At half a degree the nearest point is off by more than the last digit shown.
    expect(Math.abs(line.values[Math.round(2 * deg)]! - line.at(deg).value)).toBeGreaterThan(0.01);
    expect(valueAt(cylinder.slider, 'position', a, 1000)).toBe(line.at(deg).value);
  });

  it('of the acceleration has parts of the first and second order', () => {
    const parts = accelerationParts({ name: 'x', look: 3 }, cylinder, 1000);
    expect(parts.map((p) => [p.name, p.look])).toEqual([
      ['x, order 1', 3],
      ['x, order 2', 4],
    ]);
    expect(parts[0]!.at(45.5).value).toBe(parts[0]!.values[91]);
    // The second goes twice round: half a turn on it is the same.
    expect(parts[1]!.values[100]!).toBeCloseTo(parts[1]!.values[460]!, 9);
  });
});

describe('what is compared', () => {
  it('the assemblies of a build, each under its name', () => {
    const v8 = exampleV8();
    const { list, left } = comparisonsOf(v8, v8.proposed, 1, 'assemblies', '');
    expect(list.map((c) => c.name)).toEqual(v8.assemblies.map((a) => a.name));
    expect(left).toEqual([]);
  });

  it('rods shorter and longer by what was asked, the deck clearance held', () => {
    const { list } = comparisonsOf(doc, doc.proposed, 1, 'rod length', '5 mm');
    expect(list.map(({ cylinders: x }) => x[0]!.slider.rodLengthMm - l)).toEqual([
      expect.closeTo(-5, 6),
      expect.closeTo(0, 6),
      expect.closeTo(5, 6),
    ]);
    for (const { cylinders: x } of list) expect(x[0]!.deckClearanceMm).toBeCloseTo(cylinder.deckClearanceMm, 4);
  });

  it('strokes and offsets; what can’t be built is left out with the reason', () => {
    const strokes = comparisonsOf(doc, doc.proposed, 1, 'stroke', '4 mm').list;
    expect(strokes[2]!.cylinders[0]!.slider.crankRadiusMm).toBeCloseTo(r + 2, 6);
    const offsets = comparisonsOf(doc, doc.proposed, 1, 'pin offset', '1 mm').list;
    expect(offsets.map(({ cylinders: x }) => x[0]!.slider.offsetMm).map((o, _, all) => o - all[1]!)).toEqual([
      expect.closeTo(-1, 6),
      0,
      expect.closeTo(1, 6),
    ]);
    const { list, left } = comparisonsOf(doc, doc.proposed, 1, 'stroke', '2000 mm');
    expect(list).toHaveLength(1);
    expect(left).toHaveLength(2);
    for (const bad of ['', 'much', '5', '12 parsecs', 'NaN mm', '0 mm'])
      expect(() => comparisonsOf(doc, doc.proposed, 1, 'rod length', bad), bad).toThrow();
  });
});

describe('a dimension varied', () => {
  // Rod and piston of cylinder 3 have figures of their own: what every rod is changed by, and every deck clearance held, holds for them too.
  const own = changed(exampleV8(), {
    'assemblies[1].own': [
      { body: 'rod', cylinder: 3, set: { length: { value: '5.850 in', from: 'measured' } } },
      {
        body: 'piston',
        cylinder: 3,
        set: {
          compressionHeight: { value: '1.390 in', from: 'measured' },
          pinOffset: { value: '.020 in', from: 'measured' },
        },
      },
    ],
  }) as unknown as BuildDocument;
  /** Compression heights are written to the sixth decimal of an inch: half of that, and a millionth for the offset’s part. */
  const WRITTEN_MM = 25.4e-6 / 2 + 1e-6;
  const present = layOut(own, own.proposed).cylinders;

  it.each([
    ['rod length', '.125 in', (x: SliderCrank) => x.rodLengthMm],
    ['stroke', '.125 in', (x: SliderCrank) => 2 * x.crankRadiusMm],
  ] as const)('%s: of each cylinder by itself, its own deck clearance held', (what, by, of) => {
    const { list, left } = comparisonsOf(own, own.proposed, 3, what, by);
    expect(left).toEqual([]);
    for (const [k, { cylinders, doc: next, assembly }] of list.entries()) {
      for (const [n, c] of cylinders.entries()) {
        expect(of(c.slider) - of(present[n]!.slider)).toBeCloseTo((k - 1) * 0.125 * 25.4, 6);
        expect(Math.abs(c.deckClearanceMm - present[n]!.deckClearanceMm)).toBeLessThan(WRITTEN_MM);
      }
      expect(layOut(next, assembly).cylinders).toEqual(cylinders);
    }
    if (what === 'rod length')
      expect(list.map(({ name }) => name)).toEqual(['Rod 5.725 in', 'Rod 5.850 in', 'Rod 5.975 in']);
  });

  it('the middle one is the assembly as it stands, part for part', () => {
    const [, middle] = comparisonsOf(own, own.proposed, 1, 'rod length', '5 mm').list;
    const [then, now] = [layOut(own, own.proposed), engineOf(middle!)];
    expect(now.pairs.map((p) => [p.id, p.key])).toEqual(then.pairs.map((p) => [p.id, p.key]));
  });

  it('pin offset: all pistons alike, to either side and none', () => {
    const { list } = comparisonsOf(own, own.proposed, 3, 'pin offset', '.060 in');
    expect(list.map(({ name }) => name)).toEqual(['Offset −.060 in', 'Offset .000 in', 'Offset .060 in']);
    for (const [k, { cylinders }] of list.entries())
      for (const c of cylinders) {
        expect(c.slider.offsetMm - c.boreOffsetMm).toBeCloseTo((k - 1) * 0.06 * 25.4, 9);
        expect(Math.abs(c.deckClearanceMm - present[c.number - 1]!.deckClearanceMm)).toBeLessThan(WRITTEN_MM);
      }
  });

  it('any number of assemblies is compared, none left out without a word', () => {
    const many = {
      ...doc,
      assemblies: Array.from({ length: 9 }, (_, k) => ({ ...doc.assemblies[0]!, name: `a${k}` })),
    };
    expect(comparisonsOf(many, 'a0', 1, 'assemblies', '').list).toHaveLength(9);
  });
});

describe('against rod ratio', () => {
  it('the curve of each stroke goes through the mark of its own engine; of two with the same stroke one has the curve', () => {
    const other = layOut(doc, doc.replaced).cylinders[0]!;
    const longer = { ...cylinder.slider, rodLengthMm: l + 8 };
    const compared = [cylinder.slider, other.slider, longer].map((slider, look) => ({ name: `${look}`, look, slider }));
    const known = new Map<string, readonly MotionMeasures[]>();
    const over = (held: Held) => known.get(keyOf(held)) ?? toTheEnd(measuresOverRatios(held));
    for (const { slider } of compared) {
      const held = { ...slider, withinMm: 2.5 };
      known.set(keyOf(held), over(held));
    }
    expect(known.size).toBe(2);
    for (const measure of MEASURES.slice(2)) {
      const lines = againstRatio(measure, compared, 2.5, over, 1500);
      for (const line of lines) {
        const mark = line.marks[0]!;
        const { values } = line === lines[2] ? lines[0]! : line;
        const k = RATIOS.findIndex((ratio) => ratio > mark.deg);
        const part = (mark.deg - RATIOS[k - 1]!) / (RATIOS[k]! - RATIOS[k - 1]!);
        const on = values[k - 1]! + part * (values[k]! - values[k - 1]!);
        expect(Math.abs(on - mark.value), measure.name).toBeLessThan(1e-3 * Math.abs(mark.value));
        expect(line.at(mark.deg).value).toBeCloseTo(mark.value, 9);
      }
      expect(lines[2]!.values.every(Number.isNaN)).toBe(true);
    }
  });
});

describe('the table', () => {
  it('has a row for each half degree, all digits, and names that can’t break it', () => {
    const line = motionLine({ name: 'a "b", c\nd', look: 0 }, cylinder, 'position', 1000);
    const rows = csvOf(DEGREES, [line], 'position', 'mm').split('\r\n');
    expect(rows).toHaveLength(723);
    expect(rows[0]).toBe('"crank angle after TDC, deg","a ""b"", c\nd: position, mm"');
    expect(rows[181]).toBe(`90,${line.values[180]}`);
    expect(rows.at(-1)).toBe('');
  });
});

/** Curves and comparisons: values of the core, marks at true angles, gaps as certified, tables read back, bad input refused. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import { certifiedGaps } from '../../../src/model/certified.ts';
import { comparisonsOf } from '../../../src/model/curves/compare.ts';
import { csvOf } from '../../../src/model/curves/csv.ts';
import { accelerationParts, DEGREES, gapLine, motionLine } from '../../../src/model/curves/lines.ts';
import { againstRatio, MEASURES } from '../../../src/model/curves/measured.ts';
import { exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';

const doc = exampleSingle();
const engine = layOut(doc, doc.proposed);
const cylinder = engine.cylinders[0]!;
const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = cylinder.slider;

describe('a curve', () => {
  it('of position is the slider-crank’s: r cos a + sqrt(l² - (r sin a - e)²) below its top', () => {
    const { values, marks } = motionLine('x', cylinder, 'position', 1000);
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
    for (const of of ['speed', 'acceleration', 'rod angle', 'side force share', 'difference from harmonic'] as const) {
      const { values, marks } = motionLine('x', cylinder, of, 1500);
      const own = marks.map((m) => m.value);
      const span = Math.max(...own) - Math.min(...own);
      expect(Math.max(...values), of).toBeLessThanOrEqual(Math.max(...own, 0) + 1e-9 * span);
      expect(Math.min(...values), of).toBeGreaterThanOrEqual(Math.min(...own, 0) - 1e-9 * span);
      for (const { deg } of marks) expect(deg >= 0 && deg <= 360).toBe(true);
    }
  });

  it('of a gap has its mark at the certified smallest gap, which no sample goes below', () => {
    const gap = certifiedGaps(doc, engine, new Map()).find((g) => g.kind !== 'deck' && g.slicingMm === 0)!;
    const { values, marks } = gapLine('x', engine, gap.id, gap)!;
    expect(marks[0]!.value).toBe(gap.gapMm);
    for (const v of values) if (Number.isFinite(v)) expect(v).toBeGreaterThanOrEqual(gap.lowerBoundMm - 1e-4);
    expect(gapLine('x', engine, 'no such pair', undefined)).toBeNull();
  });

  it('of the acceleration has parts of the first and second order', () => {
    const parts = accelerationParts('x', cylinder, 1000);
    expect(parts.map((p) => p.name)).toEqual(['x, order 1', 'x, order 2']);
    // The second goes twice round: half a turn on it is the same.
    expect(parts[1]!.values[100]!).toBeCloseTo(parts[1]!.values[460]!, 9);
  });
});

describe('what is compared', () => {
  it('the assemblies of a build, each under its name', () => {
    const v8 = exampleV8();
    const { list, left } = comparisonsOf(v8, v8.proposed, 'assemblies', '');
    expect(list.map((c) => c.name)).toEqual(v8.assemblies.map((a) => a.name));
    expect(left).toEqual([]);
  });

  it('rods shorter and longer by what was asked, the deck clearance held', () => {
    const { list } = comparisonsOf(doc, doc.proposed, 'rod length', '5 mm');
    expect(list.map(({ engine: x }) => x.cylinders[0]!.slider.rodLengthMm - l)).toEqual([
      expect.closeTo(-5, 6),
      expect.closeTo(0, 6),
      expect.closeTo(5, 6),
    ]);
    for (const { engine: x } of list) expect(x.cylinders[0]!.deckClearanceMm).toBeCloseTo(cylinder.deckClearanceMm, 4);
  });

  it('strokes and offsets; what can’t be built is left out with the reason', () => {
    const strokes = comparisonsOf(doc, doc.proposed, 'stroke', '4 mm').list;
    expect(strokes[2]!.engine.cylinders[0]!.slider.crankRadiusMm).toBeCloseTo(r + 2, 6);
    const offsets = comparisonsOf(doc, doc.proposed, 'pin offset', '1 mm').list;
    expect(offsets.map(({ engine: x }) => x.cylinders[0]!.slider.offsetMm).map((o, _, all) => o - all[1]!)).toEqual([
      expect.closeTo(-1, 6),
      0,
      expect.closeTo(1, 6),
    ]);
    const { list, left } = comparisonsOf(doc, doc.proposed, 'stroke', '2000 mm');
    expect(list).toHaveLength(1);
    expect(left).toHaveLength(2);
    for (const bad of ['', 'much', '5', '12 parsecs', 'NaN mm'])
      expect(() => comparisonsOf(doc, doc.proposed, 'rod length', bad), bad).toThrow();
  });
});

describe('against rod ratio', () => {
  it('the curve goes through the marks of the engines there are', () => {
    const other = layOut(doc, doc.replaced).cylinders[0]!;
    for (const measure of MEASURES.slice(2)) {
      const { ratios, line } = againstRatio(measure, cylinder, [cylinder, other], 2.5, 1500);
      const mark = line.marks[0]!;
      const k = ratios.findIndex((ratio) => ratio > mark.deg);
      const part = (mark.deg - ratios[k - 1]!) / (ratios[k]! - ratios[k - 1]!);
      const on = line.values[k - 1]! + part * (line.values[k]! - line.values[k - 1]!);
      expect(Math.abs(on - mark.value), measure.name).toBeLessThan(1e-3 * Math.abs(mark.value));
    }
  });
});

describe('the table', () => {
  it('has a row for each half degree, all digits, and names that can’t break it', () => {
    const line = motionLine('a "b", c\nd', cylinder, 'position', 1000);
    const rows = csvOf([line], 'position', 'mm').split('\r\n');
    expect(rows).toHaveLength(723);
    expect(rows[0]).toBe('"crank angle after TDC, deg","a ""b"", c\nd: position, mm"');
    expect(rows[181]).toBe(`90,${line.values[180]}`);
    expect(rows.at(-1)).toBe('');
  });
});

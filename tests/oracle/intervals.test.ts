/** Intervals of crank angle below a limit, for a V8 laid out by the program, against an engine put together in x, y, z by hand. */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { type Intervals, intervalsOf } from '../../src/model/intervals.ts';
import { changed } from '../support/changed.ts';
import { exampleV8 } from '../support/exampleBuild.ts';
import { gapAtCrank } from './solid.ts';
import { bore, core, counterweight, type Part, piston, rod, type Variant } from './v8.ts';

const v: Variant = {
  counterclockwise: false,
  sense: 'same',
  firingOrder: [1, 5, 6, 3, 4, 2, 7, 8],
  camAcrossIn: 0,
  boreOffsetIn: 0,
  beamOffsetIn: 0,
  rollerRadiusIn: 0.375,
  baseCircleIn: 1.2,
};

const DEGREE = Math.PI / 180;
/** Ends are promised to a hundredth of a degree. */
const END = 0.01 * DEGREE;
/** Slicing of round parts may lengthen an interval by the turn in which the gap changes so much. */
const SLICING_MM = 0.01;
/** What trying points leaves. */
const TRYING_MM = 0.001;

const inches = (x: number): { value: string; from: string } => ({ value: `${x} in`, from: 'stated' });

// Limits so wide that these pairs fall below them: each is looked at over part of the turn.
const doc = changed(exampleV8(), {
  'block.camAxis.across.value': '0.000 in',
  'block.boreOffset.value': '0.000 in',
  'assemblies[1].camshaft.sense': v.sense,
  'block.firingOrder': v.firingOrder,
  limits: {
    'counterweight-piston': inches(0.55),
    'rod-block': inches(0.7),
    'rod-camshaft': inches(0.9),
  },
}) as unknown as BuildDocument;
const engine = layOut(doc, 'Stroker');
const gaps = certifiedGaps(doc, engine, new Map());
const intervals = intervalsOf(doc, engine, gaps);

const PAIRS: readonly (readonly [string, Part, Part])[] = [
  ['counterweight 1 front · piston 1', counterweight(1, 'front'), piston(v, 1)],
  ['rod 1 · bore 1', rod(v, 1), bore(v, 1)],
  ['rod 4 · camshaft core', rod(v, 4), core(v)],
];

describe('inside an interval the gap is below the limit, outside it is not', () => {
  test.each(PAIRS)('%s', (id, a, b) => {
    const gap = gaps.find((g) => g.id === id)!;
    const { below, neededMm, finished } = intervals.get(id) as Intervals;
    expect(finished).toBe(true);
    expect(below.length).toBeGreaterThan(0);
    const tried = (at: number): number => gapAtCrank(v, a, b, at, true);
    const within = (at: number): boolean => {
      const wrapped = ((at % gap.periodRad) + gap.periodRad) % gap.periodRad;
      return below.some((arc) => [wrapped, wrapped + gap.periodRad].some((x) => x >= arc.fromRad && x <= arc.toRad));
    };
    expect(within(gap.atCrankRad)).toBe(true);
    for (let at = 0.01; at < gap.periodRad; at += gap.periodRad / 12) {
      if (within(at)) expect(tried(at), `${at / DEGREE}`).toBeLessThan(neededMm + SLICING_MM + TRYING_MM);
      else expect(tried(at), `${at / DEGREE}`).toBeGreaterThan(neededMm - 1e-6);
    }
    for (const { fromRad, toRad } of below) {
      // Just outside: at or above. Just inside: below, but for what the slices add.
      expect(tried(fromRad - END)).toBeGreaterThan(neededMm - 1e-6);
      expect(tried(toRad + END)).toBeGreaterThan(neededMm - 1e-6);
      expect(tried(fromRad + END)).toBeLessThan(neededMm + SLICING_MM + TRYING_MM);
      expect(tried(toRad - END)).toBeLessThan(neededMm + SLICING_MM + TRYING_MM);
    }
  });
});

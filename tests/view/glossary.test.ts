/** The glossary's drawings on every demo build at many angles, the figures in them, and which labels of the program it knows. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import { DRAWINGS } from '../../src/build/glossary.ts';
import { parseBuild } from '../../src/build/index.ts';
import { createFinder } from '../../src/model/glossary/finder.ts';
import { sizesOf, standAt } from '../../src/model/glossary/stand.ts';
import { scalarsOf } from '../../src/model/scalars.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { sumsOf } from '../../src/model/sums/index.ts';
import type { Told } from '../../src/view/glossary/drawing.ts';
import { drawingOf } from '../../src/view/glossary/drawings.ts';
import type { Mark } from '../../src/view/glossary/marks.ts';
import { formatLength } from '../../src/view/words.ts';
import { BASES, GLOSSARY } from '../support/lessons.ts';

const finder = createFinder(GLOSSARY);

function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : [];
}

const told = [...BASES].map(([key, text]): readonly [string, Omit<Told, 'stand'>, ReturnType<typeof sizesOf>] => {
  const read = parseBuild(text);
  if (!read.ok) throw new Error(key);
  const engine = layOut(read.doc, read.doc.proposed);
  const sizes = sizesOf(read.doc, engine, 1);
  const [gap] = solveGaps(engine, {
    assumedAllowanceMm: null,
    wanted: (p) => p.id === 'counterweight 1 front · piston 1',
  });
  return [key, { engine, gap: gap ?? null, say: (mm) => formatLength(mm, 'mm') }, sizes];
});

describe('the drawings', () => {
  it.each(told)('of %s stand in finite places at every angle, with something lit or said', (_, around, sizes) => {
    for (const name of DRAWINGS) {
      const drawing = drawingOf(name);
      const still = typeof drawing.still === 'number' ? drawing.still : drawing.still(sizes, around);
      const window = drawing.window(sizes, around);
      expect(numbersOf(window).every(Number.isFinite) && window.half > 0, name).toBe(true);
      for (const deg of [still, 0, 33, 90, 181, 270, 359]) {
        const marks = drawing.marks({ ...around, stand: standAt(sizes, deg) });
        const plain = marks.filter((mark: Mark) => mark.kind !== 'outline');
        expect(numbersOf(plain).every(Number.isFinite), `${name} at ${deg}`).toBe(true);
        const lit = marks.some(
          (mark) => ('tone' in mark && mark.tone === 'lit') || ['dim', 'arrow', 'words'].includes(mark.kind),
        );
        if (deg === still) expect(lit, name).toBe(true);
        for (const mark of marks) if ('words' in mark) expect(mark.words ?? '').not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  it('say the dimensions of the build', () => {
    const [, around, sizes] = told.find(([key]) => key === 'bench-rig')!;
    const said = (name: (typeof DRAWINGS)[number], deg: number): string =>
      drawingOf(name)
        .marks({ ...around, stand: standAt(sizes, deg) })
        .flatMap((mark) => ('words' in mark && mark.words !== undefined ? [mark.words] : []))
        .join(' ');
    // The rig with the longer stroke: stroke 86.0, rod 138.0, compression height 34.7, bore 82.00, journals 50.00 and 42.00 mm.
    expect(said('stroke', 0)).toBe('86.00 mm');
    expect(said('throw', 0)).toBe('43.00 mm');
    expect(said('rod length', 40)).toBe('138.00 mm');
    expect(said('rod ratio', 40)).toContain('ratio 1.60');
    expect(said('compression height', 40)).toBe('34.70 mm');
    expect(said('bore', 40)).toBe('82.00 mm');
    expect(said('deck height', 0)).toBe('216.00 mm');
    expect(said('counterweight', 10)).toBe('72.50 mm');
    expect(said('journal overlap', 0)).toBe('3.00 mm');
    expect(said('deck clearance', 0)).toBe('0.30 mm');
    expect(said('journal length', 0)).toBe('24.40 mm');
    // asin(43 / 138) at a quarter turn.
    expect(said('rod angle', 90)).toBe('18.2°');
  });
});

describe('finding a term', () => {
  it.each([
    ['Stroke', 'stroke'],
    ['Speed, 2800 rpm', 'piston speed'],
    ['Counterweight half angle', 'counterweight'],
    ['Rod journal fillet', 'fillet'],
    ['Bolt spread, half', 'rod bolt'],
    ['Deck clearance (held)', 'deck clearance'],
    ['Rod side clearance', 'side clearance'],
  ])('%s stands for %s', (label, term) => {
    expect(finder.whole(label)?.term).toBe(term);
  });

  it('within longer labels finds each, the longest words first', () => {
    const within = (label: string): string[] => finder.within(label).map((t) => t.term);
    expect(within('rod 1 big end · pan rail').sort()).toEqual(['big end', 'pan rail', 'rod length']);
    expect(within('counterweight 1 front · piston 1 pin boss')).toEqual(
      expect.arrayContaining(['counterweight', 'pin boss']),
    );
    expect(within('Two counterweights and a bore bottom')).toEqual(
      expect.arrayContaining(['counterweight', 'bore bottom']),
    );
    expect(within('Save file')).toEqual([]);
    expect(within('Jobs')).toEqual([]);
  });

  it('does not take a part of a word for a term', () => {
    for (const label of ['Boredom', 'Coreless', 'Stopgap', 'Embankment', 'Camera'])
      expect(finder.within(label)).toEqual([]);
  });

  it('searches names first, then other words, then what is said', () => {
    expect(finder.search('rod')[0]!.term).toMatch(/^rod/);
    expect(finder.search('wrist').map((t) => t.term)).toEqual(['piston pin']);
    expect(finder.search('zzz')).toEqual([]);
    expect(finder.search('').length).toBe(GLOSSARY.terms.length);
  });

  it('knows every sum, every single figure and every pair of parts of the demos', () => {
    const names = [...BASES.values()].flatMap((text) => {
      const read = parseBuild(text);
      if (!read.ok) return [];
      const engine = layOut(read.doc, read.doc.proposed);
      const sums = sumsOf(read.doc, read.doc.proposed).flatMap((group) => group.sums.map((sum) => sum.name));
      return [
        ...sums,
        ...scalarsOf(read.doc, engine).map((scalar) => scalar.name),
        ...engine.pairs.map((pair) => pair.id),
      ];
    });
    expect(names.length).toBeGreaterThan(300);
    expect(names.filter((name) => finder.within(name).length === 0)).toEqual([]);
  });

  it('knows the labels of the pane that name a part or a dimension', () => {
    const labels = ['fields', 'fieldsShop', 'fieldsRunning'].flatMap((file) => {
      const text = readFileSync(new URL(`../../src/pane/${file}.ts`, import.meta.url), 'utf8');
      return [...text.matchAll(/'([A-Z][a-z][^'.]{2,32})'(?=,)/g)].map((m) => m[1]!);
    });
    expect(labels.length).toBeGreaterThan(60);
    // Headings of groups that name no part.
    const headings = ['Dimensions', 'Figures for the sums', 'Wanted'];
    const unknown = labels.filter((label) => !headings.includes(label) && finder.within(label).length === 0);
    expect(unknown).toEqual([]);
  });
});

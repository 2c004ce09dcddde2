/** Faults that spoilt files and literals have found, each by its name and seed: they stay mended. */
import { describe, expect, it } from 'vitest';
import { convertLiteral, kindOf, parseBuild, parseLength, parseTyped } from '../../src/build/index.ts';
import { judgeFile, judgeLiteral } from '../spoil/judge.ts';
import { demoTexts, spoiltFile, spoiltLiteral } from '../spoil/spoilt.ts';

/** Texts on which a grammar that is tried without a bound takes the square of their length: hours for these. */
const LONG = 400_000;

describe('a literal', () => {
  it.each([
    ['blanks', `5${' '.repeat(LONG)}!`],
    ['letters', `5 ${'m'.repeat(LONG)}!`],
    ['digits', `${'9'.repeat(LONG)}/`],
    ['digits and blanks', `${'9 '.repeat(LONG / 2)}/`],
  ])('with a great many %s is refused at once, not after hours', (_name, text) => {
    expect(kindOf(text)).toBeNull();
    for (const read of [parseLength(text), parseTyped(text, '3.750 in')]) {
      expect(read).toMatchObject({ ok: false, allowed: 'A dimension has at most 40 characters.' });
    }
  });

  it('with many decimals and a tolerance can be told in another unit (seeds 8294, 13199, 14878)', () => {
    for (const seed of [8294, 13199, 14878]) expect(judgeLiteral(spoiltLiteral(seed))).toEqual([]);
    // 3.5 in are 88.9 mm, .001 in .0254 mm.
    expect(convertLiteral('3.500000000000000000000000 ±0.001 in', 'mm').text).toMatch(/^88\.90* ±0\.02540* mm$/);
  });

  it('with a tolerance greater than any dimension is refused (seeds 46615, 92354)', () => {
    for (const text of ['3.0 ±022222222222222222222222222.001 in', '3.7+/-555555555555555555555555555555in']) {
      expect(parseLength(text)).toMatchObject({ ok: false, allowed: expect.stringContaining('tolerance') });
    }
    expect(parseLength('3.750 ±0.001 in').ok).toBe(true);
  });
});

describe('a build file', () => {
  it('with a name of five thousand letters for a dimension is refused in one short sentence (seed 1407)', () => {
    expect(judgeFile(spoiltFile(1407), 1407).faults).toEqual([]);
    const doc = JSON.parse(demoTexts[0]!);
    doc.assemblies[0].crank.stroke.value = 'n'.repeat(5000);
    const read = parseBuild(JSON.stringify(doc));
    if (read.ok) throw new Error('taken');
    expect(read.problems[0]).toMatchObject({ place: 'assemblies[0].crank.stroke', value: `${'n'.repeat(60)}…` });
  });
});

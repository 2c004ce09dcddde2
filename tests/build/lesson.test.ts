/** Lesson files and the glossary: what is read, and what is refused with place, value and rule. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { glossaryJsonSchemaText, parseGlossary } from '../../src/build/glossary.ts';
import { lessonJsonSchemaText, parseLesson, QUANTITIES, type QuantityKind } from '../../src/build/lesson/index.ts';
import { changed } from '../support/changed.ts';
import { GLOSSARY, LESSON_FILES, lessonText, smallLesson, TERMS } from '../support/lessons.ts';

const problemsOf = (content: unknown) => {
  const read = parseLesson(JSON.stringify(content), TERMS);
  return read.ok ? [] : read.problems;
};
/** Place and rule of each problem. */
const refusals = (content: unknown): string[] => problemsOf(content).map((p) => `${p.place}: ${p.rule}`);
const small = (changes: Readonly<Record<string, unknown>>) => changed(smallLesson(), changes);

describe('a lesson file', () => {
  it('is read as it stands', () => {
    expect(problemsOf(smallLesson())).toEqual([]);
  });

  it('reads all that come with the program, each with a key of its own and in an order of its own', () => {
    const keys = LESSON_FILES.map((file) => {
      const read = parseLesson(lessonText(file), TERMS);
      expect(read.ok ? [] : read.problems, file).toEqual([]);
      if (!read.ok) return '';
      expect(`${read.lesson.key}.json`).toBe(file);
      return read.lesson.key;
    });
    expect(new Set(keys).size).toBe(LESSON_FILES.length);
  });

  it('has the schema that lies beside the lessons', () => {
    const file = (name: string): string => readFileSync(join(import.meta.dirname, '../../assets', name), 'utf8');
    expect(file('strokewright-lesson.schema.json')).toBe(lessonJsonSchemaText());
    expect(file('strokewright-glossary.schema.json')).toBe(glossaryJsonSchemaText());
  });

  it.each<[string, Record<string, unknown>, string]>([
    ['an unknown quantity', { 'figures.fastest.is': 'angle of greatest noise' }, 'figures.fastest.is: kind of value'],
    ['a number as the answer', { 'rounds.0.predict.answer': 74.5 }, 'rounds[0].predict.answer: kind of value'],
    ['an unknown name', { colour: 'red' }, 'colour: known names'],
    ['another format', { format: 'strokewright-build' }, 'format: kind of value'],
    ['a later version', { version: 2 }, 'version: kind of value'],
    ['no title', { title: undefined }, 'title: required'],
    ['a key with blanks', { key: 'My lesson' }, 'key: kind of value'],
    ['no base and no file', { 'build.base': undefined }, 'build: one base'],
    [
      'two assemblies of one name',
      { 'build.assemblies': [{ name: 'A' }, { name: 'A' }] },
      'build.assemblies[1].name: assembly names once',
    ],
    [
      'a dimension of nothing',
      { 'build.assemblies.0.set': { 'wheel.size': '3 in' } },
      'build.assemblies[0].set.wheel.size: kind of value',
    ],
    ['a figure without what it needs', { 'figures.share.at': undefined }, 'figures.share.at: fields of a figure'],
    ['a figure with what it does not take', { 'figures.ratio.at': '90 deg' }, 'figures.ratio.at: fields of a figure'],
    [
      'a figure of an assembly that is not there',
      { 'figures.ratio.of': 'Long rod' },
      'figures.ratio.of: assembly of the lesson',
    ],
    ['an angle in inches', { 'figures.share.at': '2 in' }, 'figures.share.at: amount'],
    ['an angle that is a ratio', { 'figures.last': { is: 'rod angle', at: 'ratio' } }, 'figures.last.at: crank angle'],
    [
      'a figure from a later one',
      { 'figures.share.at': 'last', 'figures.last': { is: 'angle from TDC to BDC' } },
      'figures.share.at: figures in order',
    ],
    [
      'a figure made from itself',
      { 'figures.odd': { is: 'difference', between: ['odd', 'odd'] } },
      'figures.odd.between: figures in order',
    ],
    [
      'a length less an angle',
      { 'figures.odd': { is: 'difference', between: ['gap', 'fastest'] } },
      'figures.odd.between: figures alike',
    ],
    [
      'a share of all',
      { 'figures.half': { is: 'angle at share of stroke', share: '100 %' } },
      'figures.half.share: amount',
    ],
    [
      'an unknown placeholder',
      { 'rounds.0.explain.text': ['It is {nothing}.'] },
      'rounds[0].explain.text[0]: placeholder',
    ],
    ['an unknown way', { 'rounds.0.explain.text': ['It is {gap|loud}.'] }, 'rounds[0].explain.text[0]: placeholder'],
    ['a brace left open', { about: 'It is {gap.' }, 'about: placeholder'],
    ['a term the glossary does not have', { about: 'See [[flux]].' }, 'about: glossary term'],
    [
      'an answer that is no figure',
      { 'rounds.0.predict.answer': 'speed' },
      'rounds[0].predict.answer: figure of the lesson',
    ],
    ['an angle asked for, a length meant', { 'rounds.0.predict.answer': 'gap' }, 'rounds[0].predict.answer: answer'],
    ['a tolerance in another unit', { 'rounds.0.predict.within': '3 mm' }, 'rounds[0].predict.within: amount'],
    ['a tolerance of nothing', { 'rounds.1.predict.within': '0 mm' }, 'rounds[1].predict.within: amount'],
    ['a unit of another kind', { 'rounds.1.predict.unit': 'deg' }, 'rounds[1].predict.unit: unit of the answer'],
    ['a scale from high to low', { 'rounds.0.predict.to': '0 deg' }, 'rounds[0].predict.to: from and to'],
    [
      'an option about an unknown figure',
      { 'rounds.2.predict.options.0.when.figure': 'speed' },
      'rounds[2].predict.options[0].when.figure: figure of the lesson',
    ],
    [
      'an option held against another kind',
      { 'rounds.2.predict.options.0.when.to': 'gap' },
      'rounds[2].predict.options[0].when.to: figures alike',
    ],
    [
      'about, without how near',
      { 'rounds.2.predict.options.0.when.is': 'about' },
      'rounds[2].predict.options[0].when.within: required',
    ],
    [
      'one option',
      {
        'rounds.2.predict.options': [{ text: 'a', when: { figure: 'share', is: 'more than', to: '50 %' }, reply: 'b' }],
      },
      'rounds[2].predict.options: kind of value',
    ],
    [
      'a curve of a gap without its pair',
      { 'rounds.0.explain.figure': { draw: 'curve', of: 'gap', from: '0 deg', to: '90 deg', caption: 'c' } },
      'rounds[0].explain.figure.pair: fields of a figure',
    ],
    [
      'a mark that is no angle',
      {
        'rounds.0.explain.figure': {
          draw: 'curve',
          of: 'speed',
          from: '0 deg',
          to: '90 deg',
          marks: ['gap'],
          caption: 'c',
        },
      },
      'rounds[0].explain.figure.marks[0]: crank angle',
    ],
    ['nothing to watch that is known', { 'play.watch': ['speed'] }, 'play.watch[0]: figure of the lesson'],
    ['a step of nothing', { 'play.move.0.step': '0 mm' }, 'play.move[0].step: amount'],
  ])('is refused with %s', (_, changes, expected) => {
    expect(refusals(small(changes))).toContain(expected);
  });

  it('names the value and what is allowed', () => {
    const [problem] = problemsOf(small({ 'figures.fastest.is': 'angle of greatest noise' }));
    expect(problem).toMatchObject({ value: '"angle of greatest noise"' });
    for (const name of Object.keys(QUANTITIES)) expect(problem!.allowed).toContain(name);
  });

  it('is refused where it is no text of this kind at all', () => {
    for (const text of ['', '{', '[]', 'null', '12', '{"format":"a","format":"b"}'])
      expect(parseLesson(text, TERMS).ok, text).toBe(false);
  });

  it('takes for each quantity just the fields it needs', () => {
    for (const [name, { needs }] of Object.entries<QuantityKind>(QUANTITIES)) {
      const bare = refusals(small({ 'figures.odd': { is: name } })).filter((r) => r.startsWith('figures.odd.'));
      expect(bare.sort()).toEqual(needs.map((need) => `figures.odd.${need}: fields of a figure`).sort());
    }
  });
});

describe('the glossary', () => {
  it('explains at least forty terms, each in two or three sentences, with a drawing of its own', () => {
    expect(GLOSSARY.terms.length).toBeGreaterThanOrEqual(40);
    expect(new Set(GLOSSARY.terms.map((t) => t.drawing)).size).toBe(GLOSSARY.terms.length);
    for (const { term, means } of GLOSSARY.terms) {
      const sentences = means.match(/[.](?= [A-Z“]|$)/g) ?? [];
      expect(sentences.length, term).toBeGreaterThanOrEqual(1);
      expect(sentences.length, term).toBeLessThanOrEqual(3);
    }
  });

  it.each<[string, Record<string, unknown>, string]>([
    ['two terms with one word', { 'terms.1.also': ['bore'] }, 'terms[1]: words once'],
    ['a relation to nothing', { 'terms.0.related': ['flux'] }, 'terms[0].related: glossary term'],
    ['a figure in it', { 'terms.0.means': 'It is {gap}.' }, 'terms[0].means: glossary term'],
    ['a drawing that nobody makes', { 'terms.0.drawing': 'flux' }, 'terms[0].drawing: kind of value'],
    ['capitals', { 'terms.0.term': 'Bore' }, 'terms[0].term: kind of value'],
  ])('is refused with %s', (_, changes, expected) => {
    const read = parseGlossary(JSON.stringify(changed(structuredClone(GLOSSARY) as object, changes)));
    expect(read.ok ? [] : read.problems.map((p) => `${p.place}: ${p.rule}`)).toContain(expected);
  });
});

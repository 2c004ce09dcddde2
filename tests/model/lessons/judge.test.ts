/** What is said to predictions: near, off to either side, empty, absurd; the answers found for the build; what is kept. */
import { describe, expect, it } from 'vitest';
import {
  judge,
  lessonAsker,
  type OpenedLesson,
  openLesson,
  plainly,
  playField,
  progressIn,
  say,
  sayValue,
} from '../../../src/model/lessons/index.ts';
import { directPool } from '../../../src/model/pieces/kind.ts';
import { WORK } from '../../../src/model/pieces/table.ts';
import { changed } from '../../support/changed.ts';
import { BASES, LESSON_FILES, openedLesson, smallLesson, TERMS } from '../../support/lessons.ts';

const open = (changes: Readonly<Record<string, unknown>> = {}): OpenedLesson =>
  openLesson(JSON.stringify(changed(smallLesson(), changes)), BASES, TERMS);
const opened = (changes: Readonly<Record<string, unknown>> = {}) => {
  const found = open(changes);
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found;
};
const refusals = (changes: Readonly<Record<string, unknown>>): string[] => {
  const found = open(changes);
  return found.ok ? [] : found.problems.map((p) => `${p.place}: ${p.rule}`);
};

describe('a lesson that is opened', () => {
  it.each<[string, Record<string, unknown>, string]>([
    ['a base that is not there', { 'build.base': 'big-block' }, 'build.base: base build'],
    [
      'an assembly the base does not have',
      { 'build.assemblies.0.from': 'Gone' },
      'build.assemblies[0].from: assembly of the base',
    ],
    [
      'a build that breaks a rule',
      { 'build.assemblies.0.set': { 'rod.length': '38 mm' } },
      'build.assemblies[0].rod.length: assembly turns',
    ],
    [
      'a dimension of no kind',
      { 'build.assemblies.0.set': { 'rod.length': 'long' } },
      'build.assemblies[0].rod.length: dimension',
    ],
    ['a pair that does not meet', { 'figures.gap.pair': 'rod 1 · piston 9' }, 'figures.gap: figure of the build'],
    [
      'a core that is not stated',
      { 'figures.odd': { is: 'stroke gained by the grind' } },
      'figures.odd: figure of the build',
    ],
    ['a cylinder too many', { 'figures.ratio.cylinder': 2 }, 'figures.ratio: figure of the build'],
    ['an answer off its scale', { 'rounds.0.predict.to': '60 deg' }, 'rounds[0].predict.answer: answer on the scale'],
    [
      'options of which none holds',
      { 'rounds.2.predict.options.0.when.to': '70 %', 'rounds.2.predict.options.1.when.to': '40 %' },
      'rounds[2].predict.options: one option holds',
    ],
    [
      'options that all hold',
      { 'rounds.2.predict.options.1.when': { figure: 'share', is: 'more than', to: '40 %' } },
      'rounds[2].predict.options: one option holds',
    ],
  ])('is refused with %s', (_, changes, expected) => {
    expect(refusals(changes).join('\n')).toContain(expected);
  });

  it('takes a whole build file in the place of a base', () => {
    const file: unknown = JSON.parse(BASES.get('bench-rig')!);
    expect(refusals({ 'build.base': undefined, 'build.file': file })).toEqual([]);
    expect(refusals({ 'build.base': undefined, 'build.file': { format: 'something' } })[0]).toMatch(/^build\.file/);
  });

  it('fills its figures into its texts, in the units of the reader', () => {
    const { values } = opened();
    expect(plainly(say('It is {fastest|whole}, {gap|fine}.', values, 'mm'))).toMatch(/^It is 7\d°, 9\.450 mm\.$/);
    expect(plainly(say('{gap}, a [[stroke|long stroke]]', values, 'in'))).toBe('.372 in, a long stroke');
    expect(sayValue({ as: 'share', value: 0.5858 }, 'in')).toBe('58.6 %');
    expect(sayValue({ as: 'length', value: -2.54 }, 'in', ['signed'])).toBe('−.100 in');
    expect(sayValue({ as: 'length', value: -2.54 }, 'in', ['size'])).toBe('.100 in');
    expect(() => sayValue({ as: 'length', value: Number.NaN }, 'in')).toThrow(RangeError);
  });

  it('of every lesson says all its texts without a figure left open', () => {
    for (const file of LESSON_FILES) {
      const { lesson, values } = openedLesson(file.replace('.json', ''));
      const texts = JSON.stringify({ ...lesson, build: null }).match(/"(?:[^"\\]|\\.)*"/g) ?? [];
      for (const text of texts)
        expect(plainly(say(JSON.parse(text) as string, values, 'both'))).not.toMatch(/[{}]|NaN|undefined/);
    }
  });

  it('is worked out by the pool as it is here', () => {
    const here = opened();
    const told: OpenedLesson[] = [];
    lessonAsker(directPool(WORK)).open(here.lesson, BASES, (found) => told.push(found));
    expect(told).toHaveLength(1);
    expect(told[0]!.ok && [...told[0]!.values]).toEqual([...here.values]);
  });
});

describe('what is said to a prediction', () => {
  const lesson = opened();
  const [angle, number, choice] = lesson.lesson.rounds as [never, never, never];
  const typed = (text: string) => judge(lesson, number, { by: 'number', text }, 'mm');

  it('tells which way and how far, or that it is near, with the reply that belongs there', () => {
    const at = (value: number) => judge(lesson, angle, { by: 'angle', value }, 'mm');
    expect(at(60)).toMatchObject({ taken: true, near: false, reply: [{ text: 'Earlier.' }] });
    expect(at(90)).toMatchObject({ taken: true, near: false, said: '90.0°' });
    const late = at(90);
    expect(late.words).toMatch(/^You said 90\.0°\. It is 7\d\.\d°: yours is 1\d\.\d° too late\.$/);
    const truth = lesson.values.get('fastest')!.value;
    expect(at(truth + 2.9)).toMatchObject({ near: true });
    expect(at(truth + 3.1)).toMatchObject({ near: false });
    expect(typed('9.45')).toMatchObject({ taken: true, near: true });
    expect(typed('.372 in')).toMatchObject({ taken: true, near: true });
    expect(typed('4.5 mm')).toMatchObject({ taken: true, near: false, reply: [{ text: 'More than that.' }] });
    expect(typed('20')).toMatchObject({ taken: true, near: false, reply: [{ text: 'Less than that.' }] });
    const pick = (option: number) => judge(lesson, choice, { by: 'choice', option }, 'mm');
    expect(pick(0)).toMatchObject({ taken: true, near: true, words: 'You said: Past it. So it is.' });
    expect(pick(1)).toMatchObject({
      taken: true,
      near: false,
      words: 'You said: Not past it. It is: Past it.',
    });
  });

  it.each([
    ['', /^Write a number first/],
    ['   ', /^Write a number first/],
    ['abc', /holds no number/],
    ['12 parsecs', /can’t be read/],
    ['NaN', /is not a number/],
    ['Infinity mm', /is not a number/],
    ['-5000 in', /below nothing/],
    ['−3', /below nothing/],
    ['1e9', /can’t be read/],
    ['9999 mm', /out of all proportion/],
    ['999999 in', /out of all proportion/],
    ['45 deg', /is an angle; a length is asked for/],
    ['1,5 mm', /point as the decimal mark/],
    ['9'.repeat(70), /too long/],
  ])('takes no %o and says why', (text, words) => {
    const said = typed(text);
    expect(said.taken).toBe(false);
    expect(said.words).toMatch(words);
    expect(said.words).not.toMatch(/!|wrong|well done|great|NaN°/i);
  });

  it('asks for a marker that was not put and an answer that was not chosen', () => {
    expect(judge(lesson, angle, { by: 'angle', value: null }, 'mm')).toMatchObject({ taken: false });
    expect(judge(lesson, choice, { by: 'choice', option: null }, 'mm')).toMatchObject({ taken: false });
    expect(judge(lesson, choice, { by: 'choice', option: 7 }, 'mm')).toMatchObject({ taken: false });
  });

  it('in every lesson: just one option is right, and each question takes its own answer as near', () => {
    for (const file of LESSON_FILES) {
      const one = openedLesson(file.replace('.json', ''));
      for (const round of one.lesson.rounds) {
        const { predict } = round;
        if (predict.by === 'choice') {
          const near = predict.options.filter((_, k) => {
            const judged = judge(one, round, { by: 'choice', option: k }, 'in');
            return judged.taken && judged.near;
          });
          expect(near, file).toHaveLength(1);
          continue;
        }
        const { as, value } = one.values.get(predict.answer)!;
        const judged =
          predict.by === 'number'
            ? judge(
                one,
                round,
                {
                  by: 'number',
                  text: sayValue({ as, value }, one.lesson.units, as === 'length' ? ['fine'] : [])
                    .replace('°', ' deg')
                    .replace('−', '-'),
                },
                one.lesson.units,
              )
            : judge(one, round, { by: predict.by, value }, one.lesson.units);
        expect(judged, `${file}: ${round.question}`).toMatchObject({ taken: true, near: true });
      }
    }
  });
});

describe('what may be moved', () => {
  it('goes in exact steps and says a literal in the manner of its bound', () => {
    const field = playField({ place: 'rod.length', from: '5.600 in', to: '6.400 in', step: '.025 in' });
    expect(field.steps).toBe(32);
    expect(field.literal(0)).toBe('5.600 in');
    expect(field.literal(3)).toBe('5.675 in');
    expect(field.literal(32)).toBe('6.400 in');
    expect(field.label).toBe('Rod length');
    expect(field.path).toEqual(['assemblies', 0, 'rod', 'length']);
    expect(
      field.now(
        opened({ 'build.assemblies.0.set': { 'rod.length': '5.750 in', 'piston.compressionHeight': '27 mm' } }).doc,
      ),
    ).toBe(6);
  });

  it('of every lesson stands where the build has it', () => {
    for (const file of LESSON_FILES) {
      const { lesson, doc } = openedLesson(file.replace('.json', ''));
      for (const one of lesson.play.move) {
        const field = playField(one);
        const at = field.now(doc);
        expect(at, `${file} ${one.place}`).not.toBeNull();
        expect(at!).toBeGreaterThan(-1);
        expect(at!).toBeLessThanOrEqual(field.steps);
      }
    }
  });
});

describe('what is kept', () => {
  const slot = (start: string | null) => {
    let text = start;
    return {
      read: () => text,
      write: (next: string | null) => {
        text = next;
      },
      text: () => text,
    };
  };

  it('is there again the next time, and gone when it is forgotten', () => {
    const place = slot(null);
    progressIn(place).put('small', { said: ['74.0°'], finished: false });
    const again = progressIn(place);
    expect(again.kept()).toEqual({ small: { said: ['74.0°'], finished: false } });
    again.forget();
    expect(place.text()).toBeNull();
    expect(progressIn(place).kept()).toEqual({});
  });

  it.each([
    '',
    'nonsense',
    '[]',
    '{"version":2,"lessons":{}}',
    '{"version":1,"lessons":{"a":{"said":3}}}',
    '{"version":1,"lessons":{"__proto__":{"said":[]}}}',
  ])('is nothing where %o is found', (text) => {
    expect(progressIn(slot(text)).kept()).toEqual({});
  });

  it('lasts for the page where the browser keeps nothing, and says so', () => {
    const refuse = (): never => {
      throw new Error('storage is off');
    };
    const progress = progressIn({ read: refuse, write: refuse });
    expect(progress.lasting()).toBe(false);
    progress.put('small', { said: ['a'], finished: true });
    expect(progress.kept()['small']).toEqual({ said: ['a'], finished: true });
    progress.forget();
    expect(progress.kept()).toEqual({});
  });
});

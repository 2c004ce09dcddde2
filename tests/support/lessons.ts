/** The lessons, the glossary and the demo builds as they lie under assets, and one small lesson for tests to change. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseGlossary, termNames } from '../../src/build/glossary.ts';
import { type OpenLesson, openLesson } from '../../src/model/lessons/index.ts';

const ASSETS = join(import.meta.dirname, '../../assets');
const read = (path: string): string => readFileSync(join(ASSETS, path), 'utf8');

export const BASES: ReadonlyMap<string, string> = new Map(
  readdirSync(join(ASSETS, 'demos')).map((file) => [file.replace('.json', ''), read(`demos/${file}`)]),
);

const glossary = parseGlossary(read('glossary.json'));
if (!glossary.ok) throw new Error(JSON.stringify(glossary.problems));
export const GLOSSARY = glossary.glossary;
export const TERMS = termNames(GLOSSARY);

export const LESSON_FILES: readonly string[] = readdirSync(join(ASSETS, 'lessons')).sort();

export function lessonText(file: string): string {
  return read(`lessons/${file}`);
}

/** A lesson of the program by its key. */
export function openedLesson(key: string): OpenLesson {
  const opened = openLesson(lessonText(`${key}.json`), BASES, TERMS);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems, null, 1));
  return opened;
}

/** A lesson that can be opened, as plain content. */
export function smallLesson(): Record<string, unknown> {
  return {
    format: 'strokewright-lesson',
    version: 1,
    key: 'small',
    order: 1,
    title: 'A small lesson',
    about: 'For tests.',
    units: 'mm',
    build: { base: 'bench-rig', assemblies: [{ name: 'Rig', set: { 'rod.length': '138 mm' } }] },
    figures: {
      fastest: { is: 'angle of greatest piston speed' },
      share: { is: 'share of stroke travelled', at: '90 deg' },
      gap: { is: 'smallest gap', pair: 'counterweight 1 front · piston 1' },
      ratio: { is: 'rod ratio' },
    },
    begin: { at: '0 deg' },
    rounds: [
      {
        question: 'Where is it? See [[stroke]].',
        predict: {
          by: 'angle',
          from: '0 deg',
          to: '180 deg',
          answer: 'fastest',
          within: '3 deg',
          replies: { near: 'Near.', less: 'Earlier.', more: 'Later than {fastest}.' },
        },
        turn: { from: '0 deg', to: 'fastest', words: 'Look.' },
        explain: { text: ['It is {fastest|whole}.'] },
      },
      {
        question: 'How much?',
        predict: {
          by: 'number',
          unit: 'mm',
          answer: 'gap',
          within: '0.5 mm',
          replies: { near: 'Near.', less: 'More than that.', more: 'Less than that.' },
        },
        turn: { from: '0 deg', to: '180 deg', words: 'Look.' },
        explain: { text: ['It is {gap|fine}.'] },
      },
      {
        question: 'Past half-way?',
        predict: {
          by: 'choice',
          options: [
            { text: 'Past it.', when: { figure: 'share', is: 'more than', to: '50 %' }, reply: 'So it is.' },
            { text: 'Not past it.', when: { figure: 'share', is: 'less than', to: '50 %' }, reply: 'The rod leans.' },
          ],
        },
        turn: { from: '0 deg', to: '90 deg', words: 'Look.' },
        explain: { text: ['{share}.'] },
      },
    ],
    play: {
      text: ['Move it.'],
      hold: 'deck clearance',
      move: [{ place: 'rod.length', from: '130 mm', to: '150 mm', step: '1 mm' }],
      watch: ['fastest', 'gap'],
    },
  };
}

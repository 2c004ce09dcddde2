/**
 * What the command line of `check` asks for. An option is one row of `OPTIONS`: its kind (option.ts) says what it takes,
 * the usage text is made from the rows. Anything else is refused with a sentence.
 */

import { FEWEST_CELLS, MOST_CELLS } from '../model/map/axis.ts';
import { LARGEST_SEED } from '../model/tolerances/draws.ts';
import { choice, flag, readArguments, text, texts, usageOf, type Values, whole } from './option.ts';

/** Builds that a chance may be counted from: an hour or so for a V8. */
const MOST_BUILDS = 100_000;

const OPTIONS = {
  assembly: text('NAME', 'the name of an assembly', 'another assembly of the build than the proposed one'),
  pairs: choice(
    'WHICH',
    ['distinct', 'all'],
    'distinct: pairs that go through the same motion once, with the names of the others; all: every pair by itself',
  ),
  cures: flag('the single changes that would restore each gap below its limit'),
  'mock-up': flag(
    'what was measured on the mock-up beside what is predicted, and which dimension would explain a difference',
  ),
  sensitivities: flag(
    'how each gap that does not clear, or else the first, changes with every dimension, and what the tolerances add up to',
  ),
  'monte-carlo': whole(
    'N',
    'how many builds',
    1,
    MOST_BUILDS,
    'N chance builds within the tolerances: how often some gap is below its limit',
  ),
  seed: whole(
    'S',
    'a whole number',
    0,
    LARGEST_SEED,
    'of the chance builds: the same seed gives the same builds; 1 unless given',
  ),
  map: texts(
    ['A', 'B'],
    'the names of two dimensions',
    'the worst margin over two dimensions, such as stroke and "rod length": A across, B upward',
  ),
  'range-a': text('RANGE', 'a range', 'of the map: "3.5 in..4.0 in"; a tenth to either side unless given'),
  'range-b': text('RANGE', 'a range', 'the same for B'),
  cells: whole('N', 'how many cells', FEWEST_CELLS, MOST_CELLS, 'of the map, along each side; 16 unless given'),
  'keep-piston': flag(
    'on the map the piston stays as it is; else compression height follows so that the deck clearance stays',
  ),
  json: flag('one JSON document instead of the tables'),
  help: flag('this text'),
} as const;

export type Asked = { readonly file: string } & Omit<Values<typeof OPTIONS>, 'help'>;

export type Options =
  | { readonly kind: 'help' }
  | { readonly kind: 'asked'; readonly asked: Asked }
  | { readonly kind: 'refused'; readonly sentence: string };

const SEE_HELP = 'See --help.';

export const USAGE = `Judges the assembly that a build file proposes: every gap over the whole turn, each with a proven lower bound.

  npm run --silent check -- FILE [options]

${helpLines().join('\n')}

Exit status: 0 every gap clears, 1 something is tight, in contact or unproven, 2 the build can't be judged; then each
reason stands on a line of standard error. The file is only read.
`;

/** One line for each option, its help broken where the line would be longer than a terminal. */
function helpLines(): string[] {
  const rows = [
    ['FILE', 'a build file (JSON text, format "strokewright-build")'] as const,
    ...Object.entries(OPTIONS).map(([name, option]) => [usageOf(name, option), option.help] as const),
  ];
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.flatMap(([name, help]) =>
    broken(help, 116 - width).map((line, k) => `  ${(k === 0 ? name : '').padEnd(width)}  ${line}`),
  );
}

function broken(words: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Reads the arguments after the command's own name. Never throws. */
export function readOptions(args: readonly string[]): Options {
  const read = readArguments(OPTIONS, args);
  if (!read.ok) return { kind: 'refused', sentence: `${read.sentence} ${SEE_HELP}` };
  const { help, ...asked } = read.values;
  if (help) return { kind: 'help' };
  const [file] = read.rest;
  if (file === undefined) return { kind: 'refused', sentence: `No build file is named. ${SEE_HELP}` };
  if (read.rest.length > 1)
    return { kind: 'refused', sentence: `${read.rest.length} files are named; one at a time is judged. ${SEE_HELP}` };
  if (asked.seed !== undefined && asked['monte-carlo'] === undefined)
    return { kind: 'refused', sentence: `--seed goes with --monte-carlo only. ${SEE_HELP}` };
  const ofMap = (['range-a', 'range-b', 'cells', 'keep-piston'] as const).find((name) => Boolean(asked[name]));
  if (ofMap !== undefined && asked.map === undefined)
    return { kind: 'refused', sentence: `--${ofMap} goes with --map only. ${SEE_HELP}` };
  return { kind: 'asked', asked: { file, ...asked } };
}

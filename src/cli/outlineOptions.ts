/** What the command line of `outline` asks for: a body of a build, an outline put there from a file or taken out, a template of it. */
import { choice, either, flag, readArguments, text, usageOf, type Values } from './option.ts';

/** mm; about .002 in: what a careful tracing keeps. */
export const USUAL_DEVIATION = '0.05 mm';

const OPTIONS = {
  body: text(
    'NAME',
    'the name of a body',
    '"counterweight 2 rear", "rod 3", "rods", "piston 3", "pistons", or a fixed part',
  ),
  assembly: text('NAME', 'the name of an assembly', 'another assembly of the build than the proposed one'),
  fit: text('FILE', 'a file', 'measured points (CSV) or a drawing (DXF) to put there; with --out'),
  clear: flag('take the outline out again, back to the dimensions; a fixed part goes altogether; with --out'),
  out: text('FILE', 'a file', 'where the build is written'),
  template: text('FILE', 'a file', 'where the body is drawn, at full size: FILE ends with .svg or .dxf'),
  replace: flag('write over files that are there already'),
  unit: either('UNIT', ['mm', 'in'], 'of the file to fit, where it does not say; of a DXF template, else mm'),
  columns: either('WHICH', ['xy', 'polar'], 'of a CSV file without heading: x and y, or radius and angle'),
  layer: text('NAME', 'the name of a layer', 'of a DXF file: only what is drawn there'),
  deviation: text(
    'LENGTH',
    'a length',
    `how far the part may stand out of the outline; ${USUAL_DEVIATION} unless stated`,
  ),
  seen: choice('FROM', ['front', 'rear'], 'where whoever measured it stood, and whoever lays the template on'),
  from: choice('HOW', ['measured', 'stated', 'assumed'], 'where the outline comes from'),
  'front-face': text(
    'LENGTH',
    'a length',
    'of a new fixed part: its front face along the shaft, from the bore of cylinder 1',
  ),
  'rear-face': text('LENGTH', 'a length', 'and its rear face'),
  help: flag('this text'),
} as const;

export type AskedOutline = { readonly file: string; readonly body: string } & Omit<
  Values<typeof OPTIONS>,
  'help' | 'body'
>;

export type OutlineOptions =
  | { readonly kind: 'help' }
  | { readonly kind: 'asked'; readonly asked: AskedOutline }
  | { readonly kind: 'refused'; readonly sentence: string };

const SEE_HELP = 'See --help.';

const ROWS = Object.entries(OPTIONS).map(([name, option]) => [usageOf(name, option), option.help] as const);
const WIDTH = Math.max(...ROWS.map(([name]) => name.length));

export const OUTLINE_USAGE = `Puts a measured outline into a build, or draws a body of it at full size to lay on the part.

  npm run --silent outline -- FILE --body NAME --fit POINTS.csv --out NEW.json
  npm run --silent outline -- FILE --body NAME --template DRAWING.svg

  ${'FILE'.padEnd(WIDTH)}  a build file
${ROWS.map(([name, help]) => `  ${name.padEnd(WIDTH)}  ${help}`).join('\n')}

A counterweight, with its whole cheek, is traced about the crank axis, crankpin up; a rod about its crankpin, small end up; a
pin boss from the bore axis and the height of the pin, crown up; a fixed part about the crank axis.

Exit status: 0 done, 2 refused; then each reason stands on a line of standard error and nothing is written.
`;

/** Reads the arguments after the command's own name. Never throws. */
export function readOutlineOptions(args: readonly string[]): OutlineOptions {
  const refused = (sentence: string): OutlineOptions => ({ kind: 'refused', sentence: `${sentence} ${SEE_HELP}` });
  const read = readArguments(OPTIONS, args);
  if (!read.ok) return refused(read.sentence);
  const { help, body, ...asked } = read.values;
  if (help) return { kind: 'help' };
  const [file] = read.rest;
  if (file === undefined) return refused('No build file is named.');
  if (read.rest.length > 1) return refused(`${read.rest.length} files are named; one build at a time.`);
  if (body === undefined) return refused('No body is named (--body).');
  if (asked.fit !== undefined && asked.clear) return refused('Either --fit or --clear.');
  const changes = asked.fit !== undefined || asked.clear;
  if (!changes && asked.template === undefined) return refused('Nothing to do: --fit, --clear or --template.');
  if (changes && asked.out === undefined) return refused('Where is the build written? --out FILE.');
  if (!changes && asked.out !== undefined) return refused('--out is the changed build; --fit or --clear changes it.');
  if (asked.template !== undefined && !/\.(svg|dxf)$/i.test(asked.template)) {
    return refused('--template takes a file that ends with .svg or .dxf.');
  }
  if (asked.out !== undefined && asked.out === asked.template) return refused('--out and --template name one file.');
  return { kind: 'asked', asked: { file, body, ...asked } };
}

/** What the command line of `sums` asks for. */
import { flag, readArguments, text, usageOf } from './option.ts';

const OPTIONS = {
  replaced: text('NAME', 'the name of an assembly', 'another assembly on the left than the one being replaced'),
  proposed: text('NAME', 'the name of an assembly', 'another assembly on the right than the proposed one'),
  explain: flag('under each figure its formula, its inputs as written, and its source'),
  json: flag('one JSON document instead of the tables'),
  help: flag('this text'),
} as const;

export type SumsOptions =
  | { readonly kind: 'help' }
  | { readonly kind: 'refused'; readonly sentence: string }
  | {
      readonly kind: 'asked';
      readonly file: string;
      readonly replaced: string | undefined;
      readonly proposed: string | undefined;
      readonly explain: boolean;
      readonly json: boolean;
    };

const SEE_HELP = 'See --help.';

export const SUMS_USAGE = `The shop's sums for the assembly being replaced and the proposed one, and their differences.

  npm run --silent sums -- FILE [options]

  FILE${' '.repeat(14)}a build file (JSON text, format "strokewright-build")
${Object.entries(OPTIONS)
  .map(([name, option]) => `  ${usageOf(name, option).padEnd(16)}  ${option.help}`)
  .join('\n')}

Exit status: 0 printed, 2 the build can't be used; then each reason stands on a line of standard error. The file is only
read. A figure that lacks an input says which; a figure that can't be done says why.
`;

/** Reads the arguments after the command's own name. Never throws. */
export function readSumsOptions(args: readonly string[]): SumsOptions {
  const read = readArguments(OPTIONS, args);
  if (!read.ok) return { kind: 'refused', sentence: `${read.sentence} ${SEE_HELP}` };
  const { help, ...asked } = read.values;
  if (help) return { kind: 'help' };
  const [file] = read.rest;
  if (file === undefined) return { kind: 'refused', sentence: `No build file is named. ${SEE_HELP}` };
  if (read.rest.length > 1) {
    return { kind: 'refused', sentence: `${read.rest.length} files are named; one at a time is read. ${SEE_HELP}` };
  }
  return { kind: 'asked', file, ...asked };
}

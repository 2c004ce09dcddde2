/** What the command line asks for. Every option is known by name; anything else is refused with a sentence. */
import { parseArgs } from 'node:util';

export interface Asked {
  readonly file: string;
  /** Name of the assembly to judge; undefined: the proposed one. */
  readonly assembly: string | undefined;
  readonly json: boolean;
}

export type Options =
  | { readonly kind: 'help' }
  | { readonly kind: 'asked'; readonly asked: Asked }
  | { readonly kind: 'refused'; readonly sentence: string };

export const USAGE = `Judges the assembly that a build file proposes: every gap over the whole turn, each with a proven lower bound.

  npm run --silent check -- FILE [--assembly NAME] [--json]

  FILE             a build file (JSON text, format "strokewright-build")
  --assembly NAME  another assembly of the build than the proposed one
  --json           one JSON document instead of the table
  --help           this text

Exit status: 0 every gap clears, 1 something is tight, in contact or unproven, 2 the build can't be judged; then each
reason stands on a line of standard error. The file is only read.
`;

const SEE_HELP = 'See --help.';

const KNOWN = {
  assembly: { type: 'string' },
  json: { type: 'boolean' },
  help: { type: 'boolean' },
} as const;

/** Reads the arguments after the command's own name. Never throws. */
export function readOptions(args: readonly string[]): Options {
  const { tokens } = parseArgs({
    args: [...args],
    options: KNOWN,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const files: string[] = [];
  const seen = new Map<string, string | undefined>();
  for (const token of tokens) {
    if (token.kind === 'positional') files.push(token.value);
    if (token.kind !== 'option') continue;
    const fault = optionFault(token, seen);
    if (fault !== null) return { kind: 'refused', sentence: `${fault} ${SEE_HELP}` };
    seen.set(token.name, token.value);
  }
  if (seen.has('help')) return { kind: 'help' };
  const [file] = files;
  if (file === undefined) return { kind: 'refused', sentence: `No build file is named. ${SEE_HELP}` };
  if (files.length > 1)
    return { kind: 'refused', sentence: `${files.length} files are named; one at a time is judged. ${SEE_HELP}` };
  return { kind: 'asked', asked: { file, assembly: seen.get('assembly'), json: seen.has('json') } };
}

interface OptionToken {
  readonly name: string;
  readonly rawName: string;
  readonly value: string | undefined;
  readonly inlineValue: boolean | undefined;
}

function optionFault(token: OptionToken, seen: ReadonlyMap<string, unknown>): string | null {
  const { name, rawName, value, inlineValue } = token;
  if (!Object.hasOwn(KNOWN, name)) return `${rawName} is not an option.`;
  if (seen.has(name)) return `${rawName} is given more than once.`;
  if (KNOWN[name as keyof typeof KNOWN].type === 'boolean')
    return value === undefined ? null : `${rawName} takes no value.`;
  const missing = value === undefined || value === '' || (inlineValue !== true && value.startsWith('-'));
  return missing ? `${rawName} needs the name of an assembly.` : null;
}

/** The kinds of option a command line can have: how many values each takes, what they are, how they are read. */

/** What was wrong with a value: the rest of a sentence that begins with the option's name. */
export interface Fault {
  readonly fault: string;
}

export interface Option<T> {
  /** What stands behind the option in the usage: one word for each value it takes. */
  readonly words: readonly string[];
  /** "the name of an assembly": what it needs, said when a value is missing. */
  readonly needs: string;
  readonly help: string;
  /** What the option means when it is not given. */
  readonly absent: T;
  readonly read: (values: readonly string[]) => T | Fault;
}

/** Given or not. */
export function flag(help: string): Option<boolean> {
  return { words: [], needs: '', help, absent: false, read: () => true };
}

/** Any text but an empty one. */
export function text(word: string, needs: string, help: string): Option<string | undefined> {
  return { words: [word], needs, help, absent: undefined, read: ([value]) => value! };
}

/** Several texts, as many as there are words. */
export function texts(words: readonly string[], needs: string, help: string): Option<readonly string[] | undefined> {
  return { words, needs, help, absent: undefined, read: (values) => values };
}

/** One of some words; the first is meant when the option is not given. */
export function choice<const C extends readonly [string, ...string[]]>(
  word: string,
  choices: C,
  help: string,
): Option<C[number]> {
  const said = choices.join(' or ');
  return {
    words: [word],
    needs: said,
    help,
    absent: choices[0],
    read: ([value]) => choices.find((one) => one === value) ?? { fault: `takes ${said}, not ${value}.` },
  };
}

/** One of some words, or not given. */
export function either<const C extends readonly [string, ...string[]]>(
  word: string,
  choices: C,
  help: string,
): Option<C[number] | undefined> {
  return { ...choice(word, choices, help), absent: undefined };
}

/** A whole number from `least` to `most`, in digits. */
export function whole(
  word: string,
  needs: string,
  least: number,
  most: number,
  help: string,
): Option<number | undefined> {
  return {
    words: [word],
    needs,
    help,
    absent: undefined,
    read: ([value]) => {
      const number = /^\d{1,15}$/.test(value!) ? Number(value) : Number.NaN;
      return number >= least && number <= most
        ? number
        : { fault: `takes a whole number from ${least} to ${most}, not ${value}.` };
    },
  };
}

export type Options = Readonly<Record<string, Option<unknown>>>;

export type Values<O extends Options> = { readonly [K in keyof O]: O[K] extends Option<infer T> ? T : never };

export type Read<O extends Options> =
  | { readonly ok: true; readonly values: Values<O>; readonly rest: readonly string[] }
  | { readonly ok: false; readonly sentence: string };

/**
 * Reads arguments: `--name`, `--name value …`, `--name=value` for options of one value; `--` ends the options. What is no
 * option is left in `rest`, in its order. A value that begins with a hyphen is taken for the next option, unless it stands
 * behind an equals sign.
 */
export function readArguments<O extends Options>(options: O, args: readonly string[]): Read<O> {
  const values: Record<string, unknown> = {};
  const rest: string[] = [];
  for (let k = 0; k < args.length; k++) {
    const arg = args[k]!;
    if (arg === '--') {
      rest.push(...args.slice(k + 1));
      break;
    }
    if (!arg.startsWith('-') || arg === '-') {
      rest.push(arg);
      continue;
    }
    const [, name = '', inline] = /^--([^=]*)(?:=(.*))?$/s.exec(arg) ?? [];
    const said = name === '' ? arg : `--${name}`;
    const refused = (sentence: string): Read<O> => ({ ok: false, sentence: `${said} ${sentence}` });
    if (!Object.hasOwn(options, name)) return refused('is not an option.');
    const option = options[name]!;
    if (Object.hasOwn(values, name)) return refused('is given more than once.');
    const count = option.words.length;
    if (inline !== undefined && count === 0) return refused('takes no value.');
    if (inline !== undefined && count > 1) return refused(`takes ${count} values, each after a blank.`);
    const given = inline !== undefined ? [inline] : args.slice(k + 1, k + 1 + count);
    const missing =
      given.length < count || given.some((value) => value === '' || (inline === undefined && value.startsWith('-')));
    if (missing) return refused(`needs ${option.needs}.`);
    if (inline === undefined) k += count;
    const value = option.read(given);
    if (isFault(value)) return refused(value.fault);
    values[name] = value;
  }
  const absent = Object.fromEntries(Object.entries(options).map(([name, option]) => [name, option.absent]));
  return { ok: true, values: { ...absent, ...values } as Values<O>, rest };
}

function isFault(value: unknown): value is Fault {
  return typeof value === 'object' && value !== null && 'fault' in value;
}

/** "--pairs WHICH" */
export function usageOf(name: string, option: Option<unknown>): string {
  return [`--${name}`, ...option.words].join(' ');
}

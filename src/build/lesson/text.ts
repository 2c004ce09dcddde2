/**
 * Texts of lessons and of the glossary: plain words with {figure}, {figure|way} and [[term]], [[term|words]] in them. Braces and
 * double brackets mean nothing else there.
 */

/** How a computed figure is written: one more decimal, with its sign, without it, rounded to whole units. */
export const WAYS = ['fine', 'signed', 'size', 'whole'] as const;
export type Way = (typeof WAYS)[number];

export type Piece =
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'figure'; readonly name: string; readonly ways: readonly Way[] }
  | { readonly kind: 'term'; readonly term: string; readonly text: string };

export interface TextFault {
  readonly value: string;
  readonly allowed: string;
}

export interface ReadText {
  readonly pieces: readonly Piece[];
  readonly faults: readonly TextFault[];
}

const MARK = /\{([^{}]*)\}|\[\[([^[\]]*)\]\]/g;

/** Cuts a text into pieces; what looks like a mark and is none comes back as a fault. */
export function readText(text: string): ReadText {
  const pieces: Piece[] = [];
  const faults: TextFault[] = [];
  let from = 0;
  const words = (to: number): void => {
    const said = text.slice(from, to);
    if (/[{}]|\[\[|\]\]/.test(said))
      faults.push({
        value: said.trim().slice(0, 60),
        allowed: 'Allowed: braces and double brackets in pairs, as {gap} and [[stroke]].',
      });
    if (said !== '') pieces.push({ kind: 'words', text: said });
  };
  for (const found of text.matchAll(MARK)) {
    words(found.index);
    from = found.index + found[0].length;
    const [first = '', ...rest] = (found[1] ?? found[2]!).split('|').map((part) => part.trim());
    if (found[1] === undefined) {
      if (first === '' || rest.length > 1)
        faults.push({ value: found[0], allowed: 'Allowed: [[term]] or [[term|words]].' });
      else pieces.push({ kind: 'term', term: first.toLowerCase(), text: rest[0] ?? first });
      continue;
    }
    const ways = (rest[0] ?? '').split(/\s+/).filter((way) => way !== '');
    const unknown = ways.find((way) => !WAYS.some((known) => known === way));
    if (first === '' || rest.length > 1 || unknown !== undefined)
      faults.push({
        value: found[0],
        allowed: `Allowed: {figure} or {figure|way}, the ways being ${WAYS.join(', ')}.`,
      });
    else pieces.push({ kind: 'figure', name: first, ways: ways as Way[] });
  }
  words(text.length);
  return { pieces, faults };
}

/** Every text within a value, with its place, in order: a lesson's own strings, wherever they stand. */
export function textsOf(value: unknown, place = ''): { readonly place: string; readonly text: string }[] {
  if (typeof value === 'string') return [{ place, text: value }];
  if (Array.isArray(value)) return value.flatMap((item, k) => textsOf(item, `${place}[${k}]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => textsOf(item, place === '' ? key : `${place}.${key}`));
}

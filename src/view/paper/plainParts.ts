/** What parts are called where a lay person reads, and what the words mean that can't be avoided. */
import type { GapKind } from '../../build/document.ts';

/** The two parts of a kind of gap: in the plural where the engine has more than one cylinder. */
const PARTS: Readonly<Record<GapKind, readonly [one: readonly [string, string], many: readonly [string, string]]>> = {
  'counterweight-piston': [
    ['the counterweights', 'the piston'],
    ['the counterweights', 'the pistons'],
  ],
  'counterweight-block': [
    ['the counterweights', 'the block'],
    ['the counterweights', 'the block'],
  ],
  'counterweight-camshaft': [
    ['the counterweights', 'the camshaft'],
    ['the counterweights', 'the camshaft'],
  ],
  'rod-camshaft': [
    ['the rod', 'the camshaft'],
    ['the rods', 'the camshaft'],
  ],
  'rod-block': [
    ['the rod', 'the block'],
    ['the rods', 'the block'],
  ],
  'rod-piston': [
    ['the rod', 'its own piston'],
    ['the rods', 'their own pistons'],
  ],
  'rod-opposite-piston': [
    ['the rod', 'the piston across'],
    ['the rods', 'the pistons across'],
  ],
  'piston-piston': [
    ['the piston', 'the piston across'],
    ['the pistons', 'the pistons across'],
  ],
  'piston-intake-valve': [
    ['the piston', 'the intake valve'],
    ['the pistons', 'the intake valves'],
  ],
  'piston-exhaust-valve': [
    ['the piston', 'the exhaust valve'],
    ['the pistons', 'the exhaust valves'],
  ],
  deck: [
    ['the piston', 'the top of the block'],
    ['the pistons', 'the top of the block'],
  ],
};

export function partsOfKind(kind: GapKind, several: boolean): readonly [string, string] {
  return PARTS[kind][several ? 1 : 0];
}

/** Words of the trade that the summary uses, and their meaning. A word comes before the shorter one that it contains. */
const WORDS: readonly (readonly [word: RegExp, term: string, means: string])[] = [
  [
    /\bsize of the engine\b|\bsize of\b/i,
    'Size of the engine',
    'the room that its pistons sweep; also called displacement',
  ],
  [/\bpistons?\b/i, 'Piston', 'slides up and down in its bore, pushed by the burning fuel'],
  [/\bbores?\b/i, 'Bore', 'the round hole in which a piston slides'],
  [/\bcrankshaft\b|\bcrankpins?\b|\brods?\b/i, 'Crankshaft', 'makes rotation of the up and down of the pistons'],
  [
    /\bcrankpins?\b/i,
    'Crankpin',
    'the round pin of the crankshaft on which a rod turns; the farther out, the farther the piston travels',
  ],
  [/\brods?\b/i, 'Rod', 'links a piston to the crankshaft'],
  [/\bbearings?\b/i, 'Bearing', 'the oiled shell in which a shaft turns'],
  [/\bcounterweights?\b/i, 'Counterweight', 'the part of the crankshaft that balances pistons and rods'],
  [/\bcamshaft\b/i, 'Camshaft', 'opens the valves'],
  [/\bvalves?\b/i, 'Valve', 'lets air in or burnt gas out'],
  [/\bcompression ratio\b/i, 'Compression ratio', 'how many times smaller the space above a piston gets as it rises'],
  [/\bblock\b/i, 'Block', 'the body of the engine'],
];

const EVERYDAY: ReadonlySet<string> = new Set(['Piston', 'Block', 'Valve']);

export interface PlainWord {
  readonly term: string;
  readonly means: string;
}

/** The words that stand in a text, explained; `fewer` leaves out what those words say in everyday speech as well. */
export function wordsIn(text: string, fewer = false): PlainWord[] {
  return WORDS.filter(([word, term]) => word.test(text) && !(fewer && EVERYDAY.has(term))).map(([, term, means]) => ({
    term,
    means,
  }));
}

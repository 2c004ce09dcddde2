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
    /\bsize of the engine\b|\bsize of\b|\bkeeps its size\b/i,
    'Size of the engine',
    'the room that all pistons sweep in one stroke; also called displacement',
  ],
  [/\bpistons?\b/i, 'Piston', 'the part that slides up and down in its bore and is pushed by the burning fuel'],
  [/\bbores?\b/i, 'Bore', 'the round hole in the block in which a piston slides'],
  [/\bcrankshaft\b/i, 'Crankshaft', 'the shaft that turns the up and down of the pistons into rotation'],
  [
    /\bcrankpins?\b/i,
    'Crankpin',
    'the round pin of the crankshaft on which a rod turns; the farther out it sits, the farther the piston travels',
  ],
  [/\brods?\b/i, 'Rod', 'the link between a piston and the crankshaft'],
  [/\bbearings?\b/i, 'Bearing', 'the thin shell, wet with oil, in which a shaft turns'],
  [/\bmain bearings?\b/i, 'Main bearing', 'a bearing in which the crankshaft turns in the block'],
  [/\bcounterweights?\b/i, 'Counterweight', 'a weight on the crankshaft that balances the pistons and rods'],
  [/\bcamshaft\b/i, 'Camshaft', 'the shaft that opens the valves'],
  [/\bvalves?\b/i, 'Valve', 'the lid through which air comes in or burnt gas goes out'],
  [/\bcompression ratio\b/i, 'Compression ratio', 'how many times smaller the space above the piston gets as it rises'],
  [/\bblock\b/i, 'Block', 'the body of the engine that holds all this'],
];

export interface PlainWord {
  readonly term: string;
  readonly means: string;
}

/** The words that stand in a text, explained. */
export function wordsIn(text: string): PlainWord[] {
  return WORDS.filter(([word]) => word.test(text)).map(([, term, means]) => ({ term, means }));
}

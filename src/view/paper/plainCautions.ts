/** The cautions of the shop's sums in words that need no trade. */
import type { Minded } from '../../model/paper/summary.ts';

/** By the key of the sum. Null: a matter of the shop's bookkeeping that says nothing to the customer. */
const WORDS: readonly (readonly [key: RegExp, words: string | null])[] = [
  [/^journal overlap/, 'Seen from the end, the pins of the crankshaft no longer overlap. That makes it weaker.'],
  [/^removed on the thin side/, 'On one side there is too little metal to grind a clean crankpin.'],
  [/^hardened case left/, 'Grinding cuts through the hard skin of the crankpins. They have to be hardened again.'],
  [/^off the /, null],
  [/^rod chamfer to fillet/, 'The edge of a rod rides on the rounded corner of its crankpin.'],
  [/^pin between its locks/, 'The pin that holds the piston is too long for its place.'],
  [/^bore below the oil ring/, 'At the bottom the lowest ring of the piston leaves the bore.'],
  [/^bore below the pin/, 'At the bottom the ends of the pin that holds the piston leave the bore.'],
  [
    /^oil groove to pin bore/,
    'The hole for the pin cuts the groove of a piston ring. That takes a support under the ring.',
  ],
  [/^crank end float/, 'The crankshaft does not go in between its end faces.'],
  [/^(deck height|bore offset) after line boring/, null],
  [
    /^crank to cam after line boring/,
    'Boring has moved the crankshaft. Its distance from the camshaft is another one, and their drive has to allow for it.',
  ],
  [/^rod ends less the whole rod/, null],
];

/** By what the caution says, where the key covers several. */
const BY_WORDS: readonly (readonly [words: RegExp, plain: string])[] = [
  [/can’t be turned to fit/, 'One place of the crankshaft has too little metal to be turned to fit the block.'],
  [
    /cuts through the hardened case/,
    'Turning the crankshaft to fit cuts through its hard skin. It has to be hardened again.',
  ],
];

/** A sentence or two; null for what is the shop's alone. A caution that is not known here is given in the shop's own words. */
export function cautionInPlainWords({ key, words }: Pick<Minded, 'key' | 'words'>): string | null {
  for (const [said, plain] of BY_WORDS) if (said.test(words)) return plain;
  for (const [of, plain] of WORDS) if (of.test(key)) return plain;
  return `The shop notes of ${key}: ${words}.`;
}

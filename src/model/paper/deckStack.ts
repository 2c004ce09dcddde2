/** The deck stack as a column that adds up: from the deck down to the crank axis, and what is left above the crown. */
import type { BuildDocument } from '../../build/document.ts';
import { shopOf } from '../sums/shop.ts';
import { type Amount, amount, type Decimal, inBase, type Sum } from '../sums/sum.ts';
import { groupFor } from './sums.ts';

export interface StackLine {
  readonly name: string;
  readonly amount: Amount;
  /** Whether it is added to the column, taken off, or is what comes out of it. */
  readonly sign: '' | '−' | '+' | '=';
}

export interface Stack {
  /** Cylinders it holds for; empty: all. */
  readonly cylinders: readonly number[];
  readonly lines: readonly StackLine[];
  /** One part changed alone so that the wanted deck clearance comes out. */
  readonly wanted: readonly { readonly name: string; readonly amount: Amount }[];
}

export function deckStacksOf(doc: BuildDocument, assembly: string): Stack[] {
  const shop = shopOf(doc, assembly);
  const sums = groupFor(doc, assembly, 'Deck stack');
  return shop.alike.flatMap(({ label, cylinders }): Stack[] => {
    const own = (s: Sum): boolean => s.key.endsWith(label) && (label !== '' || !/ of cylinder /.test(s.key));
    const clearance = sums.find((s) => s.key === `deck clearance${label}`);
    const head = sums.find((s) => s.key === `piston to head${label}`);
    if (clearance?.amount == null) return [];
    const input = (name: string): Decimal => inBase(clearance.inputs.find((i) => i.name === name)!)!;
    const [deck, stroke, rod, height] = [
      input('block deck height'),
      input('stroke'),
      input('rod length'),
      input('compression height'),
    ];
    const fine = (value: Decimal): Amount => amount('fine length', value);
    const lost = deck.minus(stroke.div(2)).minus(rod).minus(height).minus(clearance.amount.value);
    return [
      {
        cylinders: label === '' ? [] : cylinders,
        lines: [
          { sign: '', name: 'block deck height', amount: fine(deck) },
          { sign: '−', name: 'half the stroke', amount: fine(stroke.div(2)) },
          { sign: '−', name: 'rod length', amount: fine(rod) },
          { sign: '−', name: 'compression height', amount: fine(height) },
          // With an offset pin line the piston stops a little lower than the parts are long.
          ...(lost.isZero() ? [] : [{ sign: '−' as const, name: 'offset of the pin line', amount: fine(lost) }]),
          { sign: '=', name: 'deck clearance', amount: clearance.amount },
          ...(head?.amount == null
            ? []
            : [
                { sign: '+' as const, name: 'gasket', amount: fine(head.amount.value.minus(clearance.amount.value)) },
                { sign: '=' as const, name: 'piston to head', amount: head.amount },
              ]),
        ],
        wanted: sums
          .filter((s) => own(s) && / for the wanted deck clearance/.test(s.key) && s.amount !== null)
          .map((s) => ({
            name: s.key.slice(0, s.key.length - label.length).replace(' for the wanted deck clearance', ''),
            amount: s.amount!,
          })),
      },
    ];
  });
}

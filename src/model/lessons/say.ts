/** Texts of a lesson with their figures filled in, in the units of whoever reads. */
import { type AmountOf, type Piece, readText, type Way } from '../../build/lesson/index.ts';
import { Exact } from '../../build/literal.ts';
import type { Units } from '../state.ts';
import type { AmountKind } from '../sums/sum.ts';
import { written } from '../sums/written.ts';
import type { Value, Values } from './values.ts';

/** A piece of a text as it is shown: words, a computed figure, or a term of the glossary. */
export type Said =
  | { readonly kind: 'words' | 'figure'; readonly text: string }
  | { readonly kind: 'term'; readonly term: string; readonly text: string };

const KIND: Readonly<Record<AmountOf, AmountKind>> = {
  length: 'length',
  angle: 'angle',
  share: 'share',
  ratio: 'ratio',
  speed: 'speed',
  acceleration: 'acceleration',
  displacement: 'displacement',
  count: 'count',
};

/** "74.5°", ".012 in", "58.0 %", "1.66". Throws RangeError unless finite. */
export function sayValue({ as, value }: Value, units: Units, ways: readonly Way[] = []): string {
  if (!Number.isFinite(value)) throw new RangeError(`A figure to be shown must be finite, got ${value}`);
  // Twelve digits are more than any figure here is read to, and keep what a double adds in its last ones off the page.
  const exact = new Exact(value.toPrecision(12));
  const sized = ways.includes('size') ? exact.abs() : exact;
  if (ways.includes('whole')) {
    const unit = { angle: '°', share: ' %' }[as as string] ?? '';
    const whole = (as === 'share' ? sized.times(100) : sized).toDecimalPlaces(0, Exact.ROUND_HALF_UP);
    return `${whole.toFixed().replace('-', '−')}${unit}`;
  }
  const kind = as === 'length' && ways.includes('fine') ? 'fine length' : KIND[as];
  if (as === 'ratio' && ways.includes('fine')) return sized.toFixed(3).replace('-', '−');
  return written({ as: kind, value: sized }, units, ways.includes('signed'));
}

/** A text of a lesson that has passed its rules. */
export function say(text: string, values: Values, units: Units): Said[] {
  return readText(text).pieces.map((piece: Piece): Said => {
    if (piece.kind !== 'figure') return piece;
    const value = values.get(piece.name);
    if (value === undefined) throw new RangeError(`say: there is no figure ${piece.name}`);
    return { kind: 'figure', text: sayValue(value, units, piece.ways) };
  });
}

/** The same as one plain text. */
export function plainly(said: readonly Said[]): string {
  return said.map((piece) => piece.text).join('');
}

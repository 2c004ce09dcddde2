/** What kind of amount a figure of a lesson is, from its own fields and those it is made from. */
import { type AmountOf, QUANTITIES, type QuantityKind } from './quantities.ts';
import type { Lesson } from './schema.ts';

/** Dimensions that are angles, by the last word of their place; all others that a lesson may name are lengths. */
const ANGLES = /(?:angle|duration|separation|centreline|advance)$/i;

export function isAnglePlace(place: string): boolean {
  return ANGLES.test(place);
}

/** Null for a figure that is not there, or made from itself. */
export function amountOf(figures: Lesson['figures'], name: string, depth = 0): AmountOf | null {
  const figure = Object.hasOwn(figures, name) ? figures[name] : undefined;
  if (figure === undefined || depth > 8) return null;
  const { as }: QuantityKind = QUANTITIES[figure.is];
  if (as !== 'as its own') return as;
  if (figure.is === 'dimension') return isAnglePlace(figure.place ?? '') ? 'angle' : 'length';
  return figure.between === undefined ? null : amountOf(figures, figure.between[0], depth + 1);
}

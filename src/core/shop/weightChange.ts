/**
 * What changing parts does to their weight: piece by piece, and over the set. Grams as weighed, exact decimals; pounds and
 * ounces are avoirdupois, 453.59237 g and a sixteenth of it, exactly.
 */
import { Decimal } from 'decimal.js';

const GRAMS_PER_POUND = new Decimal('453.59237');
const OUNCES_PER_POUND = 16;

export interface PieceWeights {
  /** What a machinist calls it: "rod", "piston", "pin". */
  readonly name: string;
  /** How many of it the set has, from 1. */
  readonly count: number;
  readonly beforeGrams: Decimal;
  readonly afterGrams: Decimal;
}

/** A change of weight: positive heavier, negative lighter. */
export interface WeightChange {
  readonly grams: Decimal;
  readonly pounds: Decimal;
  readonly ounces: Decimal;
}

export interface WeightChanges {
  /** Of one piece each, in the order given. */
  readonly perPiece: readonly (WeightChange & { readonly name: string })[];
  /** Of all of them. */
  readonly set: WeightChange;
}

/** Throws a RangeError for a weight that is negative or not finite, or a count that is not a whole number from 1. */
export function weightChanges(pieces: readonly PieceWeights[]): WeightChanges {
  let total = new Decimal(0);
  const perPiece = pieces.map((piece) => {
    for (const grams of [piece.beforeGrams, piece.afterGrams]) {
      if (!(grams.isFinite() && grams.gte(0))) {
        throw new RangeError(`weight of ${piece.name}, ${grams} g, must be 0 or more and finite`);
      }
    }
    if (!(Number.isInteger(piece.count) && piece.count >= 1)) {
      throw new RangeError(`${piece.count} of ${piece.name}: must be a whole number from 1`);
    }
    const change = piece.afterGrams.sub(piece.beforeGrams);
    total = total.add(change.mul(piece.count));
    return { name: piece.name, ...inAllUnits(change) };
  });
  return { perPiece, set: inAllUnits(total) };
}

function inAllUnits(grams: Decimal): WeightChange {
  const pounds = grams.div(GRAMS_PER_POUND);
  return { grams, pounds, ounces: grams.mul(OUNCES_PER_POUND).div(GRAMS_PER_POUND) };
}

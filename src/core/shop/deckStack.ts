/**
 * The stack from crank axis to deck: deck height = pin height at TDC + compression height + deck clearance, solved for
 * any one of its parts.
 *
 * Without offset the pin height at TDC is stroke / 2 + rod length and everything adds: exact decimals, in one unit of
 * length, whichever. With the pin line offset by e it is sqrt((r + l)^2 - e^2), and the result is a binary float in mm.
 * Deck clearance is positive when the crown stands below the deck, negative when above.
 *
 * A part that would have to be zero or less, deck clearance excepted, is refused with a RangeError that names it.
 */
import { Decimal } from 'decimal.js';

/** `stroke` is twice the crank radius. */
export interface DeckStack<Length> {
  readonly deckHeight: Length;
  readonly stroke: Length;
  readonly rodLength: Length;
  readonly compressionHeight: Length;
  readonly deckClearance: Length;
}

export type DeckStackPart = keyof DeckStack<unknown>;

/** The four parts that stand beside the one asked for; a value for that one is not looked at. */
export type DeckStackOthers<Part extends DeckStackPart, Length> = Omit<DeckStack<Length>, Part>;

/** The part asked for, from the four others, when the pin line passes through the crank axis. Exact. */
export function solveDeckStack<Part extends DeckStackPart>(
  asked: Part,
  others: DeckStackOthers<Part, Decimal>,
): Decimal {
  const s = others as DeckStack<Decimal>;
  const solve: Readonly<Record<DeckStackPart, () => Decimal>> = {
    deckHeight: () => s.stroke.div(2).add(s.rodLength).add(s.compressionHeight).add(s.deckClearance),
    stroke: () => s.deckHeight.sub(s.compressionHeight).sub(s.deckClearance).sub(s.rodLength).mul(2),
    rodLength: () => s.deckHeight.sub(s.compressionHeight).sub(s.deckClearance).sub(s.stroke.div(2)),
    compressionHeight: () => s.deckHeight.sub(s.stroke.div(2)).sub(s.rodLength).sub(s.deckClearance),
    deckClearance: () => s.deckHeight.sub(s.stroke.div(2)).sub(s.rodLength).sub(s.compressionHeight),
  };
  const solved = solve[asked]();
  refuseImpossible(asked, solved);
  return solved;
}

/** The same with the pin line `offsetMm` beside the crank axis; all lengths in millimetres. */
export function solveOffsetDeckStackMm<Part extends DeckStackPart>(
  asked: Part,
  others: DeckStackOthers<Part, number>,
  offsetMm: number,
): number {
  const s = others as DeckStack<number>;
  const pinAtTdc = () => {
    const far = s.stroke / 2 + s.rodLength;
    return Math.sqrt((far - offsetMm) * (far + offsetMm));
  };
  // Rod and crank in one line, from the crank axis to the pin.
  const inLine = () => Math.hypot(s.deckHeight - s.compressionHeight - s.deckClearance, offsetMm);
  const solve: Readonly<Record<DeckStackPart, () => number>> = {
    deckHeight: () => pinAtTdc() + s.compressionHeight + s.deckClearance,
    stroke: () => 2 * (inLine() - s.rodLength),
    rodLength: () => inLine() - s.stroke / 2,
    compressionHeight: () => s.deckHeight - pinAtTdc() - s.deckClearance,
    deckClearance: () => s.deckHeight - pinAtTdc() - s.compressionHeight,
  };
  const solved = solve[asked]();
  refuseImpossible(asked, new Decimal(solved));
  return solved;
}

const PART_WORDS: Readonly<Record<DeckStackPart, string>> = {
  deckHeight: 'deck height',
  stroke: 'stroke',
  rodLength: 'rod length',
  compressionHeight: 'compression height',
  deckClearance: 'deck clearance',
};

function refuseImpossible(asked: DeckStackPart, value: Decimal): void {
  if (value.isFinite() && (asked === 'deckClearance' || value.gt(0))) return;
  const allowed = asked === 'deckClearance' ? 'finite' : 'above 0 and finite';
  throw new RangeError(`the other parts of the stack leave a ${PART_WORDS[asked]} of ${value}; it must be ${allowed}`);
}

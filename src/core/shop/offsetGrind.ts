/**
 * Grinding a rod journal smaller and off-centre so that the stroke grows: what is removed where, whether it cleans up,
 * how long the stroke can become, and what overlap with the main journal is left.
 *
 * Lengths are exact decimals in one unit, whichever. The journal goes from diameter D0 (the smallest worn one) to D1 and
 * its centre moves outward by c, so the stroke grows by 2 c. The wheel takes (D0 - D1) / 2 - m on the side toward which
 * the centre moves, the thin side, and (D0 - D1) / 2 + m opposite, m being how far the centre of this journal really
 * moves: c for a throw on its index, more for one that is off (`offIndexMovement`). All of the old surface is gone when
 * the thin side loses at least the least stock k: D0 - D1 >= 2 (m + k).
 *
 * Source: follows from two circles; the greatest gain of stroke equal to the loss of diameter, and journal overlap as
 * half the sum of the diameters less the crank radius, as published for the trade (see the tests).
 */
import { Decimal } from 'decimal.js';

export interface OffsetGrind {
  readonly strokeBefore: Decimal;
  readonly journalBefore: Decimal;
  readonly journalAfter: Decimal;
  /** How far outward the journal's centre is to move; negative shortens the stroke. */
  readonly pinShift: Decimal;
  /** Least stock to remove all round for a clean surface, on the radius; 0 or more. */
  readonly leastStock: Decimal;
}

export interface GroundJournal {
  readonly strokeAfter: Decimal;
  readonly diameterLost: Decimal;
  /** Removed on the radius where least and where most is removed; the former is negative when the wheel does not reach the old surface. */
  readonly removedThinSide: Decimal;
  readonly removedThickSide: Decimal;
  /** Diameter left over after the movement and the least stock: 0 or more when it cleans up. */
  readonly spareDiameter: Decimal;
  readonly cleansUp: boolean;
  /** The longest stroke that these two diameters and this stock allow, on index. */
  readonly longestStroke: Decimal;
}

/**
 * A throw ground to a new stroke. `movement` is how far this journal's centre really moves; left out, the throw is on
 * its index and it is the pin shift. Throws a RangeError for diameters or a stroke that are not positive, a journal that
 * would grow, or negative stock.
 */
export function offsetGrind(g: OffsetGrind, movement: Decimal = g.pinShift.abs()): GroundJournal {
  positive('stroke before', g.strokeBefore);
  positive('journal before', g.journalBefore);
  positive('journal after', g.journalAfter);
  if (!g.leastStock.gte(0)) throw new RangeError(`least stock ${g.leastStock} must be 0 or more`);
  if (!g.journalAfter.lte(g.journalBefore)) {
    throw new RangeError(`journal after ${g.journalAfter} must not exceed journal before ${g.journalBefore}`);
  }
  if (!movement.gte(g.pinShift.abs())) {
    throw new RangeError(`movement ${movement} can't be smaller than the pin shift ${g.pinShift}`);
  }
  const strokeAfter = g.strokeBefore.add(g.pinShift.mul(2));
  positive('stroke after', strokeAfter);
  const diameterLost = g.journalBefore.sub(g.journalAfter);
  const spareDiameter = diameterLost.sub(movement.add(g.leastStock).mul(2));
  return {
    strokeAfter,
    diameterLost,
    removedThinSide: diameterLost.div(2).sub(movement),
    removedThickSide: diameterLost.div(2).add(movement),
    spareDiameter,
    cleansUp: spareDiameter.gte(0),
    longestStroke: g.strokeBefore.add(diameterLost).sub(g.leastStock.mul(2)),
  };
}

/**
 * How far the centre of a journal moves when its throw, at a measured radius and off its index by an angle, is ground
 * out by `pinShift` on index: sqrt(c^2 + 4 r (r + c) sin^2(delta / 2)), the third side of a triangle. `indexErrorRad` in
 * radians, either sign. The sine comes from a binary float, right to some 1e-16 of the radius.
 */
export function offIndexMovement(pinShift: Decimal, radius: Decimal, indexErrorRad: number): Decimal {
  positive('throw radius', radius);
  if (!Number.isFinite(indexErrorRad)) throw new RangeError(`index error ${indexErrorRad} rad must be finite`);
  positive('new throw radius', radius.add(pinShift));
  const sin = new Decimal(Math.sin(indexErrorRad / 2));
  const movement = pinShift
    .pow(2)
    .add(radius.mul(4).mul(radius.add(pinShift)).mul(sin.pow(2)))
    .sqrt();
  // Never less than the shift, which the last digit of the root may be.
  return Decimal.max(movement, pinShift.abs());
}

/** By how much rod and main journal overlap seen along the crank: (main + rod journal) / 2 - stroke / 2; negative = they pass clear of each other. */
export function journalOverlap(mainJournal: Decimal, rodJournal: Decimal, stroke: Decimal): Decimal {
  positive('main journal', mainJournal);
  positive('rod journal', rodJournal);
  positive('stroke', stroke);
  return mainJournal.add(rodJournal).sub(stroke).div(2);
}

function positive(name: string, value: Decimal): void {
  if (!(value.isFinite() && value.gt(0))) throw new RangeError(`${name} ${value} must be positive and finite`);
}

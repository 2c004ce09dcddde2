/**
 * The bobweight of a crankpin: the weight that stands for rods and pistons while the crank is balanced,
 * rotating + factor x reciprocating, summed over the rods on the pin. Grams as weighed, exact decimals.
 *
 * Source: T. Bevan, The Theory of Machines, ch. 14 (partial balance of the reciprocating mass); trade articles on the
 * balancing of V8 cranks (see the tests).
 */
import { Decimal } from 'decimal.js';

/** Of one rod with its piston. */
export interface PinLoad {
  /** Big end of the rod with its bolts, on the two-scale weighing. */
  readonly bigEndGrams: Decimal;
  readonly bearingGrams: Decimal;
  readonly smallEndGrams: Decimal;
  readonly pistonGrams: Decimal;
  readonly pinGrams: Decimal;
  readonly ringsGrams: Decimal;
  readonly locksGrams: Decimal;
}

export interface BobweightCard {
  readonly rotatingGrams: Decimal;
  /** Of all rods on the pin, whole. */
  readonly reciprocatingGrams: Decimal;
  readonly factor: Decimal;
  readonly bobweightGrams: Decimal;
}

/** Rotating part of one rod: big end and its bearing. */
export function rotatingGrams(p: PinLoad): Decimal {
  return p.bigEndGrams.add(p.bearingGrams);
}

/** Reciprocating part of one rod and piston. */
export function reciprocatingGrams(p: PinLoad): Decimal {
  return p.smallEndGrams.add(p.pistonGrams).add(p.pinGrams).add(p.ringsGrams).add(p.locksGrams);
}

/**
 * The card of one crankpin. `oilGrams`: held in the pin's and the rods' oil ways, once a pin. `factor`: the share of the
 * reciprocating weight taken as turning with the pin, 0 to 1. Throws a RangeError for a negative weight, a factor outside
 * 0 to 1, or no rod.
 */
export function bobweight(rods: readonly PinLoad[], oilGrams: Decimal, factor: Decimal): BobweightCard {
  if (rods.length === 0) throw new RangeError('a crankpin without a rod has no bobweight');
  if (!(factor.gte(0) && factor.lte(1))) throw new RangeError(`balance factor ${factor} must be from 0 to 1`);
  for (const grams of [oilGrams, ...rods.flatMap((r) => Object.values(r) as Decimal[])]) {
    if (!(grams.isFinite() && grams.gte(0)))
      throw new RangeError(`a weight of ${grams} g must be 0 or more and finite`);
  }
  const sum = (of: (p: PinLoad) => Decimal): Decimal => rods.reduce((all, r) => all.add(of(r)), new Decimal(0));
  const rotating = sum(rotatingGrams).add(oilGrams);
  const reciprocating = sum(reciprocatingGrams);
  return {
    rotatingGrams: rotating,
    reciprocatingGrams: reciprocating,
    factor,
    bobweightGrams: rotating.add(reciprocating.mul(factor)),
  };
}

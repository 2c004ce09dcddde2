/**
 * A crank of another engine made to go into this block: each turned diameter, width or length against what the block takes.
 * Exact decimals in one unit, whichever.
 */
import type { Decimal } from 'decimal.js';

export interface Turned {
  /** What a machinist calls it: "main journal", "rear seal surface", "oil slinger", "flange", "thrust width", "snout". */
  readonly name: string;
  /** Diameters lose on the radius half of what comes off; widths all of it, on one face. */
  readonly is: 'diameter' | 'width';
  readonly has: Decimal;
  readonly takes: Decimal;
}

export interface TurnedToFit {
  readonly name: string;
  /** Off the diameter or the width; negative when there is too little metal. */
  readonly comesOff: Decimal;
  /** Depth of metal lost at the surface: half of it on a diameter. */
  readonly depth: Decimal;
  readonly can: boolean;
  /** Hardened case left, where its depth is given; null when it is not, or nothing comes off. Negative: cut through. */
  readonly caseLeft: Decimal | null;
}

/** Throws a RangeError for a dimension that is not positive, or a case depth that is negative. */
export function turnedToFit(feature: Turned, caseDepth: Decimal | null): TurnedToFit {
  for (const [what, value] of [
    ['has', feature.has],
    ['takes', feature.takes],
  ] as const) {
    if (!(value.isFinite() && value.gt(0))) {
      throw new RangeError(`${feature.name}: ${what} ${value}, must be positive and finite`);
    }
  }
  if (caseDepth !== null && !caseDepth.gte(0)) throw new RangeError(`case depth ${caseDepth} must be 0 or more`);
  const comesOff = feature.has.sub(feature.takes);
  const depth = feature.is === 'diameter' ? comesOff.div(2) : comesOff;
  return {
    name: feature.name,
    comesOff,
    depth,
    can: comesOff.gte(0),
    caseLeft: caseDepth === null || !comesOff.gt(0) ? null : caseDepth.sub(depth),
  };
}

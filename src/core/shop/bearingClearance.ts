/**
 * Oil clearance of a journal in its shells, on the diameter as shops state it: housing bore less two shells less journal. Exact
 * decimals in one unit, whichever.
 */
import type { Decimal } from 'decimal.js';

export interface BearingStack {
  /** Bore of rod or main housing, caps torqued. */
  readonly housingBore: Decimal;
  /** Thickness of a shell at its middle. */
  readonly shell: Decimal;
  readonly journal: Decimal;
}

/** Negative when the journal does not go in. Throws a RangeError for a dimension that is not positive. */
export function oilClearance(s: BearingStack): Decimal {
  for (const [name, value] of [
    ['housing bore', s.housingBore],
    ['shell', s.shell],
    ['journal', s.journal],
  ] as const) {
    if (!(value.isFinite() && value.gt(0))) throw new RangeError(`${name} ${value} must be positive and finite`);
  }
  return s.housingBore.sub(s.shell.mul(2)).sub(s.journal);
}

/** The shell that gives a wanted clearance with this housing and journal. */
export function shellForClearance(housingBore: Decimal, journal: Decimal, clearance: Decimal): Decimal {
  const shell = housingBore.sub(journal).sub(clearance).div(2);
  if (!shell.gt(0)) throw new RangeError(`housing ${housingBore} and journal ${journal} leave a shell of ${shell}`);
  return shell;
}

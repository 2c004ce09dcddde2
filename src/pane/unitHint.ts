/** Lengths as the pane prints them: the other unit beside a literal, and results in the units asked for. */
import type { Decimal } from 'decimal.js';
import { Exact, parseLength } from '../build/literal.ts';
import type { Units } from '../model/state.ts';

/** 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
const MM_PER_IN = 25.4;

/**
 * What stands beside a literal so that it can be read in the units asked for: nothing if it is already written in them.
 * ("2 5/8 in", 'both') is "66.68 mm"; ("2 5/8 in", 'in') is "2.625 in", because a fraction isn't what a micrometer shows.
 * Empty for an angle, a speed or a text that is no length.
 */
export function unitHint(literal: string, units: Units): string {
  const read = parseLength(literal);
  if (!read.ok) return '';
  const writtenInMm = read.unit === 'mm';
  if (units === 'both') return writtenInMm ? inchText(read.mm) : mmText(read.mm);
  if (units === 'mm') return writtenInMm ? '' : mmText(read.mm);
  return read.unit === 'in' && !literal.includes('/') ? '' : inchText(read.mm);
}

/** A result: ".012 in", "0.30 mm" or "0.30 mm (.012 in)". Millimetres in; throws RangeError unless finite. */
export function lengthText(mm: number, units: Units): string {
  if (!Number.isFinite(mm)) throw new RangeError(`${mm} mm can't be shown. Allowed: a finite length.`);
  const exact = new Exact(mm);
  if (units === 'mm') return mmText(exact);
  return units === 'in' ? inchText(exact) : `${mmText(exact)} (${inchText(exact)})`;
}

/** To 0.001, no leading zero, as inch drawings write it. */
function inchText(mm: Decimal): string {
  return `${rounded(mm.div(MM_PER_IN), 3).replace(/^(−?)0\./, '$1.')} in`;
}

/** To 0.01, with the leading zero. */
function mmText(mm: Decimal): string {
  return `${rounded(mm, 2)} mm`;
}

/** Half away from zero; a value that rounds to zero has no sign. */
function rounded(value: Decimal, places: number): string {
  const to = value.toDecimalPlaces(places, Exact.ROUND_HALF_UP);
  return `${to.isNegative() && !to.isZero() ? '−' : ''}${to.abs().toFixed(places)}`;
}

/**
 * Writing dimensions: a value in another unit, a literal stepped or given a new value in its own unit and manner.
 *
 * A literal keeps its manner when its value changes: unit and its sign ("in" or the inch mark), blanks, tolerance, number of
 * decimals, leading zero, fraction. Decimals grow where the new value needs them, up to a working limit of 6 in
 * inches, 3 in thousandths, 7 in millimetres (at most 25 nm, far below any measurement here); beyond it the value is
 * rounded, half away from zero. Inch fractions stay fractions while the value is a multiple of 1/64 in.
 *
 * Inches divide exactly into millimetres, millimetres seldom into inches (only multiples of 0.127 of their last digit
 * do), so `convertLiteral` says whether its result is exact.
 */
import type { Decimal } from 'decimal.js';
import {
  Exact,
  GREATEST_DENOMINATOR,
  kindOf,
  type LengthUnit,
  type Literal,
  type LiteralKind,
  type LiteralUnit,
  LONGEST_LITERAL,
  type NumberStyle,
  readLiteral,
  UNIT,
} from './literalGrammar.ts';
import { UNITS } from './literalUnits.ts';

/** Places an exact value gains when its unit is divided into the other: 25.4 has one decimal, a thousandth three digits more. */
const PLACES_FROM_INCH: Readonly<Record<LengthUnit, number>> = { in: 0, thou: -3, mm: 1 };

/**
 * A length as a literal of a unit, as many decimals as it needs: `formatIn(66.675, 'in')` is "2.625 in". Exact where the
 * unit can show it within the working decimals, else rounded to them. `places` asks for at least so many decimals.
 */
export function formatIn(mm: Decimal, unit: LengthUnit, places = 0): string {
  return `${writeNumber(mm.div(UNITS[unit].size), { form: 'decimal', places }, unit)} ${unit}`;
}

/**
 * The literal in another length unit, tolerance included, decimals following the precision of the original:
 * "3.750 in" becomes "95.2500 mm", and that becomes "3.750 in" again. `former` is the literal this one was converted
 * from: if it has the wanted unit and exactly the same value, its characters are returned ("2 5/8 in"). Where that would be longer than
 * a literal may be, decimals are those of the working limit.
 */
export function convertLiteral(text: string, unit: LengthUnit, former?: string): { text: string; exact: boolean } {
  const from = valid(text, 'length');
  if (from.unit === unit) return { text, exact: true };
  if (former !== undefined) {
    const before = valid(former, 'length');
    if (before.unit === unit && before.base.eq(from.base) && sameTolerance(before, from))
      return { text: former, exact: true };
  }
  const inPlaces = (places: number): string => {
    const number = writeNumber(from.base.div(UNITS[unit].size), { form: 'decimal', places }, unit);
    const tolerance = from.tolerance === undefined ? '' : ` ${writeTolerance(from.tolerance, unit, places)}`;
    return `${number}${tolerance} ${unit}`;
  };
  const all = inPlaces(placesIn(from, unit));
  const out = all.length > LONGEST_LITERAL ? inPlaces(UNITS[unit].places) : all;
  return { text: out, exact: valid(out, 'length').base.eq(from.base) };
}

/**
 * A literal moved by a number of increments, in its own unit and manner: ("3.750 in", 2, "0.001 in") is "3.752 in";
 * ("2 5/8 in", 1, "1/16 in") is "2 11/16 in". Both must be valid and of one kind; a whole number of inches stepped by a
 * fraction becomes a mixed number. Throws RangeError on an invalid literal or a mix of kinds.
 */
export function stepLiteral(text: string, steps: number, increment: string): string {
  const from = validOfAnyKind(text);
  const by = valid(increment, from.kind);
  const to = from.base.plus(by.base.times(steps));
  const whole = from.style.form === 'decimal' && from.style.places === 0;
  const style: NumberStyle =
    from.unit === 'in' && whole && by.style.form === 'fraction' ? { form: 'fraction', joint: ' ' } : from.style;
  return rewrite(from, to, style);
}

/** The literal without its tolerance, for telling the value alone: "6.734 ±0.10 mm" is "6.734 mm". Throws RangeError on an invalid literal. */
export function withoutTolerance(text: string): string {
  const from = validOfAnyKind(text);
  if (from.tolerance === undefined) return text;
  const sign = new RegExp(` *(?:${UNIT})$`).exec(from.tail)![0];
  return text.slice(0, text.length - from.tail.length) + sign;
}

/** The literal with a new value, mm, in its own unit and manner; its tolerance stays. Throws RangeError on an invalid literal. */
export function withLengthMm(text: string, mm: Decimal): string {
  const from = valid(text, 'length');
  return rewrite(from, mm, from.style);
}

function rewrite(from: Literal, base: Decimal, style: NumberStyle): string {
  const number = writeNumber(new Exact(base).div(UNITS[from.unit].size), style, from.unit);
  const plus = from.plusSign && !number.startsWith('-') ? '+' : '';
  return `${plus}${number}${from.tail}`;
}

function writeNumber(value: Decimal, style: NumberStyle, unit: LiteralUnit): string {
  const sixtyFourths = value.times(GREATEST_DENOMINATOR);
  if (style.form === 'fraction' && sixtyFourths.isInteger()) return writeFraction(sixtyFourths, style.joint);
  const places = style.form === 'decimal' ? style.places : 0;
  const most = Math.max(places, UNITS[unit].places);
  const rounded = new Exact(value).toDecimalPlaces(most, Exact.ROUND_HALF_UP);
  const digits = rounded.abs().toFixed(Math.max(places, rounded.decimalPlaces()));
  const sign = rounded.isNegative() && !rounded.isZero() ? '-' : '';
  const leadingZero = style.form === 'decimal' && style.leadingZero !== undefined ? style.leadingZero : unit !== 'in';
  return sign + (digits.startsWith('0.') && !leadingZero ? digits.slice(1) : digits);
}

/** Lowest terms, mixed above one, a whole number where nothing is left over. */
function writeFraction(sixtyFourths: Decimal, joint: string): string {
  const sign = sixtyFourths.isNegative() && !sixtyFourths.isZero() ? '-' : '';
  const all = sixtyFourths.abs();
  const whole = all.divToInt(GREATEST_DENOMINATOR);
  let over = all.minus(whole.times(GREATEST_DENOMINATOR)).toNumber();
  if (over === 0) return `${sign}${whole.toFixed()}`;
  let under = GREATEST_DENOMINATOR;
  while (over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  return whole.isZero() ? `${sign}${over}/${under}` : `${sign}${whole.toFixed()}${joint}${over}/${under}`;
}

function writeTolerance(tolerance: { plus: Decimal; minus: Decimal }, unit: LengthUnit, places: number): string {
  const style: NumberStyle = { form: 'decimal', places };
  const plus = writeNumber(tolerance.plus.div(UNITS[unit].size), style, unit);
  if (tolerance.plus.eq(tolerance.minus)) return `±${plus}`;
  return `+${plus}/-${writeNumber(tolerance.minus.div(UNITS[unit].size), style, unit)}`;
}

/** Decimals that keep the precision of the original: one more in mm than in inches, three fewer in thousandths. */
function placesIn(from: Literal, unit: LengthUnit): number {
  const places = from.style.form === 'decimal' ? from.style.places : 0;
  const inInches = places - PLACES_FROM_INCH[from.unit as LengthUnit];
  return Math.max(0, inInches + PLACES_FROM_INCH[unit]);
}

function sameTolerance(a: Literal, b: Literal): boolean {
  if (a.tolerance === undefined || b.tolerance === undefined) return a.tolerance === b.tolerance;
  return a.tolerance.plus.eq(b.tolerance.plus) && a.tolerance.minus.eq(b.tolerance.minus);
}

function valid(text: string, kind: LiteralKind): Literal {
  const read = readLiteral(text, kind);
  if (!read.ok) throw new RangeError(`${text}: ${read.offending} is refused. ${read.allowed}`);
  return read;
}

function validOfAnyKind(text: string): Literal {
  return valid(text, kindOf(text) ?? 'length');
}

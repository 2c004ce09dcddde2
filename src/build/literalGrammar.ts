/**
 * How a dimension is written: the grammar of literals, and reading one exactly.
 *
 *   literal    = [ sign ] number [ blanks tolerance ] blanks unit
 *   sign       = "+" | "-" | "−"
 *   number     = digits | digits "." digits | "." digits | fraction
 *   fraction   = [ digits ( blanks | "-" ) ] digits "/" denominator        inches only: 5/8, 2 5/8, 2-5/8
 *   denominator= 2 | 4 | 8 | 16 | 32 | 64
 *   tolerance  = ( "±" | "+/-" ) blanks number
 *              | "+" number blanks [ "/" ] blanks "-" number               +0.001/-0.000; in the unit of the value
 *   unit       = "in" | '"' | "thou" | "mm"   |   "deg" | "°"   |   "rpm" | "g" | "cc" and the others of literalUnits.ts
 *   blanks     = zero or more spaces; no other white space, none before or after the literal
 *
 * In a mixed number the fraction is below one (2 9/8 is refused). No exponents, no digit grouping, no decimal comma.
 * At most 40 characters. Lengths up to 10 m either way, angles up to 720 degrees, speeds up to 100 000 rpm. Whether a
 * sign is allowed depends on the field, not on the grammar.
 *
 * Values are decimal and exact: a length in inches times 25.4 has finitely many decimals, and so has a fraction whose
 * denominator is a power of two. Nothing here passes through a binary float.
 */
import type { Decimal } from 'decimal.js';
import {
  EXAMPLE_OF_KIND,
  Exact,
  GREATEST,
  type LiteralKind,
  type LiteralUnit,
  UNITS,
  UNITS_OF_KIND,
  unitOfSign,
} from './literalUnits.ts';

export { Exact, type LengthUnit, type LiteralKind, type LiteralUnit } from './literalUnits.ts';

export const LONGEST_LITERAL = 40;
export const GREATEST_DENOMINATOR = 64;

/** A number as written, so that it can be written again in the same manner. */
export type NumberStyle =
  | {
      readonly form: 'decimal';
      readonly places: number /** ".5" false, "0.5" true, "3.5" undefined */;
      readonly leadingZero?: boolean;
    }
  | { readonly form: 'fraction' /** between whole number and fraction */; readonly joint: string };

export interface Literal {
  readonly ok: true;
  readonly kind: LiteralKind;
  readonly unit: LiteralUnit;
  /** In the literal's own unit. */
  readonly inUnit: Decimal;
  /** In the base unit of its kind: mm, degrees, rpm, g … (literalUnits.ts). */
  readonly base: Decimal;
  /** In the base unit, both zero or positive. */
  readonly tolerance?: { readonly plus: Decimal; readonly minus: Decimal };
  readonly text: string;
  readonly style: NumberStyle;
  /** Everything after the number, as written: blanks, tolerance, unit. */
  readonly tail: string;
  readonly plusSign: boolean;
}

export interface LiteralFault {
  readonly ok: false;
  /** The part that can't be read, or the whole literal. */
  readonly offending: string;
  /** What is allowed instead, as a sentence. */
  readonly allowed: string;
}

const NUMBER = '\\d+\\.\\d+|\\.\\d+|(?:\\d+(?: +|-))?\\d+/\\d+|\\d+';
/** Anything that looks like a unit, so that an unknown one can be named: a word, two words, a power, a share of a kelvin. */
export const UNIT = '["°]|[a-zA-Z°]+(?: [a-z]+)?[23²³]?(?:/[A-Z])?';
const LITERAL = new RegExp(
  `^(?<sign>[-+−]?)(?<number>${NUMBER})(?<tail> *(?:(?:±|\\+/-) *(?<both>${NUMBER})|\\+(?<plus>${NUMBER}) */? *[-−](?<minus>${NUMBER}))? *(?<unit>${UNIT}))$`,
);
const WITHOUT_UNIT = new RegExp(
  `^[-+−]?(?:${NUMBER})(?: *(?:(?:±|\\+/-) *(?:${NUMBER})|\\+(?:${NUMBER}) */? *[-−](?:${NUMBER})))?$`,
);

/** Reads a literal of one kind. Never throws: what can't be read comes back as a fault that names the offending text. */
export function readLiteral(text: string, kind: LiteralKind): Literal | LiteralFault {
  const early = plainFault(text, kind);
  if (early !== null) return early;
  const parts = LITERAL.exec(text)?.groups;
  if (parts === undefined) {
    if (WITHOUT_UNIT.test(text)) return fault(text, `The unit is missing: ${UNITS_OF_KIND[kind]}.`);
    return fault(text, `Allowed: a number and its unit, such as ${EXAMPLE_OF_KIND[kind]}.`);
  }
  const unit = unitOfSign(parts['unit']!);
  if (unit === null || UNITS[unit].kind !== kind) {
    const article = /^[aeiou]/.test(kind) ? 'an' : 'a';
    return fault(parts['unit']!, `Allowed units of ${article} ${kind}: ${UNITS_OF_KIND[kind]}.`);
  }
  const magnitude = readNumber(parts['number']!, unit);
  if (!('value' in magnitude)) return magnitude;
  const tolerance = readTolerance(parts, unit);
  if (tolerance !== undefined && 'ok' in tolerance) return tolerance;
  if (tolerance?.plus.gt(GREATEST[kind].base) || tolerance?.minus.gt(GREATEST[kind].base)) {
    return fault(text, `A tolerance is at most the greatest value allowed, ${GREATEST[kind].said}.`);
  }

  const negative = parts['sign'] === '-' || parts['sign'] === '−';
  const inUnit = negative && !magnitude.value.isZero() ? magnitude.value.neg() : magnitude.value;
  const base = inUnit.times(UNITS[unit].size);
  if (base.abs().gt(GREATEST[kind].base)) return fault(text, `The greatest value allowed is ${GREATEST[kind].said}.`);
  return {
    ok: true,
    kind,
    unit,
    inUnit,
    base,
    ...(tolerance === undefined ? {} : { tolerance }),
    text,
    style: magnitude.style,
    tail: parts['tail']!,
    plusSign: parts['sign'] === '+',
  };
}

/** What kind of dimension a valid literal is, by its unit; null when it is none. */
export function kindOf(text: string): LiteralKind | null {
  // Matching tries many ways to share out a long run of blanks or letters: text that is too long anyway isn't tried.
  if (text.length > LONGEST_LITERAL) return null;
  const sign = LITERAL.exec(text)?.groups?.['unit'];
  const unit = sign === undefined ? null : unitOfSign(sign);
  return unit !== null && readLiteral(text, UNITS[unit].kind).ok ? UNITS[unit].kind : null;
}

/** Mistakes that are better named than left to the grammar. */
function plainFault(text: string, kind: LiteralKind): LiteralFault | null {
  if (text === '') return fault('(empty)', `Allowed: ${EXAMPLE_OF_KIND[kind]}.`);
  if (text.length > LONGEST_LITERAL) {
    return fault(`${text.slice(0, LONGEST_LITERAL)}…`, `A dimension has at most ${LONGEST_LITERAL} characters.`);
  }
  if (text !== text.trim()) return fault(text, 'No blanks are allowed before or after a dimension.');
  if (text.includes(',')) {
    const asPoint = /^[^.,]*,[^.,]*$/.test(text) ? `: ${text.replace(',', '.')}` : ', and no grouping of digits';
    return fault(text, `Allowed: a point as the decimal mark${asPoint}.`);
  }
  if (/nan|infinity|∞/i.test(text)) return fault(text, `A finite number is needed, such as ${EXAMPLE_OF_KIND[kind]}.`);
  if (/\d[eE][-+]?\d/.test(text)) {
    return fault(text, `Exponents are not allowed; write the digits out, such as ${EXAMPLE_OF_KIND[kind]}.`);
  }
  return null;
}

function fault(offending: string, allowed: string): LiteralFault {
  return { ok: false, offending, allowed };
}

/** An unsigned number as written. */
function readNumber(text: string, unit: LiteralUnit): { value: Decimal; style: NumberStyle } | LiteralFault {
  const mixed = /^(?:(?<whole>\d+)(?<joint> +|-))?(?<over>\d+)\/(?<under>\d+)$/.exec(text)?.groups;
  if (mixed === undefined) return readDecimal(text);
  if (unit !== 'in') return fault(text, 'Fractions are for inches only.');
  const under = new Exact(mixed['under']!);
  if (under.isZero()) return fault(text, 'The denominator can’t be zero.');
  if (under.lt(2) || under.gt(GREATEST_DENOMINATOR) || !Number.isInteger(Math.log2(under.toNumber()))) {
    return fault(text, 'Denominators allowed: 2, 4, 8, 16, 32 and 64.');
  }
  const over = new Exact(mixed['over']!);
  if (mixed['whole'] !== undefined && over.gte(under))
    return fault(text, 'Beside a whole number the fraction must be below one.');
  const value = over.div(under).plus(mixed['whole'] ?? 0);
  return { value, style: { form: 'fraction', joint: mixed['joint'] ?? ' ' } };
}

function readDecimal(text: string): { value: Decimal; style: NumberStyle } {
  const point = text.indexOf('.');
  const places = point < 0 ? 0 : text.length - point - 1;
  const value = new Exact(text.startsWith('.') ? `0${text}` : text);
  if (places === 0 || value.gte(1)) return { value, style: { form: 'decimal', places } };
  return { value, style: { form: 'decimal', places, leadingZero: point > 0 } };
}

function readTolerance(
  parts: Record<string, string | undefined>,
  unit: LiteralUnit,
): { plus: Decimal; minus: Decimal } | undefined | LiteralFault {
  const plusText = parts['both'] ?? parts['plus'];
  const minusText = parts['both'] ?? parts['minus'];
  if (plusText === undefined || minusText === undefined) return undefined;
  const plus = readNumber(plusText, unit);
  if (!('value' in plus)) return plus;
  const minus = readNumber(minusText, unit);
  if (!('value' in minus)) return minus;
  return { plus: plus.value.times(UNITS[unit].size), minus: minus.value.times(UNITS[unit].size) };
}

/**
 * Dimensions as they are written and what they are worth: the public face of literals. The grammar stands in
 * literalGrammar.ts. Parsing is exact and keeps the text; the last step to a binary number, correctly rounded, is taken
 * by `lengthMm`, `angleRad` and `speedRpm` only.
 */
import type { Decimal } from 'decimal.js';
import {
  kindOf,
  type LengthUnit,
  type Literal,
  type LiteralFault,
  type LiteralKind,
  type LiteralUnit,
  LONGEST_LITERAL,
  readLiteral,
  UNIT,
} from './literalGrammar.ts';
import { signTyped } from './literalUnits.ts';

export {
  Exact,
  kindOf,
  type LengthUnit,
  type LiteralFault,
  type LiteralKind,
  type LiteralUnit,
} from './literalGrammar.ts';
export { convertLiteral, formatIn, stepLiteral, withLengthMm, withoutTolerance } from './literalWrite.ts';

export interface ParsedLength {
  readonly ok: true;
  readonly mm: Decimal;
  /** Both zero or positive. */
  readonly toleranceMm?: { readonly plus: Decimal; readonly minus: Decimal };
  readonly unit: LengthUnit;
  readonly text: string;
}

export interface ParsedAngle {
  readonly ok: true;
  readonly deg: Decimal;
  readonly toleranceDeg?: { readonly plus: Decimal; readonly minus: Decimal };
  readonly text: string;
}

export interface ParsedSpeed {
  readonly ok: true;
  readonly rpm: Decimal;
  readonly text: string;
}

/** A length literal, such as "2 5/8 in"; exact. Never throws. */
export function parseLength(text: string): ParsedLength | LiteralFault {
  const read = readLiteral(text, 'length');
  if (!read.ok) return read;
  return {
    ok: true,
    mm: read.base,
    ...(read.tolerance === undefined ? {} : { toleranceMm: read.tolerance }),
    unit: read.unit as LengthUnit,
    text,
  };
}

/** An angle literal, such as "66.5 deg"; exact degrees. Never throws. */
export function parseAngle(text: string): ParsedAngle | LiteralFault {
  const read = readLiteral(text, 'angle');
  if (!read.ok) return read;
  return { ok: true, deg: read.base, ...(read.tolerance === undefined ? {} : { toleranceDeg: read.tolerance }), text };
}

/** A speed literal, "3600 rpm". Never throws. */
export function parseSpeed(text: string): ParsedSpeed | LiteralFault {
  const read = readLiteral(text, 'speed');
  return read.ok ? { ok: true, rpm: read.base, text } : read;
}

/** Millimetres of a literal already validated. Throws RangeError on an invalid one. */
export function lengthMm(text: string): number {
  return validated(text, 'length').base.toNumber();
}

/** Degrees of an angle literal already validated. Throws RangeError on an invalid one. */
export function angleDeg(text: string): number {
  return validated(text, 'angle').base.toNumber();
}

/** Radians of an angle literal already validated. Throws RangeError on an invalid one. */
export function angleRad(text: string): number {
  return (angleDeg(text) * Math.PI) / 180;
}

/** Revolutions a minute of a speed literal already validated. Throws RangeError on an invalid one. */
export function speedRpm(text: string): number {
  return validated(text, 'speed').base.toNumber();
}

/**
 * What someone typed over a literal. Blanks around it and capitals in the unit are forgiven; a bare number takes the unit of
 * the former literal, a bare fraction is inches; a tolerance is as typed. `text` of the result is the literal to keep.
 */
export function parseTyped(
  typed: string,
  former: string,
): { ok: true; text: string; kind: LiteralKind } | LiteralFault {
  const kind = kindOf(former);
  if (kind === null) throw new RangeError(`${former} is no dimension`);
  const bareText = typed.trim();
  if (bareText.length > LONGEST_LITERAL) {
    const read = readLiteral(bareText, kind);
    if (!read.ok) return read;
  }
  const text = bareText.replace(TRAILING_UNIT, (unit) => signTyped(unit) ?? unit);
  const bare = /\d$/.test(text) && !TRAILING_UNIT.test(text);
  const literal = bare ? text + unitFor(text, validated(former, kind)) : text;
  const read = readLiteral(literal, kind);
  if (read.ok) return { ok: true, text: literal, kind };
  return bare && read.offending === literal ? { ...read, offending: text } : read;
}

const TRAILING_UNIT = new RegExp(`(?:${UNIT})$`);

/** Blanks and unit sign for a bare number: as the former literal has them; inches for a fraction typed over another length unit. */
function unitFor(bare: string, former: Literal): string {
  if (former.kind === 'length' && former.unit !== 'in' && /\d\/\d/.test(bare)) return ' in';
  const sign = TRAILING_UNIT.exec(former.tail)!;
  return `${/ *$/.exec(former.tail.slice(0, sign.index))![0]}${sign[0]}`;
}

function validated(text: string, kind: LiteralKind): Literal {
  const read = readLiteral(text, kind);
  if (!read.ok) throw new RangeError(`${text}: ${read.offending} is refused. ${read.allowed}`);
  return read;
}

/** Grams of a mass literal already validated. Throws RangeError on an invalid one. */
export function massG(text: string): number {
  return validated(text, 'mass').base.toNumber();
}

/** A literal already validated, in the base unit of its kind (literalUnits.ts), exact. Throws RangeError on an invalid one. */
export function exactBase(text: string, kind: LiteralKind): Decimal {
  return validated(text, kind).base;
}

/** Unit of a literal already validated. Throws RangeError on an invalid one. */
export function unitOfLiteral(text: string): LiteralUnit {
  return validated(text, kindOf(text) ?? 'length').unit;
}

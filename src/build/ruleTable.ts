/** What a rule is, and how a check reports what it finds. Exact numbers for comparing. */
import type { Decimal } from 'decimal.js';
import type { BuildDocument, Dim } from './document.ts';
import { Exact, parseAngle, parseLength } from './literal.ts';

export interface Rule {
  /** As it stands in a Problem. */
  readonly name: string;
  /** What is allowed. */
  readonly what: string;
  readonly why: string;
}

/** Takes one problem; the name of the rule is checked against the table when the program is tested. */
export type Report = (rule: string, place: string, value: string, allowed: string) => void;

/** A group of rules and the function that judges a whole document by them. */
export interface RuleGroup {
  readonly rules: readonly Rule[];
  readonly check: (doc: BuildDocument, report: Report) => void;
}

/** Values by text: the same few hundred literals are read again at each change of a build. */
const known = new Map<string, Decimal>();
/** Literals kept at most, some hundred bytes each. */
const MOST_KNOWN = 4000;

/** Exact millimetres, or exact degrees of an angle, of a dimension that the schema has let pass. */
export function exact(dim: Dim): Decimal {
  const before = known.get(dim.value);
  if (before !== undefined) return before;
  const length = parseLength(dim.value);
  const angle = length.ok ? null : parseAngle(dim.value);
  if (!length.ok && !angle?.ok) throw new RangeError(`${dim.value} is no length and no angle`);
  const value = length.ok ? length.mm : angle?.ok ? angle.deg : new Exact(0);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(dim.value, value);
  return value;
}

export function sayMm(mm: Decimal): string {
  const inches = mm
    .div('25.4')
    .toFixed(4)
    .replace(/^(-?)0\./, '$1.');
  return `${inches} in (${mm.toFixed(3)} mm)`;
}

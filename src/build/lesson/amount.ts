/** Amounts as a lesson file and a learner write them: lengths and angles as literals, shares as percentages, ratios as plain numbers. */
import { Decimal } from 'decimal.js';
import { parseAngle, parseLength } from '../literal.ts';
import type { AmountOf } from './quantities.ts';

export type ReadAmount =
  | { readonly ok: true /** mm, degrees, or the number itself; a share as a fraction. */; readonly value: number }
  | { readonly ok: false; readonly allowed: string };

const PLAIN = /^[-−+]?(?:\d{1,9}(?:\.\d{0,9})?|\.\d{1,9})$/;

export const EXAMPLE_OF: Readonly<Record<AmountOf, string>> = {
  length: '.125 in or 3.2 mm',
  angle: '75 deg',
  share: '60 %',
  ratio: '1.7',
  speed: '18 m/s',
  acceleration: '9000 m/s2',
  displacement: '350',
  count: '2',
};

/** Reads an amount of a kind, unit and all. Never throws. */
export function readAmount(text: string, as: AmountOf): ReadAmount {
  if (as === 'length') {
    const read = parseLength(text);
    return read.ok ? { ok: true, value: read.mm.toNumber() } : { ok: false, allowed: read.allowed };
  }
  if (as === 'angle') {
    const read = parseAngle(text);
    return read.ok ? { ok: true, value: read.deg.toNumber() } : { ok: false, allowed: read.allowed };
  }
  const digits = as === 'share' ? /^(.*\S)\s*%$/.exec(text)?.[1] : text;
  if (digits === undefined || !PLAIN.test(digits))
    return {
      ok: false,
      allowed: `Allowed: ${as === 'share' ? 'a percentage' : 'a number'}, such as ${EXAMPLE_OF[as]}.`,
    };
  const value = new Decimal(digits.replace('−', '-'));
  return { ok: true, value: (as === 'share' ? value.div(100) : value).toNumber() };
}

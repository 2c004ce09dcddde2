/**
 * A sum of the shop: its amount, and all that is needed to follow it by hand: formula, inputs as they were written, source,
 * what an estimate leaves out, and the guide of the trade where it has one. A sum that lacks an input says which; one that
 * can't be done says why. Amounts are exact decimals where dimensions add up; physics enters as a correctly rounded double.
 */
import type { Dim } from '../../build/document.ts';
import { Exact, exactBase, kindOf } from '../../build/literal.ts';
import type { DimPath } from '../state.ts';
import type { Guide } from './guides.ts';

export type Decimal = InstanceType<typeof Exact>;

/** What an amount is, and by that the unit it is kept in. */
export type AmountKind =
  /** mm; the fine one is what a grinder reads. */
  | 'length'
  | 'fine length'
  /** g; and a change of it, printed with its sign. */
  | 'weight'
  | 'volume' /** cm³ */
  | 'displacement' /** cm³, of the engine */
  | 'ratio'
  | 'share' /** 1 is the whole */
  | 'angle' /** degrees */
  | 'speed' /** m/s */
  | 'acceleration' /** m/s² */
  | 'force' /** N */
  | 'pressure' /** MPa */
  | 'torque' /** N m */
  | 'power' /** W */
  | 'unbalance' /** g mm */
  | 'viscosity' /** mPa s */
  | 'area' /** mm² */
  | 'count';

export interface Amount {
  readonly as: AmountKind;
  readonly value: Decimal;
}

/** Something a sum rests on: a dimension of the build, or an amount found elsewhere. */
export interface Input {
  readonly name: string;
  readonly dim?: Dim;
  readonly amount?: Amount;
  /** Where the dimension stands, or would stand, in the document. */
  readonly path?: DimPath;
}

export interface Sum {
  /** Stable name, the same in every assembly: what differences are taken by. */
  readonly key: string;
  readonly name: string;
  readonly amount: Amount | null;
  /** Inputs that are missing, in words. */
  readonly lacks: readonly string[];
  /** Why it can't be done with these inputs. */
  readonly refused: string | null;
  readonly formula: string;
  readonly inputs: readonly Input[];
  readonly source: string;
  /** For estimates: what is left out. Then the amount is said with "about". */
  readonly estimate?: string;
  readonly guide?: Guide;
  /** A word to the result: "cleans up", "does not clean up". */
  readonly remark?: Remark;
}

export interface Remark {
  readonly words: string;
  /** Something to mind, not merely to know. */
  readonly caution: boolean;
}

/** A remark that is good to know. */
export function plainly(words: string): Remark {
  return { words, caution: false };
}

/** A remark that must be minded. */
export function caution(words: string): Remark {
  return { words, caution: true };
}

export interface SumGroup {
  readonly title: string;
  readonly sums: readonly Sum[];
}

export interface SumSpec {
  readonly key: string;
  readonly name?: string;
  readonly formula: string;
  readonly source: string;
  readonly estimate?: string;
  /** Asked once the amount is known. */
  readonly guide?: (amount: Amount, values: readonly Decimal[]) => Guide | undefined;
  readonly remark?: (amount: Amount, values: readonly Decimal[]) => Remark | undefined;
}

const GEOMETRY = 'geometry';

export { GEOMETRY };

/** A dimension as an input. */
export function given(name: string, dim: Dim | undefined, ...path: DimPath): Input {
  return { name, ...(dim === undefined ? {} : { dim }), ...(path.length === 0 ? {} : { path }) };
}

/** A result as an input of another sum: what it lacks, the other lacks. */
export function result(sum: Sum): Input {
  return sum.amount === null ? { name: sum.name } : { name: sum.name, amount: sum.amount };
}

export function known(name: string, as: AmountKind, value: Decimal | number): Input {
  return { name, amount: amount(as, value) };
}

export function amount(as: AmountKind, value: Decimal | number): Amount {
  return { as, value: new Exact(value) };
}

/** The value of an input in the base unit of its kind, exact; null when it is missing. */
export function inBase(input: Input): Decimal | null {
  if (input.amount !== undefined) return input.amount.value;
  if (input.dim === undefined) return null;
  return exactBase(input.dim.value, kindOf(input.dim.value)!);
}

/** A sum worked out from its inputs; `compute` gets their values in their order and may throw a RangeError to refuse. */
export function sum(
  spec: SumSpec,
  inputs: readonly Input[],
  as: AmountKind,
  compute: (...values: Decimal[]) => Decimal | number,
): Sum {
  const base = {
    key: spec.key,
    name: spec.name ?? spec.key,
    formula: spec.formula,
    inputs,
    source: spec.source,
    ...(spec.estimate === undefined ? {} : { estimate: spec.estimate }),
  };
  const values = inputs.map(inBase);
  const lacks = inputs.filter((_, k) => values[k] === null).map((input) => input.name);
  if (lacks.length > 0) return { ...base, amount: null, lacks, refused: null };
  const all = values as Decimal[];
  try {
    const found = amount(as, compute(...all));
    if (!found.value.isFinite()) throw new RangeError('the inputs leave no finite result');
    const guide = spec.guide?.(found, all);
    const remark = spec.remark?.(found, all);
    return {
      ...base,
      amount: found,
      lacks: [],
      refused: null,
      ...(guide === undefined ? {} : { guide }),
      ...(remark === undefined ? {} : { remark }),
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { ...base, amount: null, lacks: [], refused: error.message };
  }
}

/** The grind sheet: what the wheel is to make of each throw, taken from the sums of the offset grind. */
import type { BuildDocument, Dim } from '../../build/document.ts';
import { shopOf } from '../sums/shop.ts';
import { type Amount, amount, type Decimal, inBase, type Sum } from '../sums/sum.ts';
import { groupFor } from './sums.ts';

export interface GroundRow {
  /** Null: it stands for all throws, none of which was measured by itself. */
  readonly throwNumber: number | null;
  readonly radiusBefore: Amount;
  readonly radiusAfter: Amount;
  readonly journalBefore: Amount;
  readonly journalAfter: Amount;
  readonly indexError: Amount;
  /** How far the middle of the pin moves. */
  readonly movement: Amount;
  readonly thin: Amount;
  readonly thick: Amount;
  /** Diameter to spare beyond the least stock; negative: it does not clean up. */
  readonly spare: Amount;
  /** Depth of hardened case that is left; null where it is not stated. */
  readonly caseLeft: Amount | null;
}

export interface GrindSheet {
  readonly rows: readonly GroundRow[];
  /** What has to be stated before there is a sheet. */
  readonly lacks: readonly string[];
  /** Why it can't be worked out. */
  readonly refused: string | null;
  readonly leastStock: Dim | null;
  readonly fillet: Dim | null;
  readonly caseDepth: Dim | null;
  readonly longestStroke: Amount | null;
  readonly overlapBefore: Amount | null;
  readonly overlapAfter: Amount | null;
}

/** Null where the assembly's crank is not ground from a core. */
export function grindSheetOf(doc: BuildDocument, assembly: string): GrindSheet | null {
  const shop = shopOf(doc, assembly);
  const { core, bearings } = shop.assembly;
  if (core === undefined) return null;
  const sums = groupFor(doc, assembly, 'Offset grind');
  const of = (key: string): Amount | null => sums.find((s) => s.key === key)?.amount ?? null;
  const thins = sums.filter((s) => s.key.startsWith('removed on the thin side'));
  return {
    rows: thins.flatMap((thin): GroundRow[] => rowOf(thin, sums)),
    lacks: [...new Set(thins.flatMap((s) => s.lacks))],
    refused: thins.find((s) => s.refused !== null)?.refused ?? null,
    leastStock: core.leastStock ?? null,
    fillet: bearings?.rodFillet ?? null,
    caseDepth: core.caseDepth ?? null,
    longestStroke: of('longest stroke of this core'),
    overlapBefore: of('journal overlap of the core'),
    overlapAfter: of('journal overlap'),
  };
}

function rowOf(thin: Sum, sums: readonly Sum[]): GroundRow[] {
  const label = /( of throw (\d+))?$/.exec(thin.key)!;
  const suffix = label[1] ?? '';
  const beside = (key: string): Amount | null => sums.find((s) => s.key === key + suffix)?.amount ?? null;
  const thick = beside('removed on the thick side');
  if (thin.amount === null || thick === null) return [];
  // Inputs of the sum in their order: stroke, radius, journal before, journal after, least stock, index error.
  const [stroke, radius, before, after, stock, index] = thin.inputs.map((input) => inBase(input)!) as [
    Decimal,
    Decimal,
    Decimal,
    Decimal,
    Decimal,
    Decimal,
  ];
  const fine = (value: Decimal): Amount => amount('fine length', value);
  return [
    {
      throwNumber: label[2] === undefined ? null : Number(label[2]),
      radiusBefore: fine(radius),
      radiusAfter: fine(stroke.div(2)),
      journalBefore: fine(before),
      journalAfter: fine(after),
      indexError: amount('angle', index),
      movement: fine(thick.value.minus(thin.amount.value).div(2)),
      thin: thin.amount,
      thick,
      spare: fine(thin.amount.value.minus(stock).times(2)),
      caseLeft: beside('hardened case left'),
    },
  ];
}

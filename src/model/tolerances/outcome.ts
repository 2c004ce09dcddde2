/** What a number of lots says together: the chance of lying below the limit with its confidence interval, and how the gap lies. */
import type { Interval } from '../../core/chance/proportion.ts';
import { wilsonInterval } from '../../core/chance/proportion.ts';
import type { Histogram, Summary } from '../../core/chance/sample.ts';
import { histogramOf, quantile, summaryOf } from '../../core/chance/sample.ts';
import type { Lot } from './monteCarlo.ts';

/** Shares of the builds that lie below the gaps told. */
export const QUANTILES = [0.001, 0.01, 0.05, 0.5, 0.95, 0.99, 0.999] as const;

export interface Outcome {
  readonly drawn: number;
  /** Builds that a rule refuses: left out of the chance. */
  readonly refused: number;
  readonly outOfReach: number;
  readonly open: number;
  /** Builds that can be built; the chance is out of these. */
  readonly built: number;
  readonly below: number;
  /** Chance of lying below the limit, and its 95 % interval; null when no build could be built. */
  readonly chance: { readonly seen: number; readonly interval: Interval } | null;
  /** Of the gap, or of the margin, mm; null where there is no figure. */
  readonly spread: {
    readonly summary: Summary;
    readonly quantiles: readonly { readonly share: number; readonly mm: number }[];
    readonly histogram: Histogram;
  } | null;
  /** Gaps that were below their limit in some build, most often first. */
  readonly byGap: readonly { readonly id: string; readonly below: number; readonly interval: Interval }[];
}

/** Of the lots that are done, in the order of their numbers: the same lots give the same figures to the last digit. */
export function outcomeOf(lots: readonly (Lot | undefined)[]): Outcome {
  let drawn = 0;
  let refused = 0;
  let outOfReach = 0;
  let open = 0;
  let below = 0;
  const belowById = new Map<string, number>();
  const done = lots.filter((lot) => lot !== undefined);
  for (const lot of done) {
    drawn += lot.drawn;
    refused += lot.refused;
    outOfReach += lot.outOfReach;
    open += lot.open;
    below += lot.below;
    for (const [id, count] of lot.belowById) belowById.set(id, (belowById.get(id) ?? 0) + count);
  }
  const built = drawn - refused;
  const values = new Float64Array(done.reduce((sum, lot) => sum + lot.values.length, 0));
  let at = 0;
  for (const lot of done) {
    values.set(lot.values, at);
    at += lot.values.length;
  }
  return {
    drawn,
    refused,
    outOfReach,
    open,
    built,
    below,
    chance: built === 0 ? null : { seen: below / built, interval: wilsonInterval(below, built) },
    spread: values.length === 0 ? null : spreadOfValues(values),
    byGap: [...belowById]
      .map(([id, count]) => ({ id, below: count, interval: wilsonInterval(count, built) }))
      .sort((a, b) => b.below - a.below || (a.id < b.id ? -1 : 1)),
  };
}

function spreadOfValues(values: Float64Array): NonNullable<Outcome['spread']> {
  const summary = summaryOf(values);
  const sorted = values.slice().sort();
  return {
    summary,
    quantiles: QUANTILES.map((share) => ({ share, mm: quantile(sorted, share) })),
    histogram: histogramOf(values),
  };
}

/** What tolerances do to gaps, as plain data: sensitivities with their sums, and chance builds. Lengths mm, angles degrees. */
import type { BuildDocument } from '../build/index.ts';
import type { Told } from '../model/distinct.ts';
import { toTheEnd } from '../model/pieces/kind.ts';
import type { Gap } from '../model/results.ts';
import { neededMm } from '../model/tolerances/gapOfBuild.ts';
import { lotsOf, type MonteCarloTask, monteCarloWork } from '../model/tolerances/monteCarlo.ts';
import { type Outcome, outcomeOf } from '../model/tolerances/outcome.ts';
import { asked, inOrderOfWeight, type Sensitivity, sensitivityWork, slopeOf } from '../model/tolerances/sensitivity.ts';
import { settled } from '../model/tolerances/settled.ts';
import { type Spread, spreadOf } from '../model/tolerances/spread.ts';
import { stackOf, worstCaseWork } from '../model/tolerances/stack.ts';

export interface ReportedSensitivity {
  readonly body: string;
  readonly dimension: string;
  readonly value: string;
  /** Change of the gap per mm, or per degree, where it is the same both ways; null where another part or place takes over. */
  readonly slope: number | null;
  readonly per: 'mm' | 'deg';
  /** Change of the gap when the dimension grows, and when it shrinks, by 0.1 mm or 0.1 degree; null where that can't be built. */
  readonly largerMm: number | null;
  readonly smallerMm: number | null;
  /** The tolerance stated; null: counted as exact. */
  readonly tolerance: {
    readonly plus: number;
    readonly minus: number;
    readonly atPlusMm: number | null;
    readonly atMinusMm: number | null;
  } | null;
}

export interface ReportedTolerances {
  readonly between: readonly [string, string];
  readonly gapMm: number;
  readonly neededMm: number;
  readonly sensitivities: readonly ReportedSensitivity[];
  /** Changes added, every tolerance at its bad end; and the same on the build laid out so, certified. */
  readonly worstSumMm: number;
  readonly worstMm: number | null;
  readonly worstLowerBoundMm: number | null;
  /** Bands at their middles, and the root sum of squares of what each gives to either side. */
  readonly middleMm: number;
  readonly rssMm: number;
  readonly withoutTolerance: number;
}

export interface ReportedChance {
  readonly builds: number;
  readonly seed: number;
  readonly spread: Spread;
  readonly refused: number;
  readonly below: number;
  /** Of any gap below what it needs; null when no build drawn can be built. 95 %, Wilson's interval. */
  readonly chance: number | null;
  readonly interval: readonly [number, number] | null;
  /** Proofs not finished, counted as below. */
  readonly notProven: number;
  /** Of the worst margin of each build, moving gaps only, mm over what each gap needs. */
  readonly margin: {
    readonly meanMm: number;
    readonly sdMm: number;
    readonly quantiles: readonly { readonly share: number; readonly mm: number }[];
    readonly histogram: { readonly fromMm: number; readonly widthMm: number; readonly counts: readonly number[] };
  } | null;
  readonly gaps: readonly {
    readonly gap: string;
    readonly below: number;
    readonly interval: readonly [number, number];
  }[];
}

/** Of every gap told that does not clear, and always of the first. Some seconds for each gap of a V8. */
export function tolerancesOf(doc: BuildDocument, assembly: string, told: readonly Told[]): ReportedTolerances[] {
  const alone = settled(doc, assembly);
  return told.filter(({ gap }, k) => k === 0 || gap.state !== 'clears').map(({ gap }) => tolerancesOfGap(alone, gap));
}

function tolerancesOfGap(doc: BuildDocument, gap: Gap): ReportedTolerances {
  const task = { doc, gapId: gap.id, between: gap.between, atCrankRad: gap.atCrankRad };
  const list = inOrderOfWeight(toTheEnd(sensitivityWork(task)(asked(task))));
  const stack = stackOf(gap.gapMm, list);
  const worst = toTheEnd(worstCaseWork(task)(list));
  return {
    between: gap.between,
    gapMm: gap.gapMm,
    neededMm: neededMm(doc, gap),
    sensitivities: list.map(sensitivityOf),
    worstSumMm: stack.worstSumMm,
    worstMm: worst.gapMm,
    worstLowerBoundMm: Number.isFinite(worst.lowerBoundMm) ? worst.lowerBoundMm : null,
    middleMm: stack.middleMm,
    rssMm: stack.rssMm,
    withoutTolerance: stack.exact,
  };
}

function sensitivityOf(s: Sensitivity): ReportedSensitivity {
  const { body, label, text, kind, band } = s.variable;
  return {
    body,
    dimension: label,
    value: text,
    slope: slopeOf(s),
    per: kind === 'length' ? 'mm' : 'deg',
    largerMm: s.upMm,
    smallerMm: s.downMm,
    tolerance: band === null ? null : { ...band, atPlusMm: s.atPlusMm, atMinusMm: s.atMinusMm },
  };
}

/** Every gap of `builds` chance builds: seconds to minutes. `gaps`: those of the build as written, worst first. */
export function chanceOf(
  doc: BuildDocument,
  assembly: string,
  gaps: readonly Gap[],
  builds: number,
  seed: number,
): ReportedChance {
  const hints = new Map(gaps.map((gap) => [gap.id, gap.atCrankRad]));
  const task: MonteCarloTask = { doc: settled(doc, assembly), gapId: null, hints, builds, seed };
  const work = monteCarloWork(task);
  const outcome: Outcome = outcomeOf(lotsOf(task).map((lot) => toTheEnd(work(lot))));
  const { chance, spread } = outcome;
  return {
    builds,
    seed,
    spread: spreadOf(doc),
    refused: outcome.refused,
    below: outcome.below,
    chance: chance === null ? null : chance.seen,
    interval: chance === null ? null : [chance.interval.low, chance.interval.high],
    notProven: outcome.open,
    margin:
      spread === null
        ? null
        : {
            meanMm: spread.summary.mean,
            sdMm: spread.summary.sd,
            quantiles: spread.quantiles,
            histogram: {
              fromMm: spread.histogram.from,
              widthMm: spread.histogram.width,
              counts: spread.histogram.counts,
            },
          },
    gaps: outcome.byGap.map(({ id, below, interval }) => ({
      gap: id,
      below,
      interval: [interval.low, interval.high],
    })),
  };
}

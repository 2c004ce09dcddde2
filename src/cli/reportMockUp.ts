/** The mock-up log against the build, as plain data: each entry with its prediction, and for one that differs what would explain it. */
import type { Engine } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/index.ts';
import { type Comparison, compareLog } from '../model/mockUp/compare.ts';
import { assemblyIndex, dimensionsOf } from '../model/mockUp/dimensions.ts';
import { type Explanation, explain } from '../model/mockUp/explain.ts';
import { degrees } from './degrees.ts';

export interface ReportedExplanation {
  /** The dimension, and the one body it would be for; null: for all that share it. */
  readonly dimension: string;
  readonly body: string | null;
  readonly from: string;
  readonly to: string;
  /** In mm or degrees. */
  readonly change: number;
  readonly changeUnit: 'mm' | 'deg';
  /** Why the value may well be another: within its tolerance, assumed, stated, measured. */
  readonly ground: 'tolerance' | 'assumed' | 'stated' | 'measured';
  /** Gap that would then be predicted. */
  readonly gapMm: number;
  /** What it makes of the other entries, by their place in the log, from 0. */
  readonly others: readonly {
    readonly entry: number;
    readonly agreedBefore: boolean;
    readonly agreesAfter: boolean;
    readonly differenceMm: number | null;
  }[];
}

export interface ReportedEntry {
  /** Place in the build's log, from 0. */
  readonly entry: number;
  readonly between: readonly [string, string];
  /** As written: after the TDC of a cylinder; null: the smallest found while turning. */
  readonly at: { readonly cylinder: number; readonly afterTdc: string } | null;
  readonly measured: string;
  readonly measuredMm: number;
  readonly with: string;
  readonly date: string;
  readonly note: string | null;
  /** Null where the two bodies do not come within reach of one another along the shaft. */
  readonly predicted: {
    readonly gapMm: number;
    /** False: the proof was not finished. */
    readonly certified: boolean;
    readonly slicingMm: number;
    readonly atCrankDeg: number;
    readonly assumed: readonly string[];
  } | null;
  /** Measured less predicted. */
  readonly differenceMm: number | null;
  /** How much more than predicted, and how much less, the tolerances explain. */
  readonly explainedUpMm: number;
  readonly explainedDownMm: number;
  readonly shares: readonly { readonly what: string; readonly upMm: number; readonly downMm: number }[];
  /** Dimensions it rests on that state no tolerance. */
  readonly withoutTolerance: number;
  readonly differs: boolean;
  /** Of an entry that differs, likeliest first. */
  readonly explanations: readonly ReportedExplanation[];
}

/** Every entry of the log that speaks of this assembly. Takes about a second for a V8, and some more for each entry that differs. */
export function mockUpOf(doc: BuildDocument, engine: Engine): ReportedEntry[] {
  const { assembly } = engine;
  const comparisons = compareLog(doc, assembly);
  const dimensions = dimensionsOf(doc, assemblyIndex(doc, assembly));
  return comparisons.map((c) => entryOf(c, c.differs ? explain(doc, assembly, comparisons, c.index, dimensions) : []));
}

function entryOf(c: Comparison, explanations: readonly Explanation[]): ReportedEntry {
  const { entry, predicted } = c;
  return {
    entry: c.index,
    between: entry.between,
    at: entry.at ?? null,
    measured: entry.measured,
    measuredMm: c.measuredMm,
    with: entry.with,
    date: entry.date,
    note: entry.note ?? null,
    predicted:
      predicted === null
        ? null
        : {
            gapMm: predicted.gapMm,
            certified: predicted.certified,
            slicingMm: predicted.slicingMm,
            atCrankDeg: degrees(predicted.atCrankRad, predicted.periodRad),
            assumed: predicted.assumed,
          },
    differenceMm: c.differenceMm,
    explainedUpMm: c.explainedUpMm,
    explainedDownMm: c.explainedDownMm,
    shares: c.shares.map(({ label, upMm, downMm }) => ({ what: label, upMm, downMm })),
    withoutTolerance: c.withoutTolerance,
    differs: c.differs,
    explanations: explanations.map((e) => ({
      dimension: e.label,
      body: e.body,
      from: e.from,
      to: e.to,
      change: e.change,
      changeUnit: e.kind === 'angle' ? 'deg' : 'mm',
      ground: e.ground,
      gapMm: e.gapMm,
      others: e.others.map(({ index, ...rest }) => ({ entry: index, ...rest })),
    })),
  };
}

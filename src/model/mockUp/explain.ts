/**
 * Which single dimension would explain a measurement: the value of each dimension that makes the predicted gap the measured one, and what
 * that value makes of the other measurements.
 */
import type { BuildDocument, Provenance } from '../../build/document.ts';
import { kindOf, parseLength } from '../../build/literal.ts';
import { type Comparison, differenceOf, isBeyond } from './compare.ts';
import type { NamedDim } from './dimensions.ts';
import { predictor } from './predict.ts';
import { bodiesApart, bodyName, type OneBody, type Target } from './setValue.ts';
import { type Found, MET_MM, numberOf, solveValue } from './solveValue.ts';

/** Why a value may well be another one: the change lies within its stated tolerance, it was assumed, stated by others, or measured. */
export type Ground = 'tolerance' | 'assumed' | 'stated' | 'measured';

export interface OtherEntry {
  readonly index: number;
  readonly agreedBefore: boolean;
  readonly agreesAfter: boolean;
  /** Measured less predicted with the new value; null where the pair is then out of reach. */
  readonly differenceMm: number | null;
}

export interface Explanation {
  /** The entry of the log that it explains. */
  readonly index: number;
  readonly label: string;
  /** The one body it would be for; null where all that share the dimension change. */
  readonly body: string | null;
  readonly target: Target;
  readonly from: string;
  readonly to: string;
  readonly kind: 'length' | 'angle';
  /** Millimetres or degrees. */
  readonly change: number;
  readonly ground: Ground;
  /** The gap then predicted, mm. */
  readonly gapMm: number;
  /** Every other measurement on this assembly that the value changes or that disagrees. */
  readonly others: readonly OtherEntry[];
}

/** Explanations of one measurement by one dimension: for all that share it, and where that changes other measurements, for one body alone. */
export function* explainBy(
  doc: BuildDocument,
  assembly: string,
  comparisons: readonly Comparison[],
  index: number,
  named: NamedDim,
): Generator<undefined, Explanation[]> {
  const about = comparisons.find((c) => c.index === index);
  if (about === undefined || about.predicted === null || about.differenceMm === null) return [];
  if (Math.abs(about.differenceMm) <= MET_MM) return [];
  const common = yield* solve(doc, assembly, comparisons, about, named, null);
  if (common === null) return [];
  const out = [common];
  for (const one of bodiesApart(doc, named.path, about.entry.between)) {
    const alone = yield* solve(doc, assembly, comparisons, about, named, one);
    if (alone !== null && !alike(alone.others, common.others)) out.push(alone);
  }
  return out;
}

/** Do two explanations make the same of the other measurements. */
function alike(a: readonly OtherEntry[], b: readonly OtherEntry[]): boolean {
  return a.every((o, k) => {
    const [x, y] = [o.differenceMm, b[k]?.differenceMm ?? null];
    return x === null || y === null ? x === y : Math.abs(x - y) <= MET_MM;
  });
}

function* solve(
  doc: BuildDocument,
  assembly: string,
  comparisons: readonly Comparison[],
  about: Comparison,
  named: NamedDim,
  alone: OneBody | null,
): Generator<undefined, Explanation | null> {
  const target: Target = { path: named.path, alone };
  const { entry, measuredMm } = about;
  const predicted = about.predicted!;
  const before = named.dim.value;
  const found = yield* solveValue({ doc, assembly, entry, measuredMm, predicted, target, before });
  return found === null ? null : described(found, named, target, about, comparisons, assembly);
}

function described(
  found: Found,
  named: NamedDim,
  target: Target,
  about: Comparison,
  comparisons: readonly Comparison[],
  assembly: string,
): Explanation {
  const change = numberOf(found.text) - numberOf(named.dim.value);
  const there = predictor(found.doc, assembly, new Map());
  const others = comparisons.flatMap((c): OtherEntry[] => {
    if (c.index === about.index || c.differenceMm === null) return [];
    const predicted = there.of(c.entry);
    const differenceMm = predicted === null ? null : differenceOf(c.entry, c.measuredMm, predicted.gapMm);
    const beyond = differenceMm === null || isBeyond(differenceMm, c.explainedUpMm, c.explainedDownMm);
    return [{ index: c.index, agreedBefore: !c.differs, agreesAfter: !beyond, differenceMm }];
  });
  return {
    index: about.index,
    label: named.label,
    body: target.alone === null ? null : bodyName(target.alone),
    target,
    from: named.dim.value,
    to: found.text,
    kind: kindOf(found.text) === 'angle' ? 'angle' : 'length',
    change,
    ground: groundOf(named, change),
    gapMm: found.gapMm,
    others,
  };
}

function groundOf({ dim }: NamedDim, change: number): Ground {
  const length = parseLength(dim.value);
  const tolerance = length.ok ? length.toleranceMm : undefined;
  const within = tolerance?.plus.gte(change) && tolerance.minus.gte(-change);
  const given: Readonly<Record<Provenance, Ground>> = { assumed: 'assumed', stated: 'stated', measured: 'measured' };
  return within ? 'tolerance' : given[dim.from];
}

const RANK: Readonly<Record<Ground, number>> = { tolerance: 0, assumed: 1, stated: 2, measured: 3 };

/** The likeliest first: by ground, then by how many measurements would disagree, then the smaller change; a degree counts as a millimetre, which it moves at 57 mm from its centre. */
export function inLikelihood(list: readonly Explanation[]): Explanation[] {
  const disagreeing = (e: Explanation): number => e.others.filter((o) => !o.agreesAfter).length;
  return [...list].sort(
    (a, b) =>
      RANK[a.ground] - RANK[b.ground] ||
      disagreeing(a) - disagreeing(b) ||
      Math.abs(a.change) - Math.abs(b.change) ||
      Number(a.body !== null) - Number(b.body !== null),
  );
}

/** All explanations of one measurement, likeliest first. */
export function explain(
  doc: BuildDocument,
  assembly: string,
  comparisons: readonly Comparison[],
  index: number,
  dimensions: readonly NamedDim[],
): Explanation[] {
  const out: Explanation[] = [];
  for (const named of dimensions) {
    const steps = explainBy(doc, assembly, comparisons, index, named);
    for (let step = steps.next(); ; step = steps.next()) {
      if (!step.done) continue;
      out.push(...step.value);
      break;
    }
  }
  return inLikelihood(out);
}

/** Whether an entry can be explained at all: it has a prediction, and a difference to explain. */
export function canBeExplained(c: Comparison): boolean {
  return c.differenceMm !== null && Math.abs(c.differenceMm) > MET_MM;
}

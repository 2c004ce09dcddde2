/**
 * Prediction beside measurement. The difference is measured less predicted; what explains it is taken in the direction of the
 * difference: the root of the sum of the squares of
 *   - the reading's own tolerance, or half its last place where it states none,
 *   - what the crank angle's tolerance, or half its last place, makes of the gap,
 *   - what each dimension's stated tolerance makes of it, found on the model at both its ends,
 * and, added to that, what is not a matter of chance: the slicing of round parts, which keeps a prediction on the safe side so that
 * the true gap may be larger by it, or the micrometre by which the certificate may lie below the minimum found.
 */
import type { BuildDocument, Dim, MockUpEntry } from '../../build/document.ts';
import { angleDeg, Exact, kindOf, lengthMm, parseAngle, parseLength } from '../../build/literal.ts';
import { readLiteral } from '../../build/literalGrammar.ts';
import { UNITS } from '../../build/literalUnits.ts';
import { checkBuild } from '../../build/rules.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../core/clearance/certify.ts';
import { aloneWith, withLiteral } from '../edit.ts';
import { assemblyIndex, dimensionsOf, type NamedDim } from './dimensions.ts';
import { type Predicted, type Predictor, predictor } from './predict.ts';

/** What one tolerance makes of the gap, mm, both zero or positive: how much larger and how much smaller it may be. */
export interface Share {
  readonly label: string;
  readonly upMm: number;
  readonly downMm: number;
}

export interface Comparison {
  /** Place in the document's log. */
  readonly index: number;
  readonly entry: MockUpEntry;
  readonly measuredMm: number;
  /** Null where the two bodies do not come within axial reach of one another in this build. */
  readonly predicted: Predicted | null;
  /** Measured less predicted; null without a prediction. */
  readonly differenceMm: number | null;
  /** How much more than predicted, and how much less, the reading may be by the tolerances stated. */
  readonly explainedUpMm: number;
  readonly explainedDownMm: number;
  readonly shares: readonly Share[];
  /** Dimensions it rests on that state no tolerance. */
  readonly withoutTolerance: number;
  /** Is the difference greater than the tolerances explain. */
  readonly differs: boolean;
}

/** Values that agree to this, mm, are the same: rounding of doubles. */
const SAME_MM = 1e-9;

/** The turn is tried at so many places to each side within the crank angle's tolerance. */
const ANGLE_STEPS = 4;

/** An entry with its prediction, and what the tolerances of reading and crank angle make of it. */
export interface Line {
  readonly index: number;
  readonly entry: MockUpEntry;
  readonly predicted: Predicted | null;
  readonly shares: readonly Share[];
}

/** What one dimension means to one line: its share, that the line rests on it though it states no tolerance, or nothing. */
export type Rests = Share | 'no tolerance' | null;

/** The entries of the log that speak of this assembly, with what is known of them before any dimension is moved. */
export function linesOf(doc: BuildDocument, assembly: string): { lines: Line[]; hints: ReadonlyMap<string, number> } {
  const hints = new Map<string, number>();
  if (!(doc.mockUp ?? []).some((entry) => entry.assembly === assembly)) return { lines: [], hints };
  const base = predictor(doc, assembly, hints);
  const lines = (doc.mockUp ?? []).flatMap((entry, index): Line[] => {
    if (entry.assembly !== assembly) return [];
    const predicted = base.of(entry);
    const shares = predicted === null ? [] : [readingShare(entry), angleShare(base, entry, predicted)];
    return [{ index, entry, predicted, shares: shares.filter((s) => s !== null) }];
  });
  return { lines, hints };
}

/** What a dimension means to each line. */
export function restsOn(
  doc: BuildDocument,
  assembly: string,
  { lines, hints }: ReturnType<typeof linesOf>,
  named: NamedDim,
): Rests[] {
  const ends = endsOf(named.dim);
  if (ends === null) {
    const keys = nudgedKeys(doc, assembly, named, lines);
    return lines.map(({ predicted }, k) => (predicted !== null && keys[k] !== predicted.key ? 'no tolerance' : null));
  }
  const [low, high] = ends.map((text) => changesAt(withLiteral(doc, named.path, text), assembly, hints, lines));
  return lines.map((_, k) => shareOf(named.label, low?.[k] ?? null, high?.[k] ?? null));
}

/** A line with all that its dimensions mean to it. */
export function compared({ index, entry, predicted, shares: known }: Line, rests: readonly Rests[]): Comparison {
  const measuredMm = lengthMm(entry.measured);
  const shares = [...known, ...rests.filter((r) => r !== null && r !== 'no tolerance')];
  const root = (side: 'upMm' | 'downMm'): number => Math.hypot(...shares.map((s) => s[side]));
  const explainedUpMm = root('upMm') + (predicted === null ? 0 : predicted.slicingMm + 2 * predicted.deviationMm);
  const moving = predicted !== null && predicted.kind !== 'deck';
  const explainedDownMm = root('downMm') + (moving ? CERTIFICATE_TOLERANCE_MM : 0);
  const differenceMm = predicted === null ? null : differenceOf(entry, measuredMm, predicted.gapMm);
  return {
    index,
    entry,
    measuredMm,
    predicted,
    differenceMm,
    explainedUpMm,
    explainedDownMm,
    shares,
    withoutTolerance: rests.filter((r) => r === 'no tolerance').length,
    differs: differenceMm !== null && isBeyond(differenceMm, explainedUpMm, explainedDownMm),
  };
}

/** The comparison of every entry that speaks of this assembly. The build must have passed its rules. */
export function compareLog(doc: BuildDocument, assembly: string): Comparison[] {
  const known = linesOf(doc, assembly);
  if (known.lines.length === 0) return [];
  const rests = dimensionsOf(doc, assemblyIndex(doc, assembly)).map((named) => restsOn(doc, assembly, known, named));
  return known.lines.map((line, k) =>
    compared(
      line,
      rests.map((each) => each[k]!),
    ),
  );
}

/**
 * Measured less predicted, mm. Parts can't be measured to overlap: a reading of nothing where contact is predicted tells no
 * difference.
 */
export function differenceOf(entry: MockUpEntry, measuredMm: number, predictedMm: number): number {
  const touches = measuredMm === 0 && predictedMm < 0 && !entry.between.includes('deck');
  return touches ? 0 : measuredMm - predictedMm;
}

export function isBeyond(differenceMm: number, upMm: number, downMm: number): boolean {
  return differenceMm > upMm + SAME_MM || -differenceMm > downMm + SAME_MM;
}

function readingShare({ measured }: MockUpEntry): Share | null {
  const read = parseLength(measured);
  if (!read.ok) return null;
  // A true gap below the reading by `minus` lets the reading stand above it by as much.
  const { plus, minus } = read.toleranceMm ?? halfLastPlace(measured);
  return { label: 'the reading', upMm: minus.toNumber(), downMm: plus.toNumber() };
}

/** A reading without a tolerance is known no better than to half its last place: ".012 in" to .0005 in, "5/64 in" to 1/128 in. In mm or degrees. */
function halfLastPlace(text: string): { plus: InstanceType<typeof Exact>; minus: InstanceType<typeof Exact> } {
  const read = readLiteral(text, kindOf(text) ?? 'length');
  if (!read.ok) throw new RangeError(`${text} is no reading`);
  const under = /\/(\d+)/.exec(text)?.[1];
  const last =
    under === undefined
      ? new Exact(10).pow(-(read.style.form === 'decimal' ? read.style.places : 0))
      : new Exact(1).div(under);
  const half = last.times(UNITS[read.unit].size).div(2);
  return { plus: half, minus: half };
}

/** By how much the gap of each line changes in another build, mm; null where it can't be built, or the pair is out of reach in it. */
function changesAt(
  next: BuildDocument,
  assembly: string,
  hints: ReadonlyMap<string, number>,
  lines: readonly Line[],
): readonly (number | null)[] | null {
  if (checkBuild(aloneWith(next, assembly)).length > 0) return null;
  const there = predictor(next, assembly, new Map(hints));
  return lines.map(({ entry, predicted }) => {
    if (predicted === null) return null;
    if (there.keyOf(entry) === predicted.key) return 0;
    const found = there.of(entry);
    return found === null ? null : found.gapMm - predicted.gapMm;
  });
}

/** From the changes at both ends of a tolerance. An end that can't be had counts as the other one turned round. */
function shareOf(label: string, low: number | null, high: number | null): Share | null {
  const [a, b] = [low ?? -(high ?? 0), high ?? -(low ?? 0)];
  const upMm = Math.max(0, a, b);
  const downMm = Math.max(0, -a, -b);
  return upMm > SAME_MM || downMm > SAME_MM ? { label, upMm, downMm } : null;
}

function angleShare(base: Predictor, entry: MockUpEntry, predicted: Predicted): Share | null {
  if (entry.at === undefined) return null;
  const read = parseAngle(entry.at.afterTdc);
  if (!read.ok) return null;
  const { plus, minus } = read.toleranceDeg ?? halfLastPlace(entry.at.afterTdc);
  let upMm = 0;
  let downMm = 0;
  for (const [side, most] of [
    [1, plus],
    [-1, minus],
  ] as const) {
    for (let k = 1; k <= ANGLE_STEPS; k++) {
      const turnedRad = (((side * most.toNumber() * k) / ANGLE_STEPS) * Math.PI) / 180;
      const found = base.of(entry, turnedRad);
      if (found === null) continue;
      upMm = Math.max(upMm, found.gapMm - predicted.gapMm);
      downMm = Math.max(downMm, predicted.gapMm - found.gapMm);
    }
  }
  return { label: 'the crank angle', upMm, downMm };
}

/** The literals at both ends of a dimension's tolerance, smaller first; null where it states none. */
function endsOf(dim: Dim): readonly [string, string] | null {
  const length = parseLength(dim.value);
  if (length.ok) {
    const t = length.toleranceMm;
    return t === undefined ? null : [inMm(length.mm.minus(t.minus)), inMm(length.mm.plus(t.plus))];
  }
  const angle = parseAngle(dim.value);
  if (!angle.ok || angle.toleranceDeg === undefined) return null;
  const t = angle.toleranceDeg;
  return [`${angle.deg.minus(t.minus).toFixed()} deg`, `${angle.deg.plus(t.plus).toFixed()} deg`];
}

function inMm(mm: InstanceType<typeof Exact>): string {
  return `${mm.toDecimalPlaces(7).toFixed()} mm`;
}

/** Enough to change the key of a gap that rests on the dimension, mm or degrees; too little to break a rule. */
const NUDGE = 1e-4;

/** Keys of the predictions with a hair more of a dimension, or a hair less where more can't be built: another key rests on it. */
function nudgedKeys(
  doc: BuildDocument,
  assembly: string,
  { path, dim }: NamedDim,
  lines: readonly Line[],
): readonly (string | null)[] {
  for (const by of [NUDGE, -NUDGE]) {
    const next = withLiteral(doc, path, nudged(dim.value, by));
    if (checkBuild(aloneWith(next, assembly)).length > 0) continue;
    const there = predictor(next, assembly, new Map());
    return lines.map(({ entry }) => there.keyOf(entry));
  }
  return lines.map(({ predicted }) => predicted?.key ?? null);
}

function nudged(text: string, by: number): string {
  const length = parseLength(text);
  return length.ok ? inMm(length.mm.plus(by)) : `${new Exact(angleDeg(text)).plus(by).toFixed()} deg`;
}

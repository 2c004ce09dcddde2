/**
 * The value of one dimension that makes a predicted gap a given one, solved on the build laid out anew until the gap is met within
 * `MET_MM`.
 *
 * The dimension is moved a little each way; the way on which the difference shrinks is followed until its sign turns, and the value
 * narrowed down by false position with the standing end's weight halved. That is a bracketing method: what it returns has been checked
 * on the model, and where there is no such value within `MOST` it returns none.
 */
import type { BuildDocument, MockUpEntry } from '../../build/document.ts';
import { angleDeg, Exact, formatIn, kindOf, type LengthUnit, lengthMm, unitOfLiteral } from '../../build/literal.ts';
import { checkBuild } from '../../build/rules.ts';
import { aloneWith } from '../edit.ts';
import { type Predicted, predictor } from './predict.ts';
import { type Target, withValue } from './setValue.ts';

/** A value meets the gap within this: what a shop can measure, and the project's figure for a cure. */
export const MET_MM = 0.01;
/** Solved closer than it must be, so that rounding the value to what a shop reads has room. */
const SOLVED_MM = 0.001;
/** First small try, mm or degrees. */
const TRY = 0.1;
/** No value is moved by more, mm or degrees: a quarter of an inch; beyond it another part is meant. */
const MOST = 6.35;
/** Gap per mm or degree below which a dimension does not lead anywhere within `MOST`. */
const LEAST_RATE = 1e-3;
const MOST_STEPS = 40;

export interface Found {
  readonly value: number;
  readonly text: string;
  readonly doc: BuildDocument;
  readonly gapMm: number;
  /** Predicted less measured. */
  readonly offMm: number;
}

/** What is asked: which value of a dimension makes the gap of an entry the measured one. */
export interface Question {
  readonly doc: BuildDocument;
  readonly assembly: string;
  readonly entry: MockUpEntry;
  readonly measuredMm: number;
  /** Prediction of the document as it stands. */
  readonly predicted: Predicted;
  readonly target: Target;
  /** The literal as it stands. */
  readonly before: string;
}

/** The value nearest to the present one on the way that leads there; null where none within `MOST` does. Yields between trials. */
export function* solveValue(question: Question): Generator<undefined, Found | null> {
  const { doc, assembly, entry, measuredMm, predicted: known, target, before } = question;
  const start = numberOf(before);
  const hints = new Map<string, number>();

  function* tried(value: number, places: number): Generator<undefined, Found | null> {
    yield;
    const text = written(before, value, places);
    const next = withValue(doc, target, { value: text, from: 'assumed' });
    if (checkBuild(aloneWith(next, assembly)).length > 0) return null;
    const there = predictor(next, assembly, hints);
    if (there.keyOf(entry) === known.key)
      return { value, text, doc: next, gapMm: known.gapMm, offMm: known.gapMm - measuredMm };
    const found = there.of(entry);
    if (found === null) return null;
    return { value, text, doc: next, gapMm: found.gapMm, offMm: found.gapMm - measuredMm };
  }

  const startOff = known.gapMm - measuredMm;
  let way = 0;
  let rate = LEAST_RATE;
  for (const side of [-1, 1]) {
    const little = yield* tried(start + side * TRY, FINE);
    if (little === null) continue;
    const gain = (Math.abs(startOff) - Math.abs(little.offMm)) / TRY;
    // Past the mark already: this is the way, however little is gained.
    if (little.offMm * startOff < 0) {
      way = side;
      rate = Math.abs(little.offMm - startOff) / TRY;
      break;
    }
    if (gain > rate) {
      way = side;
      rate = gain;
    }
  }
  if (way === 0) return null;
  const bracket = yield* bracketed(tried, start, startOff, way, rate);
  if (bracket === null) return null;
  const solved = yield* narrowed(tried, bracket);
  // Rounded to what a shop reads; finer where that would miss the mark.
  for (const places of [0, 1, FINE]) {
    const rounded = yield* tried(solved, places);
    if (rounded === null || Math.abs(rounded.offMm) > MET_MM) continue;
    return rounded;
  }
  return null;
}

type Tried = (value: number, places: number) => Generator<undefined, Found | null>;

interface End {
  readonly value: number;
  readonly off: number;
}

/** Steps out on one side until the difference changes sign; null where it never does within `MOST` or what can be built. */
function* bracketed(
  tried: Tried,
  start: number,
  startOff: number,
  way: number,
  rate: number,
): Generator<undefined, readonly [End, End] | null> {
  let low: End = { value: start, off: startOff };
  let reach = Math.min(MOST, (Math.abs(startOff) / rate) * 1.02);
  let refusedAt = MOST + TRY;
  for (let k = 0; k < MOST_STEPS; k++) {
    const there = yield* tried(start + way * reach, FINE);
    if (there === null) refusedAt = reach;
    else if (there.offMm * startOff <= 0) return [low, { value: there.value, off: there.offMm }];
    else low = { value: there.value, off: there.offMm };
    const done = Math.abs(low.value - start);
    const next = Math.min(done === 0 ? reach / 2 : done * 1.5, (done + refusedAt) / 2, MOST);
    if (next - done < TRY / 10) return null;
    reach = next;
  }
  return null;
}

/** The value between two of opposite sign at which the difference is as good as nothing. */
function* narrowed(tried: Tried, [from, to]: readonly [End, End]): Generator<undefined, number> {
  let [a, b] = [from, to];
  let best = Math.abs(a.off) < Math.abs(b.off) ? a : b;
  for (let k = 0; k < MOST_STEPS && Math.abs(best.off) > SOLVED_MM; k++) {
    const value = (a.value * b.off - b.value * a.off) / (b.off - a.off);
    const there = yield* tried(value, FINE);
    if (there === null) break;
    const here: End = { value, off: there.offMm };
    if (Math.abs(here.off) < Math.abs(best.off)) best = here;
    // Halving the weight of the end that stays keeps the other from creeping up to the root.
    if (here.off * b.off < 0) a = b;
    else a = { value: a.value, off: a.off / 2 };
    b = here;
  }
  return best.value;
}

/** Millimetres or degrees of a literal. */
export function numberOf(text: string): number {
  return kindOf(text) === 'angle' ? angleDeg(text) : lengthMm(text);
}

/** Decimals more than a shop reads that keep rounding out of the search. */
const FINE = 4;

/** Decimals that a shop reads: 0.0001 in, 0.1 thou, 0.001 mm, 0.01 degrees. */
const PLACES: Readonly<Record<LengthUnit | 'deg', number>> = { in: 4, thou: 1, mm: 3, deg: 2 };

/** A value as a literal in the unit of `like`, with `more` decimals than a shop reads; without the tolerance, which was that of another value. */
function written(like: string, value: number, more: number): string {
  if (kindOf(like) === 'angle') return `${new Exact(value).toDecimalPlaces(PLACES.deg + more).toFixed()} deg`;
  const unit = unitOfLiteral(like) as LengthUnit;
  const step = new Exact(10).pow(-(PLACES[unit] + more)).times(lengthMm(`1 ${unit}`));
  return formatIn(new Exact(value).div(step).toDecimalPlaces(0).times(step), unit, more === 0 ? PLACES[unit] : 0);
}

/**
 * Chance builds judged on the model: each is laid out, checked by the rules, and its gaps found over the whole turn with a
 * proven bound, so that no contact is missed anywhere in the turn. A build whose proof leaves open on which side of the limit it
 * lies is proven again more closely, and counted as below where even that leaves it open.
 */
import type { Engine, Pair } from '../../assembly/engine.ts';
import type { BuildDocument } from '../../build/document.ts';
import { allowanceMm, deckGapsOf } from '../certified.ts';
import type { Steps } from '../pieces/kind.ts';
import type { Gap } from '../results.ts';
import { gapState } from '../solve.ts';
import { buildsFrom, LOT, uniformsOf } from './draws.ts';
import { AS_SHOWN, changedEngine, gapOfPair, neededMm } from './gapOfBuild.ts';
import { spreadOf } from './spread.ts';
import { variablesOf } from './variables.ts';

export interface MonteCarloTask {
  /** Settled (settled.ts). */
  readonly doc: BuildDocument;
  /** The gap asked for, by id; null: all gaps of parts that move past one another, the worst margin of each build. */
  readonly gapId: string | null;
  /** Where each gap was smallest in the build as written, by id. */
  readonly hints: ReadonlyMap<string, number>;
  readonly builds: number;
  readonly seed: number;
}

/** What came of a lot of builds. */
export interface Lot {
  /** Builds drawn. */
  readonly drawn: number;
  /** Refused by a rule: no such build can be made. */
  readonly refused: number;
  /** The gap of each build, mm; with all gaps, the smallest margin over what each needs. Without the refused and those out of reach. */
  readonly values: Float64Array;
  /** Builds in which the pair stood out of axial reach: clear, and without a figure. */
  readonly outOfReach: number;
  /** Builds below the limit: of the gap asked for, or of any gap. */
  readonly below: number;
  /** Counted as below since the proof left it open. */
  readonly open: number;
  /** Builds in which each gap was below its limit, by id. */
  readonly belowById: ReadonlyMap<string, number>;
}

/** First proof of a build's gap: ten times the usual tolerance, at which half of the work is saved. */
const COARSE_MM = 0.01;
export function lotsOf(task: Pick<MonteCarloTask, 'builds'>): number[] {
  return Array.from({ length: Math.ceil(task.builds / LOT) }, (_, k) => k);
}

interface Judged {
  readonly gapMm: number;
  /** Over what it needs. */
  readonly marginMm: number;
  /** Tight or in contact. */
  readonly below: boolean;
  readonly open: boolean;
}

/** A pair of a chance build against its limit. `marginMm`: only a margin below this is asked for. */
function judge(doc: BuildDocument, pair: Pair, hint: number | undefined, marginMm: number): Judged {
  const needed = neededMm(doc, pair);
  const only = marginMm === Number.POSITIVE_INFINITY ? {} : { belowMm: needed + marginMm };
  let found = gapOfPair(pair, hint, { toleranceMm: COARSE_MM, ...only });
  if (found.gapMm >= needed && found.lowerBoundMm < needed)
    found = gapOfPair(pair, found.atCrankRad, { ...AS_SHOWN, ...only });
  // Where the work allowed ran out nothing is proven, and nothing is said to clear.
  const open = found.lowerBoundMm === Number.NEGATIVE_INFINITY;
  const state = gapState(found.gapMm, pair.limitMm, pair.assumed.length > 0, allowanceMm(doc), found.lowerBoundMm);
  const below = state === 'tight' || state === 'contact' || open;
  return { gapMm: found.sectionMm, marginMm: found.gapMm - needed, below, open };
}

/** The kind of work: a piece is the number of a lot. */
export function monteCarloWork(task: MonteCarloTask): (lot: number) => Steps<Lot> {
  const toleranced = variablesOf(task.doc).filter((v) => v.band !== null && v.band.plus + v.band.minus > 0);
  const spread = spreadOf(task.doc);
  const numbersOf = uniformsOf(task.seed);
  return function* (lot): Steps<Lot> {
    const build = buildsFrom(toleranced, spread, numbersOf(lot));
    const drawn = Math.min(LOT, task.builds - lot * LOT);
    const values: number[] = [];
    const belowById = new Map<string, number>();
    let refused = 0;
    let outOfReach = 0;
    let below = 0;
    let open = 0;
    const count = (id: string, judged: Pick<Judged, 'below' | 'open'>): void => {
      if (judged.below) belowById.set(id, (belowById.get(id) ?? 0) + 1);
      if (judged.open) open += 1;
    };
    for (let n = 0; n < drawn; n++) {
      const made = changedEngine(task.doc, build());
      yield;
      if (made === null) {
        refused += 1;
        continue;
      }
      if (task.gapId === null) {
        const all = yield* worstMargin(made.doc, made.engine, task.hints, count);
        values.push(all.marginMm);
        if (all.below) below += 1;
      } else {
        const value = one(made.doc, made.engine, task.gapId, task.hints, count);
        if (value === null) outOfReach += 1;
        else values.push(value.gapMm);
        if (value?.below) below += 1;
      }
      yield;
    }
    return { drawn, refused, values: Float64Array.from(values), outOfReach, below, open, belowById };
  };
}

type Count = (id: string, judged: Pick<Judged, 'below' | 'open'>) => void;

function one(
  doc: BuildDocument,
  engine: Engine,
  gapId: string,
  hints: ReadonlyMap<string, number>,
  count: Count,
): { readonly gapMm: number; readonly below: boolean } | null {
  const pair = engine.pairs.find((p) => p.id === gapId);
  if (pair !== undefined) {
    const judged = judge(doc, pair, hints.get(gapId), Number.POSITIVE_INFINITY);
    count(gapId, judged);
    return judged;
  }
  const deck = deckGapsOf(doc, engine).find((g) => g.id === gapId);
  if (deck === undefined) return null;
  const below = isBelow(deck);
  count(gapId, { below, open: false });
  return { gapMm: deck.gapMm, below };
}

/**
 * The smallest margin of all gaps of parts that move past one another, each against what it needs. A pair is asked for only as
 * far as it could be the worst or below its limit; deck clearances, which are meant to be small, are counted but set no margin.
 */
function* worstMargin(
  doc: BuildDocument,
  engine: Engine,
  hints: ReadonlyMap<string, number>,
  count: Count,
): Steps<{ readonly marginMm: number; readonly below: boolean }> {
  let marginMm = Number.POSITIVE_INFINITY;
  let below = false;
  // Those that were met first in the build as written come first: a small margin early spares work on the rest.
  const order = new Map([...hints.keys()].map((id, k) => [id, k]));
  const pairs = [...engine.pairs].sort((a, b) => (order.get(a.id) ?? 1e6) - (order.get(b.id) ?? 1e6));
  for (const pair of pairs) {
    // Never asked for so little that the first proof could not tell clear from tight.
    const judged = judge(doc, pair, hints.get(pair.id), Math.max(marginMm, 2 * COARSE_MM));
    count(pair.id, judged);
    if (judged.below) below = true;
    marginMm = Math.min(marginMm, judged.marginMm);
    yield;
  }
  for (const deck of deckGapsOf(doc, engine)) count(deck.id, { below: isBelow(deck), open: false });
  return { marginMm, below };
}

/** Assumed dimensions without an allowance leave a deck clearance unproven, not below its limit. */
function isBelow({ state }: Gap): boolean {
  return state === 'tight' || state === 'contact';
}

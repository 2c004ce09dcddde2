/**
 * The gap of a pair against crank angle as work in pieces: its smallest, certified, and what it is at angles of its period, each to
 * a stated error. Angles count from true TDC of the pair's cylinder, from the firing one where the pair repeats after two turns.
 */
import type { Engine, Pair } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import { joined } from '../../assembly/pairs.ts';
import type { BuildDocument } from '../../build/document.ts';
import { type Cell, coarseCellsOf } from '../../core/clearance/cells.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../core/clearance/certify.ts';
import { certifyLayered, SLICING_MM } from '../../core/clearance/layered.ts';
import { layeredGapAt } from '../../core/clearance/layeredAt.ts';
import { headNow, solveHead } from '../headPair.ts';
import type { Steps } from '../pieces/kind.ts';
import { PAIR_BUDGET } from '../solve.ts';

export interface GapCurveTask {
  /** What is compared, as laid out from document and assembly. */
  readonly engines: readonly { readonly doc: BuildDocument; readonly assembly: string }[];
  readonly pairId: string;
}

/** The certified smallest gap, or gaps at degrees after TDC. */
export type GapQuestion =
  | { readonly ask: 'smallest' }
  | { readonly ask: 'gaps'; readonly atDeg: readonly number[]; readonly fine: boolean };

/** Of one of the engines, by its index. */
export interface GapCurvePiece {
  readonly engine: number;
  readonly asked: GapQuestion;
}

export interface SmallestGap {
  readonly gapMm: number;
  readonly lowerBoundMm: number;
  /** False where the work allowed for the proof ran out. */
  readonly certified: boolean;
  readonly atDeg: number;
}

export type GapCurveResult =
  | { readonly smallest: SmallestGap }
  /** mm, one for each angle asked for; NaN at or beyond `FAR_MM`. */
  | { readonly gapMm: Float64Array };

/** Gaps from here on are not drawn, mm. */
export const FAR_MM = 25;
/** A sampled gap may be so much below the true one, mm: as exact as the list of gaps up to twice the usual limits, beyond that as fine as a line is drawn. */
const NEAR_MM = 3;
export const FAR_ERROR_MM = 0.05;

const DEG = Math.PI / 180;

/** Sampled with `fine`, a gap is within `SLICING_MM` wherever it is. */
const coarse = (gapMm: number): number => (gapMm > NEAR_MM ? FAR_ERROR_MM : SLICING_MM);
const fine = (): number => SLICING_MM;

interface Laid {
  readonly pair: Pair;
  readonly cells: readonly Cell[];
  /** Crank angle from which its degrees count. */
  readonly zeroRad: number;
}

/** Throws RangeError where the pair is not there: ask `zeroOf` first. */
export function gapCurveKind({ engines, pairId }: GapCurveTask): (piece: GapCurvePiece) => Steps<GapCurveResult> {
  const known: (Laid | undefined)[] = [];
  const laidOut = (index: number): Laid => {
    const { doc, assembly } = engines[index]!;
    const made = known[index] ?? laid(layOut(doc, assembly), pairId);
    known[index] = made;
    return made;
  };
  return function* (piece) {
    const of = laidOut(piece.engine);
    yield;
    const { asked } = piece;
    if (asked.ask === 'smallest') return { smallest: smallestOf(of) };
    const gapMm = new Float64Array(asked.atDeg.length);
    for (const [k, deg] of asked.atDeg.entries()) {
      gapMm[k] = gapAtDeg(of, deg, asked.fine);
      yield;
    }
    return { gapMm };
  };
}

/** Crank angle from which the degrees of a pair count; null where the engine has no such pair. */
export function zeroOf(engine: Engine, pair: Pair | undefined): number | null {
  const cylinder = engine.cylinders.find((c) => c.number === pair?.cylinder);
  if (pair === undefined || cylinder === undefined) return null;
  return isTwoTurns(pair.periodRad) ? cylinder.firingTdcRad : cylinder.tdcRad;
}

export function isTwoTurns(periodRad: number): boolean {
  return periodRad > 3 * Math.PI;
}

function laid(engine: Engine, pairId: string): Laid {
  const pair = engine.pairs.find((p) => p.id === pairId);
  const zeroRad = zeroOf(engine, pair);
  if (pair === undefined || zeroRad === null)
    throw new RangeError(`gapCurveKind: ${engine.assembly} has no pair ${pairId}`);
  const { a, b } = pair.relative ?? pair;
  const cells = pair.head !== undefined ? [] : coarseCellsOf(a, b, (partA, partB) => joined(pair.kind, partA, partB));
  return { pair, cells, zeroRad };
}

function smallestOf({ pair, cells, zeroRad }: Laid): SmallestGap {
  const { a, b } = pair.relative ?? pair;
  const work = { toleranceMm: CERTIFICATE_TOLERANCE_MM, budget: PAIR_BUDGET };
  // A far gap too is sliced finely here, so that its ring lies on the curve.
  const found =
    pair.head !== undefined
      ? solveHead(pair, pair.head, work)
      : certifyLayered(a.motion, b.motion, cells, pair.periodRad, { ...work, slicingMm: SLICING_MM, farShare: 0 });
  return {
    gapMm: found.gapMm,
    lowerBoundMm: found.lowerBoundMm,
    certified: !found.budgetSpent,
    atDeg: wrapped(found.atCrankRad - zeroRad, pair.periodRad) / DEG,
  };
}

function gapAtDeg({ pair, cells, zeroRad }: Laid, deg: number, isFine: boolean): number {
  const { a, b } = pair.relative ?? pair;
  const crankRad = wrapped(zeroRad + deg * DEG, pair.periodRad);
  const gapMm =
    pair.head !== undefined
      ? headNow(pair, pair.head, crankRad).gapMm
      : layeredGapAt(a.motion, b.motion, cells, crankRad, isFine ? fine : coarse, FAR_MM);
  return gapMm < FAR_MM ? gapMm : Number.NaN;
}

function wrapped(rad: number, periodRad: number): number {
  const rest = rad % periodRad;
  return rest < 0 ? rest + periodRad : rest;
}

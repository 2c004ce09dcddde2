/**
 * Over which crank angles a gap is below its limit, and over which its parts touch: of every gap that falls below its limit.
 * Proven outside (core/clearance/below.ts). Pairs that go through the same relative motion are solved once, as their smallest gaps are.
 */
import { mm } from '../assembly/dims.ts';
import type { Cylinder, Engine, HeadPair, Pair } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/document.ts';
import type { Arc } from '../core/clearance/below.ts';
import { SLICING_MM } from '../core/clearance/layered.ts';
import { layeredBelow } from '../core/clearance/layeredBelow.ts';
import { tdcPinHeightMm } from '../core/kinematics/sliderCrank.ts';
import { allowanceMm } from './certified.ts';
import { headArcs } from './headPair.ts';
import type { Gap } from './results.ts';
import { pairCells } from './solve.ts';

export interface Intervals {
  readonly gapId: string;
  /** The limit, and the allowance for assumed dimensions where the gap rests on some. */
  readonly neededMm: number;
  /** Crank angles over which the gap is below that; each begins at 0 or after it, below the period, and may end beyond it. */
  readonly below: readonly Arc[];
  /** Crank angles over which the parts touch or overlap. */
  readonly touching: readonly Arc[];
  /** False when the work allowed ran out: then nothing is promised. */
  readonly finished: boolean;
  readonly evaluations: number;
}

/** Nearer than this counts as touching, mm: a nanometre, since outside an interval a distance above zero is to be proven. */
const TOUCHING_MM = 1e-6;

/** Evaluations for the intervals of a pair: about a second at the very worst. */
const BUDGET = 200_000;

/** Intervals of the gaps that are below their limits, by the gap's id. `gaps` are certified ones of this engine, which is laid out from the document. */
export function intervalsOf(
  doc: BuildDocument,
  engine: Engine,
  gaps: readonly Gap[],
  budget = BUDGET,
): ReadonlyMap<string, Intervals> {
  const allowance = allowanceMm(doc);
  const pairs = new Map(engine.pairs.map((pair) => [pair.id, pair]));
  const known = new Map<string, { readonly pair: Pair; readonly intervals: Intervals }>();
  const out = new Map<string, Intervals>();
  for (const gap of gaps) {
    if (gap.state !== 'tight' && gap.state !== 'contact') continue;
    const pair = pairs.get(gap.id);
    if (pair === undefined) {
      out.set(gap.id, deckIntervals(engine, gap, mm(doc.block.gasketThickness)));
      continue;
    }
    const entry = known.get(pair.key) ?? {
      pair,
      intervals: pairIntervals(pair, gap, neededMm(gap, allowance), budget),
    };
    known.set(pair.key, entry);
    const shiftRad = pair.keyShiftRad - entry.pair.keyShiftRad;
    const { below, touching } = entry.intervals;
    out.set(gap.id, {
      ...entry.intervals,
      gapId: gap.id,
      below: shifted(below, shiftRad, pair.periodRad),
      touching: shifted(touching, shiftRad, pair.periodRad),
    });
  }
  return out;
}

/** What a gap must have so that it is not tight: its limit, and the allowance where it rests on assumed dimensions. */
export function neededMm(gap: Pick<Gap, 'limitMm' | 'assumed'>, allowance: number | null): number {
  return gap.limitMm + (gap.assumed.length > 0 ? (allowance ?? 0) : 0);
}

function pairIntervals(pair: Pair, gap: Gap, needed: number, budget: number): Intervals {
  if (pair.head !== undefined) return headIntervals(pair, pair.head, gap, needed, budget);
  const { a, b } = pair.relative ?? pair;
  const cells = pairCells(pair);
  // Opposite the closest place most pairs are far apart; where this one is not, nothing is lost.
  const fromRad = gap.atCrankRad + pair.periodRad / 2;
  const below = layeredBelow(a.motion, b.motion, cells, pair.periodRad, {
    thresholdMm: Math.max(needed, TOUCHING_MM),
    slicingMm: SLICING_MM,
    budget,
    fromRad,
  });
  const touching =
    gap.gapMm > TOUCHING_MM || !below.finished
      ? null
      : layeredBelow(a.motion, b.motion, cells, pair.periodRad, {
          thresholdMm: TOUCHING_MM,
          slicingMm: SLICING_MM,
          budget: budget - below.evaluations,
          fromRad,
          within: below.arcs,
        });
  return {
    gapId: gap.id,
    neededMm: needed,
    below: below.arcs,
    touching: touching?.arcs ?? [],
    finished: below.finished && (touching?.finished ?? true),
    evaluations: below.evaluations + (touching?.evaluations ?? 0),
  };
}

function headIntervals(pair: Pair, head: HeadPair, gap: Gap, needed: number, budget: number): Intervals {
  // A turn from where it meets the piston the valve is shut.
  const fromRad = gap.atCrankRad + pair.periodRad / 2;
  const below = headArcs(pair, head, Math.max(needed, TOUCHING_MM), fromRad, budget);
  const touching = gap.gapMm > TOUCHING_MM ? null : headArcs(pair, head, TOUCHING_MM, fromRad, budget);
  return {
    gapId: gap.id,
    neededMm: needed,
    below: below.arcs,
    touching: touching?.arcs ?? [],
    finished: below.finished && (touching?.finished ?? true),
    evaluations: below.evaluations + (touching?.evaluations ?? 0),
  };
}

function shifted(arcs: readonly Arc[], byRad: number, periodRad: number): Arc[] {
  return arcs
    .map(({ fromRad, toRad }) => {
      const from = (((fromRad + byRad) % periodRad) + periodRad) % periodRad;
      return { fromRad: from, toRad: from + toRad - fromRad };
    })
    .sort((p, q) => p.fromRad - q.fromRad);
}

/**
 * A deck clearance is a sum at top dead centre. On the way there and back the crown is nearer the deck than the limit while the pin
 * stands higher than its top less what the limit lacks; it meets the head while it stands above the deck by more than the gasket.
 */
function deckIntervals(engine: Engine, gap: Gap, gasketMm: number): Intervals {
  const c = engine.cylinders.find((each) => each.number === gap.cylinder)!;
  const topMm = tdcPinHeightMm(c.slider);
  return {
    gapId: gap.id,
    neededMm: gap.limitMm,
    below: arcAbove(c, topMm + gap.gapMm - gap.limitMm),
    touching: gap.state === 'contact' ? arcAbove(c, topMm + gap.gapMm + gasketMm) : [],
    finished: true,
    evaluations: 0,
  };
}

/**
 * Crank angles over which the pin stands higher than `heightMm`, about the cylinder's top dead centre. Crank, rod and the line
 * from crank axis to pin, D = sqrt(h^2 + e^2) long and atan2(e, h) off the bore line, make a triangle; by the law of cosines
 * the crank stands acos((r^2 + D^2 - l^2) / (2 r D)) to either side of that line.
 */
export function arcAbove(c: Pick<Cylinder, 'slider' | 'alphaAtZeroRad'>, heightMm: number): Arc[] {
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = c.slider;
  const d = Math.hypot(heightMm, e);
  const cosine = (r * r + d * d - l * l) / (2 * r * d);
  if (cosine >= 1) return [];
  const turn = 2 * Math.PI;
  const half = Math.acos(Math.max(-1, cosine));
  const from = (((Math.atan2(e, heightMm) - half - c.alphaAtZeroRad) % turn) + turn) % turn;
  return [{ fromRad: from, toRad: from + 2 * half }];
}

/** An arc as degrees after the cylinder's true TDC (its firing one where the period is two turns), to a tenth, rounded outward. */
export interface DegreesAfterTdc {
  /** 0 to the period. */
  readonly fromDeg: number;
  /** May lie beyond the period. */
  readonly toDeg: number;
  /** All of the period. */
  readonly whole: boolean;
}

const DEGREE = Math.PI / 180;
/** Told to a tenth of a degree, outward: what lies outside of what is told is proven. */
const TOLD_DEG = 0.1;
/** An end that is a tenth but for rounding stays there, degrees. */
const SAME_DEG = 1e-6;

/** Arcs of a gap as they are told, in their order after TDC. */
export function afterTdc(
  arcs: readonly Arc[],
  cylinder: Pick<Cylinder, 'tdcRad' | 'firingTdcRad'>,
  periodRad: number,
): DegreesAfterTdc[] {
  const zeroRad = periodRad > 3 * Math.PI ? cylinder.firingTdcRad : cylinder.tdcRad;
  const period = Math.round(periodRad / DEGREE);
  return arcs
    .map(({ fromRad, toRad }) => {
      const from = ((((fromRad - zeroRad) / DEGREE) % period) + period) % period;
      const length = (toRad - fromRad) / DEGREE;
      return {
        fromDeg: Math.floor((from + SAME_DEG) / TOLD_DEG) * TOLD_DEG,
        toDeg: Math.ceil((from + length - SAME_DEG) / TOLD_DEG) * TOLD_DEG,
        whole: length >= period - TOLD_DEG,
      };
    })
    .sort((a, b) => a.fromDeg - b.fromDeg);
}

/**
 * Over which crank angles do two layered bodies come nearer than a threshold: the arcs of all their cells together.
 *
 * A cell is looked at only where no other is known to be below already: outside the arcs every cell is proven at or above
 * the threshold (below.ts), so the gap is. A cell whose slice of a round part lies beside its partner stands for the union
 * of the slice, which is never smaller than the part: its arcs are too long rather than too short. Where the slicing
 * adds more than `slicingMm` at an arc's ends or middle the cell is cut, and its halves, which lie within the union, are
 * looked at within that arc alone.
 */
import type { Motion } from '../plane/pose.ts';
import type { Arc, Work } from './below.ts';
import { arcsBelow } from './below.ts';
import type { Cell } from './cells.ts';
import { inPlaneCutoffMm } from './cells.ts';
import { cut, sectionGapMm } from './layered.ts';

export interface BelowOptions {
  /** Above zero. Distances from here up are of no interest. */
  readonly thresholdMm: number;
  /** Stop cutting slices when what they add at an arc's ends and middle is below this, mm. */
  readonly slicingMm: number;
  /** Evaluations at most. */
  readonly budget: number;
  /** Where to begin: an angle that is clear, if one is known; any other serves too. */
  readonly fromRad: number;
  /** Only these arcs are looked at, each with its ends within one period of `fromRad`; the whole period when absent. */
  readonly within?: readonly Arc[];
}

export interface BelowArcs {
  /** In their order, apart from one another; `fromRad` from 0 to the period, `toRad` after it by at most the period. */
  readonly arcs: readonly Arc[];
  /** False when the work ran out: then nothing is promised. */
  readonly finished: boolean;
  readonly evaluations: number;
}

export function layeredBelow(
  ma: Motion,
  mb: Motion,
  cells: readonly Cell[],
  periodRad: number,
  options: BelowOptions,
): BelowArcs {
  const { thresholdMm, slicingMm, fromRad } = options;
  const work: Work = { left: options.budget };
  const within = options.within ?? [{ fromRad, toRad: fromRad + periodRad }];
  let known: readonly Arc[] = [];

  /** One cell within some arcs; true when all of it could be done. */
  function look(cell: Cell, arcs: readonly Arc[]): boolean {
    const inPlaneMm = inPlaneCutoffMm(cell, thresholdMm);
    if (inPlaneMm === null) return true;
    const a = { flat: cell.a.flat, motion: ma };
    const b = { flat: cell.b.flat, motion: mb };
    for (const arc of arcs) {
      for (const open of without(arc, known)) {
        const found: Arc[] = [];
        if (!arcsBelow(a, b, open.fromRad, open.toRad, inPlaneMm, work, found)) return false;
        for (const below of found) {
          const halves = !cell.exact && addedMm(cell, below) > slicingMm ? cut(cell) : null;
          if (halves === null) known = joined([...known, below], 0);
          else for (const half of halves) if (!look(half, [below])) return false;
        }
      }
    }
    return true;
  }

  /** What slicing adds to a cell that is below the threshold over an arc: at its ends, where it is all but at it, and in its middle. */
  function addedMm(cell: Cell, arc: Arc): number {
    const middle = (arc.fromRad + arc.toRad) / 2;
    work.left -= 3;
    return Math.max(...[arc.fromRad, middle, arc.toRad].map((at) => sectionGapMm(cell, ma, mb, at) - thresholdMm));
  }

  const finished = cells.every((cell) => look(cell, within));
  return {
    arcs: joined(known, periodRad)
      .map((arc) => wrapped(arc, periodRad))
      .sort((p, q) => p.fromRad - q.fromRad),
    finished,
    evaluations: options.budget - work.left,
  };
}

/** What of an arc lies in none of some others, which are in order. */
function without(arc: Arc, others: readonly Arc[]): Arc[] {
  const out: Arc[] = [];
  let from = arc.fromRad;
  for (const other of others) {
    if (other.toRad <= from || other.fromRad >= arc.toRad) continue;
    if (other.fromRad > from) out.push({ fromRad: from, toRad: other.fromRad });
    from = Math.max(from, other.toRad);
  }
  if (from < arc.toRad) out.push({ fromRad: from, toRad: arc.toRad });
  return out;
}

/** Arcs that touch or overlap made one; with a period also the last with the first, where they meet across its end. */
function joined(arcs: readonly Arc[], periodRad: number): Arc[] {
  const out: Arc[] = [];
  for (const arc of [...arcs].sort((p, q) => p.fromRad - q.fromRad)) {
    const last = out.at(-1);
    if (last === undefined || arc.fromRad > last.toRad) out.push(arc);
    else if (arc.toRad > last.toRad) out[out.length - 1] = { fromRad: last.fromRad, toRad: arc.toRad };
  }
  const [first, last] = [out[0], out.at(-1)];
  if (periodRad > 0 && out.length > 1 && last!.toRad >= first!.fromRad + periodRad)
    return [...out.slice(1, -1), { fromRad: last!.fromRad, toRad: first!.toRad + periodRad }];
  return out;
}

function wrapped(arc: Arc, periodRad: number): Arc {
  const fromRad = ((arc.fromRad % periodRad) + periodRad) % periodRad;
  return { fromRad, toRad: fromRad + Math.min(periodRad, arc.toRad - arc.fromRad) };
}

/** The gap of a pair along its period, sampled: for the ribbons and the ring. Drawn from, never judged by: the certificate judges. */
import type { Pair } from '../assembly/engine.ts';
import { cellGapMm } from '../core/clearance/cells.ts';
import type { GapAt } from '../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../core/clearance/gapAt.ts';
import { headProfile } from './headPair.ts';
import { cellsAsked } from './now.ts';
import type { Gap, Profile } from './results.ts';

const here: GapAt = newGapAt();

/** Samples at multiples of `stepRad`, which must divide the period. Distances above `farMm` are given as `farMm`. */
export function profileOf(pair: Pair, gap: Gap | undefined, stepRad: number, farMm: number): Profile {
  const { a, b } = pair.relative ?? pair;
  const n = Math.round(pair.periodRad / stepRad);
  if (pair.head !== undefined) return { id: pair.id, stepRad, gapMm: headProfile(pair.head, n, stepRad, farMm) };
  const gapMm = new Float32Array(n);
  const cells = cellsAsked(pair, gap);
  for (let k = 0; k < n; k++) {
    let best = farMm;
    for (const cell of cells) {
      if (cell.axialMm >= best) continue;
      gapAt(
        { flat: cell.a.flat, motion: a.motion },
        { flat: cell.b.flat, motion: b.motion },
        k * stepRad,
        best + cell.deviationMm,
        false,
        here,
        cell.overlapMm > 0,
      );
      best = Math.min(best, cellGapMm(cell, here.gapMm));
    }
    gapMm[k] = best;
  }
  return { id: pair.id, stepRad, gapMm };
}

/**
 * Tolerances of one gap added up: the worst case and the root sum of squares, from the changes at the ends of each band
 * (sensitivity.ts); and the worst case found on the changed build itself.
 *
 * Sums take each change by itself and add them, which is exact only where the gap is linear in all of them. The worst case
 * on the build is laid out with every tolerance at its bad end at once and certified.
 */
import type { Steps } from '../pieces/kind.ts';
import type { Changed } from './gapOfBuild.ts';
import { AS_SHOWN, changedEngine, gapInEngine } from './gapOfBuild.ts';
import type { Sensitivity, SensitivityTask } from './sensitivity.ts';

export interface Stack {
  /** The gap at the values written. */
  readonly gapMm: number;
  /** The smallest sum: every tolerance at its bad end, changes added. */
  readonly worstSumMm: number;
  /** The largest. */
  readonly bestSumMm: number;
  /**
   * Root sum of squares: the gap with every band at its middle, and half the range that the bands give when the ranges add
   * like independent errors.
   */
  readonly middleMm: number;
  readonly rssMm: number;
  /** Dimensions that move the gap and have no tolerance: counted as exact. */
  readonly exact: number;
  /** Dimensions of which one end of the band can't be built: the sums then know only the other. */
  readonly refusedEnds: readonly string[];
}

/** How far a dimension's band moves the gap, mm: lowest and highest change, zero among them. */
export function rangeOf(s: Sensitivity): { readonly low: number; readonly high: number } {
  const changes = [0, s.atPlusMm ?? 0, s.atMinusMm ?? 0];
  return { low: Math.min(...changes), high: Math.max(...changes) };
}

export function stackOf(gapMm: number, list: readonly Sensitivity[]): Stack {
  let low = gapMm;
  let high = gapMm;
  let middle = gapMm;
  let squares = 0;
  let exact = 0;
  const refusedEnds: string[] = [];
  for (const s of list) {
    const { band, body, label } = s.variable;
    if (band === null) {
      exact += 1;
      continue;
    }
    if (s.atPlusMm === null || s.atMinusMm === null) refusedEnds.push(`${body} ${label}`);
    const range = rangeOf(s);
    low += range.low;
    high += range.high;
    middle += (range.low + range.high) / 2;
    squares += ((range.high - range.low) / 2) ** 2;
  }
  return {
    gapMm,
    worstSumMm: low,
    bestSumMm: high,
    middleMm: middle,
    rssMm: Math.sqrt(squares),
    exact,
    refusedEnds,
  };
}

export interface WorstCase {
  /** Certified gap of the build with its tolerances at these ends; null when that build is refused or the pair out of reach. */
  readonly gapMm: number | null;
  readonly lowerBoundMm: number;
  readonly atCrankRad: number;
  /** Which end of each band, in the order of the list: +1 upper, -1 lower. */
  readonly ends: readonly (1 | -1)[];
  /** Ends that were turned round because the sum of single changes had them wrong. */
  readonly turned: number;
}

/** Rounds of looking whether any one tolerance at its other end is worse: each round that changes something lowers the gap. */
const MOST_ROUNDS = 4;

/** Better by less is no better, mm: the certificate's own tolerance. */
const LESS_MM = 0.001;

/**
 * The worst case on the build: every tolerance at the end that closes the gap, then each single one tried at its other end
 * until none makes the gap smaller. `list`: the sensitivities with a tolerance.
 */
export function worstCaseWork(task: SensitivityTask): (list: readonly Sensitivity[]) => Steps<WorstCase> {
  return function* (all): Steps<WorstCase> {
    const list = all.filter((s) => s.variable.band !== null);
    const ends = list.map((s): 1 | -1 => ((s.atPlusMm ?? 0) <= (s.atMinusMm ?? 0) ? 1 : -1));
    const find = (at: readonly (1 | -1)[]) => {
      const changes = list.map(({ variable }, k): Changed => {
        const { plus, minus } = variable.band!;
        return { variable, value: variable.value + (at[k] === 1 ? plus : -minus) };
      });
      const made = changedEngine(task.doc, changes);
      return made === null ? null : gapInEngine(made.doc, made.engine, task.gapId, task.atCrankRad, AS_SHOWN);
    };
    let worst = find(ends);
    yield;
    let turned = 0;
    for (let round = 0; round < MOST_ROUNDS && worst !== null; round++) {
      let better = false;
      for (let k = 0; k < ends.length; k++) {
        const other = ends.map((end, j): 1 | -1 => (j === k ? (-end as 1 | -1) : end));
        const found = find(other);
        yield;
        if (found === null || found.sectionMm >= worst.sectionMm - LESS_MM) continue;
        worst = found;
        ends[k] = other[k]!;
        turned += 1;
        better = true;
      }
      if (!better) break;
    }
    return {
      gapMm: worst?.gapMm ?? null,
      lowerBoundMm: worst?.lowerBoundMm ?? Number.NEGATIVE_INFINITY,
      atCrankRad: worst?.atCrankRad ?? task.atCrankRad,
      ends,
      turned,
    };
  };
}

/**
 * How much one gap changes with each dimension that moves it, each part by itself.
 *
 * Taken from the gap of changed builds, found again over the whole turn and certified: at the dimension made larger and
 * smaller by a step of 0.1 mm, or 0.1 degree. Where the smallest gap stays at one place of the turn both sides agree and
 * their mean is the derivative at the closest point (the angle being the best one, its own change counts only in the second
 * order). Where another part or another place of the turn takes over they differ, and both are told.
 *
 * For the tolerances the gap is also found at both ends of each band, since a band may reach beyond the place where another
 * part takes over.
 */

import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import type { Steps } from '../pieces/kind.ts';
import { AS_SHOWN, changedEngine, gapInEngine } from './gapOfBuild.ts';
import type { Variable } from './variables.ts';
import { concerns, variablesOf } from './variables.ts';

/** Step of the two sides, mm or degrees: what a tenth does, and well above what the certificate leaves open. */
export const STEP = 0.1;

/** The two sides count as one when they differ by less, mm a step: three times what the certificates of both leave open. */
const ALIKE_MM = 0.003;
/** Or by less than this share: a bend of the curve, not a corner. */
const ALIKE_SHARE = 0.05;

/** A change of the gap below this is none, mm: it would read 0.000, and two certified minima are pinned no closer than to a tenth of it. */
const NONE_MM = 5e-4;

export interface Sensitivity {
  readonly variable: Variable;
  /** Change of the gap, mm, when the dimension grows by STEP; null where such a build is refused or the pair is out of reach. */
  readonly upMm: number | null;
  /** When it shrinks by STEP. */
  readonly downMm: number | null;
  /** Change of the gap at the upper and at the lower end of its tolerance; null without one, or where refused. */
  readonly atPlusMm: number | null;
  readonly atMinusMm: number | null;
}

/** Change of the gap per millimetre or degree where both sides agree; null where they differ or one of them is missing. */
export function slopeOf(s: Sensitivity): number | null {
  if (s.upMm === null || s.downMm === null) return null;
  const differ = Math.abs(s.upMm + s.downMm);
  const size = Math.max(Math.abs(s.upMm), Math.abs(s.downMm));
  return differ <= Math.max(ALIKE_MM, ALIKE_SHARE * size) ? (s.upMm - s.downMm) / (2 * STEP) : null;
}

/** What all pieces share. `doc` is settled. */
export interface SensitivityTask {
  readonly doc: BuildDocument;
  readonly gapId: string;
  readonly between: readonly [string, string];
  /** Where the gap was smallest: where to begin. */
  readonly atCrankRad: number;
}

/** Places in `variablesOf(doc)` that may move the gap. */
export function asked(task: SensitivityTask): number[] {
  return variablesOf(task.doc).flatMap((v, k) => (concerns(task.doc, v, task.between) ? [k] : []));
}

/** The kind of work: a piece is a list of places in `variablesOf(doc)`, its result the ones of them that move the gap. */
export function sensitivityWork(task: SensitivityTask): (piece: readonly number[]) => Steps<readonly Sensitivity[]> {
  const variables = variablesOf(task.doc);
  const engine = layOut(task.doc, task.doc.proposed);
  const nominal = gapInEngine(task.doc, engine, task.gapId, task.atCrankRad, AS_SHOWN);
  if (nominal === null) throw new RangeError(`sensitivityWork: the build has no gap "${task.gapId}"`);
  const key = engine.pairs.find((p) => p.id === task.gapId)?.key;

  /** Change of the gap with the variable at another value; null where refused or out of reach. */
  const change = (variable: Variable, value: number): number | null => {
    if (value === variable.value) return 0;
    const made = changedEngine(task.doc, [{ variable, value }]);
    if (made === null) return null;
    // The key holds every number that the pair's geometry depends on: the same key is the same gap.
    if (key !== undefined && made.engine.pairs.find((p) => p.id === task.gapId)?.key === key) return 0;
    const found = gapInEngine(made.doc, made.engine, task.gapId, nominal.atCrankRad, AS_SHOWN);
    return found === null ? null : found.sectionMm - nominal.sectionMm;
  };
  return function* (piece): Steps<readonly Sensitivity[]> {
    const out: Sensitivity[] = [];
    for (const place of piece) {
      const variable = variables[place]!;
      const { value, band } = variable;
      const upMm = change(variable, value + STEP);
      yield;
      const downMm = change(variable, value - STEP);
      yield;
      const atPlusMm = band === null ? null : change(variable, value + band.plus);
      const atMinusMm = band === null ? null : change(variable, value - band.minus);
      yield;
      const moves = [upMm, downMm, atPlusMm, atMinusMm].some((mm) => mm !== null && Math.abs(mm) > NONE_MM);
      if (moves) out.push({ variable, upMm, downMm, atPlusMm, atMinusMm });
    }
    return out;
  };
}

/** How much a sensitivity weighs: what its tolerance may take off the gap, and for those without one what a step does. */
export function inOrderOfWeight(list: readonly Sensitivity[]): Sensitivity[] {
  const taken = (s: Sensitivity): number => Math.max(0, -(s.atPlusMm ?? 0), -(s.atMinusMm ?? 0));
  const step = (s: Sensitivity): number => Math.max(Math.abs(s.upMm ?? 0), Math.abs(s.downMm ?? 0));
  return [...list].sort((a, b) => taken(b) - taken(a) || step(b) - step(a));
}

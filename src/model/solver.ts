/** Who certifies: a worker in the page, or the same code at once where there is none. */

import { mm } from '../assembly/dims.ts';
import type { Engine } from '../assembly/engine.ts';
import { layOut } from '../assembly/layOut.ts';
import type { BuildDocument } from '../build/document.ts';
import { DEFAULT_LIMITS } from '../build/limits.ts';
import { deckGaps } from './figures.ts';
import { pairsOfThrow } from './now.ts';
import { profileOf } from './profile.ts';
import type { Gap, Profile } from './results.ts';
import { solveGaps } from './solve.ts';

export interface SolveTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
  /** Profiles are made for the pairs of this cylinder's throw. */
  readonly cylinder: number;
  /** Minima found before, by pair id: where to begin. */
  readonly hints: ReadonlyMap<string, number>;
  /** Certified gaps already known for this document: then only profiles are made. */
  readonly gaps?: readonly Gap[];
}

export interface SolveAnswer {
  readonly gaps?: readonly Gap[];
  readonly profiles?: ReadonlyMap<string, Profile>;
}

export interface Solver {
  /** Answers once with the gaps (unless they were given) and once with profiles. A later task makes earlier answers void. */
  readonly start: (task: SolveTask, answer: (answer: SolveAnswer) => void) => void;
}

/** Step of the profiles: two degrees, which is two pixels on the ruler of a wide screen. */
const PROFILE_STEP_RAD = Math.PI / 90;

/** Distances are told up to this; beyond it a ribbon is as thin as it gets. */
const PROFILE_FAR_MM = 25;

export function allowanceMm(doc: BuildDocument): number | null {
  return doc.assumedAllowance === undefined ? null : mm(doc.assumedAllowance);
}

/** All gaps of an assembly, certified, deck clearances included; worst margin first. */
export function certifiedGaps(doc: BuildDocument, engine: Engine, hints: ReadonlyMap<string, number>): Gap[] {
  const found = solveGaps(engine, { hints: new Map(hints), assumedAllowanceMm: allowanceMm(doc) });
  return inOrder([...found, ...deckGapsOf(doc, engine)]);
}

export function deckGapsOf(doc: BuildDocument, engine: Engine): Gap[] {
  return deckGaps(doc, engine, mm(doc.limits?.deck ?? { value: DEFAULT_LIMITS.deck.value, from: 'stated' }));
}

const RANK = { contact: 0, tight: 1, unproven: 2, clears: 3 } as const;

/** Worst first: by state, then by margin to the limit. */
export function inOrder(gaps: readonly Gap[]): Gap[] {
  return [...gaps].sort((a, b) => RANK[a.state] - RANK[b.state] || a.gapMm - a.limitMm - (b.gapMm - b.limitMm));
}

export function profilesOf(
  engine: Engine,
  gaps: readonly Gap[],
  cylinder: number,
  stepRad = PROFILE_STEP_RAD,
): Map<string, Profile> {
  const byId = new Map(gaps.map((g) => [g.id, g]));
  return new Map(
    pairsOfThrow(engine, cylinder).map((pair) => [
      pair.id,
      profileOf(pair, byId.get(pair.id), stepRad, PROFILE_FAR_MM),
    ]),
  );
}

/** One task done, in the worker or here. */
export function runTask(task: SolveTask, answer: (answer: SolveAnswer) => void): void {
  const engine = layOut(task.doc, task.assembly);
  const gaps = task.gaps ?? certifiedGaps(task.doc, engine, task.hints);
  if (task.gaps === undefined) answer({ gaps });
  answer({ profiles: profilesOf(engine, gaps, task.cylinder) });
}

/** Solves in this thread, at once. */
export function directSolver(): Solver {
  return { start: runTask };
}

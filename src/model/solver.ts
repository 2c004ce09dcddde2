/** Who certifies: a worker in the page, or the same code at once where there is none. */

import type { Engine } from '../assembly/engine.ts';
import { layOut } from '../assembly/layOut.ts';
import type { BuildDocument } from '../build/document.ts';
import { certifiedGaps } from './certified.ts';
import type { Cure } from './cures.ts';
import { findCures } from './cures.ts';
import { pairsOfThrow } from './now.ts';
import { profileOf } from './profile.ts';
import type { Gap, Profile } from './results.ts';

export interface SolveTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
  /** Profiles are made for the pairs of this cylinder's throw. */
  readonly cylinder: number;
  /** Minima found before, by pair id: where to begin. */
  readonly hints: ReadonlyMap<string, number>;
  /** Certified gaps already known for this document: then only profiles are made. */
  readonly gaps?: readonly Gap[];
  /** Gap whose cures are wanted; the worst one when null. */
  readonly picked: string | null;
}

export interface SolveAnswer {
  readonly gaps?: readonly Gap[];
  readonly profiles?: ReadonlyMap<string, Profile>;
  readonly cures?: Cures;
}

/** Cures of one gap; `list` is empty when it needs none, or when no single change helps. */
export interface Cures {
  readonly gapId: string | null;
  readonly list: readonly Cure[];
}

export interface Solver {
  /** Answers once with the gaps (unless they were given), once with profiles, once with cures. A later task makes earlier answers void. */
  readonly start: (task: SolveTask, answer: (answer: SolveAnswer) => void) => void;
}

/** Step of the profiles: two degrees, which is two pixels on the ruler of a wide screen. */
const PROFILE_STEP_RAD = Math.PI / 90;

/** Distances are told up to this; beyond it a ribbon is as thin as it gets. */
const PROFILE_FAR_MM = 25;

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
  const ill = gaps.find((g) => g.id === task.picked) ?? gaps[0];
  const needed = ill !== undefined && (ill.state === 'contact' || ill.state === 'tight');
  answer({
    cures: { gapId: needed ? ill.id : null, list: needed ? findCures(task.doc, task.assembly, gaps, ill.id) : [] },
  });
}

/** Solves in this thread, at once. */
export function directSolver(): Solver {
  return { start: runTask };
}

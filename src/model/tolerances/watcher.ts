/**
 * Tolerances of the gap spoken of, worked out in the pool: a watcher of the store with results of its own. Nothing is worked out
 * while nobody looks; what an edit overtakes is dropped. Chance builds are drawn when they are asked for.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { Gap } from '../results.ts';
import type { State, Store } from '../state.ts';
import { neededMm } from './gapOfBuild.ts';
import type { Lot } from './monteCarlo.ts';
import { lotsOf } from './monteCarlo.ts';
import type { Outcome } from './outcome.ts';
import { outcomeOf } from './outcome.ts';
import type { Sensitivity } from './sensitivity.ts';
import { asked, inOrderOfWeight } from './sensitivity.ts';
import { settled } from './settled.ts';
import type { Stack, WorstCase } from './stack.ts';
import { stackOf } from './stack.ts';
import { variablesOf } from './variables.ts';

export interface Chance {
  /** The gap asked for, by id; null: all of them. */
  readonly gapId: string | null;
  readonly builds: number;
  readonly seed: number;
  /** 0 to 1. */
  readonly done: number;
  readonly running: boolean;
  /** Of the builds judged so far. */
  readonly outcome: Outcome | null;
}

export interface Tolerances {
  /** The gap picked, else the worst; null where there is none, or none that is certified yet. */
  readonly gap: Gap | null;
  /** What that gap must be at least, mm. */
  readonly neededMm: number;
  /** How many dimensions of the whole build state a tolerance; null until it is known. */
  readonly toleranced: number | null;
  /** Those that move it, weightiest first; null while they are worked out. */
  readonly sensitivities: readonly Sensitivity[] | null;
  /** Of the sensitivities, 0 to 1. */
  readonly done: number;
  readonly stack: Stack | null;
  /** Null while it is worked out, and where no tolerance is stated. */
  readonly worst: WorstCase | null;
  readonly chance: Chance | null;
  /** A fault of the program, in words; else null. */
  readonly failed: string | null;
}

export interface TolerancesWatcher {
  readonly state: Tolerances;
  /** Whether anyone looks: only then is anything worked out. */
  readonly attend: (looking: boolean) => void;
  readonly run: (gapId: string | null, builds: number, seed: number) => void;
  /** Stops the run; what it has found stays. */
  readonly cancel: () => void;
  /** Called after every change; returns the way to stop. */
  readonly watch: (listener: (state: Tolerances) => void) => () => void;
}

const NOTHING: Tolerances = {
  gap: null,
  neededMm: 0,
  toleranced: null,
  sensitivities: null,
  done: 0,
  stack: null,
  worst: null,
  chance: null,
  failed: null,
};

/** Variables in a piece of work: each takes some builds. */
const IN_A_PIECE = 2;

/** Outcomes of a run that are shown before it is done. */
const PARTS_SHOWN = 25;

/** Do two documents have the same gaps and tolerances: everything but log, notes, units and how parts lie within their bands. */
function sameParts(a: BuildDocument, b: BuildDocument): boolean {
  return (
    a.block === b.block &&
    a.assemblies === b.assemblies &&
    a.limits === b.limits &&
    a.assumedAllowance === b.assumedAllowance
  );
}

export function watchTolerances(store: Store, pool: Pool<Work>): TolerancesWatcher {
  const listeners = new Set<(state: Tolerances) => void>();
  let state = NOTHING;
  let looking = false;
  /** What the sensitivities are of, or are being made of. */
  let of: { readonly doc: BuildDocument; readonly assembly: string; readonly gapId: string } | null = null;
  /** What the chance builds are of. */
  let chanceOf: { readonly doc: BuildDocument; readonly assembly: string } | null = null;
  let stop = (): void => {};
  let stopChance = (): void => {};

  function change(part: Partial<Tolerances>): void {
    state = { ...state, ...part };
    for (const listener of [...listeners]) listener(state);
  }

  function follow(next: State): void {
    const { doc, assembly } = next;
    if (chanceOf !== null && !(sameSpread(chanceOf.doc, doc) && chanceOf.assembly === assembly)) {
      stopChance();
      chanceOf = null;
      if (state.chance !== null) change({ chance: null });
    }
    const certified = next.refused.length === 0 && next.gaps.every((g) => g.certified || g.budgetSpent);
    const gap = next.gaps.find((g) => g.id === next.picked) ?? next.gaps[0] ?? null;
    if (of !== null && (gap?.id !== of.gapId || assembly !== of.assembly || !sameParts(of.doc, doc))) {
      stop();
      of = null;
      change({ ...NOTHING, chance: state.chance });
    }
    if (!looking || !certified || gap === null || of !== null) return;
    of = { doc, assembly, gapId: gap.id };
    begin(doc, assembly, gap);
  }

  function begin(doc: BuildDocument, assembly: string, gap: Gap): void {
    const alone = settled(doc, assembly);
    const task = { doc: alone, gapId: gap.id, between: gap.between, atCrankRad: gap.atCrankRad };
    const places = asked(task);
    const pieces = Array.from({ length: Math.ceil(places.length / IN_A_PIECE) }, (_, k) =>
      places.slice(k * IN_A_PIECE, (k + 1) * IN_A_PIECE),
    );
    const found: (readonly Sensitivity[])[] = [];
    let told = 0;
    const failed = (why: string): void => change({ failed: why });
    const toleranced = variablesOf(alone).filter((v) => v.band !== null).length;
    change({ ...NOTHING, gap, neededMm: neededMm(alone, gap), toleranced, chance: state.chance });
    stop = pool.run('tolerances', 'sensitivities', task, pieces, {
      piece: (k, list) => {
        found[k] = list;
        told += 1;
        change({ done: told / pieces.length });
      },
      done: () => {
        // In the order of the document first, so that equal weights always stand the same way round.
        const list = inOrderOfWeight(found.flat());
        change({ sensitivities: list, done: 1, stack: stackOf(gap.gapMm, list) });
        if (list.every((s) => s.variable.band === null)) return;
        stop = pool.run('tolerances', 'worst case', task, [list], {
          piece: (_, worst) => change({ worst }),
          done: () => {},
          failed,
        });
      },
      failed,
    });
  }

  function run(gapId: string | null, builds: number, seed: number): void {
    stopChance();
    const { doc, assembly, gaps } = store.state;
    chanceOf = { doc, assembly };
    const hints = new Map(gaps.map((g) => [g.id, g.atCrankRad]));
    const task = { doc: settled(doc, assembly), gapId, hints, builds, seed };
    const numbers = lotsOf(task);
    const lots: (Lot | undefined)[] = numbers.map(() => undefined);
    let told = 0;
    const about = { gapId, builds, seed };
    change({ chance: { ...about, done: 0, running: true, outcome: null }, failed: null });
    const each = Math.max(1, Math.floor(numbers.length / PARTS_SHOWN));
    stopChance = pool.run('chance builds', 'chance builds', task, numbers, {
      piece: (k, lot) => {
        lots[k] = lot;
        told += 1;
        // The first ones soon, at 1, 2, 4, 8 lots …, then in even parts.
        const outcome =
          told % each === 0 || (told & (told - 1)) === 0 ? outcomeOf(lots) : (state.chance?.outcome ?? null);
        change({ chance: { ...about, done: told / numbers.length, running: true, outcome } });
      },
      done: () => change({ chance: { ...about, done: 1, running: false, outcome: outcomeOf(lots) } }),
      failed: (why) => change({ chance: null, failed: why }),
    });
  }

  store.watch(follow);
  return {
    get state() {
      return state;
    },
    attend: (now) => {
      looking = now;
      follow(store.state);
    },
    run,
    cancel: () => {
      stopChance();
      if (state.chance?.running) change({ chance: { ...state.chance, running: false } });
    },
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

function sameSpread(a: BuildDocument, b: BuildDocument): boolean {
  return sameParts(a, b) && JSON.stringify(a.tolerances) === JSON.stringify(b.tolerances);
}

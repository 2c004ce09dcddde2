/**
 * The mock-up log held against the build as it changes: a watcher of the store with results of its own. Work goes to the pool, and is
 * begun once the build stands still; what an edit overtakes is dropped.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { State, Store } from '../state.ts';
import type { Comparison } from './compare.ts';
import { assemblyIndex, dimensionsOf } from './dimensions.ts';
import { type Explanation, inLikelihood } from './explain.ts';
import { type CompareResult, comparePieces, gathered } from './work.ts';

/** Explanations of one entry, as far as they have been found. */
export interface Explaining {
  readonly index: number;
  readonly list: readonly Explanation[];
  /** 0 to 1; 1 when all dimensions have been tried. */
  readonly done: number;
}

export interface MockUp {
  /** In the order of the log; null while they are being worked out. */
  readonly comparisons: readonly Comparison[] | null;
  /** Of the comparison: 0 to 1. */
  readonly done: number;
  readonly explaining: Explaining | null;
  /** A fault of the program, in words, where the work failed; else null. */
  readonly failed: string | null;
}

export interface MockUpWatcher {
  readonly state: MockUp;
  /** Asks which dimension would explain an entry; null stops asking. */
  readonly explain: (index: number | null) => void;
  /** Called after every change; returns the way to stop. */
  readonly watch: (listener: (state: MockUp) => void) => () => void;
}

const COMPARE = 'mock-up comparison';
const EXPLAIN = 'mock-up explanation';

export function watchMockUp(store: Store, pool: Pool<Work>): MockUpWatcher {
  const listeners = new Set<(state: MockUp) => void>();
  let state: MockUp = { comparisons: [], done: 1, explaining: null, failed: null };
  /** The document that the comparisons are of, or are being made of. */
  let of: BuildDocument | null = null;
  let stop = (): void => {};
  let stopExplaining = (): void => {};

  function change(part: Partial<MockUp>): void {
    state = { ...state, ...part };
    for (const listener of [...listeners]) listener(state);
  }

  function compare({ doc, refused, gaps }: State): void {
    if (doc === of) return;
    stop();
    stopExplaining();
    of = null;
    if ((doc.mockUp ?? []).length === 0) {
      of = doc;
      change({ comparisons: [], done: 1, explaining: null, failed: null });
      return;
    }
    if (state.comparisons !== null || state.explaining !== null)
      change({ comparisons: null, done: 0, explaining: null, failed: null });
    // While a control is dragged, and while the build is refused, there is nothing to hold the log against.
    if (refused.length > 0 || !gaps.every((g) => g.certified || g.budgetSpent)) return;
    of = doc;
    const pieces = comparePieces(doc);
    const results: CompareResult[] = [];
    let told = 0;
    stop = pool.run(COMPARE, 'mock-up comparison', doc, pieces, {
      piece: (index, result) => {
        results[index] = result;
        told += 1;
        if (told < pieces.length) change({ done: told / pieces.length });
      },
      done: () => change({ comparisons: gathered(pieces, results), done: 1 }),
      failed: (failed) => change({ failed, done: 1 }),
    });
  }

  function explain(index: number | null): void {
    stopExplaining();
    const about = state.comparisons?.find((c) => c.index === index);
    if (index === null || about === undefined || of === null) {
      if (state.explaining !== null) change({ explaining: null });
      return;
    }
    const doc = of;
    const { assembly } = about.entry;
    const pieces = dimensionsOf(doc, assemblyIndex(doc, assembly)).map((_, k) => k);
    let told = 0;
    change({ explaining: { index, list: [], done: 0 } });
    const task = { doc, assembly, comparisons: state.comparisons!, index };
    stopExplaining = pool.run(EXPLAIN, 'mock-up explanation', task, pieces, {
      piece: (_, found) => {
        told += 1;
        const list = inLikelihood([...(state.explaining?.list ?? []), ...found]);
        change({ explaining: { index, list, done: told / pieces.length } });
      },
      done: () => {},
      failed: (failed) => change({ failed, explaining: null }),
    });
  }

  store.watch((next) => compare(next));
  compare(store.state);
  return {
    get state() {
      return state;
    },
    explain,
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** The shelf's combinations judged as the build changes, while somebody looks at them. */
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { Store } from '../state.ts';
import { type Combination, combinationsOf } from './combinations.ts';
import type { Judged } from './work.ts';

export interface ShelfState {
  readonly assembly: string;
  readonly combinations: readonly Combination[];
  /** One for each combination; null while it is being judged, or beyond the first `MOST_JUDGED`. */
  readonly judged: readonly (Judged | null)[];
  readonly failed: string | null;
}

export interface ShelfWatcher {
  readonly state: ShelfState;
  /** Judges the combinations for an assembly as the document stands; the same again is not done twice. */
  readonly look: (assembly: string) => void;
  readonly watch: (listener: () => void) => () => void;
}

/** Combinations judged, the closest to the wanted deck clearance: a page of them. */
export const MOST_JUDGED = 24;

export function watchShelf(store: Store, pool: Pool<Work>): ShelfWatcher {
  const listeners = new Set<() => void>();
  let state: ShelfState = { assembly: '', combinations: [], judged: [], failed: null };
  let doc: unknown = null;
  const set = (next: ShelfState): void => {
    state = next;
    for (const listener of [...listeners]) listener();
  };
  return {
    get state() {
      return state;
    },
    look: (assembly) => {
      const now = store.state.doc;
      if (now === doc && assembly === state.assembly) return;
      doc = now;
      const combinations = combinationsOf(now, assembly);
      const wanted = combinations
        .map((c, k) => ({ c, k }))
        .filter(({ c }) => c.misfit === null)
        .slice(0, MOST_JUDGED);
      set({ assembly, combinations, judged: combinations.map(() => null), failed: null });
      pool.run(
        'shelf',
        'shelf',
        { doc: now, assembly },
        wanted.map(({ c }) => c.changes),
        {
          piece: (index, result) => {
            const at = wanted[index]!.k;
            set({ ...state, judged: state.judged.map((each, k) => (k === at ? result : each)) });
          },
          done: () => {},
          failed: (why) => set({ ...state, failed: why }),
        },
      );
    },
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

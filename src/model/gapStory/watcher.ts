/**
 * The story of the gap that is spoken of, as the build and the choice change: a watcher of the store with a result of its own. Work
 * goes to the pool, and is begun once the gap is certified; what an edit or another choice overtakes is dropped.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { Gap } from '../results.ts';
import type { State, Store } from '../state.ts';
import type { GapStory } from './story.ts';

export interface Told {
  /** The picked gap, else the worst one; null where there is none. */
  readonly gap: Gap | null;
  /** Null while it is being worked out. */
  readonly story: GapStory | null;
  /** A fault of the program, in words, where the work failed; else null. */
  readonly failed: string | null;
}

export interface StoryWatcher {
  readonly told: Told;
  /** Nothing is worked out until someone asks to be told, nor while nobody does. */
  readonly ask: (wanted: boolean) => void;
  /** Called after every change; returns the way to stop. */
  readonly watch: (listener: (told: Told) => void) => () => void;
}

/** The gap to tell of. */
export function gapSpokenOf(state: Pick<State, 'gaps' | 'picked'>): Gap | null {
  return state.gaps.find((g) => g.id === state.picked) ?? state.gaps[0] ?? null;
}

export function watchStory(store: Store, pool: Pool<Work>): StoryWatcher {
  const listeners = new Set<(told: Told) => void>();
  let told: Told = { gap: gapSpokenOf(store.state), story: null, failed: null };
  /** What the story is of, or is being made of. */
  let of: { readonly doc: BuildDocument; readonly assembly: string; readonly id: string } | null = null;
  let wanted = false;
  let stop = (): void => {};

  function change(part: Partial<Told>): void {
    told = { ...told, ...part };
    for (const listener of [...listeners]) listener(told);
  }

  function follow(state: State): void {
    const gap = gapSpokenOf(state);
    const { doc, assembly } = state;
    const same = of !== null && of.doc === doc && of.assembly === assembly && of.id === gap?.id;
    if (!same) {
      stop();
      stop = () => {};
      of = null;
    }
    if (gap !== told.gap || (!same && told.story !== null))
      change({ gap, ...(same ? {} : { story: null, failed: null }) });
    // While a control is dragged, and while the build is refused, there is nothing to tell of.
    if (same || !wanted || gap === null || state.refused.length > 0 || !(gap.certified || gap.budgetSpent)) return;
    of = { doc, assembly, id: gap.id };
    stop = pool.run('gap story', 'gap story', { doc, assembly }, [gap], {
      piece: (_, story) => change({ story }),
      done: () => {},
      failed: (why) => change({ failed: why }),
    });
  }

  store.watch((state, changed) => {
    if (['document', 'engine', 'gaps', 'view'].some((one) => changed.has(one as 'gaps'))) follow(state);
  });
  return {
    get told() {
      return told;
    },
    ask: (asked) => {
      wanted = asked;
      follow(store.state);
    },
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

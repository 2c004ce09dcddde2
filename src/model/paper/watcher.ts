/**
 * What the papers need beyond the state, worked out by the pool while a paper is on show: gaps of the assembly being replaced,
 * and of the one on show the story of each close gap with what would cure it. What an edit overtakes is dropped.
 */

import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import { deckGapsOf } from '../certified.ts';
import type { Cure } from '../cures.ts';
import { distinct } from '../distinct.ts';
import type { GapStory } from '../gapStory/story.ts';
import { onlyLogDiffers } from '../mockUp/editLog.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { Gap } from '../results.ts';
import { isNearLimit } from '../running/runningGap.ts';
import type { State, Store } from '../state.ts';

export interface Asked {
  /** Gaps of the assembly being replaced. */
  readonly before?: true;
  /** Stories of close gaps, cures of those that don't clear. */
  readonly closeGaps?: true;
}

export interface Worked {
  /** Null until all are there, and where the assembly on show is the one being replaced. */
  readonly before: readonly Gap[] | null;
  readonly stories: ReadonlyMap<string, GapStory>;
  readonly cures: ReadonlyMap<string, readonly Cure[]>;
  readonly done: number;
  readonly of: number;
  /** A fault of the program, in words. */
  readonly failed: string | null;
}

export interface PaperWatcher {
  readonly worked: Worked;
  /** Nothing is worked out until it is wanted, nor while it is not. */
  readonly ask: (wanted: boolean) => void;
}

const NOTHING: Worked = { before: null, stories: new Map(), cures: new Map(), done: 0, of: 0, failed: null };

/** `changed` is called each time something has come in. */
export function watchPaper(
  store: Store,
  pool: Pool<Work>,
  owner: string,
  asked: Asked,
  changed: (worked: Worked) => void,
): PaperWatcher {
  let worked = NOTHING;
  let of: { readonly doc: BuildDocument; readonly assembly: string } | null = null;
  let wanted = false;
  let stops: (() => void)[] = [];

  function put(part: Partial<Worked>): void {
    worked = { ...worked, ...part };
    changed(worked);
  }

  function stop(): void {
    for (const each of stops) each();
    stops = [];
  }

  const failed = (why: string): void => put({ failed: why });

  function begin(state: State): void {
    const { doc, assembly } = state;
    of = { doc, assembly };
    worked = NOTHING;
    if (asked.before === true && assembly !== doc.replaced) beginBefore(doc);
    if (asked.closeGaps === true) beginClose(state);
    changed(worked);
  }

  function beginBefore(doc: BuildDocument): void {
    const engine = layOut(doc, doc.replaced);
    const keys = [...new Set(engine.pairs.map((pair) => pair.key))];
    const found: Gap[] = [];
    put({ of: worked.of + keys.length });
    const shared = { doc, assembly: doc.replaced };
    stops.push(
      pool.run(`${owner}, before`, 'paper room', shared, keys, {
        piece: (_, gaps) => {
          found.push(...gaps);
          put({ done: worked.done + 1 });
        },
        done: () => put({ before: [...found, ...deckGapsOf(doc, engine)] }),
        failed,
      }),
    );
  }

  function beginClose({ doc, assembly, engine, gaps }: State): void {
    const told = distinct(engine, gaps).map(({ gap }) => gap);
    const close = told.filter((gap) => gap.state !== 'clears' || isNearLimit(gap));
    const ill = told.filter((gap) => gap.state === 'contact' || gap.state === 'tight').map((gap) => gap.id);
    put({ of: worked.of + close.length + ill.length });
    stops.push(
      pool.run(`${owner}, stories`, 'gap story', { doc, assembly }, close, {
        piece: (_, story) => put({ stories: new Map(worked.stories).set(story.gapId, story), done: worked.done + 1 }),
        done: () => {},
        failed,
      }),
      pool.run(`${owner}, cures`, 'paper cures', { doc, assembly, gaps: [...gaps] }, ill, {
        piece: (_, { gapId, list }) => put({ cures: new Map(worked.cures).set(gapId, list), done: worked.done + 1 }),
        done: () => {},
        failed,
      }),
    );
  }

  function follow(state: State): void {
    const same = of !== null && of.assembly === state.assembly && onlyLogDiffers(of.doc, state.doc);
    if (!same && of !== null) {
      stop();
      of = null;
    }
    if (!wanted || same || state.refused.length > 0 || !isProven(state)) return;
    begin(state);
  }

  store.watch((state, what) => {
    if ((['document', 'engine', 'gaps'] as const).some((one) => what.has(one))) follow(state);
  });
  return {
    get worked() {
      return worked;
    },
    ask: (now) => {
      wanted = now;
      if (wanted) {
        follow(store.state);
        return;
      }
      // Half of it is of no use: it is begun anew when it is wanted again.
      if (worked.done < worked.of) of = null;
      stop();
    },
  };
}

/** Are all gaps as certain as they get. */
export function isProven({ gaps }: Pick<State, 'gaps'>): boolean {
  return gaps.every((g) => g.certified || g.budgetSpent);
}

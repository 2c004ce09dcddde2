/** The swept band that is asked for, as the build changes: a watcher of the store with a result of its own, worked out by the pool. */
import type { BuildDocument } from '../../build/document.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { State, Store } from '../state.ts';
import { bandPieces } from './band.ts';
import { type BandAsked, bandGroups, hasBand } from './pairBand.ts';
import type { Polygon } from './polygons.ts';

export interface Band {
  readonly asked: BandAsked;
  /** The body that sweeps. */
  readonly name: string;
  /** The body that the band stands still with; null: the block. */
  readonly from: string | null;
  /** In that body's own frame, or the engine's: counterclockwise round what is swept, clockwise round what is not. */
  readonly polygons: readonly Polygon[];
  /** The limit round it, mm; 0 without. */
  readonly limitMm: number;
}

export interface BandState {
  readonly asked: BandAsked | null;
  /** Null while it is worked out, or where the two share no axial range. */
  readonly band: Band | null;
  /** 0 to 1. */
  readonly done: number;
  readonly failed: string | null;
}

export interface BandWatcher {
  readonly state: BandState;
  /** Null: none. */
  readonly ask: (asked: BandAsked | null) => void;
  readonly watch: (listener: (state: BandState) => void) => () => void;
}

const NONE: BandState = { asked: null, band: null, done: 1, failed: null };

export function watchBand(store: Store, pool: Pool<Work>): BandWatcher {
  const listeners = new Set<(state: BandState) => void>();
  let state = NONE;
  /** Document and assembly that the band is of, or is being made of. */
  let of: { readonly doc: BuildDocument; readonly assembly: string } | null = null;
  let stop = (): void => {};

  function change(part: Partial<BandState>): void {
    state = { ...state, ...part };
    for (const listener of [...listeners]) listener(state);
  }

  function follow({ doc, assembly, engine, refused, gaps }: State): void {
    const { asked } = state;
    if (asked === null || (of !== null && of.doc === doc && of.assembly === assembly)) return;
    stop();
    of = null;
    if (state.band !== null || state.done !== 0) change({ band: null, done: 0, failed: null });
    // While a control is dragged, and while the build is refused, there is nothing to follow.
    if (refused.length > 0 || !gaps.every((g) => g.certified || g.budgetSpent)) return;
    of = { doc, assembly };
    const pair = engine.pairs.find((p) => p.id === asked.pairId);
    const groups = pair !== undefined && hasBand(pair, asked.of, asked.from) ? bandGroups(engine, asked) : [];
    if (pair === undefined || groups.length === 0) {
      change({ band: null, done: 1 });
      return;
    }
    const pieces = bandPieces(groups);
    const parts: Polygon[][][] = groups.map(() => []);
    let told = 0;
    const body = asked.of === 'a' ? pair.a : pair.b;
    const partner = asked.of === 'a' ? pair.b : pair.a;
    const ready = (polygons: readonly Polygon[]): void => {
      const from = asked.from === 'block' ? null : partner.name;
      const limitMm = asked.withLimit ? pair.limitMm : 0;
      change({ band: { asked, name: body.name, from, polygons, limitMm }, done: 1 });
    };
    const failed = (why: string): void => change({ failed: why, done: 1 });
    stop = pool.run('band', 'band', { doc, assembly, asked }, pieces, {
      piece: (index, polygons) => {
        parts[pieces[index]!.group]!.push(polygons);
        told += 1;
        change({ done: told / (pieces.length + 1) });
      },
      done: () => {
        const tasks = groups.map(({ growMm }, k) => ({ growMm, parts: parts[k]! }));
        stop = pool.run('band', 'band joined', null, [tasks], {
          piece: (_, polygons) => ready(polygons),
          done: () => {},
          failed,
        });
      },
      failed,
    });
  }

  store.watch(follow);
  return {
    get state() {
      return state;
    },
    ask: (asked) => {
      stop();
      of = null;
      change({ ...NONE, asked, done: asked === null ? 1 : 0 });
      follow(store.state);
    },
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

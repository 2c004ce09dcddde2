/**
 * The map of the build on show: which two dimensions, over which values, and the map as far as it has come. A watcher of the store; it
 * works only while it is looked at, and begins once the build stands still and is certified.
 *
 * A map stays true while nothing but its own two dimensions is changed (and the compression height that follows them), as
 * when one goes to a place of it; any other change makes it one of the earlier build until the new one has come.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { State, Store } from '../state.ts';
import type { MapDim } from './axis.ts';
import { findDim, literalAt, mapDims, rangeAxis, usualAxis } from './axis.ts';
import type { MapGrowing } from './run.ts';
import { runMap } from './run.ts';
import type { MapAxis, MapSpec } from './spec.ts';
import { changesTo, withValues } from './spec.ts';

export interface MapSide {
  /** Id of the dimension. */
  readonly id: string;
  /** As typed; empty: a tenth to either side of the value it had when the side was chosen. */
  readonly from: string;
  readonly to: string;
}

export interface MapChoice {
  readonly a: MapSide;
  readonly b: MapSide;
  /** Along each side. */
  readonly cells: number;
  readonly deckHeld: boolean;
}

export interface FitMap {
  readonly choice: MapChoice;
  readonly dims: readonly MapDim[];
  readonly map: MapGrowing | null;
  /** The map on show is one of the build as it was before the last change. */
  readonly earlier: boolean;
  readonly running: boolean;
  /** Why there is no map, a sentence; null where there is one, or is to be. */
  readonly problem: string | null;
}

export interface FitMapWatcher {
  readonly state: FitMap;
  /** Only while it is looked at does it work. */
  readonly look: (at: boolean) => void;
  readonly choose: (choice: MapChoice) => void;
  /** Sets the build to the values of a cell, as one step. */
  readonly go: (i: number, j: number) => void;
  readonly watch: (listener: (state: FitMap) => void) => () => void;
}

export const USUAL_CHOICE: MapChoice = {
  a: { id: 'crank.stroke', from: '', to: '' },
  b: { id: 'rod.length', from: '', to: '' },
  cells: 32,
  deckHeld: true,
};

export function watchFitMap(store: Store, pool: Pool<Work>): FitMapWatcher {
  const listeners = new Set<(state: FitMap) => void>();
  let state: FitMap = {
    choice: USUAL_CHOICE,
    dims: mapDims(store.state.doc, store.state.assembly),
    map: null,
    earlier: false,
    running: false,
    problem: null,
  };
  let looking = false;
  /** What the map on show, or the one under way, is of. */
  let spec: MapSpec | null = null;
  let stop = (): void => {};

  function change(part: Partial<FitMap>): void {
    state = { ...state, ...part };
    for (const listener of [...listeners]) listener(state);
  }

  function begin(now: State): void {
    stop();
    stop = () => {};
    const { choice } = state;
    const dims = mapDims(now.doc, now.assembly);
    const made = specOf(now, choice, dims, spec);
    if (typeof made === 'string') {
      spec = null;
      change({ dims, map: null, earlier: false, running: false, problem: made });
      return;
    }
    spec = made;
    change({ dims, running: true, problem: null, earlier: state.map !== null });
    stop = runMap(pool, made, now.gaps, {
      grown: (map) => change({ map, earlier: false, running: !map.finished }),
      failed: (why) =>
        change({ running: false, problem: `The map can’t be worked out, by a fault of the program: ${why}` }),
    });
  }

  /** Begins, or leaves the map as it is, as the build on show asks. */
  function follow(now: State): void {
    if (!looking) return;
    if (spec !== null && holds(spec, now)) {
      if (state.earlier && !state.running) begin(now);
      return;
    }
    if (state.map !== null && !state.earlier) {
      stop();
      stop = () => {};
      change({ earlier: true, running: false });
    }
    if (now.refused.length > 0) {
      if (state.map === null) change({ problem: 'The build as typed is refused; put that right first.' });
      return;
    }
    if (now.gaps.length > 0 && now.gaps.every((gap) => gap.certified || gap.budgetSpent)) begin(now);
  }

  store.watch((now, changed) => {
    if (changed.has('document') || changed.has('gaps')) follow(now);
  });

  return {
    get state() {
      return state;
    },
    look: (at) => {
      looking = at;
      if (at) follow(store.state);
      else if (state.running) {
        stop();
        stop = () => {};
        spec = null;
        change({ running: false, earlier: state.map !== null });
      }
    },
    choose: (choice) => {
      change({ choice, map: null, earlier: false });
      spec = null;
      follow(store.state);
    },
    go: (i, j) => {
      const { map, earlier } = state;
      const cell = map?.cells[j * map.spec.a.values.length + i];
      if (map === null || earlier || cell == null || cell.refused !== null) return;
      store.send({ do: 'set dimensions', changes: changesTo(map.spec, i, j) });
    },
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Whether a map of `spec` is one of the build on show: they differ in the two dimensions alone. */
function holds(spec: MapSpec, now: State): boolean {
  if (now.assembly !== spec.assembly) return false;
  if (now.doc === spec.doc) return true;
  const there = withValues(spec, literalAt(now.doc, spec.a.path), literalAt(now.doc, spec.b.path));
  return sameBuild(there, now.doc);
}

function sameBuild(a: BuildDocument, b: BuildDocument): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** `before`: its values are kept where the build still lies within them. */
function specOf(now: State, choice: MapChoice, dims: readonly MapDim[], before: MapSpec | null): MapSpec | string {
  const { doc, assembly } = now;
  const sides: MapAxis[] = [];
  for (const [k, side] of [choice.a, choice.b].entries()) {
    const dim = findDim(dims, side.id);
    if (dim === null) return 'This build has no such dimension; choose another one.';
    const kept = before === null ? null : [before.a, before.b][k]!;
    let axis: MapAxis | string = usualAxis(doc, dim.path, choice.cells);
    if (side.from !== '' || side.to !== '') {
      const usual = axis.values;
      axis = rangeAxis(doc, dim.path, side.from || usual[0]!, side.to || usual.at(-1)!, choice.cells);
      if (typeof axis === 'string') return `${dim.name}: ${axis}`;
    } else if (
      kept !== null &&
      kept.path.join() === dim.path.join() &&
      (kept.values as readonly string[]).includes(literalAt(doc, dim.path))
    )
      axis = kept;
    sides.push(axis);
  }
  if (choice.a.id === choice.b.id) return 'Choose two different dimensions.';
  return { doc, assembly, deckHeld: choice.deckHeld, a: sides[0]!, b: sides[1]! };
}

/**
 * The store: holds the state, carries out commands, tells who watches. Each command makes a new state from the old one; all that
 * is shown is derived here, once.
 *
 * While a control is dragged (`last: false`) gaps are followed, not certified, in the same call, so that the picture of
 * the next frame has them. On release the certified ones are asked for; until they come the followed ones stand, marked.
 */
import { layOut } from '../assembly/layOut.ts';
import type { BuildDocument } from '../build/document.ts';
import { kindOf } from '../build/literal.ts';
import type { Problem } from '../build/problem.ts';
import { deepFreeze } from '../build/text.ts';
import { allowanceMm, certifiedGaps, deckGapsOf, newGaps } from './certified.ts';
import { dragProfiles, firstState, nowOf, problemsOf } from './derived.ts';
import {
  isPositive,
  movesTheTop,
  placeOf,
  sameDocument,
  withDeckClearanceHeld,
  withLiteral,
  without,
  withProvenance,
  withValue,
} from './edit.ts';
import { figuresOf } from './figures.ts';
import { createHistory } from './history.ts';
import { placed } from './jobs/place.ts';
import { onlyLogDiffers, withLogChange } from './mockUp/editLog.ts';
import { inOrder } from './order.ts';
import { withOutline, withoutOutline } from './outlineTarget.ts';
import { previewGaps } from './preview.ts';
import type { Gap } from './results.ts';
import type { Solver } from './solver.ts';
import type { Changed, Command, DimPath, Kept, KeptStore, State } from './state.ts';

export interface StoreOptions {
  readonly solver: Solver;
  /** What the document was left with. */
  readonly kept?: Kept;
}

export function createStore(doc: BuildDocument, options: StoreOptions): KeptStore {
  const watchers = new Set<(state: State, changed: ReadonlySet<Changed>) => void>();
  const history = createHistory();
  let task = 0;
  /** The last document that could be built. */
  let built = doc;
  let state = begun(doc, options.kept);

  function tell(changed: readonly Changed[]): void {
    const set = new Set(changed);
    for (const watcher of [...watchers]) watcher(state, set);
  }

  function change(part: Partial<State>, changed: readonly Changed[]): void {
    state = { ...state, ...part, canUndo: history.canUndo, canRedo: history.canRedo };
    tell(changed);
  }

  /** Asks for certified gaps and profiles of the present document; `gaps` given: for profiles alone. */
  function certify(gaps?: readonly Gap[]): void {
    task += 1;
    const mine = task;
    const hints = new Map(state.gaps.map((g) => [g.id, g.atCrankRad]));
    const { doc: at, assembly, cylinder, picked } = state;
    options.solver.start(
      { doc: at, assembly, cylinder, picked, hints, ...(gaps === undefined ? {} : { gaps }) },
      (answer) => {
        if (mine !== task) return;
        const part: Partial<State> = {
          ...(answer.gaps === undefined ? {} : { gaps: answer.gaps }),
          ...(answer.profiles === undefined ? {} : { profiles: answer.profiles }),
          ...(answer.cures === undefined ? {} : { cures: answer.cures }),
        };
        if (answer.gaps !== undefined) change({ ...part, now: nowOf({ ...state, ...part }) }, ['gaps']);
        else change(part, answer.cures === undefined ? ['gaps'] : ['cures']);
      },
    );
  }

  /** Another document: laid out, gaps followed from the ones before; certified unless a gesture goes on. */
  function take(next: BuildDocument, last: boolean, thorough = last): void {
    const shown = next.assemblies.some((a) => a.name === state.assembly) ? state.assembly : next.proposed;
    const refused = problemsOf(next, shown, thorough);
    if (refused.length > 0) {
      task += 1;
      change({ doc: next, assembly: shown, refused }, ['document']);
      return;
    }
    if (last && next !== state.doc && state.refused.length === 0 && onlyLogDiffers(next, state.doc)) {
      built = next;
      change({ doc: next }, ['document']);
      return;
    }
    built = next;
    const engine = layOut(next, shown);
    const before = new Map(state.gaps.map((g) => [g.id, g]));
    const known = shown === state.assembly && engine.pairs.some((p) => before.has(p.id));
    const followed = (): Gap[] => [...previewGaps(engine, before, allowanceMm(next)), ...newGaps(next, engine, before)];
    const gaps = known ? inOrder([...followed(), ...deckGapsOf(next, engine)]) : certifiedGaps(next, engine, new Map());
    const cylinder = engine.cylinders.some((c) => c.number === state.cylinder) ? state.cylinder : 1;
    const crankAngleRad = state.crankAngleRad % engine.cycleRad;
    const part: Partial<State> = {
      doc: next,
      assembly: shown,
      engine,
      refused,
      gaps,
      cures: null,
      cylinder,
      crankAngleRad,
      figures: figuresOf(next, engine, cylinder),
      profiles: last ? state.profiles : dragProfiles(engine, gaps, cylinder, state.profiles),
    };
    change({ ...part, now: nowOf({ ...state, ...part }, !last) }, ['document', 'engine', 'gaps', 'angle', 'cures']);
    if (last) certify(known ? undefined : gaps);
  }

  function setDimension(path: DimPath, text: string, last: boolean): void {
    const from = history.begin(state.doc);
    let next = withLiteral(state.doc, path, text);
    if (kindOf(text) === null) {
      const problem: Problem = {
        place: placeOf(path),
        value: text,
        rule: 'literal',
        allowed: 'Allowed: a number with its unit, such as 2 5/8 in, .060 in, 60 thou, 87.9 mm, 66 deg.',
      };
      change({ refused: [problem] }, ['document']);
      if (last) history.end();
      return;
    }
    if (state.held === 'deck clearance' && movesTheTop(path)) next = withDeckClearanceHeld(from, next, path);
    if (last) {
      history.end();
      if (!sameDocument(from, next)) history.remember(from);
    }
    // A value at or below zero may be one that the field itself refuses: then the whole of the file's rules is asked.
    take(deepFreeze(next), last, last || !isPositive(text));
  }

  function commit(next: BuildDocument): void {
    if (next === state.doc) return;
    // A gesture that never said it was over ends here, as a part of this step.
    history.remember(history.gestureFrom ?? state.doc);
    history.end();
    take(deepFreeze(next), true);
  }

  function turnTo(crankAngleRad: number): void {
    if (!Number.isFinite(crankAngleRad)) return;
    const cycle = state.engine.cycleRad;
    const wrapped = ((crankAngleRad % cycle) + cycle) % cycle;
    change({ crankAngleRad: wrapped, now: nowOf({ ...state, crankAngleRad: wrapped }) }, ['angle']);
  }

  function showCylinder(number: number): void {
    if (!state.engine.cylinders.some((c) => c.number === number) || number === state.cylinder) return;
    const part: Partial<State> = { cylinder: number, figures: figuresOf(state.doc, state.engine, number) };
    change({ ...part, now: nowOf({ ...state, ...part }) }, ['view', 'angle']);
    certify(state.gaps.every((g) => g.certified) ? state.gaps : undefined);
  }

  function stepTo(place: 'tdc' | 'bdc' | 'tightest'): void {
    const c = state.engine.cylinders.find((each) => each.number === state.cylinder)!;
    if (place !== 'tightest') {
      turnTo(nextOf(place === 'tdc' ? c.tdcRad : c.bdcRad, state.crankAngleRad));
      return;
    }
    const worst = state.gaps.find((g) => g.id === state.picked) ?? state.gaps[0];
    if (worst === undefined) return;
    showCylinder(worst.cylinder);
    turnTo(worst.atCrankRad);
  }

  function begun(first: BuildDocument, kept?: Kept): State {
    history.reset(kept?.steps);
    built = first;
    const fresh = { ...firstState(first), canUndo: history.canUndo, canRedo: history.canRedo };
    return kept?.place === undefined ? fresh : placed(fresh, kept.place);
  }

  /** Asks for what the first state lacks; a document that was left refused is refused again. */
  function goOn(kept?: Kept): void {
    if (kept?.refused !== undefined) take(deepFreeze(kept.refused), true);
    else certify(state.gaps);
  }

  function send(command: Command): void {
    switch (command.do) {
      case 'set dimension':
        setDimension(command.path, command.text, command.last);
        break;
      case 'set provenance':
        commit(withProvenance(state.doc, command.path, command.from));
        break;
      case 'clear dimension':
        commit(without(state.doc, command.path));
        break;
      case 'set outline':
        commit(withOutline(state.doc, state.assembly, command.target, command.entry));
        break;
      case 'clear outline':
        commit(withoutOutline(state.doc, state.assembly, command.target));
        break;
      case 'turn to':
        turnTo(command.crankAngleRad);
        break;
      case 'step to':
        if (state.playing) change({ playing: false }, ['playing']);
        stepTo(command.place);
        break;
      case 'play':
      case 'pause':
        if (state.playing !== (command.do === 'play')) change({ playing: command.do === 'play' }, ['playing']);
        break;
      case 'play at':
        if (Number.isFinite(command.rpm) && command.rpm > 0) change({ playRpm: command.rpm }, ['playing']);
        break;
      case 'undo':
      case 'redo': {
        const next = history.move(command.do, state.doc);
        if (next !== undefined) take(next, true);
        break;
      }
      case 'show assembly': {
        if (command.name === state.assembly || !state.doc.assemblies.some((a) => a.name === command.name)) break;
        state = { ...state, assembly: command.name, gaps: [], picked: null };
        take(state.doc, true);
        tell(['view']);
        break;
      }
      case 'show cylinder':
        showCylinder(command.number);
        break;
      case 'show units':
        change({ units: command.units }, ['units']);
        break;
      case 'hold':
        change({ held: command.held }, ['view']);
        break;
      case 'pick':
        if (command.id === state.picked) break;
        change({ picked: command.id, cures: null }, ['view', 'cures']);
        if (state.refused.length === 0 && state.gaps.every((g) => g.certified)) certify(state.gaps);
        break;
      case 'set dimensions':
      case 'apply cure': {
        const { changes } = command.do === 'apply cure' ? command.cure : command;
        commit(changes.reduce((next, { path, text }) => withLiteral(next, path, text), state.doc));
        break;
      }
      case 'put':
        commit(withValue(state.doc, command.path, command.value));
        break;
      case 'change log':
        commit(withLogChange(state.doc, command.change));
        break;
      case 'set document':
        commit(command.doc);
        break;
      case 'open':
        task += 1;
        state = begun(command.doc, command.kept);
        tell(['document', 'engine', 'gaps', 'angle', 'view', 'units', 'playing', 'cures']);
        goOn(command.kept);
        break;
    }
  }

  const store: KeptStore = {
    get state() {
      return state;
    },
    get steps() {
      return history.steps;
    },
    get built() {
      return built;
    },
    get gestureFrom() {
      return history.gestureFrom;
    },
    send,
    watch: (listener) => {
      watchers.add(listener);
      return () => watchers.delete(listener);
    },
  };
  goOn(options.kept);
  return store;
}

/** The angle, at or after the present one by less than a turn, that is `target` in its turn. */
function nextOf(targetRad: number, fromRad: number): number {
  const turn = 2 * Math.PI;
  const ahead = (((targetRad - fromRad) % turn) + turn) % turn;
  return fromRad + (ahead < 1e-9 ? turn : ahead);
}

/** The running state and the commands that change it. Control → command → state → derived → drawn, one way round. */
import type { Engine } from '../assembly/engine.ts';
import type { BuildDocument, Provenance } from '../build/document.ts';
import type { Problem } from '../build/problem.ts';
import type { Cure } from './cures.ts';
import type { Steps } from './history.ts';
import type { Place } from './jobs/place.ts';
import type { LogChange } from './mockUp/editLog.ts';
import type { OutlineEntry, OutlineTarget } from './outlineTarget.ts';
import type { Figures, Gap, GapNow, MotionNow, Profile } from './results.ts';
import type { Cures } from './solver.ts';

/**
 * Which quantity stays while stroke, rod length or deck height moves: the piston (deck clearance shows the result), or the
 * deck clearance (compression height follows). Typing a compression height always sets it.
 */
export type Held = 'piston' | 'deck clearance';

export type Units = 'in' | 'mm' | 'both';

/** Path of a dimension inside the document, as in `['assemblies', 2, 'crank', 'stroke']`. */
export type DimPath = readonly (string | number)[];

export interface State {
  readonly doc: BuildDocument;
  /** Name of the assembly on show. */
  readonly assembly: string;
  /** Laid out from the last document that can be built. */
  readonly engine: Engine;
  /** Why the document as typed can't be built; the picture then still shows the last one that could. */
  readonly refused: readonly Problem[];
  readonly figures: Figures;
  /** Every pair, worst margin first; `certified` is false while a control is being dragged. */
  readonly gaps: readonly Gap[];
  readonly profiles: ReadonlyMap<string, Profile>;
  /** Number of the cylinder in view. */
  readonly cylinder: number;
  /** 0 to engine.cycleRad. */
  readonly crankAngleRad: number;
  readonly now: { readonly gaps: readonly GapNow[]; readonly motion: MotionNow };
  readonly playing: boolean;
  /** Crank revolutions a minute of the picture while it plays. */
  readonly playRpm: number;
  readonly units: Units;
  readonly held: Held;
  /** The gap picked out by the user, by id; null = none. */
  readonly picked: string | null;
  /** What would help the picked gap, or the worst one; null while it is being found. */
  readonly cures: Cures | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

export type Command =
  | {
      readonly do: 'set dimension';
      readonly path: DimPath;
      readonly text: string /** false while dragging */;
      readonly last: boolean;
    }
  | { readonly do: 'set provenance'; readonly path: DimPath; readonly from: Provenance }
  /** Takes out a dimension that may be absent: a limit (back to its default), the allowance. */
  | { readonly do: 'clear dimension'; readonly path: DimPath }
  /** Sets several dimensions as one step. */
  | { readonly do: 'set dimensions'; readonly changes: readonly { readonly path: DimPath; readonly text: string }[] }
  /** Sets what is no dimension: a number, a choice, a list; undefined takes it out. */
  | { readonly do: 'put'; readonly path: DimPath; readonly value: unknown }
  /** Sets all dimensions of a cure, as one step. */
  | { readonly do: 'apply cure'; readonly cure: Cure }
  /** Puts a measured outline in the place of one drawn from dimensions, in the assembly on show, as one step; and takes it out again. */
  | { readonly do: 'set outline'; readonly target: OutlineTarget; readonly entry: OutlineEntry }
  | { readonly do: 'clear outline'; readonly target: OutlineTarget }
  /** Writes in the mock-up log, or sets the value that explains one of its entries, as one step. */
  | { readonly do: 'change log'; readonly change: LogChange }
  /** Sets several dimensions, as one step. */
  | { readonly do: 'set dimensions'; readonly changes: readonly { readonly path: DimPath; readonly text: string }[] }
  | { readonly do: 'turn to'; readonly crankAngleRad: number }
  | { readonly do: 'step to'; readonly place: 'tdc' | 'bdc' | 'tightest' }
  | { readonly do: 'play' | 'pause' | 'undo' | 'redo' }
  | { readonly do: 'play at'; readonly rpm: number }
  | { readonly do: 'show assembly'; readonly name: string }
  | { readonly do: 'show cylinder'; readonly number: number }
  | { readonly do: 'show units'; readonly units: Units }
  | { readonly do: 'hold'; readonly held: Held }
  | { readonly do: 'pick'; readonly id: string | null }
  /** Another document in the place of the present one, as one step. */
  | { readonly do: 'set document'; readonly doc: BuildDocument }
  /** Another build; nothing of the one before can be undone. `doc` can be built. */
  | { readonly do: 'open'; readonly doc: BuildDocument; readonly kept?: Kept };

/** What a job was left with. */
export interface Kept {
  readonly steps: Steps;
  readonly place?: Place;
  /** The document as it was left, where that one can't be built: `doc` is then the last one before it that could. */
  readonly refused?: BuildDocument;
}

/** What changed since the last notice: views redraw only what depends on it. */
export type Changed = 'document' | 'engine' | 'gaps' | 'angle' | 'view' | 'units' | 'playing' | 'cures';

export interface Store {
  readonly state: State;
  readonly send: (command: Command) => void;
  /** Called after every change, once, with what changed; returns the way to stop. */
  readonly watch: (listener: (state: State, changed: ReadonlySet<Changed>) => void) => () => void;
}

/** The store with what has to be kept to go on another day. */
export interface KeptStore extends Store {
  /** The last document that could be built: the one on show, unless that is refused. */
  readonly built: BuildDocument;
  readonly steps: Steps;
  /** The document before the gesture that is under way; null between gestures. */
  readonly gestureFrom: BuildDocument | null;
}

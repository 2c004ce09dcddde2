/** A step of the tour, and what the tour is made from. */
import type { Engine } from '../../assembly/engine.ts';
import type { BuildDocument } from '../../build/document.ts';
import type { Gap } from '../../model/results.ts';
import type { Cures } from '../../model/solver.ts';
import type { Units } from '../../model/state.ts';

/** What a step draws in the accent over the section. */
export type Lit = 'nothing' | 'grind' | 'pin circle' | 'rod' | 'piston' | 'top' | 'bottom' | 'gap';

export interface Step {
  readonly key: string;
  readonly title: string;
  readonly sentences: readonly string[];
  readonly lit: Lit;
  /** Which assembly is on show: the one that goes in, with the one taken out dashed over it or not. */
  readonly show: 'both' | 'after';
  /** Where the crank goes: once round, or to an angle after true TDC of the cylinder, or to a crank angle. */
  readonly turn:
    | { readonly kind: 'round' }
    | { readonly kind: 'after TDC'; readonly rad: number }
    | { readonly kind: 'to'; readonly crankAngleRad: number };
  /** The gap to be picked out. */
  readonly gapId?: string;
}

export interface TourOf {
  readonly doc: BuildDocument;
  /** The assembly taken out; null where there is none to compare. */
  readonly before: Engine | null;
  readonly after: Engine;
  readonly cylinder: number;
  /** Of the assembly that goes in, certified, worst first. */
  readonly gaps: readonly Gap[];
  readonly cures: Cures | null;
  readonly units: Units;
}

/** Where a job was left: what is on show of it, apart from its document. */

import type { Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import { certifiedGaps } from '../certified.ts';
import { nowOf } from '../derived.ts';
import { figuresOf } from '../figures.ts';
import type { Held, State, Units } from '../state.ts';

export interface Place {
  /** Name of the assembly on show. */
  readonly assembly: string;
  readonly cylinder: number;
  readonly crankAngleRad: number;
  readonly units: Units;
  readonly held: Held;
  /** Gap picked out, by id. */
  readonly picked: string | null;
}

export function placeOf(state: State): Place {
  const { assembly, cylinder, crankAngleRad, units, held, picked } = state;
  return { assembly, cylinder, crankAngleRad, units, held, picked };
}

/** `state`, fresh from a document, shown at a place. What the document doesn't have (any more) stays as the document has it. */
export function placed(state: State, place: Place): State {
  const other = place.assembly !== state.assembly && state.doc.assemblies.some((a) => a.name === place.assembly);
  const assembly = other ? place.assembly : state.assembly;
  const engine: Engine = other ? layOut(state.doc, assembly) : state.engine;
  const gaps = other ? certifiedGaps(state.doc, engine, new Map()) : state.gaps;
  const cylinder = engine.cylinders.some((c) => c.number === place.cylinder) ? place.cylinder : state.cylinder;
  const crankAngleRad = ((place.crankAngleRad % engine.cycleRad) + engine.cycleRad) % engine.cycleRad;
  const shown = {
    ...state,
    assembly,
    engine,
    gaps,
    cylinder,
    crankAngleRad,
    figures: figuresOf(state.doc, engine, cylinder),
    units: place.units,
    held: place.held,
    picked: gaps.some((g) => g.id === place.picked) ? place.picked : null,
  };
  return { ...shown, now: nowOf(shown) };
}

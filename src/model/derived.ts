/** What the state shows of a document: first state, what holds at an angle, what can't be built, profiles under a drag. */
import type { Engine } from '../assembly/engine.ts';
import { layOut } from '../assembly/layOut.ts';
import type { BuildDocument } from '../build/document.ts';
import { speedRpm } from '../build/literal.ts';
import type { Problem } from '../build/problem.ts';
import { checkBuild } from '../build/rules.ts';
import { deepFreeze, readContent } from '../build/text.ts';
import { allowanceMm, certifiedGaps } from './certified.ts';
import { aloneWith } from './edit.ts';
import { figuresOf } from './figures.ts';
import { gapNow, motionNow, pairsOfThrow } from './now.ts';
import type { Gap, GapNow, Profile } from './results.ts';
import { profilesOf } from './solver.ts';
import type { State } from './state.ts';

/** Gaps in view, closest first, that are followed at the present angle while a control is dragged, whatever their state. */
const CLOSEST_SPOKEN = 5;

/** While dragging, the profile of the worst pair in view alone is redrawn, at a coarse step: the ribbons then follow at the cost of a few hundred evaluations. */
const DRAG_PROFILES = 1;
const DRAG_STEP_RAD = Math.PI / 36;

export function firstState(doc: BuildDocument): State {
  const problems = checkBuild(doc);
  if (problems.length > 0)
    throw new RangeError(`createStore: the document has ${problems.length} problems; read it through parseBuild first`);
  const assembly = doc.proposed;
  const engine = layOut(doc, assembly);
  const gaps = certifiedGaps(doc, engine, new Map());
  // The worst pair's cylinder is what a builder wants to see first.
  const cylinder = gaps[0]?.cylinder ?? 1;
  const state: Omit<State, 'now'> = {
    doc: deepFreeze(doc),
    assembly,
    engine,
    refused: [],
    figures: figuresOf(doc, engine, cylinder),
    gaps,
    profiles: new Map(),
    cylinder,
    crankAngleRad: gaps[0]?.atCrankRad ?? 0,
    playing: false,
    playRpm: 12,
    units: doc.shownUnits,
    held: 'piston',
    picked: null,
    cures: null,
    canUndo: false,
    canRedo: false,
  };
  return { ...state, now: nowOf(state) };
}

/**
 * What holds at the present angle. `brief`, while a control is dragged: only the gaps that the picture speaks of then,
 * those that are not clear, the picked one and the few closest.
 */
export function nowOf(state: Omit<State, 'now'>, brief = false): State['now'] {
  const { engine, crankAngleRad, cylinder, doc } = state;
  const byId = new Map(state.gaps.map((g) => [g.id, g]));
  const allowance = allowanceMm(doc);
  const gaps: GapNow[] = [];
  const shown = pairsOfThrow(engine, cylinder);
  const ids = new Set(shown.map((p) => p.id));
  const spoken = new Set(
    state.gaps
      .filter((g) => ids.has(g.id))
      .filter((g, k) => k < CLOSEST_SPOKEN || g.state !== 'clears' || g.id === state.picked)
      .map((g) => g.id),
  );
  for (const pair of shown) {
    if (brief && !spoken.has(pair.id)) continue;
    const now = gapNow(engine, pair, byId.get(pair.id), crankAngleRad, allowance, pair.id === state.picked);
    if (now !== null) gaps.push(now);
  }
  return { gaps, motion: motionNow(engine, cylinder, crankAngleRad, speedRpm(doc.speed.value)) };
}

/**
 * What can't be built. While a gesture goes on only the assembly on show is judged, which the picture needs; on release
 * the whole build.
 */
export function problemsOf(doc: BuildDocument, shown: string, thorough: boolean): readonly Problem[] {
  if (thorough) {
    const read = readContent(doc);
    return read.ok ? [] : read.problems;
  }
  const index = doc.assemblies.findIndex((a) => a.name === shown);
  return checkBuild(aloneWith(doc, shown)).map((p) => ({
    ...p,
    place: p.place.replace('assemblies[0]', `assemblies[${index}]`),
  }));
}

/** Profiles while a control is dragged: the worst pair in view drawn anew, the others as they were. */
export function dragProfiles(
  engine: Engine,
  gaps: readonly Gap[],
  cylinder: number,
  before: ReadonlyMap<string, Profile>,
): ReadonlyMap<string, Profile> {
  const ids = new Set(pairsOfThrow(engine, cylinder).map((p) => p.id));
  const worst = new Set(
    gaps
      .filter((g) => ids.has(g.id))
      .slice(0, DRAG_PROFILES)
      .map((g) => g.id),
  );
  const some: Engine = { ...engine, pairs: engine.pairs.filter((p) => worst.has(p.id)) };
  return new Map([...before, ...profilesOf(some, gaps, cylinder, DRAG_STEP_RAD)]);
}

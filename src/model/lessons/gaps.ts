/** Gaps that a lesson asks for: over the whole turn with their certificate, at one crank angle, and how one dimension changes them. */
import type { Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import type { GapKind } from '../../build/document.ts';
import { isAnglePlace, readAmount } from '../../build/lesson/index.ts';
import { angleDeg, Exact, kindOf, lengthMm, withLengthMm } from '../../build/literal.ts';
import { at } from '../edit.ts';
import { predictor } from '../mockUp/predict.ts';
import { solveGaps } from '../solve.ts';
import { AS_SHOWN, type FoundGap, gapInEngine } from '../tolerances/gapOfBuild.ts';
import { changedBuild } from './changed.ts';
import { NotThere, type Setting } from './setting.ts';
import { pathOf } from './setUp.ts';

const TURN = 2 * Math.PI;

/** Certified gaps of an engine by pair: asked for again and again while one lesson is open. */
const found = new WeakMap<Engine, Map<string, FoundGap & { readonly periodRad: number }>>();

export function smallestGap(setting: Setting, id: string): FoundGap & { readonly periodRad: number } {
  const { doc, engine } = setting;
  const known = found.get(engine) ?? new Map<string, FoundGap & { readonly periodRad: number }>();
  found.set(engine, known);
  const before = known.get(id);
  if (before !== undefined) return before;
  const gap = gapInEngine(doc, engine, id, undefined, AS_SHOWN);
  if (gap === null) throw new NotThere(`no pair is called ${id}`);
  const made = { ...gap, periodRad: engine.pairs.find((p) => p.id === id)?.periodRad ?? TURN };
  known.set(id, made);
  return made;
}

/** Where a pair comes nearest: how far the nearest point of its second body stands to the side of the bore's line. */
export function nearestBesideMm({ engine, cylinder }: Setting, id: string): number {
  const [gap] = solveGaps(engine, { assumedAllowanceMm: null, wanted: (pair) => pair.id === id });
  if (gap === undefined) throw new NotThere(`no pair is called ${id}`);
  const { bankAngleRad: b, boreOffsetMm } = cylinder;
  const mirror = engine.mirrored ? -1 : 1;
  const [, second] = gap.pointsMm;
  return Math.abs(mirror * second[0] * Math.cos(b) - second[1] * Math.sin(b) - boreOffsetMm);
}

/** The smallest gap of all pairs of a kind that belong to the cylinder. */
export function smallestOfKind(setting: Setting, kind: GapKind): number {
  const own = setting.engine.pairs.filter((p) => p.kind === kind && p.cylinder === setting.cylinder.number);
  if (own.length === 0) throw new NotThere(`cylinder ${setting.cylinder.number} has no pair of ${kind}`);
  return Math.min(...own.map((p) => smallestGap(setting, p.id).gapMm));
}

/** The two parts with the crank held still. */
export function gapAtDeg({ doc, assembly, engine, cylinder }: Setting, id: string, atDeg: number): number {
  const pair = engine.pairs.find((p) => p.id === id);
  if (pair === undefined) throw new NotThere(`no pair is called ${id}`);
  const told = predictor(doc, assembly.name, new Map()).of({
    assembly: assembly.name,
    between: [pair.a.name, pair.b.name],
    at: { cylinder: cylinder.number, afterTdc: `${new Exact(atDeg.toFixed(9)).toFixed()} deg` },
    measured: '0 mm',
    with: 'the model',
    date: '2026-01-01',
  });
  if (told === null) throw new NotThere(`${id} does not come within reach`);
  return told.gapMm;
}

/**
 * What becomes of a gap when a dimension of the assembly, or of the block, grows by `by`; with `held` compression height follows so that
 * deck clearance stays. Both gaps are found over the whole turn: another place may take over.
 */
export function gapChangeMm(setting: Setting, id: string, place: string, by: string, held: boolean): number {
  const { doc, assembly, index } = setting;
  const path = pathOf(place, index);
  const dim = at(doc, path);
  const before = typeof dim === 'object' && dim !== null && 'value' in dim ? String(dim.value) : '';
  const step = readAmount(by, isAnglePlace(place) ? 'angle' : 'length');
  if (kindOf(before) === null || !step.ok) throw new NotThere(`the build states no dimension at ${place}`);
  const after = isAnglePlace(place)
    ? `${new Exact(angleDeg(before)).plus(step.value).toFixed()} deg`
    : withLengthMm(before, new Exact(lengthMm(before)).plus(step.value));
  const changed = changedBuild(doc, path, after, held);
  if (changed === null) throw new NotThere(`the build is refused with ${place} changed by ${by}`);
  const next: Setting = { ...setting, doc: changed, engine: layOut(changed, assembly.name) };
  return smallestGap(next, id).sectionMm - smallestGap(setting, id).sectionMm;
}

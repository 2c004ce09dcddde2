/**
 * The worst margin of one design after another, each proven.
 *
 * WHAT A FIGURE PROMISES. Where no pair is in contact: the margin is that of a gap which is really there at some crank angle, and no
 * pair of the design has a margin more than 0.001 mm below it (slices of round parts keep a figure on the safe side by what
 * `slicingMm` says, as everywhere). Where a pair is in contact: that it is, and that it is at least so deep; the depth is
 * followed downhill from where the outlines were found to overlap, not proven to be the deepest.
 *
 * HOW. For each pair the last proven lower bound is kept with the design it was proven for. By how far its bodies can
 * have moved since (assembly/shift.ts), the bound falls; while that is still above the least margin found nothing
 * need be looked at. The others are certified with that margin as the value of interest, a little slack on top so that
 * the new bound lasts for the designs that follow. The pair that was least before is looked at first.
 */
import { alongTheShaft } from '../../assembly/along.ts';
import type { Design } from '../../assembly/design.ts';
import { mm } from '../../assembly/dims.ts';
import type { Pair } from '../../assembly/engine.ts';
import { pairAgain } from '../../assembly/pairs.ts';
import type { BuildDocument } from '../../build/document.ts';
import { problemSentence } from '../../build/problem.ts';
import { checkBuild } from '../../build/rules.ts';
import { readContent } from '../../build/text.ts';
import type { Again, Leaf } from '../../core/clearance/again.ts';
import { certifyAgain, leavesOf } from '../../core/clearance/again.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../core/clearance/certify.ts';
import { solveHead } from '../headPair.ts';
import type { GapState } from '../results.ts';
import { AT_LIMIT_MM, PAIR_BUDGET, pairCells, touches } from '../solve.ts';
import { depthNear } from './depth.ts';
import type { Entry, Fallen, Ground, Laid } from './ground.ts';
import { entriesOf, shiftsBetween } from './ground.ts';
import type { MapCell } from './spec.ts';

/** A bound is sought so much above what is needed: then it holds for some designs more. */
const SLACK_MM = 4;

/** The same for a valve and its crown, whose bound costs the more the higher it is sought. */
const VALVE_SLACK_MM = 0.5;

/** Margins closer than this are one and the same: the pair that comes first in the engine is told. */
const TIE_MM = 2e-4;

/** Stands for a margin of which nothing is known, mm. */
const LOWEST_MM = -1e6;

/** Where another pair is deep in contact, only a contact is of interest: gaps below this, mm. */
const CONTACT_MM = 1e-3;

/** What is known of a pair. */
export interface Proven {
  readonly leaves: readonly Leaf<Laid>[];
  /** The least bound of its leaves by the design they were proven for. */
  readonly lowerMm: ReadonlyMap<Laid, number>;
  /** Where it was least, or deepest. */
  readonly atCrankRad: number;
}

export interface Known {
  readonly proven: Map<string, Proven>;
  /** The pair that was least in the design before. */
  last: string | null;
}

/** Why a document can't be built; null when it can. `thorough`: values that a field's own rule may refuse. */
export function refusalOf(doc: BuildDocument, assembly: string, thorough: boolean): string | null {
  if (thorough) {
    const read = readContent(doc);
    return read.ok ? null : problemSentence(read.problems[0]!);
  }
  const shown = doc.assemblies.find((a) => a.name === assembly)!;
  const [first] = checkBuild({ ...doc, assemblies: [shown], replaced: assembly, proposed: assembly });
  if (first === undefined) return null;
  const index = doc.assemblies.indexOf(shown);
  return problemSentence({ ...first, place: first.place.replace('assemblies[0]', `assemblies[${index}]`) });
}

interface Found {
  readonly pair: Pair;
  readonly again: Again<Laid>;
  /** With the depth where they are in contact. */
  readonly gapMm: number;
  readonly parts: readonly [string, string];
}

/** The worst margin of a design that can be built; `known` is made better by what is proven on the way. */
export function judge(ground: Ground, laid: Laid, known: Known): Omit<MapCell, 'i' | 'j' | 'refused'> {
  const { design } = laid;
  const same = alongTheShaft(ground.base.design, design);
  const entries = same ? ground.entries : entriesOf(laid, ground.allowanceMm);
  const shifts = new Map<Laid, (entry: Entry) => Fallen>();
  const fallenFrom = (from: Laid, entry: Entry): Fallen => {
    let shift = shifts.get(from);
    if (shift === undefined) {
      shift = shiftsBetween(from, laid);
      shifts.set(from, shift);
    }
    return shift(entry);
  };
  /** What is left of a bound, as well as it is known; one that reaches `enoughMm` may be better. */
  const boundOf = (entry: Entry, enoughMm: number): number => {
    const proven = same ? known.proven.get(entry.id) : undefined;
    if (proven === undefined) return Number.NEGATIVE_INFINITY;
    let least = Number.POSITIVE_INFINITY;
    for (const [at, lowerMm] of proven.lowerMm) least = Math.min(least, lowerMm - fallenFrom(at, entry).mostMm);
    if (proven.leaves.length === 0 || (least >= enoughMm && least > 0)) return least;
    // Layer by layer the bound is better.
    let best = Number.POSITIVE_INFINITY;
    for (const { at, lowerMm, a, b: other } of proven.leaves) {
      if (at === null) return Number.NEGATIVE_INFINITY;
      best = Math.min(best, lowerMm - fallenFrom(at, entry).ofLayers(a.source, other.source));
    }
    return Math.max(least, best);
  };

  const deckMm = Math.min(...design.cylinders.map((c) => c.deckClearanceMm)) - ground.deckLimitMm;
  let best = deckMm < -AT_LIMIT_MM ? deckMm : Number.POSITIVE_INFINITY;
  let told: Found | null = null;
  let contact = false;
  let certified = true;
  let evaluations = 0;

  const look = (entry: Entry): void => {
    const pair = pairAgain(entry.pair, design.cylinders, laid.body(entry.a), laid.body(entry.b));
    const before = same ? known.proven.get(entry.id) : undefined;
    const found = solve(pair, entry, before, Math.max(best + entry.neededMm, CONTACT_MM), laid, fallenFrom);
    known.proven.set(entry.id, found.proven);
    evaluations += found.evaluations;
    if (found.again.budgetSpent) certified = false;
    if (found.again.parts === null) return;
    if (touches(found.gapMm, found.again.lowerMm)) contact = true;
    const margin = found.gapMm - entry.neededMm;
    if (margin >= best - (told === null ? 0 : TIE_MM)) return;
    best = margin;
    told = found;
  };

  const first = entries.find((entry) => entry.id === known.last);
  if (first !== undefined) look(first);
  const rest = entries
    .flatMap((entry, k) => {
      if (entry === first) return [];
      const boundMm = boundOf(entry, best + entry.neededMm);
      return [{ entry, k, boundMm, marginMm: Math.max(LOWEST_MM, boundMm - entry.neededMm) }];
    })
    .sort((p, q) => Math.round((p.marginMm - q.marginMm) / TIE_MM) || p.k - q.k);
  for (const { entry, marginMm, boundMm } of rest) {
    // Proven to lie no lower, and apart.
    if (boundMm > 0 && marginMm >= best) continue;
    look(entry);
  }

  const worst = told as Found | null;
  if (worst !== null) known.last = worst.pair.id;
  const deckGapMm = deckMm + ground.deckLimitMm;
  const crownHits = deckGapMm + mm(design.doc.block.gasketThickness) <= 0;
  const state: GapState =
    contact || crownHits
      ? 'contact'
      : best < -AT_LIMIT_MM
        ? 'tight'
        : entries.some((entry) => entry.unproven)
          ? 'unproven'
          : 'clears';
  return {
    state,
    marginMm: best === Number.POSITIVE_INFINITY ? deckMm : best,
    fitMm: Math.min(best, deckMm),
    pair: worst === null ? deckOf(design, deckGapMm, ground.deckLimitMm) : gapOf(worst),
    certified,
    evaluations,
  };
}

function solve(
  pair: Pair,
  entry: Entry,
  before: Proven | undefined,
  belowMm: number,
  laid: Laid,
  fallenFrom: (from: Laid, entry: Entry) => Fallen,
): Found & { readonly proven: Proven; readonly evaluations: number } {
  if (pair.head !== undefined) return solveValve(pair, pair.head, before, belowMm, laid);
  const { a, b } = pair.relative ?? pair;
  // Of bodies that can't be compared the cells may be others.
  const comparable =
    before !== undefined &&
    before.leaves.length > 0 &&
    before.leaves.every((leaf) => leaf.at === null || fallenFrom(leaf.at, entry).mostMm < Number.POSITIVE_INFINITY);
  const again = certifyAgain(a, b, comparable ? before.leaves : leavesOf<Laid>(pairCells(pair)), {
    periodRad: pair.periodRad,
    at: laid,
    fallenMm: (from, la, lb) => fallenFrom(from, entry).ofLayers(la, lb),
    belowMm,
    slackMm: SLACK_MM,
    budget: PAIR_BUDGET,
  });
  const depth =
    again.touching.length === 0
      ? null
      : depthNear(pair, again.touching, [
          ...again.leaves.filter((leaf) => leaf.at === laid && leaf.lowerMm <= 0).map((leaf) => leaf.atCrankRad),
          ...(before === undefined ? [] : [before.atCrankRad]),
        ]);
  return {
    pair,
    again,
    gapMm: depth?.gapMm ?? again.gapMm,
    parts: depth?.parts ?? again.parts ?? ['', ''],
    proven: {
      leaves: again.leaves,
      lowerMm: leastByDesign(again.leaves),
      atCrankRad: depth?.atCrankRad ?? (again.parts === null ? before?.atCrankRad : undefined) ?? again.atCrankRad,
    },
    evaluations: again.evaluations + (depth?.evaluations ?? 0),
  };
}

/** A valve and its piston, judged in space: as one whole, it has no cells. */
function solveValve(
  pair: Pair,
  head: NonNullable<Pair['head']>,
  before: Proven | undefined,
  belowMm: number,
  laid: Laid,
): Found & { readonly proven: Proven; readonly evaluations: number } {
  const hint = before === undefined ? {} : { hintRad: before.atCrankRad };
  const found = solveHead(pair, head, {
    toleranceMm: CERTIFICATE_TOLERANCE_MM,
    budget: PAIR_BUDGET,
    cutoffMm: belowMm + VALVE_SLACK_MM,
    ...hint,
  });
  const parts = [found.cell.a.part, found.cell.b.part] as const;
  return {
    pair,
    again: {
      gapMm: found.gapMm,
      lowerMm: found.lowerBoundMm,
      atCrankRad: found.atCrankRad,
      slicingMm: found.slicingMm,
      parts: found.gapMm < belowMm ? parts : null,
      evaluations: found.evaluations,
      budgetSpent: found.budgetSpent,
      touching: [],
      leaves: [],
    },
    gapMm: found.gapMm,
    parts,
    proven: {
      leaves: [],
      lowerMm: new Map([[laid, found.lowerBoundMm]]),
      atCrankRad: found.atCrankRad,
    },
    evaluations: found.evaluations,
  };
}

export function leastByDesign(leaves: readonly Leaf<Laid>[]): Map<Laid, number> {
  const least = new Map<Laid, number>();
  for (const { at, lowerMm } of leaves) {
    if (at !== null) least.set(at, Math.min(least.get(at) ?? Number.POSITIVE_INFINITY, lowerMm));
  }
  return least;
}

function gapOf({ pair, again, gapMm, parts }: Found): NonNullable<MapCell['pair']> {
  return {
    id: pair.id,
    kind: pair.kind,
    between: [pair.a.name, pair.b.name],
    parts,
    gapMm,
    limitMm: pair.limitMm,
    slicingMm: again.slicingMm,
  };
}

function deckOf(design: Design, gapMm: number, limitMm: number): NonNullable<MapCell['pair']> {
  const c = design.cylinders.reduce((low, each) => (each.deckClearanceMm < low.deckClearanceMm ? each : low));
  const name = `piston ${c.number}`;
  return {
    id: `${name} · deck`,
    kind: 'deck',
    between: [name, 'deck'],
    parts: ['crown', 'deck'],
    gapMm,
    limitMm,
    slicingMm: 0,
  };
}

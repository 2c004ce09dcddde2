/**
 * One build examined: gaps as the program certifies them against an engine put together in space by hand (tests/oracle).
 * Says what it looked at, and every answer that can't be.
 */
import type { Engine, Pair } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';
import type { Solid } from '../oracle/engine.ts';
import { solidsOf } from '../oracle/engine.ts';
import { moved, toOutline, within } from '../oracle/region.ts';
import { gapAtAngle, lowest } from '../oracle/solidGap.ts';
import type { RandomBuild } from './randomBuild.ts';

/** Certificates are made to this, mm. */
const CERTIFICATE_MM = 0.001;
/** Rounding of literals, poses and outlines on either side, mm. */
const ROUNDING_MM = 1e-6;
/** A lobe's outline of arcs lies at most this far outside its surface, mm (DEVELOPERS.md, "Bodies"). */
const LOBE_MM = 0.002;
/** What trying leaves: sections beside a partner, places along the shaft, mm. */
const TRYING_MM = 0.0005;
/** Nearest points of a gap that touches are found as those of a depth, to this, mm. */
const POINTS_MM = 1e-5;
/** Nearer than this is as good as touching, mm. */
const TOUCHING_MM = 1e-4;
/** Farther apart than this along the shaft two bodies need not be a pair, mm. */
const REACH_MM = 5;

export interface Fault {
  readonly pair: string;
  readonly what: string;
}

export interface Tally {
  builds: number;
  pairs: number;
  /** Pairs held against the smallest gap that trying found over the whole period. */
  swept: number;
  contacts: number;
  /** Within 0.01 mm of touching. */
  touching: number;
  depths: number;
  points: number;
  axial: number;
  /** In contact, and said to be without a proof of how deep, because the work allowed ran out. */
  unproven: number;
  faults: Fault[];
}

export function newTally(): Tally {
  return {
    builds: 0,
    pairs: 0,
    swept: 0,
    contacts: 0,
    touching: 0,
    depths: 0,
    points: 0,
    axial: 0,
    unproven: 0,
    faults: [],
  };
}

export interface Examining {
  /** How many pairs of a build are looked at, and how many of these swept by trying all round the period. */
  readonly looks: number;
  readonly sweeps: number;
  readonly random: () => number;
  /** Angles of a turn that trying begins with. */
  readonly angles: number;
  /** Only so many pairs solved, drawn from all kinds; all when left out. */
  readonly solved?: number;
  /** A pair to look at in any case. */
  readonly first?: string;
  /** Work allowed for a pair. */
  readonly budget?: number;
  /** Answers to judge instead of those of the program, for showing that a wrong one is found. */
  readonly gaps?: (engine: Engine) => readonly Gap[];
}

export function examineBuild(file: RandomBuild, how: Examining, tally: Tally): void {
  const doc = file as unknown as BuildDocument;
  const engine = layOut(doc, doc.proposed);
  const only = how.solved === undefined ? null : drawn(engine, how.solved, how.random).add(how.first ?? '');
  const gaps =
    how.gaps?.(engine) ??
    solveGaps(engine, {
      assumedAllowanceMm: null,
      ...(how.budget === undefined ? {} : { budget: how.budget }),
      ...(only === null ? {} : { wanted: (p) => only.has(p.id) }),
    });
  const solids = new Map(solidsOf(file).map((s) => [s.name, s]));
  const say = (pair: string, what: string): void => {
    tally.faults.push({ pair, what });
  };
  tally.builds += 1;
  for (const missing of missingPairs([...solids.values()], engine)) say(missing, 'is not among the pairs');
  // Those that nearly touch first, and few of those that are in no doubt.
  const order = gaps.map((g) => ({
    g,
    at: how.random() + (Math.abs(g.gapMm) < 0.1 ? -1 : Math.abs(g.gapMm) > 15 ? 0.7 : 0),
  }));
  order.sort((p, q) => p.at - q.at);
  for (const [place, { g }] of order.entries()) {
    const [a, b] = g.between.map((name) => solids.get(name)) as [Solid | undefined, Solid | undefined];
    checkNumbers(g, tally, say);
    if (a === undefined || b === undefined) {
      say(g.id, 'is between bodies that the engine has not');
      continue;
    }
    if (place >= how.looks) continue;
    tally.pairs += 1;
    if (g.gapMm <= 0) tally.contacts += 1;
    if (Math.abs(g.gapMm) < 0.01) tally.touching += 1;
    if (g.direction === 'axial') tally.axial += 1;
    checkThere(g, a, b, tally, say);
    if (place < how.sweeps) checkNowhereLess(g, a, b, how.angles, tally, say);
    if (g.gapMm > 0) checkPoints(g, a, b, engine, tally, say);
  }
}

/** Pairs drawn by lot, each kind in turn, those of counterweight and piston first. */
function drawn(engine: Engine, count: number, random: () => number): Set<string> {
  const kinds = [...new Set(engine.pairs.map((p) => p.kind))].sort();
  const lots = kinds.map((kind) =>
    engine.pairs
      .filter((p) => p.kind === kind)
      .map((p) => ({ id: p.id, lot: random() }))
      .sort((p, q) => p.lot - q.lot),
  );
  const ids: string[] = [];
  for (let k = 0; ids.length < count && lots.some((l) => l.length > k); k++) {
    for (const lot of lots) ids.push(...lot.slice(k, k + 1).map((p) => p.id));
  }
  return new Set(ids.slice(0, count));
}

type Say = (pair: string, what: string) => void;

function checkNumbers(g: Gap, tally: Tally, say: Say): void {
  if (![g.gapMm, g.slicingMm, g.atCrankRad, ...g.pointsMm.flat()].every(Number.isFinite)) {
    say(g.id, `is not a number: ${g.gapMm}, slicing ${g.slicingMm}, at ${g.atCrankRad}, ${g.pointsMm.flat()}`);
  }
  if (g.certified) {
    if (!(g.lowerBoundMm <= g.gapMm && g.gapMm - g.lowerBoundMm <= CERTIFICATE_MM + 1e-9)) {
      say(g.id, `has its bound ${g.lowerBoundMm} too far from its gap ${g.gapMm}`);
    }
    return;
  }
  // Only how deep a contact is may be too much work, and then it is said and nothing is promised.
  if (g.gapMm < TOUCHING_MM && g.budgetSpent && g.lowerBoundMm <= g.gapMm) tally.unproven += 1;
  else say(g.id, `is not certified: ${g.gapMm}, bound ${g.lowerBoundMm} after ${g.evaluations} evaluations`);
}

/** What a real gap may exceed the program's by, where both stand at one angle. */
function onTheSafeSide(g: Gap): number {
  return g.slicingMm + (g.id.includes('lobe') ? LOBE_MM : 0) + TRYING_MM;
}

/** A gap that says there is no contact: proven above zero, or more above it than an answer may be too high. */
function missed(g: Gap): boolean {
  return g.lowerBoundMm > 0 || g.gapMm > CERTIFICATE_MM;
}

/** Where the program says the gap is smallest, it is that small. */
function checkThere(g: Gap, a: Solid, b: Solid, tally: Tally, say: Say): void {
  const there = gapAtAngle(a, b, g.atCrankRad, {
    capMm: Math.max(0, g.gapMm) + g.slicingMm + 2,
    fine: true,
    depthStepMm: g.gapMm > 0 ? 0 : 0.5,
  });
  const beside = g.axialOverlapMm === 0;
  if (there.contact && missed(g)) say(g.id, `says ${g.gapMm}, and they meet there`);
  if (there.gapMm < g.lowerBoundMm - ROUNDING_MM)
    say(g.id, `is ${there.gapMm} there, below the bound ${g.lowerBoundMm}`);
  if (g.gapMm > 0 || beside) {
    if (there.gapMm > Math.max(0, g.gapMm) + onTheSafeSide(g)) say(g.id, `is ${there.gapMm} there, not ${g.gapMm}`);
    return;
  }
  // A lobe is drawn by arcs that contain it: by so much it may be said to touch before it does.
  if (!there.contact && there.gapMm > ROUNDING_MM + (g.id.includes('lobe') ? LOBE_MM : 0))
    say(g.id, `says ${g.gapMm}, and they are ${there.gapMm} apart there`);
  // In a round part the depth is that in all of the material along a stretch of the shaft, not less than in any section.
  if (a.round.length + b.round.length > 0 || !g.certified) return;
  tally.depths += 1;
  if (there.gapMm > g.gapMm + onTheSafeSide(g)) say(g.id, `is ${there.gapMm} there, not ${g.gapMm} deep`);
}

/** And nowhere smaller. */
function checkNowhereLess(g: Gap, a: Solid, b: Solid, angles: number, tally: Tally, say: Say): void {
  const turns = g.periodRad > 7 ? 2 : 1;
  const found = lowest(a, b, g.periodRad, angles * turns, Math.max(0, g.gapMm) + 0.5);
  tally.swept += 1;
  if (found.gapMm < g.lowerBoundMm - ROUNDING_MM) {
    say(g.id, `is ${found.gapMm} at ${found.crankRad}, below the bound ${g.lowerBoundMm}`);
  }
  if (found.contact && missed(g)) say(g.id, `says ${g.gapMm}, and they meet at ${found.crankRad}`);
}

/** Nearest points lie on the two bodies as they stand, and that far apart. */
function checkPoints(g: Gap, a: Solid, b: Solid, engine: Engine, tally: Tally, say: Say): void {
  const [p, q] = g.pointsMm;
  const apart = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  tally.points += 1;
  if (Math.abs(apart - g.gapMm) > POINTS_MM && g.direction === 'in-plane' && g.axialOverlapMm > 0) {
    say(g.id, `has its points ${apart} apart, and says ${g.gapMm}`);
  }
  [a, b].forEach((body, k) => {
    const [x, y, z] = g.pointsMm[k as 0 | 1];
    const stray = strayFrom(body, g, k as 0 | 1, engine.mirrored ? -x : x, y, z);
    const least = body.kind === 'lobe' ? LOBE_MM + ROUNDING_MM : 1e-5;
    if (!(stray < least)) say(g.id, `has a point ${stray} off ${body.name}`);
  });
}

/** How far a point is from the outline of a body's pieces over the range that decides. */
function strayFrom(body: Solid, g: Gap, k: 0 | 1, x: number, y: number, z: number): number {
  const at = body.place(g.atCrankRad);
  const { z0Mm, z1Mm } = g.deciding[k];
  let least = Number.POSITIVE_INFINITY;
  for (const piece of body.even) {
    if (z < piece.z0 - 1e-6 || z > piece.z1 + 1e-6) continue;
    const there = moved(piece.region, at.x, at.y, at.turn);
    // Axially apart and over one another in the section: any point that both cover.
    if (g.axialOverlapMm === 0 && within(there, x, y)) return 0;
    least = Math.min(least, toOutline(there, x, y));
  }
  for (const piece of body.round) {
    if (piece.z1 < z0Mm - 1e-6 || piece.z0 > z1Mm + 1e-6) continue;
    const over = piece.over(Math.max(z0Mm, piece.z0), Math.min(z1Mm, piece.z1));
    if (over === null) continue;
    const there = moved(over, at.x, at.y, at.turn);
    if (g.axialOverlapMm === 0 && within(there, x, y)) return 0;
    least = Math.min(least, toOutline(there, x, y));
  }
  return least;
}

/** Pairs of the model within axial reach that the program leaves out. */
function missingPairs(solids: readonly Solid[], engine: Engine): string[] {
  const there = new Set(engine.pairs.map((p: Pair) => p.id));
  const out: string[] = [];
  for (const a of solids) {
    for (const b of solids) {
      if (!isPair(a, b) || there.has(`${a.name} · ${b.name}`)) continue;
      const least = Math.min(
        ...[...a.even, ...a.round].flatMap((p) =>
          [...b.even, ...b.round].map((q) => Math.max(p.z0 - q.z1, q.z0 - p.z1)),
        ),
      );
      if (least <= REACH_MM - 1e-9) out.push(`${a.name} · ${b.name}`);
    }
  }
  return out;
}

function isPair(a: Solid, b: Solid): boolean {
  const block = b.kind === 'bore' || b.kind === 'case';
  const cam = b.kind === 'lobe' || b.kind === 'core';
  if (a.kind === 'counterweight') return b.kind === 'piston' || block || cam;
  if (a.kind === 'rod')
    return block || cam || (b.kind === 'piston' && (a.cylinder === b.cylinder || a.bank !== b.bank));
  return a.kind === 'piston' && b.kind === 'piston' && a.cylinder! < b.cylinder! && a.bank !== b.bank;
}

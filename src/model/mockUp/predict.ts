/**
 * What the model says a measurement of the mock-up log should read: the certified minimum of its pair over the turn or, where the
 * entry names a crank angle, the gap of the two bodies standing still there, certified in the same way with the same slicing of
 * round parts.
 */

import type { Cylinder, Engine, HeadPair, Pair } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import { DECK } from '../../build/bodyNames.ts';
import type { BuildDocument, GapKind, MockUpEntry } from '../../build/document.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../core/clearance/certify.ts';
import { certifyLayered, SLICING_MM } from '../../core/clearance/layered.ts';
import type { Motion } from '../../core/plane/pose.ts';
import { newPose, POSE_DTURN, POSE_DX, POSE_DY } from '../../core/plane/pose.ts';
import { headNow, solveHead } from '../headPair.ts';
import { pairCells } from '../solve.ts';
import { crankAngleOfEntry } from './place.ts';

export interface Predicted {
  readonly gapMm: number;
  /** The true gap may be larger by so much: what slicing round parts takes off, on the safe side. */
  readonly slicingMm: number;
  /** What the deciding outlines, where they were measured, may stand off the part: it is taken off the gap, so the true one may be larger by twice as much. */
  readonly deviationMm: number;
  /** False where the work allowed for the proof ran out. */
  readonly certified: boolean;
  /** Where the gap was taken, or where it is smallest. */
  readonly atCrankRad: number;
  readonly periodRad: number;
  readonly kind: GapKind;
  readonly cylinder: number;
  /** Assumed dimensions it rests on. */
  readonly assumed: readonly string[];
  /** Equal for two builds in which this gap can't differ. */
  readonly key: string;
}

export interface Predictor {
  readonly engine: Engine;
  /** Null where the two bodies do not come within axial reach of one another in this build. */
  readonly of: (entry: MockUpEntry, turnedRad?: number) => Predicted | null;
  /** The key of a prediction without working it out; null as above. */
  readonly keyOf: (entry: MockUpEntry) => string | null;
}

/** Evaluations one prediction may take: a hundred times what a usual pair needs. */
const BUDGET = 400_000;

/** Lays the assembly out once; it must have passed its rules. `hints`: minima found before, by pair id; they are kept up to date. */
export function predictor(doc: BuildDocument, assembly: string, hints: Map<string, number>): Predictor {
  const engine = layOut(doc, assembly);
  const pairs = new Map(engine.pairs.map((p) => [nameOf(p.a.name, p.b.name), p]));
  const pairOf = (entry: MockUpEntry): Pair | undefined => pairs.get(nameOf(...entry.between));
  return {
    engine,
    of: (entry, turnedRad = 0) => {
      const deck = deckCylinder(engine, entry);
      if (deck !== null) return deckPrediction(deck);
      const pair = pairOf(entry);
      return pair === undefined ? null : pairPrediction(engine, pair, entry, turnedRad, hints);
    },
    keyOf: (entry) => {
      const deck = deckCylinder(engine, entry);
      if (deck !== null) return deckKey(deck);
      const pair = pairOf(entry);
      return pair === undefined ? null : pairKey(engine, pair, entry);
    },
  };
}

/** One name for a pair whichever body is named first. */
function nameOf(a: string, b: string): string {
  return a < b ? `${a} · ${b}` : `${b} · ${a}`;
}

/** The cylinder whose deck clearance an entry speaks of; null when it speaks of a pair. */
function deckCylinder(engine: Engine, { between }: MockUpEntry): Cylinder | null {
  if (!between.includes(DECK)) return null;
  const piston = between.find((name) => name !== DECK);
  return engine.cylinders.find((c) => piston === `piston ${c.number}`) ?? null;
}

function deckKey(c: Cylinder): string {
  return `deck ${c.deckClearanceMm.toFixed(9)}`;
}

function deckPrediction(c: Cylinder): Predicted {
  return {
    gapMm: c.deckClearanceMm,
    slicingMm: 0,
    deviationMm: 0,
    certified: true,
    atCrankRad: c.tdcRad,
    periodRad: 2 * Math.PI,
    kind: 'deck',
    cylinder: c.number,
    assumed: [],
    key: deckKey(c),
  };
}

/** The pair's own key holds all that its gap depends on, counted from its cylinder's top; so the place in the turn is too. */
function pairKey(engine: Engine, pair: Pair, entry: MockUpEntry): string {
  const angle = crankAngleOfEntry(entry, engine, pair.periodRad);
  return `${pair.key} ${angle === null ? '' : (angle - pair.keyShiftRad).toFixed(9)}`;
}

function pairPrediction(
  engine: Engine,
  pair: Pair,
  entry: MockUpEntry,
  turnedRad: number,
  hints: Map<string, number>,
): Predicted {
  const { a, b } = pair.relative ?? pair;
  const angle = crankAngleOfEntry(entry, engine, pair.periodRad, turnedRad);
  const hintRad = angle ?? hints.get(pair.id);
  const motionOf = (m: Motion): Motion => (angle === null ? m : standing(m, angle));
  if (pair.head !== undefined) return headPrediction(pair, pair.head, angle, pairKey(engine, pair, entry));
  const found = certifyLayered(motionOf(a.motion), motionOf(b.motion), pairCells(pair), pair.periodRad, {
    toleranceMm: CERTIFICATE_TOLERANCE_MM,
    slicingMm: SLICING_MM,
    farShare: 0,
    budget: BUDGET,
    ...(hintRad === undefined ? {} : { hintRad }),
  });
  if (angle === null) hints.set(pair.id, found.atCrankRad);
  return {
    gapMm: found.gapMm,
    slicingMm: found.slicingMm,
    deviationMm: found.cell.deviationMm,
    certified: !found.budgetSpent,
    atCrankRad: angle ?? found.atCrankRad,
    periodRad: pair.periodRad,
    kind: pair.kind,
    cylinder: pair.cylinder,
    assumed: pair.assumed,
    key: pairKey(engine, pair, entry),
  };
}

/** A valve and its piston: at an angle their gap there, else the smallest. */
function headPrediction(pair: Pair, head: HeadPair, angle: number | null, key: string): Predicted {
  const least =
    angle === null ? solveHead(pair, head, { toleranceMm: CERTIFICATE_TOLERANCE_MM, budget: BUDGET }) : null;
  return {
    gapMm: least?.gapMm ?? headNow(pair, head, angle!).gapMm,
    slicingMm: head.crown.slicingMm,
    deviationMm: 0,
    certified: least === null || !least.budgetSpent,
    atCrankRad: angle ?? least!.atCrankRad,
    periodRad: pair.periodRad,
    kind: pair.kind,
    cylinder: pair.cylinder,
    assumed: pair.assumed,
    key,
  };
}

/** A body stopped at a crank angle: the certificate of two such bodies is that of their gap there. */
function standing(motion: Motion, crankAngleRad: number): Motion {
  const pose = newPose();
  motion.write(crankAngleRad, pose);
  pose[POSE_DX] = 0;
  pose[POSE_DY] = 0;
  pose[POSE_DTURN] = 0;
  return {
    write: (_, out) => out.set(pose),
    originSpeedMm: 0,
    originAccelMm: 0,
    turnSpeed: 0,
    turnAccel: 0,
  };
}

/**
 * From the static gap to the running one: the smallest gap found again with the parts where they stand as the engine runs, one
 * allowance after the other switched on. Each line is what its allowance adds to those before it.
 *
 * The gap is looked for anew over the whole turn rather than projected at the static closest place: an allowance may bring
 * another place, or another angle, nearer. What comes out is a difference of two searches of one kind, taken off the proven
 * static gap. It is an estimate, and nothing is proven about it: gas pressure, bending, oil films and the order in which
 * clearances are taken up are left out (movedBodies.ts).
 */
import { mm } from '../../assembly/dims.ts';
import type { Body, Cylinder, Engine, HeadPair, Pair } from '../../assembly/engine.ts';
import { pistonOf } from '../../build/bodyOf.ts';
import type { BuildDocument } from '../../build/document.ts';
import { cellGapMm, inPlaneCutoffMm, type LayeredBody } from '../../core/clearance/cells.ts';
import type { GapAt } from '../../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../../core/clearance/gapAt.ts';
import { type HeadGap, headGap, makeCrown, newDirections } from '../../core/clearance/headAndCrown.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../core/plane/pose.ts';
import { cellsAsked } from '../now.ts';
import { type Steps, toTheEnd } from '../pieces/kind.ts';
import type { Gap } from '../results.ts';
import { type Allowance, type Moved, type RunningEngine, runningEngine, STANDING, withOnly } from './allowances.ts';
import { type Lean, leans, movedBody, runningPinHeightMm, UPRIGHT } from './movedBodies.ts';

export interface RunningLine {
  readonly allowance: Allowance;
  /** What it adds to the gap; negative where it closes it. */
  readonly changeMm: number;
}

export interface RunningGap {
  readonly gapId: string;
  readonly staticMm: number;
  readonly lines: readonly RunningLine[];
  readonly runningMm: number;
  /** Where in the turn it is smallest, running. */
  readonly atCrankRad: number;
}

/** Gaps farther above their limit than this are in no doubt, running or not, mm: ten times what all allowances take. */
export const RUNNING_ASKED_MM = 3;

/** Is the running gap of a gap worth asking for. */
export function isNearLimit(gap: Pick<Gap, 'gapMm' | 'limitMm'>): boolean {
  return gap.gapMm < gap.limitMm + RUNNING_ASKED_MM;
}

export interface RunningGaps {
  readonly engine: RunningEngine;
  /** By the gap's id; empty where nothing is switched on. */
  readonly gaps: ReadonlyMap<string, RunningGap>;
}

/** The ladders of some gaps. `gaps` are certified ones of this engine, which is laid out from the document. Some tenths of a second a gap. */
export function runningGaps(doc: BuildDocument, engine: Engine, gaps: readonly Gap[]): RunningGaps {
  return toTheEnd(runningSteps(doc, engine, gaps));
}

/** The same in steps of some hundredths of a second. */
export function* runningSteps(doc: BuildDocument, engine: Engine, gaps: readonly Gap[]): Steps<RunningGaps> {
  const assembly = doc.assemblies.find((a) => a.name === engine.assembly);
  if (assembly === undefined) throw new RangeError(`runningGaps: no assembly is called "${engine.assembly}"`);
  const running = runningEngine(doc, assembly);
  const pairs = new Map(engine.pairs.map((pair) => [pair.id, pair]));
  const out = new Map<string, RunningGap>();
  if (running.on.length === 0) return { engine: running, gaps: out };
  const crownOf = (cylinder: number): number => mm(pistonOf(assembly, cylinder).dims.compressionHeight);
  for (const gap of gaps) {
    const pair = pairs.get(gap.id);
    const search =
      pair === undefined
        ? deckSearch(engine, gap, mm(doc.block.deckHeight), crownOf(gap.cylinder))
        : pair.head === undefined
          ? pairSearch(engine, pair, gap)
          : headSearch(engine, pair, pair.head, gap);
    out.set(gap.id, yield* ladder(running, gap, search));
  }
  return { engine: running, gaps: out };
}

interface Found {
  readonly gapMm: number;
  readonly atRad: number;
}

function* ladder(running: RunningEngine, gap: Gap, search: (moved: Moved) => Found): Steps<RunningGap> {
  const standing = search(STANDING);
  let last = standing;
  const lines: RunningLine[] = [];
  for (const [k, allowance] of running.on.entries()) {
    yield;
    const next = search(withOnly(running.all, running.on.slice(0, k + 1)));
    lines.push({ allowance, changeMm: next.gapMm - last.gapMm });
    last = next;
  }
  return {
    gapId: gap.id,
    staticMm: gap.gapMm,
    lines,
    runningMm: gap.gapMm + last.gapMm - standing.gapMm,
    atCrankRad: last.atRad,
  };
}

const here: GapAt = newGapAt();

/**
 * Finds the smallest gap of a pair with its parts moved. The first search, with the parts standing, looks everywhere; the
 * others where that one came within `NEAR_MM` of the smallest, with the cells that did.
 */
function pairSearch(engine: Engine, pair: Pair, gap: Gap): (moved: Moved) => Found {
  const share = shareAlongRod(engine, pair, gap);
  const { relative: _, ...plain } = pair;
  let looks = looksRound(pair.periodRad, gap.atCrankRad);
  let wanted: readonly boolean[] | null = null;
  return (moved) => {
    const bodies = (body: Body): LayeredBody[] =>
      (body.kind === 'piston' ? leans(moved) : [UPRIGHT]).map((lean: Lean) =>
        movedBody(engine, moved, body, lean, share),
      );
    const [as, bs] = [bodies(pair.a), bodies(pair.b)];
    // Cells are of the bodies' shapes, which a lean does not change.
    const cells = cellsAsked({ ...plain, a: { ...pair.a, ...as[0]! }, b: { ...pair.b, ...bs[0]! } }, gap);
    const lowestOf = cells.map(() => Number.POSITIVE_INFINITY);
    const at = (crankAngleRad: number, belowMm: number): number => {
      let best = belowMm;
      for (const [k, cell] of cells.entries()) {
        if (wanted?.[k] === false) continue;
        for (const a of as) {
          for (const b of bs) {
            // A cell is looked for as far as it may come to matter, not only as far as it is the nearest here.
            const cutoffMm = inPlaneCutoffMm(cell, wanted === null ? belowMm : best);
            if (cutoffMm === null) continue;
            gapAt(
              { flat: cell.a.flat, motion: a.motion },
              { flat: cell.b.flat, motion: b.motion },
              crankAngleRad,
              cutoffMm,
              false,
              here,
              cell.overlapMm > 0,
            );
            const mmAt = cellGapMm(cell, here.gapMm);
            lowestOf[k] = Math.min(lowestOf[k]!, mmAt);
            best = Math.min(best, mmAt);
          }
        }
      }
      return best;
    };
    const found = lowest(at, pair.periodRad, looks);
    if (wanted === null) {
      looks = found.near;
      wanted = lowestOf.map((mmAt) => mmAt <= found.gapMm + NEAR_MM);
    }
    return found;
  };
}

/**
 * The same for a valve and its piston. The crown grows about the pin; of a piston that stands askew by t the head's edge, R from the
 * stem, comes nearer by up to R sin t besides.
 */
function headSearch(engine: Engine, pair: Pair, head: HeadPair, gap: Gap): (moved: Moved) => Found {
  const { shape } = head.crown;
  return (moved) => {
    const grown = 1 + moved.growth.piston;
    const pocket = shape.pocket && {
      x: shape.pocket.x * grown,
      y: shape.pocket.y * grown,
      radiusMm: shape.pocket.radiusMm * grown,
    };
    const crown = makeCrown({ ...shape, topY: shape.topY * grown, pocket });
    const directions = newDirections(crown);
    const ways = leans(moved).map((lean) => ({
      piston: movedBody(engine, moved, pair.b, lean, 0).motion,
      edgeMm: shape.headRadiusMm * Math.sin(Math.abs(lean.turnRad)),
    }));
    const valve = movedBody(engine, moved, pair.a, UPRIGHT, 0).motion;
    const [v, p] = [newPose(), newPose()];
    const at = (crank: number): number => {
      valve.write(crank, v);
      let best = Number.POSITIVE_INFINITY;
      for (const { piston, edgeMm } of ways) {
        piston.write(crank, p);
        const [dx, dy] = [v[POSE_X]! - p[POSE_X]!, v[POSE_Y]! - p[POSE_Y]!];
        const [sin, cos] = [Math.sin(p[POSE_TURN]!), Math.cos(p[POSE_TURN]!)];
        headGap(crown, cos * dx - sin * dy, sin * dx + cos * dy, directions, overHead);
        best = Math.min(best, overHead.mm - edgeMm);
      }
      return best;
    };
    return lowest(at, pair.periodRad, looksRound(pair.periodRad, gap.atCrankRad));
  };
}

const overHead: HeadGap = { mm: 0, wedge: 0, nx: 0, ny: 0, nz: 0 };

/** How far from big end to small end the nearest place of a rod lies: where its stretch matters. 0 where no rod is concerned. */
function shareAlongRod(engine: Engine, pair: Pair, gap: Gap): number {
  const k = [pair.a, pair.b].findIndex((body) => body.kind === 'rod');
  const move = k < 0 ? undefined : (k === 0 ? pair.a : pair.b).move;
  if (move?.kind !== 'rod') return 0;
  const pose = new Float64Array(6);
  (k === 0 ? pair.a : pair.b).motion.write(gap.atCrankRad, pose);
  const [x, y] = gap.pointsMm[k as 0 | 1];
  const [px, py, turn] = pose;
  // The point is told as it is shown: mirrored for a counterclockwise engine.
  const across = (engine.mirrored ? -x : x) - px!;
  const along = across * Math.sin(turn!) + (y - py!) * Math.cos(turn!);
  return Math.min(1, Math.max(0, along / move.cylinder.slider.rodLengthMm));
}

/** Finds the smallest distance of a crown from the deck. Askew, the crown's edge stands higher than its middle. */
function deckSearch(engine: Engine, gap: Gap, deckMm: number, crownMm: number): (moved: Moved) => Found {
  const c = engine.cylinders.find((each) => each.number === gap.cylinder) as Cylinder;
  return (moved) => {
    const turnRad = Math.max(...leans(moved).map((lean) => lean.turnRad));
    const crown = crownMm * (1 + moved.growth.piston);
    const edge = crown * Math.cos(turnRad) + c.boreRadiusMm * Math.sin(turnRad);
    const at = (crank: number): number =>
      deckMm * (1 + moved.growth.block) - runningPinHeightMm(engine, moved, c, crank) - edge;
    return lowest(at, 2 * Math.PI, looksRound(2 * Math.PI, gap.atCrankRad));
  };
}

/** Looks round the period, radians: three degrees, a seventh of the narrowest basin of an engine's pairs. */
const LOOK_RAD = Math.PI / 60;
/** What all allowances together move a part by is well below this, mm: what is farther off than the smallest gap by more can't become it. */
const NEAR_MM = 1;
/** A minimum is followed to this, radians: worth some millionths of a millimetre. */
const PINNED_RAD = 1e-4;
/** Dips that are followed: the lowest of the looks. */
const FOLLOWED = 3;

/** Angles to look at, in order, `LOOK_RAD` apart, the first where the smallest gap is known to be. */
function looksRound(periodRad: number, fromRad: number): number[] {
  return Array.from({ length: Math.round(periodRad / LOOK_RAD) }, (_, k) => fromRad + k * LOOK_RAD);
}

/** The smallest of a gap about some looks, the lowest dips followed by thirds; and the looks that come near it. */
function lowest(
  at: (rad: number, belowMm: number) => number,
  periodRad: number,
  looks: readonly number[],
): Found & { readonly near: number[] } {
  let bestMm = Number.POSITIVE_INFINITY;
  const seen = looks.map((rad) => {
    const mmAt = at(rad, bestMm + 2 * NEAR_MM);
    bestMm = Math.min(bestMm, mmAt);
    return mmAt;
  });
  const near = looks.filter((_, k) => seen[k]! <= bestMm + NEAR_MM);
  const beside = (k: number, side: number): number => {
    const rad = looks[k]! + side * LOOK_RAD;
    const other = looks.findIndex((x) => {
      const apart = x - rad;
      return Math.abs(apart - periodRad * Math.round(apart / periodRad)) < LOOK_RAD / 2;
    });
    return other < 0 ? Number.POSITIVE_INFINITY : seen[other]!;
  };
  const dips = looks
    .map((rad, k) => ({ rad, mmAt: seen[k]!, k }))
    .sort((p, q) => p.mmAt - q.mmAt)
    .filter(({ mmAt, k }) => mmAt <= bestMm + NEAR_MM && mmAt <= beside(k, -1) && mmAt <= beside(k, 1))
    .slice(0, FOLLOWED);
  const belowMm = bestMm + 2 * NEAR_MM;
  let bestRad = dips[0]!.rad;
  for (const { rad } of dips) {
    let low = rad - LOOK_RAD;
    let high = rad + LOOK_RAD;
    while (high - low > PINNED_RAD) {
      const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
      const [mmP, mmQ] = [at(p, belowMm), at(q, belowMm)];
      const [mmLess, less] = mmP < mmQ ? [mmP, p] : [mmQ, q];
      if (mmLess < bestMm) {
        bestMm = mmLess;
        bestRad = less;
      }
      if (mmP < mmQ) high = q;
      else low = p;
    }
  }
  return { gapMm: bestMm, atRad: ((bestRad % periodRad) + periodRad) % periodRad, near };
}

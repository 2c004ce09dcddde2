/**
 * What the check finds, as plain data: the JSON document as it is printed, and what the table is made from. Lengths in
 * millimetres, crank angles in degrees from the build's own zero (cylinder 1 at the top of its power stroke, offsets
 * left aside), speeds positive outward, away from the crank.
 */
import type { Engine } from '../assembly/engine.ts';
import { layOut } from '../assembly/layOut.ts';
import { type BuildDocument, type GapKind, speedRpm } from '../build/index.ts';
import { allowanceMm, certifiedGaps } from '../model/certified.ts';
import { distinct, eachAlone, type Told } from '../model/distinct.ts';
import { figuresOf } from '../model/figures.ts';
import { type Intervals, intervalsOf } from '../model/intervals.ts';
import type { Gap, GapState } from '../model/results.ts';
import type { Allowance, RunningEngine } from '../model/running/allowances.ts';
import { isNearLimit, type RunningGap, type RunningLine, runningGaps } from '../model/running/runningGap.ts';
import { type Scalar, scalarsOf } from '../model/scalars.ts';
import { degrees } from './degrees.ts';
import type { Asked } from './options.ts';
import { type CuredGap, curesOf, reportedCure } from './reportCures.ts';
import { cylinderOf, type ReportedCylinder } from './reportCylinder.ts';
import { mockUpOf, type ReportedEntry } from './reportMockUp.ts';
import { chanceOf, type ReportedChance, type ReportedTolerances, tolerancesOf } from './reportTolerances.ts';

export interface ReportedGap {
  readonly kind: GapKind;
  readonly between: readonly [string, string];
  readonly gapMm: number;
  /** Proven: nowhere in the turn is the gap smaller. Null when the proof was not finished. */
  readonly lowerBoundMm: number | null;
  /** 0 to 360, or to 720 where a camshaft lobe is involved. */
  readonly atCrankDeg: number;
  /** Nearest places on the first and on the second body, x y z of the engine frame. */
  readonly pointsMm: readonly [readonly [number, number, number], readonly [number, number, number]];
  readonly direction: 'in-plane' | 'axial';
  /** What slicing round parts takes off the gap at most, on the safe side: the true gap may be larger by so much. */
  readonly slicingMm: number;
  /** What the measured outlines that decide it owe: already taken off gap and bound. Left out: nothing. */
  readonly deviationMm?: number;
  readonly limitMm: number;
  readonly state: GapState;
  /** Assumed dimensions it rests on. */
  readonly assumed: readonly string[];
  /** When in the turn it is below what it needs; null where it never is. */
  readonly intervals: ReportedIntervals | null;
  /** What the running engine takes of it, about; null where nothing is switched on, or it is more than 3 mm above its limit. */
  readonly running: ReportedRunning | null;
  /** Other pairs that go through the same motion, and so have the same gap; empty with `pairs` all. */
  readonly alike: readonly (readonly [string, string])[];
}

/** Crank angles, degrees, each from 0 or above; an end may lie beyond the period. Null: the work allowed for it ran out. */
export interface ReportedIntervals {
  /** The limit, and the allowance for assumed dimensions where the gap rests on some. */
  readonly neededMm: number;
  readonly belowDeg: readonly (readonly [number, number])[] | null;
  readonly touchingDeg: readonly (readonly [number, number])[] | null;
}

/** An estimate: each line is what its allowance adds to those before it, negative where it closes the gap. */
export interface ReportedRunning {
  readonly lines: readonly RunningLine[];
  readonly runningMm: number;
  readonly atCrankDeg: number;
}

export interface Report {
  readonly build: {
    readonly name: string;
    readonly assembly: string;
    readonly route: string;
    readonly layout: string;
    readonly rotation: string;
    readonly firingOrder: readonly number[];
    readonly shownUnits: string;
    readonly displacementCm3: number;
    /** Taken off gaps that rest on assumed outlines before they are judged; null: not stated. */
    readonly assumedAllowanceMm: number | null;
    /** What the figures of this document are in. */
    readonly units: {
      readonly length: 'mm';
      readonly angle: 'deg';
      readonly speed: 'm/s';
      readonly acceleration: 'm/s2';
    };
  };
  readonly kinematics: { readonly speedRpm: number; readonly cylinders: readonly ReportedCylinder[] };
  /** How many pairs of parts are in each state, all of them counted. */
  readonly states: Readonly<Record<GapState, number>>;
  /** What the build switches on of the running engine; null where it says nothing of it. */
  readonly running: {
    readonly speedRpm: number;
    readonly on: readonly Allowance[];
    readonly lacking: RunningEngine['lacking'];
  } | null;
  /** Whether alike pairs stand once in `gaps`, or each by itself. */
  readonly pairs: 'distinct' | 'all';
  /** Worst first: by state, then by what is left over the limit. */
  readonly gaps: readonly ReportedGap[];
  /** Clearances that are one figure each. They don't count in `states`, nor in the exit status. */
  readonly singleFigures: readonly Scalar[];
  /** Of every gap in `gaps` that is tight or in contact; only when asked for. */
  readonly cures?: readonly CuredGap[];
  /** How gaps change with each dimension, and what tolerances add up to; only when asked for. */
  readonly tolerances?: readonly ReportedTolerances[];
  /** Only when asked for. */
  readonly chanceBuilds?: ReportedChance;
  /** Every entry of the mock-up log that speaks of this assembly; only when asked for. */
  readonly mockUp?: readonly ReportedEntry[];
}

/** The tables need a little more than the document tells. */
export interface Judged {
  readonly report: Report;
  readonly engine: Engine;
  /** In the order of `report.gaps`. */
  readonly told: readonly Told[];
  readonly intervals: ReadonlyMap<string, Intervals>;
  readonly running: ReturnType<typeof runningGaps>;
}

/** The seed where none is given: any will do, as long as it is always the same. */
const FIRST_SEED = 1;

/** Judges one assembly of a build that has passed its rules. A V8 takes a fraction of a second, each cured gap about half of one. */
export function judge(
  doc: BuildDocument,
  assemblyName: string,
  asked: Pick<Asked, 'pairs' | 'cures' | 'mock-up' | 'sensitivities' | 'monte-carlo' | 'seed'>,
): Judged {
  const engine = layOut(doc, assemblyName);
  const gaps = certifiedGaps(doc, engine, new Map());
  const told = asked.pairs === 'all' ? eachAlone(gaps) : distinct(engine, gaps);
  const intervals = intervalsOf(
    doc,
    engine,
    told.map(({ gap }) => gap),
  );
  const running = runningGaps(doc, engine, told.map(({ gap }) => gap).filter(isNearLimit));
  const { on, lacking } = running.engine;
  const rpm = speedRpm(doc.speed.value);
  const route = doc.assemblies.find((a) => a.name === assemblyName)?.route ?? '';
  const report: Report = {
    build: {
      name: doc.name,
      assembly: assemblyName,
      route,
      layout: doc.block.layout,
      rotation: doc.block.rotation,
      firingOrder: doc.block.firingOrder,
      shownUnits: doc.shownUnits,
      displacementCm3: figuresOf(doc, engine, 1).displacementCm3,
      assumedAllowanceMm: allowanceMm(doc),
      units: { length: 'mm', angle: 'deg', speed: 'm/s', acceleration: 'm/s2' },
    },
    kinematics: { speedRpm: rpm, cylinders: engine.cylinders.map((c) => cylinderOf(doc, engine, c, rpm)) },
    states: countOf(gaps),
    running: on.length + lacking.length === 0 ? null : { speedRpm: running.engine.rpm, on, lacking },
    pairs: asked.pairs,
    gaps: told.map((one) => gapOf(one, intervals.get(one.gap.id), running.gaps.get(one.gap.id))),
    singleFigures: scalarsOf(doc, engine),
    ...(asked.cures
      ? {
          cures: curesOf(doc, assemblyName, gaps, told).map(({ gap, cures }) => ({
            between: gap.between,
            cures: cures.map(reportedCure),
          })),
        }
      : {}),
    ...(asked.sensitivities ? { tolerances: tolerancesOf(doc, assemblyName, told) } : {}),
    ...(asked['monte-carlo'] === undefined
      ? {}
      : { chanceBuilds: chanceOf(doc, assemblyName, gaps, asked['monte-carlo'], asked.seed ?? FIRST_SEED) }),
    ...(asked['mock-up'] ? { mockUp: mockUpOf(doc, engine) } : {}),
  };
  return { report, engine, told, intervals, running };
}

function countOf(gaps: readonly Gap[]): Record<GapState, number> {
  const count = { contact: 0, tight: 0, unproven: 0, clears: 0 };
  for (const gap of gaps) count[stateOf(gap)] += 1;
  return count;
}

/** State as printed: without a finished proof nothing is said to clear. */
export function stateOf(gap: Pick<Gap, 'state' | 'certified'>): GapState {
  return gap.state === 'clears' && !gap.certified ? 'unproven' : gap.state;
}

function gapOf({ gap, alike }: Told, intervals: Intervals | undefined, running: RunningGap | undefined): ReportedGap {
  return {
    kind: gap.kind,
    between: gap.between,
    gapMm: gap.gapMm,
    lowerBoundMm: gap.certified ? gap.lowerBoundMm : null,
    atCrankDeg: degrees(gap.atCrankRad, gap.periodRad),
    pointsMm: gap.pointsMm,
    direction: gap.direction,
    slicingMm: gap.slicingMm,
    ...(gap.deviationMm === undefined ? {} : { deviationMm: gap.deviationMm }),
    limitMm: gap.limitMm,
    state: stateOf(gap),
    assumed: gap.assumed,
    intervals: intervals === undefined ? null : reportedIntervals(intervals, gap.periodRad),
    running:
      running === undefined
        ? null
        : {
            lines: running.lines,
            runningMm: running.runningMm,
            atCrankDeg: degrees(running.atCrankRad, gap.periodRad),
          },
    alike: alike.map((g) => g.between),
  };
}

function reportedIntervals({ neededMm, below, touching, finished }: Intervals, periodRad: number): ReportedIntervals {
  const inDegrees = (arcs: Intervals['below']): [number, number][] =>
    arcs.map(({ fromRad, toRad }) => {
      const from = degrees(fromRad, periodRad);
      return [from, from + Number((((toRad - fromRad) * 180) / Math.PI).toFixed(9))];
    });
  return {
    neededMm,
    belowDeg: finished ? inDegrees(below) : null,
    touchingDeg: finished ? inDegrees(touching) : null,
  };
}

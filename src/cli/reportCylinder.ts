/** What the check tells of each cylinder: its dimensions, its dead centres, its greatest speeds and accelerations. */
import type { Cylinder, Engine } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/index.ts';
import { type Extreme, motionExtrema } from '../core/kinematics/extrema.ts';
import { accelMPerS2, meanPistonSpeedMPerS, speedMPerS } from '../core/kinematics/realTime.ts';
import { strokeTravelledMm } from '../core/kinematics/sliderCrank.ts';
import { figuresOf } from '../model/figures.ts';
import { degrees } from './degrees.ts';

export interface SpeedAt {
  readonly mPerS: number;
  readonly atCrankDeg: number;
  readonly afterTdcDeg: number;
}

export interface AccelAt {
  readonly mPerS2: number;
  readonly atCrankDeg: number;
  readonly afterTdcDeg: number;
}

export interface ReportedCylinder {
  readonly cylinder: number;
  readonly bank: number;
  readonly throw: number;
  /** Twice the crank radius. */
  readonly strokeMm: number;
  /** What the piston travels; with an offset a little more. */
  readonly strokeTravelledMm: number;
  readonly rodLengthMm: number;
  /** Of the pin line from the crank axis. */
  readonly offsetMm: number;
  readonly rodRatio: number;
  readonly deckClearanceMm: number;
  /** True dead centres, 0 to 360; the firing one 0 to 720. */
  readonly tdcDeg: number;
  readonly bdcDeg: number;
  readonly firingTdcDeg: number;
  readonly meanSpeedMPerS: number;
  readonly greatestOutwardSpeed: SpeedAt;
  readonly greatestInwardSpeed: SpeedAt;
  readonly greatestOutwardAccel: AccelAt;
  readonly greatestInwardAccel: AccelAt;
}

const TURN = 2 * Math.PI;

/** Crank angle of the true TDC at which a cylinder fires, 0 to 4 pi: the true TDC nearest to the firing angle of the throws. */
export function trueFiringTdcRad(c: Pick<Cylinder, 'tdcRad' | 'firingTdcRad'>): number {
  const turns = Math.round((c.firingTdcRad - c.tdcRad) / TURN);
  return (((c.tdcRad + turns * TURN) % (2 * TURN)) + 2 * TURN) % (2 * TURN);
}

/** What is told of a cylinder's motion at a speed of the engine, 1/min. */
export function cylinderOf(doc: BuildDocument, engine: Engine, c: Cylinder, rpm: number): ReportedCylinder {
  const figures = figuresOf(doc, engine, c.number);
  const extrema = motionExtrema(c.slider);
  const place = ({ alphaRad }: Extreme): { atCrankDeg: number; afterTdcDeg: number } => ({
    atCrankDeg: degrees(alphaRad - c.alphaAtZeroRad, TURN),
    afterTdcDeg: degrees(alphaRad - c.alphaAtZeroRad - c.tdcRad, TURN),
  });
  const speed = (at: Extreme): SpeedAt => ({ mPerS: speedMPerS(at.value, rpm), ...place(at) });
  const accel = (at: Extreme): AccelAt => ({ mPerS2: accelMPerS2(at.value, rpm), ...place(at) });
  return {
    cylinder: c.number,
    bank: c.bank,
    throw: c.throw,
    strokeMm: figures.strokeMm,
    strokeTravelledMm: figures.travelMm,
    rodLengthMm: figures.rodLengthMm,
    offsetMm: c.slider.offsetMm,
    rodRatio: figures.rodRatio,
    deckClearanceMm: figures.deckClearanceMm,
    tdcDeg: degrees(c.tdcRad, TURN),
    bdcDeg: degrees(c.bdcRad, TURN),
    firingTdcDeg: degrees(trueFiringTdcRad(c), 2 * TURN),
    meanSpeedMPerS: meanPistonSpeedMPerS(strokeTravelledMm(c.slider), rpm),
    greatestOutwardSpeed: speed(extrema.outwardSpeed),
    greatestInwardSpeed: speed(extrema.inwardSpeed),
    greatestOutwardAccel: accel(extrema.outwardAccel),
    greatestInwardAccel: accel(extrema.inwardAccel),
  };
}

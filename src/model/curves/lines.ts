/** Curves of one cylinder against crank angle from its true TDC: points for drawing, extremes at their true angles. */
import type { Cylinder } from '../../assembly/engine.ts';
import { motionExtrema } from '../../core/kinematics/extrema.ts';
import { harmonicDifferenceExtrema, harmonicDifferenceMm } from '../../core/kinematics/harmonicDifference.ts';
import { accelPartPerRad2Mm, pinHeightHarmonics } from '../../core/kinematics/harmonics.ts';
import { accelMPerS2, speedMPerS } from '../../core/kinematics/realTime.ts';
import { inertiaSideForceExtrema, inertiaSideForcePerRad2Mm, sideForceShare } from '../../core/kinematics/sideForce.ts';
import {
  bdcAlphaRad,
  pinHeightPerRad2Mm,
  pinHeightPerRadMm,
  rodAngleRad,
  type SliderCrank,
  strokeTravelledMm,
  tdcAlphaRad,
} from '../../core/kinematics/sliderCrank.ts';
import { belowTdcMm } from '../../core/kinematics/travel.ts';

export type Quantity =
  | 'position'
  | 'speed'
  | 'acceleration'
  | 'rod angle'
  | 'side force share'
  | 'side force of inertia'
  | 'difference from harmonic'
  | 'gap';

/** In mm, m/s, m/s², degrees, newtons for each kilogram, or a plain share. */
export type Unit = 'mm' | 'm/s' | 'm/s²' | '°' | 'N/kg' | '';

export interface Mark {
  readonly deg: number;
  readonly value: number;
}

/** What a curve says at an angle. */
export interface Reading {
  /** NaN where there is nothing to say. */
  readonly value: number;
  /** False between two samples of a curve that is known by samples alone. */
  readonly exact: boolean;
}

export interface Line {
  readonly name: string;
  /** Number of its colour and dashes, from 0: that of what is compared, whichever others are shown beside it. */
  readonly look: number;
  /** One for each place at which the curve is drawn; NaN where there is nothing to show. */
  readonly values: Float64Array;
  readonly marks: readonly Mark[];
  /** At degrees after TDC, any. */
  readonly at: (deg: number) => Reading;
  /** A part of another line: drawn lightly. */
  readonly part?: true;
}

export const UNIT: Readonly<Record<Quantity, Unit>> = {
  position: 'mm',
  speed: 'm/s',
  acceleration: 'm/s²',
  'rod angle': '°',
  'side force share': '',
  'side force of inertia': 'N/kg',
  'difference from harmonic': 'mm',
  gap: 'mm',
};

const DEG = 180 / Math.PI;
const TURN = 2 * Math.PI;

/** Degrees after TDC at which curves of the motion are drawn: every half degree of a turn, its end included. */
export const DEGREES: Float64Array = Float64Array.from({ length: 721 }, (_, k) => k / 2);

export function degreesOf(alphaRad: number, s: SliderCrank): number {
  const since = ((alphaRad - tdcAlphaRad(s)) % TURN) * DEG;
  return since < -1e-9 ? since + 360 : Math.max(0, since);
}

/** The exact value at an angle of the crankpin from the bore; rpm for what depends on speed. */
export function valueAt(s: SliderCrank, of: Exclude<Quantity, 'gap'>, alphaRad: number, rpm: number): number {
  switch (of) {
    case 'position':
      return belowTdcMm(s, alphaRad);
    case 'speed':
      return speedMPerS(pinHeightPerRadMm(s, alphaRad), rpm);
    case 'acceleration':
      return accelMPerS2(pinHeightPerRad2Mm(s, alphaRad), rpm);
    case 'rod angle':
      return rodAngleRad(s, alphaRad) * DEG;
    case 'side force share':
      return sideForceShare(s, alphaRad);
    case 'side force of inertia':
      return accelMPerS2(inertiaSideForcePerRad2Mm(s, alphaRad), rpm);
    case 'difference from harmonic':
      return harmonicDifferenceMm(s, alphaRad);
  }
}

/** A curve of the motion of a cylinder. */
export function motionLine(
  { name, look }: Pick<Line, 'name' | 'look'>,
  { slider }: Cylinder,
  of: Exclude<Quantity, 'gap'>,
  rpm: number,
): Line {
  const tdc = tdcAlphaRad(slider);
  const value = (deg: number): number => valueAt(slider, of, tdc + deg / DEG, rpm);
  const marks = extremeAlphas(slider, of)
    .map((alphaRad) => ({ deg: degreesOf(alphaRad, slider), value: valueAt(slider, of, alphaRad, rpm) }))
    .sort((a, b) => a.deg - b.deg);
  return { name, look, values: DEGREES.map(value), marks, at: (deg) => ({ value: value(deg), exact: true }) };
}

/** Roots of the derivative, not samples. */
function extremeAlphas(s: SliderCrank, of: Exclude<Quantity, 'gap'>): number[] {
  const x = motionExtrema(s);
  switch (of) {
    case 'position':
      return [tdcAlphaRad(s), bdcAlphaRad(s)];
    case 'speed':
      return [x.inwardSpeed.alphaRad, x.outwardSpeed.alphaRad];
    case 'acceleration':
      return x.accels.map((each) => each.alphaRad);
    case 'rod angle':
    case 'side force share':
      return [x.rodAngleToV.alphaRad, x.rodAngleFromV.alphaRad];
    case 'side force of inertia':
      return inertiaSideForceExtrema(s).map((each) => each.alphaRad);
    case 'difference from harmonic':
      return strokeTravelledMm(s) > 0 ? harmonicDifferenceExtrema(s).map((each) => each.alphaRad) : [];
  }
}

/** First- and second-order parts of the acceleration, by Fourier of the exact motion; `look` is that of the first. */
export function accelerationParts(
  { name, look }: Pick<Line, 'name' | 'look'>,
  { slider }: Cylinder,
  rpm: number,
): Line[] {
  const tdc = tdcAlphaRad(slider);
  return pinHeightHarmonics(slider, 2).orders.map((order, k) => {
    const value = (deg: number): number => accelMPerS2(accelPartPerRad2Mm(order, tdc + deg / DEG), rpm);
    return {
      name: `${name}, order ${order.order}`,
      look: look + k,
      values: DEGREES.map(value),
      marks: [],
      at: (deg) => ({ value: value(deg), exact: true }),
      part: true as const,
    };
  });
}

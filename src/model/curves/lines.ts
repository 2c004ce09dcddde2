/** Curves of one cylinder against crank angle from its true TDC: points for drawing, extremes at their true angles. */
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import { motionExtrema } from '../../core/kinematics/extrema.ts';
import { harmonicDifferenceExtrema, harmonicDifferenceMm } from '../../core/kinematics/harmonicDifference.ts';
import { accelPartPerRad2Mm, pinHeightHarmonics } from '../../core/kinematics/harmonics.ts';
import { accelMPerS2, speedMPerS } from '../../core/kinematics/realTime.ts';
import { sideForceShare } from '../../core/kinematics/sideForce.ts';
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
import { profileOf } from '../profile.ts';
import type { Gap } from '../results.ts';

export type Quantity =
  | 'position'
  | 'speed'
  | 'acceleration'
  | 'rod angle'
  | 'side force share'
  | 'difference from harmonic'
  | 'gap';

/** In mm, m/s, m/s², degrees, or a plain share. */
export type Unit = 'mm' | 'm/s' | 'm/s²' | '°' | '';

export interface Mark {
  readonly deg: number;
  readonly value: number;
}

export interface Line {
  readonly name: string;
  /** One for each entry of `degrees`; NaN where there is nothing to show. */
  readonly values: Float64Array;
  readonly marks: readonly Mark[];
  /** A part of another line: drawn lightly. */
  readonly part?: true;
}

export const UNIT: Readonly<Record<Quantity, Unit>> = {
  position: 'mm',
  speed: 'm/s',
  acceleration: 'm/s²',
  'rod angle': '°',
  'side force share': '',
  'difference from harmonic': 'mm',
  gap: 'mm',
};

const DEG = 180 / Math.PI;
const TURN = 2 * Math.PI;
/** Gaps farther than this are not drawn, mm. */
const FAR_MM = 25;

/** Degrees after TDC at which curves are drawn: every half degree of a turn, its end included. */
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
    case 'difference from harmonic':
      return harmonicDifferenceMm(s, alphaRad);
  }
}

/** A curve of the motion of a cylinder. */
export function motionLine(name: string, { slider }: Cylinder, of: Exclude<Quantity, 'gap'>, rpm: number): Line {
  const tdc = tdcAlphaRad(slider);
  const values = DEGREES.map((deg) => valueAt(slider, of, tdc + deg / DEG, rpm));
  const marks = extremeAlphas(slider, of).map((alphaRad) => ({
    deg: degreesOf(alphaRad, slider),
    value: valueAt(slider, of, alphaRad, rpm),
  }));
  return { name, values, marks };
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
    case 'difference from harmonic':
      return strokeTravelledMm(s) > 0 ? harmonicDifferenceExtrema(s).map((each) => each.alphaRad) : [];
  }
}

/** First- and second-order parts of the acceleration, by Fourier of the exact motion. */
export function accelerationParts(name: string, { slider }: Cylinder, rpm: number): Line[] {
  const tdc = tdcAlphaRad(slider);
  return pinHeightHarmonics(slider, 2).orders.map((order) => ({
    name: `${name}, order ${order.order}`,
    values: DEGREES.map((deg) => accelMPerS2(accelPartPerRad2Mm(order, tdc + deg / DEG), rpm)),
    marks: [],
    part: true as const,
  }));
}

/** The gap of a pair of an engine, from TDC of its cylinder: over one turn, or the first of the two that it takes. Null where it has no such pair. */
export function gapLine(name: string, engine: Engine, pairId: string, gap: Gap | undefined): Line | null {
  const pair = engine.pairs.find((p) => p.id === pairId);
  const cylinder = engine.cylinders.find((c) => c.number === pair?.cylinder);
  if (pair === undefined || cylinder === undefined) return null;
  const stepRad = Math.PI / 360;
  const { gapMm } = profileOf(pair, gap, stepRad, FAR_MM);
  const zero = pair.periodRad > TURN * 1.5 ? cylinder.firingTdcRad : cylinder.tdcRad;
  const values = DEGREES.map((deg) => {
    const at = (zero + deg / DEG) / stepRad;
    const k = Math.floor(at);
    const [a, b] = [gapMm[k % gapMm.length]!, gapMm[(k + 1) % gapMm.length]!];
    const mm = a + (b - a) * (at - k);
    return mm >= FAR_MM ? Number.NaN : mm;
  });
  const since = gap === undefined ? -1 : ((gap.atCrankRad - zero) % pair.periodRad) * DEG;
  const deg = since < 0 && gap !== undefined ? since + pair.periodRad * DEG : since;
  return { name, values, marks: gap === undefined || deg > 360 ? [] : [{ deg, value: gap.gapMm }] };
}

/** What rod ratio does, as figures of each engine compared, and as a curve over rod ratios at the stroke of one of them. */
import type { Cylinder } from '../../assembly/engine.ts';
import { lengthMm } from '../../build/literal.ts';
import { type MotionMeasures, motionMeasures } from '../../core/kinematics/motionMeasures.ts';
import { accelMPerS2, speedMPerS } from '../../core/kinematics/realTime.ts';
import type { SliderCrank } from '../../core/kinematics/sliderCrank.ts';
import type { Line, Unit } from './lines.ts';

export interface Measure {
  readonly name: string;
  readonly unit: Unit;
  readonly of: (m: MotionMeasures, rpm: number) => number;
}

/** A length as it is typed, mm; throws where it is none. */
export function lengthOf(text: string): number {
  return lengthMm(text);
}

const DEG = 180 / Math.PI;

/** In the order of the table; `withinMm` of the dwell is that of the measures. */
export const MEASURES: readonly Measure[] = [
  { name: 'Rod ratio', unit: '', of: (m) => m.rodRatio },
  { name: 'Piston travel', unit: 'mm', of: (m) => m.travelMm },
  { name: 'Degrees near top dead centre', unit: '°', of: (m) => m.dwellTdcRad * DEG },
  { name: 'Degrees near bottom dead centre', unit: '°', of: (m) => m.dwellBdcRad * DEG },
  { name: 'Greatest piston speed', unit: 'm/s', of: (m, rpm) => speedMPerS(m.peakSpeedDown.value, rpm) },
  { name: 'at, after top dead centre', unit: '°', of: (m) => m.peakSpeedDown.afterTdcRad * DEG },
  { name: 'Acceleration at top dead centre', unit: 'm/s²', of: (m, rpm) => accelMPerS2(m.accelTdcPerRad2Mm, rpm) },
  { name: 'Acceleration at bottom dead centre', unit: 'm/s²', of: (m, rpm) => accelMPerS2(m.accelBdcPerRad2Mm, rpm) },
  { name: 'the first over the second', unit: '', of: (m) => m.accelRatio },
  { name: 'Greatest rod angle', unit: '°', of: (m) => Math.max(m.rodAngleDownRad, m.rodAngleUpRad) * DEG },
  { name: 'Greatest side force share', unit: '', of: (m) => m.sideForceShare },
  { name: 'Below the top at 90°', unit: 'mm', of: (m) => m.belowAt90Mm },
  { name: 'that as a share of the travel', unit: '', of: (m) => m.shareAt90 },
];

/** Rod ratios of the curve: shorter rods hardly pass the crank, longer ones no block takes. */
const RATIOS = Float64Array.from({ length: 141 }, (_, k) => 1.2 + k / 100);

export interface AgainstRatio {
  readonly ratios: Float64Array;
  readonly line: Line;
}

/** One measure over rod ratios, stroke and offset being those of `of`; each of `present` marked at its own ratio. Throws RangeError as `motionMeasures` does. */
export function againstRatio(
  measure: Measure,
  of: Cylinder,
  present: readonly Cylinder[],
  withinMm: number,
  rpm: number,
): AgainstRatio {
  const at = (s: SliderCrank): number => measure.of(motionMeasures(s, withinMm), rpm);
  const { crankRadiusMm, offsetMm } = of.slider;
  const value = (ratio: number): number => at({ crankRadiusMm, offsetMm, rodLengthMm: 2 * crankRadiusMm * ratio });
  const marks = present.map(({ slider }) => ({
    deg: slider.rodLengthMm / (2 * slider.crankRadiusMm),
    value: at(slider),
  }));
  return {
    ratios: RATIOS,
    line: {
      name: measure.name,
      look: 0,
      values: RATIOS.map(value),
      marks,
      at: (ratio) => ({ value: value(ratio), exact: true }),
    },
  };
}

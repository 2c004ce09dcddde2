/** What rod ratio does, as figures of each engine compared, and as a curve over rod ratios at the stroke of one of them. */
import { lengthMm } from '../../build/literal.ts';
import { type MotionMeasures, motionMeasures } from '../../core/kinematics/motionMeasures.ts';
import { accelMPerS2, speedMPerS } from '../../core/kinematics/realTime.ts';
import type { SliderCrank } from '../../core/kinematics/sliderCrank.ts';
import type { Steps } from '../pieces/kind.ts';
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

/** The measures of a slider-crank, kept with it: asked for each time the page is drawn. Throws RangeError as `motionMeasures` does. */
export function measuresOf(slider: SliderCrank, withinMm: number): MotionMeasures {
  const before = kept.get(slider);
  if (before?.withinMm === withinMm) return before.measures;
  const measures = motionMeasures(slider, withinMm);
  kept.set(slider, { withinMm, measures });
  return measures;
}

const kept = new WeakMap<SliderCrank, { readonly withinMm: number; readonly measures: MotionMeasures }>();

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
  {
    name: 'Greatest side force of inertia',
    unit: 'N/kg',
    of: (m, rpm) => accelMPerS2(m.inertiaSideForce.value, rpm),
  },
  { name: 'Below the top at 90°', unit: 'mm', of: (m) => m.belowAt90Mm },
  { name: 'that as a share of the travel', unit: '', of: (m) => m.shareAt90 },
];

/** Rod ratios of the curve: shorter rods hardly pass the crank, longer ones no block takes. */
export const RATIOS = Float64Array.from({ length: 141 }, (_, k) => 1.2 + k / 100);

/** What is measured over rod ratios: stroke, offset and distance are held, the rod is made longer. */
export interface Held extends Pick<SliderCrank, 'crankRadiusMm' | 'offsetMm'> {
  readonly withinMm: number;
}

/** The measures at each of `RATIOS`, one a step. Throws RangeError as `motionMeasures` does. */
export function* measuresOverRatios({ crankRadiusMm, offsetMm, withinMm }: Held): Steps<readonly MotionMeasures[]> {
  const found: MotionMeasures[] = [];
  for (const ratio of RATIOS) {
    found.push(motionMeasures({ crankRadiusMm, offsetMm, rodLengthMm: 2 * crankRadiusMm * ratio }, withinMm));
    yield;
  }
  return found;
}

/** One measure over rod ratios, for the stroke and offset of each that is compared, which is marked on it. Of two with the same curve the first has it; the other has its mark. */
export function againstRatio(
  measure: Measure,
  compared: readonly (Pick<Line, 'name' | 'look'> & { readonly slider: SliderCrank })[],
  withinMm: number,
  over: (held: Held) => readonly MotionMeasures[],
  rpm: number,
): Line[] {
  const drawn = new Set<string>();
  return compared.map(({ name, look, slider }) => {
    const { crankRadiusMm, offsetMm, rodLengthMm } = slider;
    const held: Held = { crankRadiusMm, offsetMm, withinMm };
    const isFirst = !drawn.has(keyOf(held));
    drawn.add(keyOf(held));
    const at = (ratio: number): number =>
      measure.of(motionMeasures({ ...slider, rodLengthMm: 2 * crankRadiusMm * ratio }, withinMm), rpm);
    return {
      name,
      look,
      values: isFirst
        ? Float64Array.from(over(held), (m) => measure.of(m, rpm))
        : new Float64Array(RATIOS.length).fill(Number.NaN),
      marks: [{ deg: rodLengthMm / (2 * crankRadiusMm), value: measure.of(measuresOf(slider, withinMm), rpm) }],
      at: (ratio) => ({ value: at(ratio), exact: true }),
    };
  });
}

/** Equal for two whose curves are the same. */
export function keyOf({ crankRadiusMm, offsetMm, withinMm }: Held): string {
  return [crankRadiusMm, offsetMm, withinMm].map((mm) => mm.toFixed(6)).join();
}

/**
 * The greatest piston speeds, all extremes of piston acceleration and the greatest rod angles, at their own crankpin
 * angles: found as roots, never as the largest of some samples. Offset included.
 *
 * Rod angle: phi' = r cos(alpha) / w vanishes only where cos(alpha) does, so the extremes stand exactly at 90 and 270
 * degrees. Speed and acceleration: all roots of s'' and of s''' over one turn, by `rootsOverTurn`.
 */
import { heightBounds, heightDerivatives } from './heightDerivatives.ts';
import type { SliderCrank } from './sliderCrank.ts';
import { mustTurn, pinHeightPerRad2Mm, pinHeightPerRadMm, rodAngleRad } from './sliderCrank.ts';
import { rootsOverTurn, type SmoothTurn } from './turnRoots.ts';

export interface Extreme {
  /** Crankpin angle from the bore axis, 0 to 2 pi. */
  readonly alphaRad: number;
  readonly value: number;
}

export interface LocalExtreme extends Extreme {
  readonly kind: 'maximum' | 'minimum';
}

export interface MotionExtrema {
  /** Speeds in mm per radian of crank angle, positive outward; the inward one has the most negative value. */
  readonly outwardSpeed: Extreme;
  readonly inwardSpeed: Extreme;
  /** Every local extreme of the acceleration, mm per radian squared, positive outward, by rising angle. */
  readonly accels: readonly LocalExtreme[];
  /** The largest and the smallest of them. Below l / r of about 3.79 the largest is not at BDC. */
  readonly outwardAccel: Extreme;
  readonly inwardAccel: Extreme;
  /** Rod angle in radians, big end farthest to the `v` side (at 90 degrees) and farthest to the other (at 270). */
  readonly rodAngleToV: Extreme;
  readonly rodAngleFromV: Extreme;
}

/** Extremes over one turn. Throws a RangeError unless the assembly can turn. */
export function motionExtrema(s: SliderCrank): MotionExtrema {
  mustTurn(s);
  const height = heightOverTurn(s);
  const speeds = rootsOverTurn(height, 2).map(({ alphaRad }) => ({ alphaRad, value: pinHeightPerRadMm(s, alphaRad) }));
  const accels = rootsOverTurn(height, 3).map(
    ({ alphaRad, falling }): LocalExtreme => ({
      alphaRad,
      value: pinHeightPerRad2Mm(s, alphaRad),
      kind: falling ? 'maximum' : 'minimum',
    }),
  );
  return {
    outwardSpeed: best(speeds, (a, b) => a > b),
    inwardSpeed: best(speeds, (a, b) => a < b),
    accels,
    outwardAccel: best(accels, (a, b) => a > b),
    inwardAccel: best(accels, (a, b) => a < b),
    rodAngleToV: { alphaRad: Math.PI / 2, value: rodAngleRad(s, Math.PI / 2) },
    rodAngleFromV: { alphaRad: 1.5 * Math.PI, value: rodAngleRad(s, 1.5 * Math.PI) },
  };
}

/** Pin height as a function whose roots can be sought. */
function heightOverTurn(s: SliderCrank): SmoothTurn {
  return {
    at: (alphaRad) => heightDerivatives(s, alphaRad),
    bounds: (middleRad, halfRad) => heightBounds(s, middleRad, halfRad),
  };
}

function best<T extends Extreme>(found: readonly T[], better: (a: number, b: number) => boolean): T {
  return found.reduce((kept, next) => (better(next.value, kept.value) ? next : kept));
}

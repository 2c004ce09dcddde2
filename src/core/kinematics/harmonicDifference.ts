/**
 * How the piston's motion differs from a simple harmonic one: one that goes the same way from the same TDC as
 * (S / 2) (1 - cos theta), S the stroke travelled and theta counted from TDC, as an endless rod without offset would make it.
 *
 *   difference = below TDC - (S / 2) (1 - cos theta),   positive where the piston is lower
 *
 * Without offset it is greatest at 90 and 270 degrees, l - sqrt(l^2 - r^2), and nothing at the dead centres (derived:
 * its derivative is q q' / w).
 */
import type { LocalExtreme } from './extrema.ts';
import { heightBounds, heightDerivatives } from './heightDerivatives.ts';
import { mustTurn, type SliderCrank, strokeTravelledMm, tdcAlphaRad } from './sliderCrank.ts';
import { belowTdcMm } from './travel.ts';
import { rootsOverTurn } from './turnRoots.ts';

/** Where a piston in simple harmonic motion would be below TDC, mm. */
export function harmonicBelowTdcMm(s: SliderCrank, alphaRad: number): number {
  return strokeTravelledMm(s) * Math.sin((alphaRad - tdcAlphaRad(s)) / 2) ** 2;
}

export function harmonicDifferenceMm(s: SliderCrank, alphaRad: number): number {
  return belowTdcMm(s, alphaRad) - harmonicBelowTdcMm(s, alphaRad);
}

/** Every extreme of the difference, by rising angle. Throws a RangeError unless the assembly can turn. */
export function harmonicDifferenceExtrema(s: SliderCrank): LocalExtreme[] {
  mustTurn(s);
  const half = strokeTravelledMm(s) / 2;
  const top = tdcAlphaRad(s);
  return rootsOverTurn(
    {
      at: (alphaRad) => {
        const cos = half * Math.cos(alphaRad - top);
        const sin = half * Math.sin(alphaRad - top);
        const harmonic = [-cos, sin, cos, -sin];
        const height = heightDerivatives(s, alphaRad);
        return harmonic.map((each, k) => -height[k]! - each);
      },
      bounds: (middleRad, halfRad) => heightBounds(s, middleRad, halfRad).map((each) => each + half),
    },
    1,
  ).map(({ alphaRad, falling }) => ({
    alphaRad,
    value: harmonicDifferenceMm(s, alphaRad),
    kind: falling ? 'maximum' : 'minimum',
  }));
}

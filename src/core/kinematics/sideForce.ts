/**
 * The side force of a piston on its cylinder wall.
 *
 * At the piston pin the rod can only push or pull along itself. Whatever force F the piston hands on along the bore, of gas
 * and of inertia together, the rod carries F / cos(phi) and the wall F tan(phi): the *side force share* is tan(phi). It
 * is greatest where the rod leans most. Of inertia alone F = -m a, so each unit of reciprocating mass presses on the wall
 * with -a tan(phi), whose extremes are found as roots of (a tan(phi))' = s''' t + s'' t', positive toward the side to which the crankpin moves
 * just after TDC. Friction, the weight of the parts and the rod's own swing are left out.
 *
 * Source: statics of the slider-crank as in Khurmi & Gupta, Theory of Machines, ch. 15 (thrust on the sides of the cylinder
 * walls = piston effort x tan phi), with the exact motion.
 */
import type { LocalExtreme } from './extrema.ts';
import { heightBounds, heightDerivatives, tangentBounds, tangentDerivatives } from './heightDerivatives.ts';
import { mustTurn, pinHeightPerRad2Mm, rodAngleRad, type SliderCrank } from './sliderCrank.ts';
import { rootsOverTurn, type SmoothTurn } from './turnRoots.ts';

/** Side force for each unit of force along the bore: tan(phi), positive where the big end stands on the `v` side. */
export function sideForceShare(s: SliderCrank, alphaRad: number): number {
  return Math.tan(rodAngleRad(s, alphaRad));
}

/** Force on the wall of each unit of reciprocating mass, at unit angular speed: mm per radian squared. */
export function inertiaSideForcePerRad2Mm(s: SliderCrank, alphaRad: number): number {
  return -pinHeightPerRad2Mm(s, alphaRad) * sideForceShare(s, alphaRad);
}

/** The same with its derivatives, index 0 to 3, and what none of them exceeds in size over a stretch of turn. */
export function inertiaSideForceTurn(s: SliderCrank): SmoothTurn {
  return {
    at: (alphaRad) => {
      const [, , a, a1, a2, a3] = heightDerivatives(s, alphaRad) as Six;
      const [t, t1, t2, t3] = tangentDerivatives(s, alphaRad) as Four;
      return productDerivatives([-a, -a1, -a2, -a3], [t, t1, t2, t3]);
    },
    bounds: (middleRad, halfRad) => {
      const [, , a, a1, a2, a3] = heightBounds(s, middleRad, halfRad) as Six;
      return productDerivatives([a, a1, a2, a3], tangentBounds(s, middleRad, halfRad) as Four);
    },
  };
}

/** Every local extreme of it, by rising angle. Throws a RangeError unless the assembly can turn. */
export function inertiaSideForceExtrema(s: SliderCrank): LocalExtreme[] {
  mustTurn(s);
  return rootsOverTurn(inertiaSideForceTurn(s), 1).map(({ alphaRad, falling }) => ({
    alphaRad,
    value: inertiaSideForcePerRad2Mm(s, alphaRad),
    kind: falling ? 'maximum' : 'minimum',
  }));
}

type Four = readonly [number, number, number, number];
type Six = readonly [number, number, number, number, number, number];

/** A product and its derivatives by Leibniz' rule; of bounds it makes bounds. */
function productDerivatives([f, f1, f2, f3]: Four, [g, g1, g2, g3]: Four): Four {
  return [f * g, f1 * g + f * g1, f2 * g + 2 * f1 * g1 + f * g2, f3 * g + 3 * f2 * g1 + 3 * f1 * g2 + f * g3];
}

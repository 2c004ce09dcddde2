/**
 * Inertia loads of one cylinder at a constant engine speed. Gas forces are left out: near TDC of the gas-exchange stroke,
 * where the rod is pulled hardest, there is next to no pressure above the piston.
 *
 * Reciprocating mass m: the force along the bore is -m a (positive outward); the rod carries it divided by cos(phi), the
 * cylinder wall m a tan(phi). Source: Khurmi & Gupta, Theory of Machines, ch. 15, with the exact motion.
 */
import { accelMPerS2, angularSpeedRadPerS } from '../kinematics/realTime.ts';
import { pinHeightPerRad2Mm, rodAngleRad, type SliderCrank } from '../kinematics/sliderCrank.ts';

/** Standard gravity, exact by definition. */
export const STANDARD_GRAVITY_M_PER_S2 = 9.80665;

export interface InertiaLoads {
  readonly accelMPerS2: number;
  /** Along the bore on the parts below the piston: positive pulls outward. */
  readonly alongBoreN: number;
  /** In the rod: positive is tension. */
  readonly rodTensionN: number;
  /** On the cylinder wall, positive toward the side to which the crankpin moves just after TDC. */
  readonly wallN: number;
}

/** At an angle of the crankpin from the bore. `reciprocatingKg`: piston, pin, rings, locks and the rod's small end. Throws a RangeError for a mass that is not positive. */
export function inertiaLoads(s: SliderCrank, reciprocatingKg: number, alphaRad: number, rpm: number): InertiaLoads {
  if (!(reciprocatingKg > 0 && Number.isFinite(reciprocatingKg))) {
    throw new RangeError(`reciprocating mass ${reciprocatingKg} kg must be positive and finite`);
  }
  const accel = accelMPerS2(pinHeightPerRad2Mm(s, alphaRad), rpm);
  const alongBoreN = -reciprocatingKg * accel;
  const phi = rodAngleRad(s, alphaRad);
  return {
    accelMPerS2: accel,
    alongBoreN,
    // The big end stands on the v side at a positive phi: pulled outward, the piston hangs on a rod that draws it there.
    rodTensionN: alongBoreN / Math.cos(phi),
    wallN: alongBoreN * Math.tan(phi),
  };
}

/** Centrifugal pull of what turns with the crankpin, N: m r omega². */
export function centrifugalN(rotatingKg: number, crankRadiusMm: number, rpm: number): number {
  return (rotatingKg * crankRadiusMm * angularSpeedRadPerS(rpm) ** 2) / 1000;
}

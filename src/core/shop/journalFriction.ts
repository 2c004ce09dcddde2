/**
 * What a plain bearing costs by its oil alone: Petroff's estimate for a shaft running in the middle of its bearing. It
 * neglects load, the oil's warming along the film, and everything but shear; a loaded bearing takes more. An estimate, for
 * comparing journals, never a promise of power.
 *
 * Surface speed v = pi D n; friction force F = mu (v / c) pi D L; torque T = F D / 2; power P = F v, with the radial
 * clearance c. Source: N. Petroff's equation as in Faires, Design of Machine Elements, section 11; Norton, Machine
 * Design, eq. 11.9 at no eccentricity.
 */
import { angularSpeedRadPerS } from '../kinematics/realTime.ts';

export interface PlainBearing {
  readonly diameterMm: number;
  /** Of the loaded film along the shaft. */
  readonly lengthMm: number;
  /** On the diameter, as shops state it: housing less journal. */
  readonly clearanceMm: number;
  /** Dynamic viscosity of the oil at the bearing, mPa s (centipoise). */
  readonly viscosityMPaS: number;
}

export interface BearingFriction {
  readonly surfaceSpeedMPerS: number;
  readonly forceN: number;
  readonly torqueNm: number;
  readonly powerW: number;
}

const M_PER_MM = 1e-3;
const PA_S_PER_MPA_S = 1e-3;

/** Speed of the surface of a shaft, m/s. Throws a RangeError unless both are positive and finite. */
export function surfaceSpeedMPerS(diameterMm: number, rpm: number): number {
  positive('diameter', diameterMm, 'mm');
  return (angularSpeedRadPerS(rpm) * diameterMm * M_PER_MM) / 2;
}

/** Throws a RangeError unless every dimension, the viscosity and the speed are positive and finite, and the clearance below the diameter. */
export function petroffFriction(b: PlainBearing, rpm: number): BearingFriction {
  positive('length', b.lengthMm, 'mm');
  positive('viscosity', b.viscosityMPaS, 'mPa s');
  positive('clearance', b.clearanceMm, 'mm');
  const speed = surfaceSpeedMPerS(b.diameterMm, rpm);
  if (b.clearanceMm >= b.diameterMm) throw new RangeError(`clearance ${b.clearanceMm} mm must be below the diameter`);
  const shearPerS = speed / ((b.clearanceMm / 2) * M_PER_MM);
  const areaM2 = Math.PI * b.diameterMm * b.lengthMm * M_PER_MM * M_PER_MM;
  const forceN = b.viscosityMPaS * PA_S_PER_MPA_S * shearPerS * areaM2;
  return {
    surfaceSpeedMPerS: speed,
    forceN,
    torqueNm: (forceN * b.diameterMm * M_PER_MM) / 2,
    powerW: forceN * speed,
  };
}

/** Load over the bearing's shadow, MPa: F / (D L). Throws a RangeError unless the dimensions are positive and the load not negative. */
export function projectedPressureMPa(loadN: number, diameterMm: number, lengthMm: number): number {
  positive('diameter', diameterMm, 'mm');
  positive('length', lengthMm, 'mm');
  if (!(loadN >= 0 && Number.isFinite(loadN))) throw new RangeError(`load ${loadN} N must be 0 or more and finite`);
  return loadN / (diameterMm * lengthMm);
}

function positive(name: string, value: number, unit: string): void {
  if (!(value > 0 && Number.isFinite(value)))
    throw new RangeError(`${name} ${value} ${unit} must be positive and finite`);
}

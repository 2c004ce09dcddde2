/** Crank angle for which a lobe lifts at least so much. */
import { type LiftLaw, liftAt, mirrorLaw } from './liftLaw.ts';

/** Places at which the first fall below the lift is looked for, on a flank. */
const STEPS = 720;

/** Crank angle, rad, between the last points on either side of the nose that stand at `atLiftMm`, from 0 up to the lift at psi = 0. */
export function crankAboveLiftRad(law: LiftLaw, atLiftMm: number): number {
  // The cam turns once for two turns of the crank.
  return 2 * (flankAboveRad(law, atLiftMm) + flankAboveRad(mirrorLaw(law), atLiftMm));
}

function flankAboveRad(law: LiftLaw, atLiftMm: number): number {
  const end = law.openingRad;
  let low = 0;
  let high = end;
  for (let k = 1; k <= STEPS; k++) {
    const psi = (k / STEPS) * end;
    if (liftAt(law, psi).h >= atLiftMm) low = psi;
    else {
      high = psi;
      break;
    }
  }
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (liftAt(law, middle).h >= atLiftMm) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * How far a piston is from its dead centres, the angle at which it is so far, and how long it stays near them: closed
 * forms, offset included.
 *
 * The pin at height s on its line stands at D = sqrt(s^2 + e^2) from the crank axis, in the direction delta = atan2(e, s)
 * from the bore. Crank and rod make a triangle over D, so the crankpin stands at delta + gamma on the way down and at
 * delta - gamma on the way up, with the law of cosines written for half the angle, which does not cancel near the dead
 * centres:
 *
 *   sin^2(gamma / 2) = (l + r - D) (l - r + D) / (4 D r)
 *   cos^2(gamma / 2) = (D + r - l) (D + r + l) / (4 D r)
 *
 * and l + r - D = d (2 sTdc - d) / (l + r + D) where the pin is d below TDC, D + r - l = d (2 sBdc + d) / (D + l - r) where it
 * is d above BDC, because (l + r)^2 = sTdc^2 + e^2 and (l - r)^2 = sBdc^2 + e^2. Source: plane trigonometry.
 */
import {
  bdcPinHeightMm,
  mustTurn,
  pinHeightMm,
  type SliderCrank,
  strokeTravelledMm,
  tdcAlphaRad,
  tdcPinHeightMm,
} from './sliderCrank.ts';

/** How far the piston has come down from its true TDC, mm; 0 to the stroke travelled. */
export function belowTdcMm(s: SliderCrank, alphaRad: number): number {
  return tdcPinHeightMm(s) - pinHeightMm(s, alphaRad);
}

/** The same at an angle counted from true TDC, as a degree wheel set to zero there reads. */
export function belowTdcAfterMm(s: SliderCrank, afterTdcRad: number): number {
  return belowTdcMm(s, tdcAlphaRad(s) + afterTdcRad);
}

export interface Passed {
  /** Crankpin angles from the bore axis: on the way down, and on the way up before the next TDC. */
  readonly downAlphaRad: number;
  readonly upAlphaRad: number;
}

/** Where the piston is so far below TDC: from nothing to the stroke travelled, else a RangeError. */
export function alphasBelowTdc(s: SliderCrank, belowMm: number): Passed {
  mustTurn(s);
  const travelMm = strokeTravelledMm(s);
  if (!(belowMm >= 0 && belowMm <= travelMm)) {
    throw new RangeError(`${belowMm} mm below TDC can't be reached: from 0 to the stroke travelled, ${travelMm} mm`);
  }
  const sMm = tdcPinHeightMm(s) - belowMm;
  const delta = Math.atan2(s.offsetMm, sMm);
  // Beyond the middle the other half angle is the one that does not cancel.
  const gamma =
    belowMm <= travelMm / 2 ? gammaFromTdc(s, belowMm) : Math.PI - restToBdc(s, Math.max(0, sMm - bdcPinHeightMm(s)));
  return { downAlphaRad: delta + gamma, upAlphaRad: delta + 2 * Math.PI - gamma };
}

/** A stretch of the turn round a dead centre. */
export interface Dwell {
  readonly fromAlphaRad: number;
  readonly toAlphaRad: number;
  readonly dwellRad: number;
}

/** The turn during which the piston is within a distance of true TDC: above nothing and below the stroke travelled, else a RangeError. */
export function dwellAtTdc(s: SliderCrank, withinMm: number): Dwell {
  mustLieWithin(s, withinMm);
  const delta = Math.atan2(s.offsetMm, tdcPinHeightMm(s) - withinMm);
  const gamma = gammaFromTdc(s, withinMm);
  return { fromAlphaRad: delta - gamma, toAlphaRad: delta + gamma, dwellRad: 2 * gamma };
}

/** The same round true BDC. */
export function dwellAtBdc(s: SliderCrank, withinMm: number): Dwell {
  mustLieWithin(s, withinMm);
  const delta = Math.atan2(s.offsetMm, bdcPinHeightMm(s) + withinMm);
  const rest = restToBdc(s, withinMm);
  return { fromAlphaRad: delta + Math.PI - rest, toAlphaRad: delta + Math.PI + rest, dwellRad: 2 * rest };
}

/** gamma where the pin is `d` below TDC. */
function gammaFromTdc(s: SliderCrank, d: number): number {
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  const top = tdcPinHeightMm(s);
  const D = Math.hypot(top - d, e);
  return 2 * Math.asin(Math.min(1, Math.sqrt((((d * (2 * top - d)) / (l + r + D)) * (l - r + D)) / (4 * D * r))));
}

/** pi - gamma where the pin is `d` above BDC. */
function restToBdc(s: SliderCrank, d: number): number {
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  const bottom = bdcPinHeightMm(s);
  const D = Math.hypot(bottom + d, e);
  return 2 * Math.asin(Math.min(1, Math.sqrt((((d * (2 * bottom + d)) / (D + l - r)) * (D + r + l)) / (4 * D * r))));
}

function mustLieWithin(s: SliderCrank, withinMm: number): void {
  mustTurn(s);
  const travelMm = strokeTravelledMm(s);
  if (withinMm > 0 && withinMm < travelMm) return;
  throw new RangeError(
    `a distance of ${withinMm} mm from a dead centre can't be used: above 0 and below the stroke travelled, ${travelMm} mm`,
  );
}

/**
 * What rod ratio does to the motion, measured: the figures by which long and short rods are told apart, of one slider-crank,
 * for each radian a second of crank speed. Angles count from the true TDC, as on a degree wheel set to zero there.
 */
import { rodRatio } from '../shop/rodRatio.ts';
import { motionExtrema } from './extrema.ts';
import { inertiaSideForceExtrema, sideForceShare } from './sideForce.ts';
import { bdcAlphaRad, pinHeightPerRad2Mm, type SliderCrank, strokeTravelledMm, tdcAlphaRad } from './sliderCrank.ts';
import { belowTdcAfterMm, dwellAtBdc, dwellAtTdc } from './travel.ts';

/** A figure and the angle after TDC, 0 to 2 pi, at which it stands. */
export interface Placed {
  readonly afterTdcRad: number;
  readonly value: number;
}

export interface MotionMeasures {
  /** Rod length over stroke. */
  readonly rodRatio: number;
  readonly travelMm: number;
  /** Crank angle within the chosen distance of each dead centre. */
  readonly dwellTdcRad: number;
  readonly dwellBdcRad: number;
  /** Greatest piston speeds as sizes, mm per radian: toward the crank on the way down, outward on the way up. */
  readonly peakSpeedDown: Placed;
  readonly peakSpeedUp: Placed;
  /** Accelerations at the true dead centres as sizes, mm per radian squared, and how many times the second the first is. */
  readonly accelTdcPerRad2Mm: number;
  readonly accelBdcPerRad2Mm: number;
  readonly accelRatio: number;
  /** Greatest acceleration outward: below a rod ratio of about 1.9 it stands beside BDC, not at it. */
  readonly peakAccelOutward: Placed;
  /** Greatest rod angles as sizes: on the way down, a quarter turn of the crankpin past the bore axis, and on the way up. */
  readonly rodAngleDownRad: number;
  readonly rodAngleUpRad: number;
  /** Greatest side force for each unit of force along the bore, and the greatest of inertia alone for each unit of reciprocating mass. */
  readonly sideForceShare: number;
  readonly inertiaSideForce: Placed;
  /** A quarter turn after TDC: how far down, and what part of the stroke travelled. */
  readonly belowAt90Mm: number;
  readonly shareAt90: number;
}

/** `withinMm` of each dead centre: above nothing and below the stroke travelled, else a RangeError. */
export function motionMeasures(s: SliderCrank, withinMm: number): MotionMeasures {
  const extrema = motionExtrema(s);
  const tdc = tdcAlphaRad(s);
  const placed = (alphaRad: number, value: number): Placed => ({ afterTdcRad: wrapped(alphaRad - tdc), value });
  const accelTdc = Math.abs(pinHeightPerRad2Mm(s, tdc));
  const accelBdc = Math.abs(pinHeightPerRad2Mm(s, bdcAlphaRad(s)));
  const side = inertiaSideForceExtrema(s).reduce((kept, next) =>
    Math.abs(next.value) > Math.abs(kept.value) ? next : kept,
  );
  const belowAt90Mm = belowTdcAfterMm(s, Math.PI / 2);
  const travelMm = strokeTravelledMm(s);
  return {
    rodRatio: rodRatio(s.rodLengthMm, 2 * s.crankRadiusMm),
    travelMm,
    dwellTdcRad: dwellAtTdc(s, withinMm).dwellRad,
    dwellBdcRad: dwellAtBdc(s, withinMm).dwellRad,
    peakSpeedDown: placed(extrema.inwardSpeed.alphaRad, -extrema.inwardSpeed.value),
    peakSpeedUp: placed(extrema.outwardSpeed.alphaRad, extrema.outwardSpeed.value),
    accelTdcPerRad2Mm: accelTdc,
    accelBdcPerRad2Mm: accelBdc,
    accelRatio: accelTdc / accelBdc,
    peakAccelOutward: placed(extrema.outwardAccel.alphaRad, extrema.outwardAccel.value),
    rodAngleDownRad: Math.abs(extrema.rodAngleToV.value),
    rodAngleUpRad: Math.abs(extrema.rodAngleFromV.value),
    sideForceShare: Math.max(
      ...[extrema.rodAngleToV, extrema.rodAngleFromV].map((x) => Math.abs(sideForceShare(s, x.alphaRad))),
    ),
    inertiaSideForce: placed(side.alphaRad, Math.abs(side.value)),
    belowAt90Mm,
    shareAt90: belowAt90Mm / travelMm,
  };
}

function wrapped(rad: number): number {
  const turn = 2 * Math.PI;
  const rest = rad % turn;
  return rest < 0 ? rest + turn : rest;
}

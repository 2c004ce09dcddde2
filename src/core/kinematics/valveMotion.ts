/**
 * How a valve moves with crank angle, in the engine and as its own piston sees it, with bounds on speed and acceleration.
 *
 * The valve stands open by x = rocker ratio * lobe lift - lash along its own axis, and is shut where that is below zero. At crank angle
 * theta the follower stands at psi = (peak - theta) / 2 of the lobe, opening flank positive (core/lobe/liftLaw.ts), so that
 *
 *   x' = -ratio h'(psi) / 2        x'' = ratio h''(psi) / 4
 *
 * Where lash is taken up x' jumps from nothing to its value, and no bound on an acceleration would hold. So the corner is rounded on the
 * safe side: within w = `EASED_MM` of the seat the lift is taken as (x + w)^2 / (4 w), which meets 0 at -w and x at +w without a kink and
 * is nowhere below the true lift, and nowhere above it by more than w / 4. There
 *
 *   lift'' = x'^2 / (2 w) + (x + w) / (2 w) x'',   at most  (greatest |x'| where x <= w)^2 / (2 w) + greatest |x''|
 *
 * A valve without lash on a closed form starts from rest: its lift is x itself. Readings of a measured lobe may lie above its law by the
 * deviation: that is added to the lift.
 */
import { flankPeaks, type LiftLaw, liftAt, mirrorLaw, speedUpToLift } from '../lobe/liftLaw.ts';
import type { Motion } from '../plane/pose.ts';
import { POSE_DTURN, POSE_DX, POSE_DY, POSE_TURN, POSE_X, POSE_Y } from '../plane/pose.ts';
import { pistonMotion } from './motions.ts';
import type { SliderCrank } from './sliderCrank.ts';
import { pinHeightMm, pinHeightPerRadMm } from './sliderCrank.ts';

/** See above, mm of valve lift: what it adds at most, 0.005 mm, is far below what lash is set to. */
export const EASED_MM = 0.02;

/** Bounds hold for the figures as rounded: see motions.ts. */
const BOUND_ROUNDING = 1 + 1e-12;

export interface ValveTrain {
  readonly law: LiftLaw;
  /** By how much the lobe may lift more than its law, mm; 0 for a closed form. */
  readonly deviationMm: number;
  readonly rockerRatio: number;
  readonly lashMm: number;
  /** Crank angle of the greatest lift. */
  readonly peakRad: number;
}

/** Where a shut valve stands in its bank: middle of its face from the bore axis, and above the crank axis along the bore. */
export interface ValveSeat {
  readonly acrossMm: number;
  readonly heightMm: number;
  /** Lean of the stem, clockwise from outward along the bore. */
  readonly leanRad: number;
}

/** Lift along the valve's axis, its derivative by crank angle, and bounds over the cycle. */
export interface ValveLift {
  readonly at: (crankAngleRad: number, out: { mm: number; perRadMm: number }) => void;
  readonly speedMm: number;
  readonly accelMm: number;
}

const CYCLE = 4 * Math.PI;

export function valveLift(train: ValveTrain): ValveLift {
  const { law, deviationMm, rockerRatio, lashMm, peakRad } = train;
  const eased = lashMm > 0 || law.name === 'table';
  const [one, other] = [flankPeaks(law), flankPeaks(mirrorLaw(law))];
  const speed = (rockerRatio * Math.max(one.h1, other.h1)) / 2;
  const accel = (rockerRatio * Math.max(one.h2, other.h2)) / 4;
  const slow = eased ? (rockerRatio * speedUpToLift(law, (lashMm + EASED_MM) / rockerRatio - deviationMm)) / 2 : 0;
  return {
    at(crankAngleRad, out) {
      const before = peakRad - crankAngleRad;
      const { h, h1 } = liftAt(law, (before - CYCLE * Math.round(before / CYCLE)) / 2);
      const x = rockerRatio * (h + deviationMm) - lashMm;
      const perRad = (-rockerRatio * h1) / 2;
      if (!eased || x >= EASED_MM) {
        out.mm = x;
        out.perRadMm = perRad;
      } else if (x <= -EASED_MM) {
        out.mm = 0;
        out.perRadMm = 0;
      } else {
        out.mm = ((x + EASED_MM) * (x + EASED_MM)) / (4 * EASED_MM);
        out.perRadMm = ((x + EASED_MM) / (2 * EASED_MM)) * perRad;
      }
    },
    speedMm: speed * BOUND_ROUNDING,
    accelMm: (accel + (slow * slow) / (2 * EASED_MM)) * BOUND_ROUNDING,
  };
}

/**
 * A valve in the engine frame. Body origin in the middle of its face, body +y up its stem, body +x to the bank's `v` side of that. The bore
 * axis lies `boreOffsetMm` to the `v` side of the crank axis.
 */
export function valveMotion(train: ValveTrain, seat: ValveSeat, bankAngleRad: number, boreOffsetMm: number): Motion {
  const lift = valveLift(train);
  const { x, y } = seatInEngine(seat, bankAngleRad, boreOffsetMm);
  const turn = bankAngleRad + seat.leanRad;
  return alongAxis(lift, turn, (_crankAngleRad, out) => {
    out[POSE_X] = x;
    out[POSE_Y] = y;
    out[POSE_DX] = 0;
    out[POSE_DY] = 0;
  });
}

/** Middle of the face of the shut valve, engine frame. */
export function seatInEngine(seat: ValveSeat, bankAngleRad: number, boreOffsetMm: number): { x: number; y: number } {
  const ux = Math.sin(bankAngleRad);
  const uy = Math.cos(bankAngleRad);
  const across = boreOffsetMm + seat.acrossMm;
  return { x: seat.heightMm * ux + across * uy, y: seat.heightMm * uy - across * ux };
}

/**
 * A valve as its own piston sees it: in a frame with the bore axis as y and the pin at height 0, where the piston stands still and the
 * valve comes down by its lift and by the height of the pin. Bounds: the sum of those of both.
 */
export function valveFromPiston(train: ValveTrain, seat: ValveSeat, s: SliderCrank, alphaAtZeroRad: number): Motion {
  const lift = valveLift(train);
  const piston = pistonMotion(s, 0, alphaAtZeroRad, 0);
  const { acrossMm, heightMm, leanRad } = seat;
  const motion = alongAxis(lift, leanRad, (crankAngleRad, out) => {
    const alpha = crankAngleRad + alphaAtZeroRad;
    out[POSE_X] = acrossMm;
    out[POSE_Y] = heightMm - pinHeightMm(s, alpha);
    out[POSE_DX] = 0;
    out[POSE_DY] = -pinHeightPerRadMm(s, alpha);
  });
  return {
    ...motion,
    originSpeedMm: motion.originSpeedMm + piston.originSpeedMm,
    originAccelMm: motion.originAccelMm + piston.originAccelMm,
  };
}

/** A body that keeps its turn, moved from a place down its own axis by a lift. */
function alongAxis(lift: ValveLift, turn: number, from: Motion['write']): Motion {
  const sin = Math.sin(turn);
  const cos = Math.cos(turn);
  const now = { mm: 0, perRadMm: 0 };
  return {
    write(crankAngleRad, out) {
      from(crankAngleRad, out);
      lift.at(crankAngleRad, now);
      out[POSE_X] = out[POSE_X]! - now.mm * sin;
      out[POSE_Y] = out[POSE_Y]! - now.mm * cos;
      out[POSE_TURN] = turn;
      out[POSE_DX] = out[POSE_DX]! - now.perRadMm * sin;
      out[POSE_DY] = out[POSE_DY]! - now.perRadMm * cos;
      out[POSE_DTURN] = 0;
    },
    originSpeedMm: lift.speedMm,
    originAccelMm: lift.accelMm,
    turnSpeed: 0,
    turnAccel: 0,
  };
}

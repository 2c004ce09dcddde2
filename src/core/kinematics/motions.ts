/**
 * How each kind of body moves with crank angle: fixed, with the crank, with the camshaft, with a rod, with a piston;
 * each with bounds on its speed and acceleration that hold over the whole turn.
 *
 * All bounds are per radian of crank angle and are widened by `BOUND_ROUNDING`, so that they also hold for the figures
 * as rounded. With q = r sin(alpha) - e and w = sqrt(l^2 - q^2) they rest on three facts, true at every alpha:
 *
 *   |q| <= Q = r + |e|        w >= wMin = sqrt(l^2 - Q^2) > 0        |q| / w <= Q / wMin
 *
 * Crank angle is in radians, any value; bank angles and phases are in radians, clockwise from +y of the engine frame.
 */
import type { Motion, Pose } from '../plane/pose.ts';
import { POSE_DTURN, POSE_DX, POSE_DY, POSE_TURN, POSE_X, POSE_Y } from '../plane/pose.ts';
import type { SliderCrank } from './sliderCrank.ts';
import { mustTurn, rodAnglePerRad, rodAngleRad } from './sliderCrank.ts';

/** Factor on every bound: a pose is computed in some tens of roundings of 1.1e-16 each, far below one part in 10^12. */
const BOUND_ROUNDING = 1 + 1e-12;

/** A body that stands still in the engine frame: the block. */
export function fixedMotion(): Motion {
  return {
    write: (_crankAngleRad, out) => {
      out.fill(0);
    },
    originSpeedMm: 0,
    originAccelMm: 0,
    turnSpeed: 0,
    turnAccel: 0,
  };
}

/** Turns with the crank about the crank axis: turn = crank angle + phase. */
export function crankMotion(phaseRad: number): Motion {
  return camMotion(0, 0, 1, phaseRad);
}

/**
 * Turns about a fixed axis at (xMm, yMm): turn = ratio * crank angle + phase. A camshaft has ratio 0.5 when driven by
 * chain or belt, -0.5 when driven by a pair of gears.
 */
export function camMotion(xMm: number, yMm: number, ratio: number, phaseRad: number): Motion {
  return {
    write: (crankAngleRad, out) => {
      out[POSE_X] = xMm;
      out[POSE_Y] = yMm;
      out[POSE_TURN] = ratio * crankAngleRad + phaseRad;
      out[POSE_DX] = 0;
      out[POSE_DY] = 0;
      out[POSE_DTURN] = ratio;
    },
    originSpeedMm: 0,
    originAccelMm: 0,
    turnSpeed: Math.abs(ratio) * BOUND_ROUNDING,
    turnAccel: 0,
  };
}

/**
 * A rod. Body origin at the crankpin centre, body +y from big end to small end, body +x on the bank's `v` side when the
 * rod is in line with the bore. `alphaAtZeroRad`: angle of the crankpin from the bore axis at crank angle 0.
 *
 * In bank axes the rod runs from (r cos alpha, r sin alpha) to (s, e), that is along (w, -q): it leans by phi toward
 * -v when the big end stands on the `v` side. Turns grow from `u` toward `v`, so turn = bank angle - phi.
 *
 * Bounds. The crankpin goes round a circle: speed and acceleration are r. phi' = r cos(alpha) / w, hence
 * |phi'| <= r / wMin. In phi'' = (-r sin(alpha) w^2 + q r^2 cos^2(alpha)) / w^3 put r sin(alpha) = q + e; the numerator
 * becomes -(q (l^2 - r^2 + e^2) + e (l^2 + q^2)), whose size is at most Q (l^2 - r^2 + e^2) + |e| (l^2 + Q^2), as
 * l > r. Throws a RangeError unless the assembly can turn.
 */
export function rodMotion(s: SliderCrank, bankAngleRad: number, alphaAtZeroRad: number): Motion {
  mustTurn(s);
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  const q = r + Math.abs(e);
  const wMin = Math.sqrt((l - q) * (l + q));
  const leanAccel = (q * ((l - r) * (l + r) + e * e) + Math.abs(e) * (l * l + q * q)) / (wMin * wMin * wMin);
  return {
    write: (crankAngleRad, out) => {
      const alpha = crankAngleRad + alphaAtZeroRad;
      const pin = bankAngleRad + alpha;
      const x = r * Math.sin(pin);
      const y = r * Math.cos(pin);
      // The rod's angle and its derivative as in sliderCrank.ts, in one go.
      const across = r * Math.sin(alpha) - e;
      out[POSE_X] = x;
      out[POSE_Y] = y;
      out[POSE_TURN] = bankAngleRad - Math.asin(across / l);
      out[POSE_DX] = y;
      out[POSE_DY] = -x;
      out[POSE_DTURN] = -(r * Math.cos(alpha)) / Math.sqrt((l - across) * (l + across));
    },
    originSpeedMm: r * BOUND_ROUNDING,
    originAccelMm: r * BOUND_ROUNDING,
    turnSpeed: (r / wMin) * BOUND_ROUNDING,
    turnAccel: leanAccel * BOUND_ROUNDING,
  };
}

/**
 * A piston. Body origin on the bore axis at the height of the pin, body +y outward along the bore, body +x the bank's
 * `v`; it does not turn. The bore axis lies `boreOffsetMm` to the `v` side of the crank axis; the pin line, at the
 * slider's own total offset, may lie elsewhere.
 *
 * Bounds. s' = -r (sin(alpha) + (q / w) cos(alpha)), at most r sqrt(1 + (Q / wMin)^2) = r l / wMin in size.
 * s'' = -r (cos(alpha) - (q / w) sin(alpha)) - r^2 cos^2(alpha) l^2 / w^3: the first part at most r l / wMin again, the
 * second at most r^2 l^2 / wMin^3. Throws a RangeError unless the assembly can turn.
 */
export function pistonMotion(
  s: SliderCrank,
  bankAngleRad: number,
  alphaAtZeroRad: number,
  boreOffsetMm: number,
): Motion {
  mustTurn(s);
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  const q = r + Math.abs(e);
  const wMin = Math.sqrt((l - q) * (l + q));
  const speed = (r * l) / wMin;
  const ux = Math.sin(bankAngleRad);
  const uy = Math.cos(bankAngleRad);
  return {
    write: (crankAngleRad: number, out: Pose) => {
      // Height and its derivative as in sliderCrank.ts, in one go.
      const alpha = crankAngleRad + alphaAtZeroRad;
      const sine = r * Math.sin(alpha);
      const cosine = r * Math.cos(alpha);
      const across = sine - e;
      const along = Math.sqrt((l - across) * (l + across));
      const height = cosine + along;
      const heightPerRad = -sine - (across * cosine) / along;
      out[POSE_X] = height * ux + boreOffsetMm * uy;
      out[POSE_Y] = height * uy - boreOffsetMm * ux;
      out[POSE_TURN] = bankAngleRad;
      out[POSE_DX] = heightPerRad * ux;
      out[POSE_DY] = heightPerRad * uy;
      out[POSE_DTURN] = 0;
    },
    originSpeedMm: speed * BOUND_ROUNDING,
    originAccelMm: (speed + (r * r * l * l) / (wMin * wMin * wMin)) * BOUND_ROUNDING,
    turnSpeed: 0,
    turnAccel: 0,
  };
}

/**
 * A rod as its own piston sees it: swinging about the pin at (pinXMm, 0) of the piston's frame. Body origin at the pin, body
 * +y from big end to small end. The gap of rod and piston is the same as between `rodMotion` and `pistonMotion`, but here
 * the small end visibly stands still, and a gap that is constant is known to be so.
 */
export function swingMotion(s: SliderCrank, alphaAtZeroRad: number, pinXMm: number): Motion {
  const rod = rodMotion(s, 0, alphaAtZeroRad);
  return {
    write: (crankAngleRad, out) => {
      const alpha = crankAngleRad + alphaAtZeroRad;
      out[POSE_X] = pinXMm;
      out[POSE_Y] = 0;
      out[POSE_TURN] = -rodAngleRad(s, alpha);
      out[POSE_DX] = 0;
      out[POSE_DY] = 0;
      out[POSE_DTURN] = -rodAnglePerRad(s, alpha);
    },
    originSpeedMm: 0,
    originAccelMm: 0,
    turnSpeed: rod.turnSpeed,
    turnAccel: rod.turnAccel,
  };
}

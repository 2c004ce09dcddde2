/**
 * Forces and couples by which pistons, rods and crank shake the engine, order by order of crank speed, as vectors across
 * and up in the engine, over the layout.
 *
 * The inertia force of a reciprocating mass on the engine is -m a along its bore; a is periodic in the crankpin's angle
 * alpha, so it is a sum of orders: -a = r omega² sum (C_k cos k alpha + S_k sin k alpha). The coefficients come from
 * the exact motion, offset included, by the trapezoidal rule, which for a smooth periodic function converges faster than
 * any power of the count of points. With l / r = n and no offset C_1 = 1, C_2 = 1/n + 1/(4 n³) + 15/(128 n⁵) …, C_4 =
 * -(1/(4 n³) + 3/(16 n⁵) + …). Source: Bevan, The Theory of Machines, ch. 14; Taylor, The Internal-Combustion Engine in Theory
 * and Practice, vol. 2, ch. 8 (series from memory, checked against the quadrature in the tests).
 *
 * A rotating mass, crankpin or counterweight, is a vector of the first order. Force and couple of an order go round an
 * ellipse; its half axes are what is reported. Couples are taken about a place along the shaft: where the force is zero
 * it does not matter which.
 */
import { pinHeightPerRad2Mm, type SliderCrank } from '../kinematics/sliderCrank.ts';

export interface ShakingCylinder {
  readonly slider: SliderCrank;
  readonly bankAngleRad: number;
  /** Crankpin from the bore axis at crank angle 0. */
  readonly alphaAtZeroRad: number;
  readonly zMm: number;
  readonly reciprocatingKg: number;
}

/** A mass that turns with the crank, seen at crank angle 0. */
export interface TurningMass {
  readonly angleRad: number;
  readonly zMm: number;
  readonly massRadiusKgMm: number;
}

/** An ellipse gone round k times a turn: greatest and least reach, N or N m. The least is negative where it goes round against the crank. */
export interface Ellipse {
  readonly greatest: number;
  readonly least: number;
}

export interface ShakingOrder {
  readonly order: number;
  readonly forceN: Ellipse;
  readonly coupleNm: Ellipse;
}

const POINTS = 256;
const MM_PER_M = 1000;

/** C_k and S_k of one slider-crank, both per r omega². */
export function inertiaOrder(slider: SliderCrank, order: number): { readonly cos: number; readonly sin: number } {
  let [cos, sin] = [0, 0];
  for (let k = 0; k < POINTS; k++) {
    const alpha = (2 * Math.PI * k) / POINTS;
    const pull = -pinHeightPerRad2Mm(slider, alpha) / slider.crankRadiusMm;
    cos += pull * Math.cos(order * alpha);
    sin += pull * Math.sin(order * alpha);
  }
  return { cos: (2 * cos) / POINTS, sin: (2 * sin) / POINTS };
}

/** Complex amplitude: the real part of (re + i im) e^(-i k theta) is the value at crank angle theta. */
interface Wave {
  re: number;
  im: number;
}

/** Forces and couples of one order from 1 to 16, at a constant speed. Throws a RangeError for another order. */
export function shakingOrder(
  cylinders: readonly ShakingCylinder[],
  turning: readonly TurningMass[],
  order: number,
  omegaRadPerS: number,
  aboutMm: number,
): ShakingOrder {
  if (!(Number.isInteger(order) && order >= 1 && order <= 16)) {
    throw new RangeError(`order ${order} must be a whole number from 1 to 16`);
  }
  const fx: Wave = { re: 0, im: 0 };
  const fy: Wave = { re: 0, im: 0 };
  const mx: Wave = { re: 0, im: 0 };
  const my: Wave = { re: 0, im: 0 };
  const add = (wave: Wave, by: number, re: number, im: number): void => {
    wave.re += by * re;
    wave.im += by * im;
  };
  for (const c of cylinders) {
    const { cos, sin } = inertiaOrder(c.slider, order);
    // C cos k(theta + a) + S sin k(theta + a) is the real part of (C + i S) e^(-i k a) e^(-i k theta).
    const at = order * c.alphaAtZeroRad;
    const force = (c.reciprocatingKg * c.slider.crankRadiusMm * omegaRadPerS ** 2) / MM_PER_M;
    const re = force * (cos * Math.cos(at) + sin * Math.sin(at));
    const im = force * (sin * Math.cos(at) - cos * Math.sin(at));
    const arm = (c.zMm - aboutMm) / MM_PER_M;
    const [x, y] = [Math.sin(c.bankAngleRad), Math.cos(c.bankAngleRad)];
    add(fx, x, re, im);
    add(fy, y, re, im);
    add(mx, x * arm, re, im);
    add(my, y * arm, re, im);
  }
  if (order === 1) {
    for (const t of turning) {
      const force = (t.massRadiusKgMm * omegaRadPerS ** 2) / MM_PER_M;
      const arm = (t.zMm - aboutMm) / MM_PER_M;
      // At crank angle theta it points along (sin(theta + g), cos(theta + g)).
      const [s, c] = [Math.sin(t.angleRad), Math.cos(t.angleRad)];
      add(fx, force, s, c);
      add(fy, force, c, -s);
      add(mx, force * arm, s, c);
      add(my, force * arm, c, -s);
    }
  }
  return { order, forceN: ellipse(fx, fy), coupleNm: ellipse(mx, my) };
}

/**
 * Half axes of the path of (Re X e^(-i t), Re Y e^(-i t)): with the two turning vectors into which it divides, one each way round,
 * of lengths p and q, they are p + q and p - q.
 */
function ellipse(x: Wave, y: Wave): Ellipse {
  // Turning from up toward the right, with the crank: Y + i X; against it: Y - i X.
  const withCrank = Math.hypot(y.re + x.im, y.im - x.re) / 2;
  const against = Math.hypot(y.re - x.im, y.im + x.re) / 2;
  return { greatest: withCrank + against, least: withCrank - against };
}

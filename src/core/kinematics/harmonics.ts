/**
 * The exact piston motion taken apart into harmonics of the crank angle, and the two terms that textbooks keep.
 *
 * Pin height is s(alpha) = mean + sum over k of c_k cos(k alpha) + s_k sin(k alpha). The coefficients are those of Fourier,
 * of the exact motion with its offset: sums over equal steps of one turn, which for a smooth periodic function come as near
 * as double numbers allow once the steps are fine enough for its highest harmonics. By the singularity of
 * sqrt(l^2 - (r sin alpha - e)^2) nearest to the real axis those fall off as exp(-k a), cosh(a) = (l - |e|) / r, which
 * says how many steps that is. The part of the acceleration of order k is -k^2 times that of the height.
 *
 * Without offset only the first and the even orders are there, and with lambda = r / l the acceleration outward is
 *
 *   -r (cos alpha + A2 cos 2 alpha + A4 cos 4 alpha + A6 cos 6 alpha ...),
 *   A2 = lambda + lambda^3 / 4 + 15 lambda^5 / 128 ...,   A4 = -(lambda^3 / 4 + 3 lambda^5 / 16 ...),   A6 = 9 lambda^5 / 128 ...
 *
 * (the binomial series; its coefficients stand in books on engine balance and were derived anew here). The textbook form
 * -r (cos alpha + lambda cos 2 alpha) keeps the leading terms of the first two orders and leaves offset and the rest out:
 * Khurmi & Gupta, Theory of Machines, ch. 15; Bevan, The Theory of Machines, ch. 14.
 */
import { mustTurn, pinHeightMm, type SliderCrank } from './sliderCrank.ts';

/** One order of a motion: cosMm cos(order alpha) + sinMm sin(order alpha). */
export interface Harmonic {
  readonly order: number;
  readonly cosMm: number;
  readonly sinMm: number;
}

export interface Harmonics {
  readonly meanMm: number;
  /** Orders 1, 2, 3 ... */
  readonly orders: readonly Harmonic[];
}

/** Harmonics beyond exp(-40) of the first, 4e-18, are below rounding. */
const FALLEN = 40;
/** Least and most steps; the most is reached only where the rod can hardly pass the crank, at (l - |e|) / r below 1 + 2e-7. */
const FEWEST_STEPS = 64;
const MOST_STEPS = 65_536;

/** Pin height by harmonics of orders 1 to `most`. Throws a RangeError unless the assembly can turn. */
export function pinHeightHarmonics(s: SliderCrank, most: number): Harmonics {
  mustTurn(s);
  const fall = Math.acosh((s.rodLengthMm - Math.abs(s.offsetMm)) / s.crankRadiusMm);
  const steps = Math.min(MOST_STEPS, Math.max(FEWEST_STEPS, 2 * Math.ceil(most + FALLEN / fall)));
  const cos = new Float64Array(most + 1);
  const sin = new Float64Array(most + 1);
  for (let n = 0; n < steps; n++) {
    const alpha = (2 * Math.PI * n) / steps;
    const height = pinHeightMm(s, alpha);
    for (let k = 0; k <= most; k++) {
      // The angle is kept within one turn, where sine and cosine round least.
      const kAlpha = (2 * Math.PI * ((k * n) % steps)) / steps;
      cos[k]! += height * Math.cos(kAlpha);
      sin[k]! += height * Math.sin(kAlpha);
    }
  }
  return {
    meanMm: cos[0]! / steps,
    orders: Array.from({ length: most }, (_, i) => ({
      order: i + 1,
      cosMm: (2 * cos[i + 1]!) / steps,
      sinMm: (2 * sin[i + 1]!) / steps,
    })),
  };
}

/** What an order of the height gives to it at an angle, mm. */
export function heightPartMm(h: Harmonic, alphaRad: number): number {
  return h.cosMm * Math.cos(h.order * alphaRad) + h.sinMm * Math.sin(h.order * alphaRad);
}

/** What an order of the height gives to the acceleration, mm per radian squared, positive outward. */
export function accelPartPerRad2Mm(h: Harmonic, alphaRad: number): number {
  return -h.order * h.order * heightPartMm(h, alphaRad);
}

/** Greatest size of an order's part of the acceleration, mm per radian squared. */
export function accelAmplitudePerRad2Mm(h: Harmonic): number {
  return h.order * h.order * Math.hypot(h.cosMm, h.sinMm);
}

/** The first- and second-order terms as textbooks have them, mm per radian squared, positive outward; offset left out. */
export function textbookAccelPerRad2Mm(
  s: SliderCrank,
  alphaRad: number,
): { readonly first: number; readonly second: number } {
  const { crankRadiusMm: r, rodLengthMm: l } = s;
  return { first: -r * Math.cos(alphaRad), second: -((r * r) / l) * Math.cos(2 * alphaRad) };
}

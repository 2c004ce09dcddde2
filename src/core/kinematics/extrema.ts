/**
 * The greatest piston speeds, all extremes of piston acceleration and the greatest rod angles, at their own crankpin
 * angles: found as roots, never as the largest of some samples. Offset included.
 *
 * Rod angle: phi' = r cos(alpha) / w vanishes only where cos(alpha) does, so the extremes stand exactly at 90 and 270
 * degrees. Speed and acceleration: all roots of s'' and of s''' over one turn, by `rootsOverTurn`.
 *
 * Derivatives of s to the fifth follow from s = r cos(alpha) + w and from differentiating w^2 = l^2 - q^2:
 *
 *   w w'                              = -(q q')
 *   w w''  + w'^2                     = -(q q'' + q'^2)
 *   w w''' + 3 w' w''                 = -(q q''' + 3 q' q'')
 *   w w4   + 4 w' w''' + 3 w''^2      = -(q q4 + 4 q' q''' + 3 q''^2)
 *   w w5   + 5 w' w4 + 10 w'' w'''    = -(q q5 + 5 q' q4 + 10 q'' q''')   (4, 5: fourth, fifth derivative)
 *
 * and the same identities with sizes in place of values bound them on any interval where |q| <= qMax and w >= wMin.
 */
import type { SliderCrank } from './sliderCrank.ts';
import { mustTurn, pinHeightPerRad2Mm, pinHeightPerRadMm, rodAngleRad } from './sliderCrank.ts';

export interface Extreme {
  /** Crankpin angle from the bore axis, 0 to 2 pi. */
  readonly alphaRad: number;
  readonly value: number;
}

export interface LocalExtreme extends Extreme {
  readonly kind: 'maximum' | 'minimum';
}

export interface MotionExtrema {
  /** Speeds in mm per radian of crank angle, positive outward; the inward one has the most negative value. */
  readonly outwardSpeed: Extreme;
  readonly inwardSpeed: Extreme;
  /** Every local extreme of the acceleration, mm per radian squared, positive outward, by rising angle. */
  readonly accels: readonly LocalExtreme[];
  /** The largest and the smallest of them. Below l / r of about 3.79 the largest is not at BDC. */
  readonly outwardAccel: Extreme;
  readonly inwardAccel: Extreme;
  /** Rod angle in radians, big end farthest to the `v` side (at 90 degrees) and farthest to the other (at 270). */
  readonly rodAngleToV: Extreme;
  readonly rodAngleFromV: Extreme;
}

/** Extremes over one turn. Throws a RangeError unless the assembly can turn. */
export function motionExtrema(s: SliderCrank): MotionExtrema {
  mustTurn(s);
  const speeds = rootsOverTurn(s, 2).map(({ alphaRad }) => ({ alphaRad, value: pinHeightPerRadMm(s, alphaRad) }));
  const accels = rootsOverTurn(s, 3).map(
    ({ alphaRad, falling }): LocalExtreme => ({
      alphaRad,
      value: pinHeightPerRad2Mm(s, alphaRad),
      kind: falling ? 'maximum' : 'minimum',
    }),
  );
  return {
    outwardSpeed: best(speeds, (a, b) => a > b),
    inwardSpeed: best(speeds, (a, b) => a < b),
    accels,
    outwardAccel: best(accels, (a, b) => a > b),
    inwardAccel: best(accels, (a, b) => a < b),
    rodAngleToV: { alphaRad: Math.PI / 2, value: rodAngleRad(s, Math.PI / 2) },
    rodAngleFromV: { alphaRad: 1.5 * Math.PI, value: rodAngleRad(s, 1.5 * Math.PI) },
  };
}

/** Where the search begins: a place from which halving never hits 0 or pi exactly. */
const START_RAD = -0.7;
/**
 * Intervals no wider than this are not divided further. There |s^(k)| <= B * width, B bounding the next derivative, so
 * that two extremes hidden in one (they merge at BDC near l / r = 3.79) differ in value by at most B * width^2, about
 * 1e-14 of the crank radius: nothing that could be read off.
 */
const NARROWEST_RAD = 1e-7;
/** A root is good when a step moves it by less than this. */
const ROOT_RAD = 1e-13;
/** Rounding of a derivative, relative to its bound: some tens of roundings of 1.1e-16. */
const ROUNDING = 1e-14;

interface Root {
  readonly alphaRad: number;
  /** From positive to negative with rising angle. */
  readonly falling: boolean;
}

/**
 * All sign changes of the `order`-th derivative f of s over one turn, by rising angle.
 *
 * None is missed: an interval of half width h about m is dropped only when |f(m)| exceeds h times the bound of f' on
 * that interval, so that f has no zero there; it is searched by its end signs only when |f'(m)| exceeds h times the
 * bound of f'', so that f is monotonic there and has at most one; any other is halved, down to `NARROWEST_RAD`. Zero
 * counts as positive, so that a root on a common end belongs to exactly one of the two intervals.
 */
function rootsOverTurn(s: SliderCrank, order: 2 | 3): Root[] {
  const roots: Root[] = [];
  const search = (from: number, to: number, fFrom: number, fTo: number): void => {
    const half = (to - from) / 2;
    const middle = from + half;
    const bound = derivativeBounds(s, middle, half);
    const fMiddle = derivative(s, middle, order);
    if (Math.abs(fMiddle) > half * bound[order + 1]! + ROUNDING * bound[order]!) return;
    const slope = Math.abs(derivative(s, middle, order + 1));
    const monotonic = slope > half * bound[order + 2]! + ROUNDING * bound[order + 1]!;
    if (monotonic || 2 * half <= NARROWEST_RAD) {
      if (fFrom >= 0 !== fTo >= 0) {
        roots.push({ alphaRad: wrap(refine(s, order, from, to, fFrom)), falling: fFrom >= 0 });
      }
      return;
    }
    search(from, middle, fFrom, fMiddle);
    search(middle, to, fMiddle, fTo);
  };
  const fStart = derivative(s, START_RAD, order);
  search(START_RAD, START_RAD + 2 * Math.PI, fStart, fStart);
  return roots.sort((a, b) => a.alphaRad - b.alphaRad);
}

/** Newton steps kept inside a bracket that shrinks; halves it whenever a step would leave it, and always after 60 steps. */
function refine(s: SliderCrank, order: number, from: number, to: number, fFrom: number): number {
  let low = from;
  let high = to;
  let x = (low + high) / 2;
  // 60 halvings more take any bracket below the spacing of doubles: the loop ends by its tolerance.
  for (let i = 0; i < 120; i++) {
    const f = derivative(s, x, order);
    if (f >= 0 === fFrom >= 0) low = x;
    else high = x;
    const newton = x - f / derivative(s, x, order + 1);
    const next = newton > low && newton < high && i < 60 ? newton : (low + high) / 2;
    if (Math.abs(next - x) < ROOT_RAD) return next;
    x = next;
  }
  return x;
}

/** To 0 … 2 pi; a root at TDC that came out a rounding below zero reads 0. */
function wrap(alphaRad: number): number {
  const turned = alphaRad < 0 ? alphaRad + 2 * Math.PI : alphaRad;
  return turned > 2 * Math.PI - ROOT_RAD ? 0 : turned;
}

/** The k-th derivative of s by alpha, k = 2 … 5, by the recursion above. */
function derivative(s: SliderCrank, alphaRad: number, k: number): number {
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  // The derivatives of q: q1 = cos, q2 = -sin, q3 = -cos, q4 = sin, q5 = cos, each with r.
  const sin = r * Math.sin(alphaRad);
  const cos = r * Math.cos(alphaRad);
  const q = sin - e;
  const w = Math.sqrt((l - q) * (l + q));
  const w1 = -(q * cos) / w;
  const w2 = -(cos * cos - q * sin + w1 * w1) / w;
  if (k === 2) return -cos + w2;
  const w3 = -(-q * cos - 3 * cos * sin + 3 * w1 * w2) / w;
  if (k === 3) return sin + w3;
  const w4 = -(q * sin - 4 * cos * cos + 3 * sin * sin + 4 * w1 * w3 + 3 * w2 * w2) / w;
  if (k === 4) return cos + w4;
  const w5 = -(q * cos + 15 * cos * sin + 5 * w1 * w4 + 10 * w2 * w3) / w;
  return -sin + w5;
}

/** Bounds of the k-th derivative of s, at index k = 2 … 5, on the angles within `half` of `middle`. */
function derivativeBounds(s: SliderCrank, middle: number, half: number): readonly number[] {
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  // q moves at no more than r a radian, and never beyond r + |e|.
  const q = Math.min(r + Math.abs(e), Math.abs(r * Math.sin(middle) - e) + r * half);
  const w = Math.sqrt((l - q) * (l + q));
  const w1 = (q * r) / w;
  const w2 = (r * r + q * r + w1 * w1) / w;
  const w3 = (q * r + 3 * r * r + 3 * w1 * w2) / w;
  const w4 = (q * r + 7 * r * r + 4 * w1 * w3 + 3 * w2 * w2) / w;
  const w5 = (q * r + 15 * r * r + 5 * w1 * w4 + 10 * w2 * w3) / w;
  return [l + r, r + w1, r + w2, r + w3, r + w4, r + w5];
}

function best<T extends Extreme>(found: readonly T[], better: (a: number, b: number) => boolean): T {
  return found.reduce((kept, next) => (better(next.value, kept.value) ? next : kept));
}

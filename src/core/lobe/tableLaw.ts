/**
 * A lift law fitted through measured lifts (fitTable.ts): a cubic spline on evenly spaced knots, from the end of the closing flank to
 * the end of the opening one, at rest on the base circle beyond them.
 *
 * It is written in cubic B-splines of those knots, and only in those that lie wholly between the ends: each of them, its slope and its
 * second derivative are zero at its own ends. So lift, speed and acceleration are continuous everywhere, the ends on the base circle
 * included; jerk is constant between two knots and jumps there, as it does in the closed forms.
 *
 * With t from 0 to 1 between two knots a step d apart, and c0 … c3 the four coefficients that reach there,
 *
 *   h    = ((1-t)^3 c0 + (3t^3 - 6t^2 + 4) c1 + (-3t^3 + 3t^2 + 3t + 1) c2 + t^3 c3) / 6
 *   h'   = (-(1-t)^2 c0 + (3t^2 - 4t) c1 + (-3t^2 + 2t + 1) c2 + t^2 c3) / (2 d)
 *   h''  = ((1-t) c0 + (3t - 2) c1 + (1 - 3t) c2 + t c3) / d^2
 *   h''' = (-c0 + 3 c1 - 3 c2 + c3) / d^3
 *
 * Source: de Boor, A Practical Guide to Splines, for even knots, from memory; the tests hold it against mathjs.
 */
import type { LiftAt } from './liftLaw.ts';

export interface TableLaw {
  readonly name: 'table';
  /** Greatest lift of the curve. */
  readonly liftMm: number;
  readonly openingRad: number;
  readonly closingRad: number;
  /** Cam angle from knot to knot; the first knot stands at psi = -closingRad, the last at openingRad. */
  readonly stepRad: number;
  /** Three fewer than there are stretches between knots: coefficient j reaches over stretches j to j + 3. */
  readonly coefs: readonly number[];
}

/** What the curve never leaves, over both flanks: exact extremes, for bounds. Sizes of derivatives in mm/rad, mm/rad^2, mm/rad^3. */
export interface TableExtremes {
  readonly leastMm: number;
  readonly greatestMm: number;
  /** Where it is greatest, psi. */
  readonly greatestAtRad: number;
  readonly h1: number;
  readonly h2: number;
  readonly h3: number;
  /** Least of lift plus its second derivative. */
  readonly leastLiftPlusAccelMm: number;
}

/** Stretches between knots. */
export function stretches(law: Pick<TableLaw, 'coefs'>): number {
  return law.coefs.length + 3;
}

function coef(law: Pick<TableLaw, 'coefs'>, j: number): number {
  return law.coefs[j] ?? 0;
}

/** Lift and derivatives at a part t, 0 to 1, of stretch k. */
export function withinStretch(law: Pick<TableLaw, 'coefs' | 'stepRad'>, k: number, t: number): LiftAt {
  const c0 = coef(law, k - 3);
  const c1 = coef(law, k - 2);
  const c2 = coef(law, k - 1);
  const c3 = coef(law, k);
  const d = law.stepRad;
  const s = 1 - t;
  return {
    h: (s * s * s * c0 + ((3 * t - 6) * t * t + 4) * c1 + (((3 - 3 * t) * t + 3) * t + 1) * c2 + t * t * t * c3) / 6,
    h1: (-s * s * c0 + (3 * t - 4) * t * c1 + ((2 - 3 * t) * t + 1) * c2 + t * t * c3) / (2 * d),
    h2: (s * c0 + (3 * t - 2) * c1 + (1 - 3 * t) * c2 + t * c3) / (d * d),
    h3: (-c0 + 3 * c1 - 3 * c2 + c3) / (d * d * d),
  };
}

/** Lift and derivatives at psi; zero beyond the ends. At a knot h3 is that of the stretch toward the opening flank. */
export function tableLiftAt(law: TableLaw, psiRad: number): LiftAt {
  const from = (psiRad + law.closingRad) / law.stepRad;
  const last = stretches(law) - 1;
  if (!(from >= 0 && psiRad <= law.openingRad)) return { h: 0, h1: 0, h2: 0, h3: 0 };
  const k = Math.min(last, Math.floor(from));
  return withinStretch(law, k, Math.min(1, from - k));
}

/** The same lobe seen from its other face: flanks change places. */
export function mirrorTable(law: TableLaw): TableLaw {
  return {
    ...law,
    openingRad: law.closingRad,
    closingRad: law.openingRad,
    coefs: [...law.coefs].reverse(),
  };
}

/** Places within a stretch, 0 and 1 included, where a cubic of given slope a t^2 + b t + c may have its extremes. */
function turningPlaces(a: number, b: number, c: number): number[] {
  const out = [0, 1];
  if (a === 0) {
    if (b !== 0) out.push(-c / b);
  } else {
    const root = b * b - 4 * a * c;
    if (root >= 0) {
      const q = -(b + Math.sign(b || 1) * Math.sqrt(root)) / 2;
      out.push(q / a);
      if (q !== 0) out.push(c / q);
    }
  }
  return out.filter((t) => t >= 0 && t <= 1);
}

/** Places within stretch k where h, h' or h + h'' may have its extreme. */
function placesOf(law: Pick<TableLaw, 'coefs' | 'stepRad'>, k: number): { h: number[]; h1: number[]; sum: number[] } {
  const start = withinStretch(law, k, 0);
  const d = law.stepRad;
  // Along the stretch, by t: h' = h1 + h2 d t + h3 d^2 t^2 / 2.
  const quadratic = (start.h3 * d * d) / 2;
  const linear = start.h2 * d;
  return {
    h: turningPlaces(quadratic, linear, start.h1),
    h1: start.h3 === 0 ? [0, 1] : [0, 1, -start.h2 / (start.h3 * d)].filter((t) => t >= 0 && t <= 1),
    sum: turningPlaces(quadratic, linear, start.h1 + start.h3),
  };
}

/** Asked some hundred times while one lobe is drawn. */
const known = new WeakMap<object, TableExtremes>();

/** Exact up to rounding: the extremes of a cubic, its derivatives, and of h + h'', stretch by stretch. */
export function tableExtremes(law: Pick<TableLaw, 'coefs' | 'stepRad' | 'closingRad'>): TableExtremes {
  const before = known.get(law);
  if (before !== undefined) return before;
  let [leastMm, greatestMm, greatestAtRad, h1, h2, h3, sum] = [0, 0, 0, 0, 0, 0, 0];
  for (let k = 0; k < stretches(law); k++) {
    const places = placesOf(law, k);
    for (const t of places.h) {
      const { h } = withinStretch(law, k, t);
      leastMm = Math.min(leastMm, h);
      if (h > greatestMm) {
        greatestMm = h;
        greatestAtRad = (k + t) * law.stepRad - law.closingRad;
      }
    }
    for (const t of places.h1) h1 = Math.max(h1, Math.abs(withinStretch(law, k, t).h1));
    for (const t of [0, 1]) h2 = Math.max(h2, Math.abs(withinStretch(law, k, t).h2));
    h3 = Math.max(h3, Math.abs(withinStretch(law, k, 0).h3));
    for (const t of places.sum) {
      const at = withinStretch(law, k, t);
      sum = Math.min(sum, at.h + at.h2);
    }
  }
  const found = { leastMm, greatestMm, greatestAtRad, h1, h2, h3, leastLiftPlusAccelMm: sum };
  known.set(law, found);
  return found;
}

/** Greatest size of h' wherever the lift is at most `liftMm`: over every stretch that comes down to it. */
export function tableSpeedUpTo(law: TableLaw, liftMm: number): number {
  let most = 0;
  for (let k = 0; k < stretches(law); k++) {
    const places = placesOf(law, k);
    if (Math.min(...places.h.map((t) => withinStretch(law, k, t).h)) > liftMm) continue;
    for (const t of places.h1) most = Math.max(most, Math.abs(withinStretch(law, k, t).h1));
  }
  return most;
}

/**
 * How a follower rises and falls over a cam lobe: published closed forms, with their derivatives, or a measured curve (tableLaw.ts).
 *
 * `psi` is the angle of the follower's line in the lobe's own frame, in radians clockwise from the nose (+y), -pi to pi.
 * When the lobe turns clockwise the follower meets the positive side first: that is the opening flank, the negative side
 * the closing flank. Lift stands at its greatest at the nose and is zero from each flank's end on, on the base circle.
 *
 * With u running from 0 at the base circle to 1 at the nose, lift = L s(u):
 *
 *   3-4-5        s = 10 u^3 - 15 u^4 + 6 u^5
 *   cycloidal    s = u - sin(2 pi u) / (2 pi)
 *
 * Source: the two "double-dwell" laws of Norton, Design of Machinery, from memory; the cycloidal one agrees with a
 * published table to its last digit. Lift, speed and acceleration are continuous; jerk jumps at the ends and the nose.
 */

import { mirrorTable, type TableLaw, tableExtremes, tableLiftAt, tableSpeedUpTo } from './tableLaw.ts';

export type LawName = '3-4-5' | 'cycloidal';

/** A closed form on either flank. */
export interface FormLaw {
  readonly name: LawName;
  readonly liftMm: number;
  /** Cam angle from base circle to nose on either side, radians, above 0 to pi. */
  readonly openingRad: number;
  readonly closingRad: number;
}

export type LiftLaw = FormLaw | TableLaw;

/** Lift and its derivatives by psi: mm, mm/rad, mm/rad^2, mm/rad^3. */
export interface LiftAt {
  readonly h: number;
  readonly h1: number;
  readonly h2: number;
  readonly h3: number;
}

const BASE_CIRCLE: LiftAt = { h: 0, h1: 0, h2: 0, h3: 0 };

/** Lift at psi, -pi to pi. Where jerk jumps, h3 is the one on the opening flank at the nose, inside the flank at its end. */
export function liftAt(law: LiftLaw, psiRad: number): LiftAt {
  if (law.name === 'table') return tableLiftAt(law, psiRad);
  const opening = psiRad >= 0;
  const flankRad = opening ? law.openingRad : law.closingRad;
  const u = 1 - Math.abs(psiRad) / flankRad;
  if (u < 0) return BASE_CIRCLE;
  const s = unitRise(law.name, u);
  // du/dpsi: falls with psi on the opening side, rises on the closing one.
  const du = (opening ? -1 : 1) / flankRad;
  const l = law.liftMm;
  return { h: l * s.h, h1: l * s.h1 * du, h2: l * s.h2 * du * du, h3: l * s.h3 * du * du * du };
}

/** The same lobe seen from its other face: the flanks change places, lift at psi becomes lift at -psi. */
export function mirrorLaw(law: LiftLaw): LiftLaw {
  if (law.name === 'table') return mirrorTable(law);
  return { ...law, openingRad: law.closingRad, closingRad: law.openingRad };
}

/** Greatest sizes of h', h'' and h''' on the opening flank (of a measured curve: anywhere), and the least lift: zero, or what a measured curve dips. */
export function flankPeaks(law: LiftLaw): { h1: number; h2: number; h3: number; leastMm: number } {
  if (law.name === 'table') return tableExtremes(law);
  const peaks = unitRisePeaks(law.name);
  const b = law.openingRad;
  const l = law.liftMm;
  return { h1: (l * peaks.h1) / b, h2: (l * peaks.h2) / (b * b), h3: (l * peaks.h3) / (b * b * b), leastMm: 0 };
}

/**
 * Greatest size of h' on either flank wherever the lift is at most `liftMm`. In the closed forms s' grows with s up to the middle of
 * the rise, where it is greatest.
 */
export function speedUpToLift(law: LiftLaw, liftMm: number): number {
  if (law.name === 'table') return tableSpeedUpTo(law, liftMm);
  const u = unitRiseInverse(law.name, Math.min(0.5, Math.max(0, liftMm / law.liftMm)));
  return (law.liftMm * unitRise(law.name, u).h1) / Math.min(law.openingRad, law.closingRad);
}

/** Least of lift plus its second derivative over both flanks, mm: base radius plus this is the sharpest radius under a flat face. */
export function leastOverBaseMm(law: LiftLaw): number {
  if (law.name === 'table') return tableExtremes(law).leastLiftPlusAccelMm;
  return Math.min(
    leastLiftPlusAccelMm(law.name, law.liftMm, law.openingRad),
    leastLiftPlusAccelMm(law.name, law.liftMm, law.closingRad),
  );
}

/** s(u) and its derivatives by u, 0 <= u <= 1. */
export function unitRise(name: LawName, u: number): LiftAt {
  if (name === '3-4-5') {
    const v = 1 - u;
    return {
      h: u * u * u * (10 - u * (15 - 6 * u)),
      h1: 30 * u * u * v * v,
      h2: 60 * u * v * (v - u),
      h3: 60 * (1 - 6 * u * v),
    };
  }
  const a = 2 * Math.PI * u;
  return {
    h: u - Math.sin(a) / (2 * Math.PI),
    h1: 1 - Math.cos(a),
    h2: 2 * Math.PI * Math.sin(a),
    h3: 4 * Math.PI * Math.PI * Math.cos(a),
  };
}

/** Greatest sizes of s', s'' and s''' over the rise: 15/8, 10/sqrt(3), 60; and 2, 2 pi, 4 pi^2. */
export function unitRisePeaks(name: LawName): { readonly h1: number; readonly h2: number; readonly h3: number } {
  return name === '3-4-5'
    ? { h1: 15 / 8, h2: 10 / Math.sqrt(3), h3: 60 }
    : { h1: 2, h2: 2 * Math.PI, h3: 4 * Math.PI * Math.PI };
}

/**
 * The u at which s(u) has a value, 0 <= fraction <= 1, to the last bit of a double. s rises throughout, so halving finds
 * it; past the middle s(1 - u) = 1 - s(u) is used, since s is flat at the top and its last digits would not tell u.
 */
export function unitRiseInverse(name: LawName, fraction: number): number {
  if (!(fraction >= 0 && fraction <= 1)) throw new RangeError(`fraction of lift ${fraction} must lie within 0 and 1`);
  if (fraction > 0.5) return 1 - unitRiseInverse(name, 1 - fraction);
  let low = 0;
  let high = 1;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return unitRise(name, low).h >= fraction ? low : high;
    if (unitRise(name, middle).h < fraction) low = middle;
    else high = middle;
  }
}

/**
 * Cam angle from base circle to nose such that the lift equals `atLiftMm` at two points `durationCrankRad` of crank
 * angle apart. The cam turns once for two turns of the crank, and the lobe is alike on both sides, so the point lies a
 * quarter of the duration from the nose: flank = (duration / 4) / (1 - u). 0 <= atLiftMm < liftMm.
 */
export function flankFromDurationRad(
  name: LawName,
  liftMm: number,
  durationCrankRad: number,
  atLiftMm: number,
): number {
  return flankFromNoseRad(name, liftMm, durationCrankRad / 2, atLiftMm);
}

/** The same for one flank, whose point at `atLiftMm` lies `noseCrankRad` of crank angle from the nose. */
export function flankFromNoseRad(name: LawName, liftMm: number, noseCrankRad: number, atLiftMm: number): number {
  return noseCrankRad / 2 / (1 - unitRiseInverse(name, atLiftMm / liftMm));
}

/**
 * The smallest value of h + h'' over a flank, mm: the least base radius on which a flat face stays on the lobe is minus this.
 *
 * Closed form. (h + h'')' = 0 reads s' + s''' / B^2 = 0, B the flank's angle. For 3-4-5, with z = u (1 - u):
 * z^2 - 12 z / B^2 + 2 / B^2 = 0. For cycloidal: cos(2 pi u) = B^2 / (B^2 - 4 pi^2). The ends count too.
 */
export function leastLiftPlusAccelMm(name: LawName, liftMm: number, flankRad: number): number {
  const b2 = flankRad * flankRad;
  const places = [0, 1];
  if (name === '3-4-5') {
    const inside = 36 / (b2 * b2) - 2 / b2;
    if (inside >= 0) {
      // The smaller root as 2 / B^2 over the larger one, which does not cancel.
      const larger = 6 / b2 + Math.sqrt(inside);
      for (const z of [larger, 2 / b2 / larger]) {
        if (z > 0.25) continue;
        const away = Math.sqrt(0.25 - z);
        places.push(0.5 - away, 0.5 + away);
      }
    }
  } else {
    const cos = b2 / (b2 - 4 * Math.PI * Math.PI);
    if (Math.abs(cos) <= 1) {
      const u = Math.acos(cos) / (2 * Math.PI);
      places.push(u, 1 - u);
    }
  }
  const values = places.map((u) => {
    const s = unitRise(name, u);
    return liftMm * (s.h + s.h2 / b2);
  });
  return Math.min(...values);
}

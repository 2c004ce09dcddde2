/**
 * A cam lobe as it is sold, and whether its follower can follow it.
 *
 * Lengths in millimetres, angles in radians. The lobe is alike on both flanks; `lobeLaw` gives the lift law of each, which
 * is where an unlike pair would enter.
 */
import type { LawName, LiftLaw } from './liftLaw.ts';
import { flankFromDurationRad, leastLiftPlusAccelMm, liftAt, unitRiseInverse } from './liftLaw.ts';
import type { Follower } from './lobeProfile.ts';
import { flankBounds, pathCurvaturePerMm } from './lobeProfile.ts';

export interface LobeSpec {
  readonly baseRadiusMm: number;
  /** Lift of the lobe, not of the valve. */
  readonly liftMm: number;
  readonly law: LawName;
  /** Crank angle between the two points where the lift equals `durationAtLiftMm`. */
  readonly durationAtLiftCrankRad: number;
  readonly durationAtLiftMm: number;
  readonly follower: Follower;
}

/** Why a lobe is refused: which rule, the value it concerns, and what would be allowed for that value, both ends open. */
export interface LobeFault {
  readonly reason:
    | 'base radius'
    | 'lift'
    | 'roller radius'
    | 'lift of stated duration'
    | 'duration'
    /** The flanks would be longer than a whole turn of the cam. */
    | 'duration too long'
    /** Somewhere R + h + h'' <= 0: the surface would be sharper than a point. Value: base radius. */
    | 'too sharp for a flat face'
    /** The path of the roller's centre bends outward more sharply than the roller. Value: roller radius; allowed below: least path radius. */
    | 'too sharp for the roller'
    /** The path of the roller's centre has a waist under the nose, narrower than the roller. Value: roller radius; allowed below: half the waist. */
    | 'waist under the nose';
  readonly unit: 'mm' | 'rad';
  readonly value: number;
  readonly above?: number;
  readonly below?: number;
}

/** The lift law of a lobe that has passed the first checks of `checkLobe`. */
export function lobeLaw(spec: LobeSpec): LiftLaw {
  const flank = flankFromDurationRad(spec.law, spec.liftMm, spec.durationAtLiftCrankRad, spec.durationAtLiftMm);
  return { name: spec.law, liftMm: spec.liftMm, openingRad: flank, closingRad: flank };
}

/** The first rule that a lobe breaks, or null. Values that are not finite break the rule of their own field. */
export function checkLobe(spec: LobeSpec): LobeFault | null {
  const { baseRadiusMm: r, liftMm, follower, durationAtLiftMm: at, durationAtLiftCrankRad: duration } = spec;
  if (!positive(r)) return { reason: 'base radius', unit: 'mm', value: r, above: 0 };
  if (!positive(liftMm)) return { reason: 'lift', unit: 'mm', value: liftMm, above: 0 };
  if (follower.kind === 'roller' && !positive(follower.radiusMm)) {
    return { reason: 'roller radius', unit: 'mm', value: follower.radiusMm, above: 0 };
  }
  if (!(at >= 0 && at < liftMm)) {
    return { reason: 'lift of stated duration', unit: 'mm', value: at, above: 0, below: liftMm };
  }
  if (!positive(duration)) return { reason: 'duration', unit: 'rad', value: duration, above: 0 };
  const law = lobeLaw(spec);
  if (law.openingRad > Math.PI) {
    const longest = 4 * Math.PI * (1 - unitRiseInverse(spec.law, at / liftMm));
    return { reason: 'duration too long', unit: 'rad', value: duration, below: longest };
  }
  if (follower.kind === 'flat') {
    const least = -leastLiftPlusAccelMm(spec.law, liftMm, law.openingRad);
    return r > least ? null : { reason: 'too sharp for a flat face', unit: 'mm', value: r, above: least };
  }
  const sharpest = greatestPathCurvature(law, r, follower);
  if (sharpest * follower.radiusMm >= 1) {
    return { reason: 'too sharp for the roller', unit: 'mm', value: follower.radiusMm, below: 1 / sharpest };
  }
  const waist = halfWaistMm(law, r + follower.radiusMm);
  if (waist !== null && waist <= follower.radiusMm) {
    return { reason: 'waist under the nose', unit: 'mm', value: follower.radiusMm, below: waist };
  }
  return null;
}

function positive(x: number): boolean {
  return x > 0 && Number.isFinite(x);
}

/** The greatest curvature is bounded to this part of the roller's own: a lobe within it of its limit is refused. */
const CURVATURE_SLACK = 1e-6;

/**
 * An upper bound of the path's outward curvature over the flank, above the true greatest by no more than
 * `CURVATURE_SLACK` of the roller's curvature. An interval whose middle value plus half width times the slope bound
 * does not beat the best value found by that slack is dropped, any other halved. Where the path bends inward the
 * roller always fits: the surface is then concave with the path's radius plus the roller's.
 */
function greatestPathCurvature(law: LiftLaw, baseRadiusMm: number, roller: Follower & { kind: 'roller' }): number {
  const slope = flankBounds(law, baseRadiusMm, roller).pathCurvatureSlope;
  const slack = CURVATURE_SLACK / roller.radiusMm;
  let best = pathCurvaturePerMm(law, baseRadiusMm, roller.radiusMm, 0);
  const open: [number, number][] = [[0, law.openingRad]];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const [from, to] = next;
    const half = (to - from) / 2;
    const middle = from + half;
    const here = pathCurvaturePerMm(law, baseRadiusMm, roller.radiusMm, middle);
    best = Math.max(best, here);
    if (here + half * slope > best + slack) open.push([from, middle], [middle, to]);
  }
  return best + slack;
}

/** Places at which the width of the roller's path is looked at, on a flank as far as a quarter turn from the nose. */
const WAIST_STEPS = 2000;

/**
 * Half the width of the path at its narrowest waist (narrower than above and below it), or null when there is none; found
 * to some hundredths of a micrometre for lobes of an engine.
 *
 * Why it matters: a circle that fits the path's outward curvature everywhere fits inside it unless it is pinched between
 * two places whose normals point straight at each other (Federer's reach). On the base circle such a line passes the
 * cam axis and is longer than the base circle is wide. Elsewhere it joins the two sides. Where it leaves one side leaning
 * by t toward the nose, the nose up to there has turned with radii above the roller's, so that this end lies at least
 * rr cos t from the middle, and the other, below the bulge, at least half a waist W: the line is at least
 * (rr cos t + W) / cos t long, no less than two roller radii once W >= rr.
 */
function halfWaistMm(law: LiftLaw, baseAndRollerMm: number): number | null {
  const end = Math.min(law.openingRad, Math.PI / 2);
  let narrowest: number | null = null;
  let before = 0;
  let narrowing = false;
  for (let k = 1; k <= WAIST_STEPS; k++) {
    const psi = (k / WAIST_STEPS) * end;
    const half = (baseAndRollerMm + liftAt(law, psi).h) * Math.sin(psi);
    if (narrowing && half > before) narrowest = Math.min(narrowest ?? before, before);
    narrowing = half < before;
    before = half;
  }
  return narrowest;
}

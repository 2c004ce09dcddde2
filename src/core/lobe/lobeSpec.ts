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
    /** The path has a waist under the nose, where a roller could be pinched. Value: width of the waist; nothing is allowed. */
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
  const waist = waistMm(law, r + follower.radiusMm);
  return waist === null ? null : { reason: 'waist under the nose', unit: 'mm', value: waist };
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

/** Places at which the width of the roller's path is looked at, on a flank of at most half a turn. */
const WAIST_STEPS = 2000;

/**
 * Full width of the path at a waist (narrower than above and below it), or null when there is none. Without a waist
 * the normals on both sides of the nose lean toward it down to the widest place, so that no circle that fits the path's
 * curvature can touch both sides at once, and fitting curvature is enough for the roller to fit. A waist between two
 * of the 2000 places would be shallower than a tenth of a micrometre for any lobe of an engine.
 */
function waistMm(law: LiftLaw, baseAndRollerMm: number): number | null {
  let widest = 0;
  let narrowed = false;
  let previous = 0;
  for (let k = 1; k <= WAIST_STEPS; k++) {
    const psi = (k / WAIST_STEPS) * Math.min(law.openingRad, Math.PI / 2);
    const half = (baseAndRollerMm + liftAt(law, psi).h) * Math.sin(psi);
    if (narrowed && half > previous) return 2 * previous;
    if (half < widest) narrowed = true;
    widest = Math.max(widest, half);
    previous = half;
  }
  return null;
}

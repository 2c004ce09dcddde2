/**
 * A cam lobe as it is sold, or as it was measured, and whether its follower can follow it.
 *
 * Lengths in millimetres, angles in radians. "Opening" is the flank on the positive side of psi (liftLaw.ts), which the follower
 * meets first when the lobe turns clockwise; for a shaft that turns the other way `mirrorLobe` gives the lobe as it is then ground.
 */
import type { LiftTable, TableFault } from './fitTable.ts';
import { fitTable, tableFault } from './fitTable.ts';
import type { LawName, LiftLaw } from './liftLaw.ts';
import { flankFromNoseRad, leastOverBaseMm, liftAt, mirrorLaw, unitRiseInverse } from './liftLaw.ts';
import type { Follower } from './lobeProfile.ts';
import { flankBounds, pathCurvaturePerMm } from './lobeProfile.ts';
import { tableExtremes } from './tableLaw.ts';

export interface LobeSpec {
  readonly baseRadiusMm: number;
  /** Lift of the lobe, not of the valve. */
  readonly liftMm: number;
  readonly law: LawName;
  /** Crank angle between the two points where the lift equals `durationAtLiftMm`. */
  readonly durationAtLiftCrankRad: number;
  readonly durationAtLiftMm: number;
  /** Crank angle from the first of those points to the nose; absent, half of it: both flanks alike. */
  readonly openingAtLiftCrankRad?: number;
  readonly follower: Follower;
}

/** A lobe of which the lift was measured, on a follower of this kind. */
export interface MeasuredLobe {
  readonly baseRadiusMm: number;
  readonly table: LiftTable;
  readonly follower: Follower;
}

export type AnyLobe = LobeSpec | MeasuredLobe;

/** The lobe seen from its other face: its flanks change places. */
export function mirrorLobe(lobe: AnyLobe): AnyLobe {
  if ('table' in lobe) {
    const { psiRad, liftMm } = lobe.table;
    const table = { ...lobe.table, psiRad: psiRad.map((p) => -p).reverse(), liftMm: [...liftMm].reverse() };
    return { ...lobe, table };
  }
  const { openingAtLiftCrankRad: opening } = lobe;
  if (opening === undefined) return lobe;
  return { ...lobe, openingAtLiftCrankRad: lobe.durationAtLiftCrankRad - opening };
}

/** Why a lobe is refused: which rule, the value it concerns, and what would be allowed for that value, both ends open. */
export interface LobeFault {
  readonly reason:
    | 'base radius'
    | 'lift'
    | 'roller radius'
    | 'lift of stated duration'
    | 'duration'
    /** The opening flank leaves nothing of the duration for the closing one. */
    | 'opening flank'
    /** The measured lifts: see `table`. Value: its value. */
    | 'table'
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
  readonly table?: TableFault;
}

/** The lift law of a lobe and how far the truth may lie from it, measured lifts only. */
export interface LobeLaw {
  readonly law: LiftLaw;
  /** No reading lies farther from the law; 0 for a closed form. */
  readonly deviationMm: number;
}

/** The lift law of a lobe that has passed the first checks of `checkLobe`. Throws a RangeError for a table that can't be fitted. */
export function lobeLawOf(lobe: AnyLobe): LobeLaw {
  if (!('table' in lobe)) return { law: lobeLaw(lobe), deviationMm: 0 };
  const fitted = fitTable(lobe.table);
  if ('reason' in fitted) throw new RangeError(`measured lobe refused: ${fitted.reason}, reading ${fitted.reading}`);
  return fitted;
}

/** The closed form of a lobe as sold. */
export function lobeLaw(spec: LobeSpec): LiftLaw {
  const opening = spec.openingAtLiftCrankRad ?? spec.durationAtLiftCrankRad / 2;
  const flank = (crankRad: number) => flankFromNoseRad(spec.law, spec.liftMm, crankRad, spec.durationAtLiftMm);
  return {
    name: spec.law,
    liftMm: spec.liftMm,
    openingRad: flank(opening),
    closingRad: flank(spec.durationAtLiftCrankRad - opening),
  };
}

/** The first rule that a lobe breaks, or null. Values that are not finite break the rule of their own field. */
export function checkLobe(lobe: AnyLobe): LobeFault | null {
  const { baseRadiusMm: r, follower } = lobe;
  if (!positive(r)) return { reason: 'base radius', unit: 'mm', value: r, above: 0 };
  if (follower.kind === 'roller' && !positive(follower.radiusMm)) {
    return { reason: 'roller radius', unit: 'mm', value: follower.radiusMm, above: 0 };
  }
  if (!('table' in lobe)) return checkSold(lobe) ?? checkFollower(lobeLaw(lobe), lobe);
  const inReadings = tableFault(lobe.table);
  if (inReadings !== null) return ofTable(inReadings);
  const fitted = fitTable(lobe.table);
  return 'reason' in fitted ? ofTable(fitted) : checkFollower(fitted.law, lobe);
}

function ofTable(table: TableFault): LobeFault {
  return { reason: 'table', unit: table.unit === 'rad' ? 'rad' : 'mm', value: table.value, table };
}

function checkSold(spec: LobeSpec): LobeFault | null {
  const { liftMm, durationAtLiftMm: at, durationAtLiftCrankRad: duration, openingAtLiftCrankRad: opening } = spec;
  if (!positive(liftMm)) return { reason: 'lift', unit: 'mm', value: liftMm, above: 0 };
  if (!(at >= 0 && at < liftMm)) {
    return { reason: 'lift of stated duration', unit: 'mm', value: at, above: 0, below: liftMm };
  }
  if (!positive(duration)) return { reason: 'duration', unit: 'rad', value: duration, above: 0 };
  if (opening !== undefined && !(opening > 0 && opening < duration)) {
    return { reason: 'opening flank', unit: 'rad', value: opening, above: 0, below: duration };
  }
  const law = lobeLaw(spec);
  if (Math.max(law.openingRad, law.closingRad) > Math.PI) {
    // Of the longer flank, as twice its crank angle: of a lobe alike on both sides that is the duration.
    const longer = 2 * Math.max(opening ?? duration / 2, duration - (opening ?? duration / 2));
    const longest = 4 * Math.PI * (1 - unitRiseInverse(spec.law, at / liftMm));
    return { reason: 'duration too long', unit: 'rad', value: longer, below: longest };
  }
  return null;
}

/** Whether the follower can follow a law, flank by flank. */
function checkFollower(law: LiftLaw, { baseRadiusMm: r, follower }: AnyLobe): LobeFault | null {
  if (follower.kind === 'flat') {
    const least = -leastOverBaseMm(law);
    return r > least ? null : { reason: 'too sharp for a flat face', unit: 'mm', value: r, above: least };
  }
  const sides = law.name !== 'table' && law.openingRad === law.closingRad ? [law] : [law, mirrorLaw(law)];
  const sharpest = Math.max(...sides.map((side) => greatestPathCurvature(side, r, follower)));
  if (sharpest * follower.radiusMm >= 1) {
    return { reason: 'too sharp for the roller', unit: 'mm', value: follower.radiusMm, below: 1 / sharpest };
  }
  for (const side of sides) {
    const waist = halfWaistMm(side, r + follower.radiusMm);
    if (waist !== null && waist <= follower.radiusMm) {
      return { reason: 'waist under the nose', unit: 'mm', value: follower.radiusMm, below: waist };
    }
  }
  return null;
}

function positive(x: number): boolean {
  return x > 0 && Number.isFinite(x);
}

/** The greatest curvature is bounded to this part of the roller's own: a lobe within it of its limit is refused. */
const CURVATURE_SLACK = 1e-6;

/**
 * An upper bound of the path's outward curvature over the opening flank, above the true greatest by no more than
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
 * (rr cos t + W) / cos t long, no less than two roller radii once W >= rr. The middle is the line through the cam axis and the
 * place of greatest lift, where the path runs square to it; each side is held against it by itself.
 */
function halfWaistMm(law: LiftLaw, baseAndRollerMm: number): number | null {
  const noseRad = law.name === 'table' ? tableExtremes(law).greatestAtRad : 0;
  const end = Math.min(law.openingRad - noseRad, Math.PI / 2);
  let narrowest: number | null = null;
  let before = 0;
  let narrowing = false;
  for (let k = 1; k <= WAIST_STEPS; k++) {
    const psi = (k / WAIST_STEPS) * end;
    const half = (baseAndRollerMm + liftAt(law, noseRad + psi).h) * Math.sin(psi);
    if (narrowing && half > before) narrowest = Math.min(narrowest ?? before, before);
    narrowing = half < before;
    before = half;
  }
  return narrowest;
}

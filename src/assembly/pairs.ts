/**
 * Which pairs of bodies have a gap to be asked for. Chosen by axial reach, not by ownership: both cheeks of a throw, and
 * the next throw's, can pass under both banks' pistons.
 */
import type { BuildDocument, GapKind } from '../build/document.ts';
import { DEFAULT_LIMITS } from '../build/limits.ts';
import { fixedMotion, swingMotion } from '../core/kinematics/motions.ts';
import { shift } from '../core/outline/transform.ts';
import { mm } from './dims.ts';
import type { Body, Cylinder, Pair } from './engine.ts';
import type { Seen } from './pairKeys.ts';
import { pairKey, twinOf } from './pairKeys.ts';

/** Bodies farther apart than this along the shaft are not paired, mm: they clear by at least that, three times the usual limits. */
const AXIAL_REACH_MM = 5;

const TURN = 2 * Math.PI;

/** Kind of gap between two bodies; null when they are not a pair (fixed to one another, or joined). */
export function gapKind(a: Body, b: Body): GapKind | null {
  if (a.kind === 'counterweight') {
    if (b.kind === 'piston') return 'counterweight-piston';
    if (b.kind === 'block') return 'counterweight-block';
    if (b.kind === 'lobe' || b.kind === 'cam core') return 'counterweight-camshaft';
  }
  if (a.kind === 'rod') {
    if (b.kind === 'lobe' || b.kind === 'cam core') return 'rod-camshaft';
    if (b.kind === 'block') return 'rod-block';
    if (b.kind === 'piston') return a.cylinder === b.cylinder ? 'rod-piston' : 'rod-opposite-piston';
  }
  if (a.move.kind === 'valve' && b.kind === 'piston') {
    if (a.cylinder !== b.cylinder) return null;
    return a.move.valve === 'intake' ? 'piston-intake-valve' : 'piston-exhaust-valve';
  }
  if (a.kind === 'piston' && b.kind === 'piston' && a.cylinder! < b.cylinder!) return 'piston-piston';
  return null;
}

/** Joined parts: the small end runs between the pin bosses, with a fit of its own. */
export function joined(kind: GapKind, partA: string, partB: string): boolean {
  return kind === 'rod-piston' && partA === 'small end' && partB === 'pin boss';
}

function axialGapMm(a: Body, b: Body): number {
  let least = Number.POSITIVE_INFINITY;
  for (const layersA of [a.layers, a.round])
    for (const la of layersA)
      for (const layersB of [b.layers, b.round])
        for (const lb of layersB) least = Math.min(least, Math.max(la.z0Mm - lb.z1Mm, lb.z0Mm - la.z1Mm));
  return least;
}

/** Every pair within axial reach. */
export function layPairs(doc: BuildDocument, cylinders: readonly Cylinder[], bodies: readonly Body[]): Pair[] {
  const out: Pair[] = [];
  for (const a of bodies) {
    for (const b of bodies) {
      const pair = pairOf(doc, cylinders, a, b);
      if (pair !== null) out.push(pair);
    }
  }
  return out;
}

/** Two bodies as a pair, the first one the mover; null when they are none, or not within axial reach. */
export function pairOf(doc: BuildDocument, cylinders: readonly Cylinder[], a: Body, b: Body): Pair | null {
  const kind = gapKind(a, b);
  if (kind === null) return null;
  if (kind === 'piston-piston' || kind === 'rod-opposite-piston') {
    if (bankOf(cylinders, a) === bankOf(cylinders, b)) return null;
  }
  if (Math.max(a.z0Mm - b.z1Mm, b.z0Mm - a.z1Mm) > AXIAL_REACH_MM || axialGapMm(a, b) > AXIAL_REACH_MM) return null;
  const cylinder = cylinderOf(cylinders, a, b);
  const seen = seenFrom(a, b, cylinder);
  const limitMm = mm(doc.limits?.[kind] ?? { value: DEFAULT_LIMITS[kind].value, from: 'stated' });
  return {
    id: `${a.name} · ${b.name}`,
    kind,
    a,
    b,
    periodRad: a.kind === 'valve' || (b.move.kind === 'cam' && b.kind !== 'cam core') ? 2 * TURN : TURN,
    cylinder: cylinder.number,
    limitMm,
    // A valve meets the crown alone, and names what that rests on itself.
    assumed: [...new Set(a.kind === 'valve' ? a.assumed : [...a.assumed, ...b.assumed])],
    key: pairKey(kind, limitMm, a, b, seen),
    keyShiftRad: seen.fromRad,
    keyTurnRad: seen.turnRad,
    ...twinOf(kind, limitMm, a, b, seen),
    ...(kind === 'rod-piston' ? { relative: aboutThePin(a, b, cylinder) } : {}),
    ...(a.head === undefined ? {} : { head: a.head }),
  };
}

/** A pair once more, in another design that lies alike along the shaft: what the certificate goes by. Limit, key and what is assumed are those of the first. */
export function pairAgain(pair: Pair, cylinders: readonly Cylinder[], a: Body, b: Body): Pair {
  return {
    ...pair,
    a,
    b,
    ...(pair.relative === undefined ? {} : { relative: aboutThePin(a, b, cylinders[pair.cylinder - 1]!) }),
    ...(a.head === undefined ? {} : { head: a.head }),
  };
}

/** Rod and own piston in the piston's frame: the rod swings about the pin, the piston stands still. */
function aboutThePin(rod: Body, piston: Body, c: Cylinder): NonNullable<Pair['relative']> {
  const { slider, alphaAtZeroRad, boreOffsetMm } = c;
  return {
    a: {
      motion: swingMotion(slider, alphaAtZeroRad, slider.offsetMm - boreOffsetMm),
      layers: rod.layers.map((l) => ({ ...l, outline: shift(l.outline, 0, -slider.rodLengthMm) })),
      round: [],
    },
    b: { motion: fixedMotion(), layers: piston.layers, round: piston.round },
  };
}

function bankOf(cylinders: readonly Cylinder[], body: Body): number {
  return cylinders[body.cylinder! - 1]!.bank;
}

/** The cylinder whose dead centres the pair's angles are counted from: the piston's, the rod's, the bore's, or the nearest along the shaft. */
function cylinderOf(cylinders: readonly Cylinder[], a: Body, b: Body): Cylinder {
  if (b.kind === 'piston' && a.kind === 'counterweight') return cylinders[b.cylinder! - 1]!;
  if (a.cylinder !== undefined) return cylinders[a.cylinder - 1]!;
  if (b.cylinder !== undefined && b.kind === 'block') return cylinders[b.cylinder - 1]!;
  const middle = (a.z0Mm + a.z1Mm) / 2;
  const onThrow = cylinders.filter((c) => c.throw === a.throw);
  return onThrow.reduce((near, c) =>
    Math.abs(c.boreCentreMm - middle) < Math.abs(near.boreCentreMm - middle) ? c : near,
  );
}

/**
 * From the cylinder's firing TDC and its bank; a cheek against what stands still, whatever cylinder is near, from where the
 * cheek points up: every throw then goes the same way round.
 */
function seenFrom(a: Body, b: Body, c: Cylinder): Seen {
  const still = b.kind === 'cam core' || (b.move.kind === 'fixed' && b.cylinder === undefined);
  if (still && a.move.kind === 'crank') return { fromRad: -a.move.phaseRad, turnRad: 0 };
  return { fromRad: c.firingTdcRad, turnRad: c.bankAngleRad };
}

/**
 * Over which crank angles do two moving outlines come nearer than a threshold: with ends, proven outside.
 *
 * OUTSIDE. From an angle at which the outlines are apart by the threshold or more, checked outright, the crank is turned
 * in the safe steps of core/outline/probe.ts with the threshold as target, as in certify.ts: over each step the distance
 * stays at or above it, and no contact can hide. Toward a crossing the steps shrink as Newton's do, from the safe side;
 * an arc begins where they are below `LEAST_STEP_RAD`. So everything outside the arcs is proven; an arc that only grazes the
 * threshold, within a nanometre, may be among them, as short as `SEEN_RAD`.
 *
 * INSIDE. At an angle where the signed gap g is below the threshold t two places show it.
 *   Apart, the nearest points p of A and q of B, carried on by their bodies, are after a turn h at most
 *     |P + h P'| + A h^2 / 2   apart,   P = p - q, |P| = g,
 *   P' from the bodies' own speeds, A the sum of the bounds on the acceleration of both points. The gap is not above the
 *   distance of any two of their points.
 *   Overlapping, the deepest point p lies -g inside the other material, at its point q. After a turn h they are at most
 *     h |P'| + A h^2 / 2   apart, so that p is still inside, or outside by no more than that less -g.
 * While such a bound is below t so is the gap: a step of that length is proven below. Where it would be shorter than
 * `SEEN_RAD` the crank is turned by `SEEN_RAD` and looked at again. So inside an arc the gap is below the threshold but for
 * reopenings shorter than `SEEN_RAD`, none of which reaches over an angle that was looked at. The first angle found at or
 * above the threshold ends the arc: it is halved back to `END_RAD`, and the turn goes on outside from there.
 *
 * When the work allowed runs out the outcome says so: then nothing is promised of what has not been passed.
 */
import { LONGEST_STEP_RAD } from '../outline/probe.ts';
import type { Motion, Pose } from '../plane/pose.ts';
import { newPose, POSE_DTURN, POSE_DX, POSE_DY, POSE_X, POSE_Y } from '../plane/pose.ts';
import type { GapAt, Mover } from './gapAt.ts';
import { gapAt, newGapAt, turnsAt } from './gapAt.ts';

/** A stretch of crank angle, radians, `fromRad` below `toRad`. */
export interface Arc {
  readonly fromRad: number;
  readonly toRad: number;
}

/** Evaluations still allowed, counted down. */
export interface Work {
  left: number;
}

const DEGREE = Math.PI / 180;

/** A reopening at least so long is never missed inside an arc: half a hundredth of a degree. */
export const SEEN_RAD = 0.005 * DEGREE;

/** An arc ends within so much of the crossing: a hundredth of what is seen. */
const END_RAD = SEEN_RAD / 100;

/** Safe steps outside that are shorter than this have reached a crossing, or a graze of less than a nanometre. */
const LEAST_STEP_RAD = 1e-7;

/** Longest proven step inside: longer ones would be granted only by outlines that hardly move. */
const LONGEST_WITHIN_RAD = 0.25;

const here: GapAt = newGapAt();
const poseA: Pose = newPose();
const poseB: Pose = newPose();

/**
 * Adds to `out` the arcs of [fromRad, toRad] over which the signed gap of A and B is below `thresholdMm`, which is above
 * zero; in their order, apart from one another. False when the work ran out.
 */
export function arcsBelow(
  a: Mover,
  b: Mover,
  fromRad: number,
  toRad: number,
  thresholdMm: number,
  work: Work,
  out: Arc[],
): boolean {
  if (!(thresholdMm > 0)) throw new RangeError(`arcsBelow: a threshold above zero is needed, got ${thresholdMm}`);
  let at = fromRad;
  let began = isBelow(a, b, at, thresholdMm, work) ? at : Number.NaN;
  while (at < toRad) {
    if (work.left <= 0) return false;
    if (Number.isNaN(began)) {
      work.left -= 1;
      const stepRad = turnsAt(a, b, at, thresholdMm, thresholdMm, LONGEST_STEP_RAD, 0).forwardRad;
      if (stepRad >= LEAST_STEP_RAD) {
        at += stepRad;
        continue;
      }
      began = at;
      at = Math.min(at + SEEN_RAD, toRad);
      if (isBelow(a, b, at, thresholdMm, work)) continue;
    } else {
      const proven = stepWithin(a, b, thresholdMm);
      const before = at;
      at = Math.min(at + Math.max(proven, SEEN_RAD), toRad);
      if (isBelow(a, b, at, thresholdMm, work)) continue;
      at = crossing(a, b, before, at, thresholdMm, work);
    }
    out.push({ fromRad: began, toRad: at });
    began = Number.NaN;
  }
  if (!Number.isNaN(began)) out.push({ fromRad: began, toRad });
  return true;
}

/** Looks at an angle; the evaluation stays in `here`. */
function isBelow(a: Mover, b: Mover, crankAngleRad: number, thresholdMm: number, work: Work): boolean {
  work.left -= 1;
  gapAt(a, b, crankAngleRad, Number.POSITIVE_INFINITY, true, here);
  if (!here.overlapping && here.gapMm >= thresholdMm) return false;
  a.motion.write(crankAngleRad, poseA);
  b.motion.write(crankAngleRad, poseB);
  return true;
}

/** Halves the turn from `below` to `above` down to `END_RAD`; an angle at which the gap is at or above the threshold. */
function crossing(a: Mover, b: Mover, below: number, above: number, thresholdMm: number, work: Work): number {
  let low = below;
  let high = above;
  while (high - low > END_RAD) {
    const middle = (low + high) / 2;
    if (isBelow(a, b, middle, thresholdMm, work)) low = middle;
    else high = middle;
  }
  return high;
}

/** The turn over which the gap is proven to stay below the threshold, from the evaluation in `here`; see the head. */
function stepWithin(a: Mover, b: Mover, thresholdMm: number): number {
  const { ax, ay, bx, by, gapMm: g, overlapping } = here;
  if (overlapping) {
    // So shallow that no point was found inside: nothing to go by.
    if (g >= 0) return 0;
    // Which body dives is not told: the deepest point is one of the two places, the faster one is taken.
    const speed = Math.max(speedApart(ax, ay, ax, ay), speedApart(bx, by, bx, by));
    const accel = Math.max(
      accelOf(a.motion, poseA, ax, ay) + accelOf(b.motion, poseB, ax, ay),
      accelOf(a.motion, poseA, bx, by) + accelOf(b.motion, poseB, bx, by),
    );
    return longest((h) => g + speed * h + (accel * h * h) / 2 < thresholdMm);
  }
  const vx = velocityX(poseA, ay) - velocityX(poseB, by);
  const vy = velocityY(poseA, ax) - velocityY(poseB, bx);
  const along = (ax - bx) * vx + (ay - by) * vy;
  const v2 = vx * vx + vy * vy;
  const accel = accelOf(a.motion, poseA, ax, ay) + accelOf(b.motion, poseB, bx, by);
  return longest((h) => {
    const d2 = g * g + 2 * along * h + v2 * h * h;
    return Math.sqrt(Math.max(0, d2)) + (accel * h * h) / 2 < thresholdMm;
  });
}

/** A turn that is allowed, within a third of the longest; 0 when it would be shorter than `SEEN_RAD`. */
function longest(allowed: (h: number) => boolean): number {
  for (let h = LONGEST_WITHIN_RAD; h >= SEEN_RAD; h *= 0.7) if (allowed(h)) return h;
  return 0;
}

/** Velocity, mm per radian of crank angle, of a body's point now at (x, y): each part needs the other coordinate only. */
function velocityX(pose: Pose, y: number): number {
  return pose[POSE_DX]! + pose[POSE_DTURN]! * (y - pose[POSE_Y]!);
}

function velocityY(pose: Pose, x: number): number {
  return pose[POSE_DY]! - pose[POSE_DTURN]! * (x - pose[POSE_X]!);
}

function speedApart(ax: number, ay: number, bx: number, by: number): number {
  return Math.hypot(velocityX(poseA, ay) - velocityX(poseB, by), velocityY(poseA, ax) - velocityY(poseB, bx));
}

/** Bound on the acceleration, at any angle, of the body's point that is now at (x, y). */
function accelOf(motion: Motion, pose: Pose, x: number, y: number): number {
  const reach = Math.hypot(x - pose[POSE_X]!, y - pose[POSE_Y]!);
  return motion.originAccelMm + (motion.turnSpeed * motion.turnSpeed + motion.turnAccel) * reach;
}

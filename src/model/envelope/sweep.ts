/**
 * The band that outlines sweep in the course of a motion, on the safe side: it contains every place that they ever cover, and reaches
 * beyond what they cover by at most `EXCEEDS_MM`.
 *
 * Outlines become polygons of chords, each at most `CHORD_MM` off its arc. The turn is cut into equal steps h. Between two stops every
 * corner is taken to run straight; with a bound K on the acceleration of any point it is nowhere farther from that than K h² / 8, and h is
 * chosen so that this is at most `PATH_MM`. An edge then covers the patch (1 - t) e0(s) + t e1(s) between its two places. A point
 * that the polygon comes to cover between the stops is passed by an edge that moves outward. So all that is covered lies in the polygons at
 * the stops and the patches of the edges that move outward, grown by `CHORD_MM` and `PATH_MM`.
 *
 * Whether the patch moves outward is the sign of its Jacobian, which is bilinear: the turns at its four corners decide. Where all are
 * outward the patch is the convex quadrangle of its corners; where all are inward it is not needed. An edge that does both is cut where it turns.
 * What is still mixed is taken whole, as its convex hull: with t = w2 + w4 and s = w3 + w4 from the weights of its corners a point of
 * the hull lies at most |w4 - s t| |e1 - e0| <= L phi / 4 from the patch, L being the length of the edge and phi its turn;
 * edges are cut until that is at most `HULL_MM`.
 */
import type { Outline } from '../../core/outline/outline.ts';
import type { Motion } from '../../core/plane/pose.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../core/plane/pose.ts';
import type { Steps } from '../pieces/kind.ts';
import { doubleArea, grown, JOIN_MM, type Polygon, ROUNDED_MM, simplified, union } from './polygons.ts';

const CHORD_MM = 0.009;
const PATH_MM = 0.006;
const HULL_MM = 0.006;
/** A corner that turns the wrong way by less than this counts as straight; what is missed so is no thicker. */
const SLIVER_MM = 0.0003;
/** Vertices of the finished band are left out where that moves its edge by no more than this. */
const SIMPLER_MM = 0.003;

/** By how much a band reaches beyond what is swept at most: chords and paths count twice, once in the places and once in the growth. */
export const EXCEEDS_MM = 2 * CHORD_MM + 2 * PATH_MM + HULL_MM + 2 * SIMPLER_MM + 2 * JOIN_MM + 4 * ROUNDED_MM;

/** What is said of it, mm; in inches .002. Never less than the truth. */
export const STATED_EXCESS_MM = 0.05;

/** What sweeps, and seen from where: the frame moves with `from`, or stands still where that is null. */
export interface Sweeping {
  readonly outlines: readonly Outline[];
  readonly motion: Motion;
  readonly from: Motion | null;
  readonly periodRad: number;
}

export interface Prepared {
  /** In the frame of the body that sweeps. */
  readonly polygons: readonly Polygon[];
  readonly sweeping: Sweeping;
  readonly steps: number;
  /** It goes right round an axis that stands still in the frame: what it sweeps is known at once. */
  readonly goesRound: boolean;
  /** Longest edge whose hull is near enough to its patch. */
  readonly longestMm: number;
}

const poseA = newPose();
const poseB = newPose();

export function prepare(sweeping: Sweeping): Prepared {
  const polygons = union(sweeping.outlines.map(chords));
  const { motion, from } = sweeping;
  const goesRound = from === null && motion.originSpeedMm === 0 && motion.turnSpeed > 0 && motion.turnAccel === 0;
  if (goesRound) return { polygons, sweeping, steps: 1, goesRound, longestMm: Number.POSITIVE_INFINITY };
  const reachMm = Math.max(...polygons.flatMap(reaches)) + CHORD_MM;
  const { accelMm, turnSpeed } = boundsOf(sweeping, reachMm);
  const stepRad = accelMm > 0 ? Math.sqrt((8 * PATH_MM) / accelMm) : sweeping.periodRad;
  const steps = Math.max(1, Math.ceil(sweeping.periodRad / stepRad));
  const turned = (turnSpeed * sweeping.periodRad) / steps;
  const longestMm = turned > 0 ? (4 * HULL_MM) / turned : Number.POSITIVE_INFINITY;
  return { polygons, sweeping, steps, goesRound, longestMm };
}

/** Corners of the polygon of chords of an outline, each chord at most `CHORD_MM` off its arc. */
function chords({ pieces }: Outline): number[] {
  const out: number[] = [];
  for (const p of pieces) {
    if (p.kind === 'line') {
      out.push(p.x0, p.y0);
      continue;
    }
    const most = p.r > CHORD_MM ? 2 * Math.acos(1 - CHORD_MM / p.r) : Math.PI / 2;
    const n = Math.max(1, Math.ceil(Math.abs(p.sweepRad) / most));
    for (let k = 0; k < n; k++) {
      const angle = p.startRad + (p.sweepRad * k) / n;
      out.push(p.cx + p.r * Math.cos(angle), p.cy + p.r * Math.sin(angle));
    }
  }
  return out;
}

function reaches(polygon: Polygon): number[] {
  const out: number[] = [];
  for (let k = 0; k < polygon.length; k += 2) out.push(Math.hypot(polygon[k]!, polygon[k + 1]!));
  return out;
}

/** Distance of a polygon from the origin; 0 where it lies inside. */
function leastReach(p: Polygon): number {
  let least = Number.POSITIVE_INFINITY;
  let wound = 0;
  for (let k = 0; k < p.length; k += 2) {
    const m = (k + 2) % p.length;
    const [ax, ay, bx, by] = [p[k]!, p[k + 1]!, p[m]!, p[m + 1]!];
    const [dx, dy] = [bx - ax, by - ay];
    const along = Math.min(1, Math.max(0, -(ax * dx + ay * dy) / (dx * dx + dy * dy)));
    least = Math.min(least, Math.hypot(ax + along * dx, ay + along * dy));
    wound += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  }
  return Math.abs(wound) > Math.PI ? 0 : least;
}

/** Places between which the distance of the two origins is bounded by their speed. */
const DISTANCE_STEPS = 256;

/**
 * Bounds on the acceleration of any point of the body, seen from the frame, and on its turning speed, per radian of crank angle. With d the
 * place of the point from the frame's origin and w the frame's turn, q = R(-w) d gives |q''| <= |d''| + 2 w |d'| + w' |d| + w² |d|.
 */
function boundsOf({ motion, from, periodRad }: Sweeping, reachMm: number): { accelMm: number; turnSpeed: number } {
  const speed = motion.originSpeedMm + motion.turnSpeed * reachMm;
  const accel = motion.originAccelMm + (motion.turnAccel + motion.turnSpeed * motion.turnSpeed) * reachMm;
  if (from === null) return { accelMm: accel, turnSpeed: motion.turnSpeed };
  let apart = 0;
  for (let k = 0; k < DISTANCE_STEPS; k++) {
    motion.write((periodRad * k) / DISTANCE_STEPS, poseA);
    from.write((periodRad * k) / DISTANCE_STEPS, poseB);
    apart = Math.max(apart, Math.hypot(poseA[POSE_X]! - poseB[POSE_X]!, poseA[POSE_Y]! - poseB[POSE_Y]!));
  }
  const between = ((motion.originSpeedMm + from.originSpeedMm) * periodRad) / (2 * DISTANCE_STEPS);
  const distance = apart + between + reachMm;
  const w = from.turnSpeed;
  return {
    accelMm: accel + from.originAccelMm + 2 * w * (speed + from.originSpeedMm) + (from.turnAccel + w * w) * distance,
    turnSpeed: motion.turnSpeed + w,
  };
}

/** Carries a polygon of the body into the frame at a crank angle. */
function carried(polygon: Polygon, { motion, from }: Sweeping, crankAngleRad: number): number[] {
  motion.write(crankAngleRad, poseA);
  let [x, y, turn] = [poseA[POSE_X]!, poseA[POSE_Y]!, poseA[POSE_TURN]!];
  if (from !== null) {
    from.write(crankAngleRad, poseB);
    const [dx, dy, w] = [x - poseB[POSE_X]!, y - poseB[POSE_Y]!, poseB[POSE_TURN]!];
    x = Math.cos(w) * dx - Math.sin(w) * dy;
    y = Math.sin(w) * dx + Math.cos(w) * dy;
    turn -= w;
  }
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const out: number[] = [];
  for (let k = 0; k < polygon.length; k += 2) {
    const [px, py] = [polygon[k]!, polygon[k + 1]!];
    out.push(x + c * px + s * py, y - s * px + c * py);
  }
  return out;
}

/** Swept polygons of some steps, not yet grown. Yields after each step. */
export function* sweptBetween(prepared: Prepared, firstStep: number, endStep: number): Steps<Polygon[]> {
  const { sweeping, steps } = prepared;
  if (prepared.goesRound) return rings(prepared);
  const at = (step: number): number[][] =>
    prepared.polygons.map((p) => carried(p, sweeping, (sweeping.periodRad * step) / steps));
  const parts: Polygon[][] = [];
  let before = at(firstStep);
  for (let step = firstStep; step < endStep; step++) {
    const after = at(step + 1);
    const covered: Polygon[] = [...before];
    for (const [k, polygon] of before.entries()) patches(polygon, after[k]!, prepared.longestMm, covered);
    parts.push(union(covered));
    before = after;
    yield;
  }
  return yield* joined(parts);
}

/** Rings about the axis, each from the least to the greatest distance of a polygon; as chords of their circles. */
function rings({ polygons, sweeping }: Prepared): Polygon[] {
  sweeping.motion.write(0, poseA);
  const [x, y] = [poseA[POSE_X]!, poseA[POSE_Y]!];
  const solid = polygons.filter((p) => doubleArea(p) > 0);
  return union(
    solid.flatMap((p) => {
      const outer = circle(x, y, Math.max(...reaches(p)));
      const inner = leastReach(p);
      return inner > CHORD_MM ? union([outer, reversed(circle(x, y, inner))]) : [outer];
    }),
  );
}

function circle(cx: number, cy: number, r: number): number[] {
  return chords({ pieces: [{ kind: 'arc', cx, cy, r, startRad: 0, sweepRad: 2 * Math.PI }] });
}

/** The same corners the other way round. */
function reversed(p: Polygon): Polygon {
  const out: number[] = [];
  for (let k = p.length - 2; k >= 0; k -= 2) out.push(p[k]!, p[k + 1]!);
  return out;
}

/** Many unions in one, two neighbours at a time: most of each lies within the other, and falls away. */
export function* joined(parts: readonly Polygon[][]): Steps<Polygon[]> {
  let left = [...parts];
  while (left.length > 1) {
    const next: Polygon[][] = [];
    for (let k = 0; k < left.length; k += 2) {
      next.push(k + 1 < left.length ? union([...left[k]!, ...left[k + 1]!]) : left[k]!);
      yield;
    }
    left = next;
  }
  return left[0] ?? [];
}

/** Joined parts as a finished band, grown by what makes it safe and by `moreMm`. */
export function finished(parts: readonly Polygon[], moreMm: number): Polygon[] {
  const safe = grown(parts, CHORD_MM + PATH_MM + SLIVER_MM + SIMPLER_MM + ROUNDED_MM + moreMm);
  return simplified(safe, SIMPLER_MM);
}

/** Patches that move outward, of all edges between two places of a polygon, each running counterclockwise. */
function patches(p: Polygon, q: Polygon, longestMm: number, out: Polygon[]): void {
  const n = p.length;
  for (let k = 0; k < n; k += 2) {
    const m = (k + 2) % n;
    patch(p[k]!, p[k + 1]!, p[m]!, p[m + 1]!, q[k]!, q[k + 1]!, q[m]!, q[m + 1]!, longestMm, out);
  }
}

/** Where an edge turns from moving outward to moving inward it is cut, but not nearer to its ends than this share. */
const LEAST_SHARE = 0.02;

/** The patch of the edge from a to b, material on its left, that moves to c, d. */
function patch(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  longestMm: number,
  out: Polygon[],
): void {
  const t0 = cross(ax, ay, bx, by, dx, dy);
  const t1 = cross(bx, by, dx, dy, cx, cy);
  const t2 = cross(dx, dy, cx, cy, ax, ay);
  const t3 = cross(cx, cy, ax, ay, bx, by);
  const length = Math.hypot(bx - ax, by - ay);
  const straight = SLIVER_MM * Math.max(length, Math.hypot(cx - ax, cy - ay), Math.hypot(dx - bx, dy - by));
  if (t0 >= -straight && t1 >= -straight && t2 >= -straight && t3 >= -straight) return;
  if (t0 <= straight && t1 <= straight && t2 <= straight && t3 <= straight) {
    out.push([cx, cy, dx, dy, bx, by, ax, ay]);
    return;
  }
  if (length > longestMm) {
    const atA = cross(ax, ay, bx, by, cx, cy);
    const atB = cross(ax, ay, bx, by, dx, dy);
    const zero = atA * atB < 0 ? Math.min(1 - LEAST_SHARE, Math.max(LEAST_SHARE, atA / (atA - atB))) : 0.5;
    const [mx, my] = [ax + zero * (bx - ax), ay + zero * (by - ay)];
    const [nx, ny] = [cx + zero * (dx - cx), cy + zero * (dy - cy)];
    patch(ax, ay, mx, my, cx, cy, nx, ny, longestMm, out);
    patch(mx, my, bx, by, nx, ny, dx, dy, longestMm, out);
    return;
  }
  // Its four triangles make the hull.
  for (const triangle of [
    [ax, ay, bx, by, cx, cy],
    [ax, ay, bx, by, dx, dy],
    [ax, ay, cx, cy, dx, dy],
    [bx, by, cx, cy, dx, dy],
  ]) {
    const area = doubleArea(triangle);
    if (area > 0) out.push(triangle);
    else if (area < 0) out.push([...triangle.slice(4), ...triangle.slice(2, 4), ...triangle.slice(0, 2)]);
  }
}

/** Which way the path from a over b to c turns: positive to the left. */
function cross(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return (bx - ax) * (cy - by) - (by - ay) * (cx - bx);
}

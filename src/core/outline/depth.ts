/**
 * How deep do two overlapping outlines reach into each other, and a bound on it over a turn of the crank.
 *
 * The signed gap of overlapping outlines is minus the depth of the deepest point: the point of either outline that lies
 * inside the other material and is farthest from the other's outline.
 *
 * THE BOUND. A cell is a stretch of one piece of the "diving" outline (arc length s0 ± k) and a turn (t0 ± h). A point
 * of it stands, in the frame of the other ("host") outline, at p0 + D with
 *
 *   D = T sigma + V tau + e,   |e| <= kappa k^2 / 2 + A h^2 / 2 + w k h
 *
 * (T unit tangent, V speed in the host's frame, kappa curvature, A bound on the acceleration there, w on the relative
 * turning speed). Its depth is at most its distance to any one place of the host's outline, inside or not:
 *
 *   to a line, if its foot stays within the line:  |n.p|            <= |n.p0| + |n.T| k + |n.V| h + |e|
 *   to an arc, if it stays within the sector (or runs on along the next arc of the same circle):      ||p - c| - R|    <= |f0| + |u.T| k + |u.V| h + |e| + |D|^2 / (2 |p0 - c|)
 *   to a corner:                                   |p - q|          <= |f0| + ... as for the arc
 *
 * using |x + D| <= |x| + x.D / |x| + |D|^2 / (2 |x|). And if p0 lies outside the host by delta, the depth is at most
 * |D| - delta; where the host is simple there, to second order (depthBound.ts, `outsideBound`). A cell whose bound is not above the deepest depth found plus the tolerance is done with; the others are
 * cut in two along the side that matters more. Second order in k and h: a deepest point
 * that is passed in the turn takes some thousands of cells. Where the depth is the same over a long stretch and a long turn
 * at once (a rim too large in a concentric cut) the cells fill that whole field and may be hundreds of thousands; the
 * budget then says so.
 */
import type { Motion, Pose } from '../plane/pose.ts';
import { newPose } from '../plane/pose.ts';
import { outsideBound, reachBound } from './depthBound.ts';
import type { FlatOutline } from './flat.ts';
import { CX, CY, LINE, R, STRIDE, TX, TY } from './flat.ts';
import type { Relative } from './relative.ts';
import { newRelative, setRelative } from './relative.ts';
import type { NearestPlace } from './signedDistance.ts';
import { distanceOfPoint, POINT, pieceLengthMm, pointOnPiece, signedDistance } from './signedDistance.ts';

export interface Deepest {
  /** Greatest depth found, mm; negative when every point looked at lies outside, by the distance of the nearest. */
  depthMm: number;
  /** Proven: nowhere in the turn is the depth greater than this. */
  boundMm: number;
  atCrankRad: number;
  /** True when the diving point belongs to A. */
  diverIsA: boolean;
  /** The deepest point, and the nearest place of the host's outline, both in the host's frame. */
  pointX: number;
  pointY: number;
  hostX: number;
  hostY: number;
  /** The deepest point in the diver's own frame. */
  ownX: number;
  ownY: number;
  cells: number;
  /** The work budget ran out before the bound was reached. */
  budgetSpent: boolean;
}

export function newDeepest(): Deepest {
  return {
    depthMm: Number.NEGATIVE_INFINITY,
    boundMm: 0,
    atCrankRad: 0,
    diverIsA: true,
    pointX: 0,
    pointY: 0,
    hostX: 0,
    hostY: 0,
    ownX: 0,
    ownY: 0,
    cells: 0,
    budgetSpent: false,
  };
}

// Work area of one call: a stack of cells [piece, s0, k, t0, h], two poses, the relative pose, points.
const CELL = 5;
const STACK = new Float64Array(CELL * 4096);
const poseDiver: Pose = newPose();
const poseHost: Pose = newPose();
const rel: Relative = newRelative();
const place: NearestPlace = { x: 0, y: 0, piece: 0, corner: false };
const local = { x: 0, y: 0 };

/**
 * Deepest mutual reach of A and B over crank angles from `fromRad` to `toRad` (equal: at that angle only), to
 * `toleranceMm`: on return boundMm - depthMm <= toleranceMm unless the budget ran out. `knownMm`: a depth already found
 * elsewhere; only greater ones are looked for. At most `budget` cells.
 */
export function deepest(
  fa: FlatOutline,
  ma: Motion,
  fb: FlatOutline,
  mb: Motion,
  fromRad: number,
  toRad: number,
  knownMm: number,
  toleranceMm: number,
  budget: number,
  out: Deepest,
): Deepest {
  out.depthMm = knownMm;
  out.boundMm = knownMm;
  out.cells = 0;
  out.budgetSpent = false;
  dive(fa, ma, fb, mb, fromRad, toRad, toleranceMm, budget, out, true);
  dive(fb, mb, fa, ma, fromRad, toRad, toleranceMm, budget, out, false);
  out.boundMm = Math.max(out.boundMm, out.depthMm);
  return out;
}

/**
 * As `deepest` at one angle, `out` being the answer for the same outlines at an angle near by: begins from its deepest point, wherever that
 * stands now, so that little else need be looked at.
 */
export function deepestAgain(
  fa: FlatOutline,
  ma: Motion,
  fb: FlatOutline,
  mb: Motion,
  atRad: number,
  knownMm: number,
  toleranceMm: number,
  budget: number,
  out: Deepest,
): Deepest {
  const { diverIsA, ownX, ownY } = out;
  const host = diverIsA ? fb : fa;
  (diverIsA ? ma : mb).write(atRad, poseDiver);
  (diverIsA ? mb : ma).write(atRad, poseHost);
  setRelative(rel, poseDiver, poseHost);
  const px = rel.tx + rel.cos * ownX + rel.sin * ownY;
  const py = rel.ty - rel.sin * ownX + rel.cos * ownY;
  const depthMm = -signedDistance(host, px, py, place);
  if (depthMm <= knownMm) return deepest(fa, ma, fb, mb, atRad, atRad, knownMm, toleranceMm, budget, out);
  const [hostX, hostY] = [place.x, place.y];
  deepest(fa, ma, fb, mb, atRad, atRad, depthMm, toleranceMm, budget, out);
  if (out.depthMm > depthMm) return out;
  out.atCrankRad = atRad;
  out.diverIsA = diverIsA;
  out.pointX = px;
  out.pointY = py;
  out.hostX = hostX;
  out.hostY = hostY;
  return out;
}

function dive(
  diver: FlatOutline,
  md: Motion,
  host: FlatOutline,
  mh: Motion,
  fromRad: number,
  toRad: number,
  toleranceMm: number,
  budget: number,
  out: Deepest,
  diverIsA: boolean,
): void {
  const half = (toRad - fromRad) / 2;
  const middle = (fromRad + toRad) / 2;
  let top = 0;
  for (let i = 0; i < diver.n; i++) {
    const k = pieceLengthMm(diver, i) / 2;
    push(top, i, k, k, middle, half);
    top += CELL;
  }
  const turn = md.turnSpeed + mh.turnSpeed;
  let poseAt = Number.NaN;
  while (top > 0) {
    if (out.cells >= budget) {
      out.budgetSpent = true;
      out.boundMm = Number.POSITIVE_INFINITY;
      return;
    }
    out.cells += 1;
    top -= CELL;
    const piece = STACK[top]!;
    const s0 = STACK[top + 1]!;
    const k = STACK[top + 2]!;
    const t0 = STACK[top + 3]!;
    const h = STACK[top + 4]!;
    if (t0 !== poseAt) {
      md.write(t0, poseDiver);
      mh.write(t0, poseHost);
      setRelative(rel, poseDiver, poseHost);
      poseAt = t0;
    }
    // The point in the host's frame.
    pointOnPiece(diver, piece, s0, local);
    const px = rel.tx + rel.cos * local.x + rel.sin * local.y;
    const py = rel.ty - rel.sin * local.x + rel.cos * local.y;
    POINT[0] = px;
    POINT[1] = py;
    distanceOfPoint(host, place);
    const sd = POINT[2]!;
    if (-sd > out.depthMm) {
      out.depthMm = -sd;
      out.atCrankRad = t0;
      out.diverIsA = diverIsA;
      out.pointX = px;
      out.pointY = py;
      out.ownX = local.x;
      out.ownY = local.y;
      out.hostX = place.x;
      out.hostY = place.y;
    }
    // How far the cell's points stray from p0.
    const vx = rel.dtx + rel.dturn * (py - rel.ty);
    const vy = rel.dty - rel.dturn * (px - rel.tx);
    const v = Math.sqrt(vx * vx + vy * vy);
    const o = piece * STRIDE;
    const kappa = diver.kind[piece] === LINE ? 0 : 1 / diver.at[o + R]!;
    const reachDiver = Math.sqrt(local.x * local.x + local.y * local.y) + k;
    const reachHost = Math.sqrt(px * px + py * py);
    const acc = h > 0 ? accelInHost(md, reachDiver, mh, reachHost, h) : 0;
    const e = (kappa * k * k) / 2 + (acc * h * h) / 2 + turn * k * h;
    const stray = k + v * h + e;
    const enough = out.depthMm + toleranceMm;
    if (sd > 0 && stray - sd <= enough) {
      if (stray - sd > out.boundMm) out.boundMm = stray - sd;
      continue;
    }
    // Tangent of the diving piece in the host's frame.
    let tx: number;
    let ty: number;
    if (diver.kind[piece] === LINE) {
      tx = diver.at[o + TX]!;
      ty = diver.at[o + TY]!;
    } else {
      tx = -(local.y - diver.at[o + CY]!) * kappa;
      ty = (local.x - diver.at[o + CX]!) * kappa;
    }
    const htx = rel.cos * tx + rel.sin * ty;
    const hty = -rel.sin * tx + rel.cos * ty;
    const reach = reachBound(host, place, px, py, htx, hty, vx, vy, k, h, e, stray, Math.abs(sd));
    const bound =
      sd > 0 && reach > enough
        ? Math.min(reach, outsideBound(host, place, px, py, sd, htx, hty, vx, vy, k, h, e, stray))
        : reach;
    if (bound <= enough) {
      if (bound > out.boundMm) out.boundMm = bound;
      continue;
    }
    if (top + 2 * CELL > STACK.length)
      throw new Error('depth: the stack of cells is full, which a halving search cannot reach');
    // Cut along the side whose stray is the larger.
    if (k >= v * h + (acc * h * h) / 2) {
      push(top, piece, s0 - k / 2, k / 2, t0, h);
      push(top + CELL, piece, s0 + k / 2, k / 2, t0, h);
    } else {
      push(top, piece, s0, k, t0 - h / 2, h / 2);
      push(top + CELL, piece, s0, k, t0 + h / 2, h / 2);
    }
    top += 2 * CELL;
  }
}

function push(at: number, piece: number, s: number, k: number, t: number, h: number): void {
  STACK[at] = piece;
  STACK[at + 1] = s;
  STACK[at + 2] = k;
  STACK[at + 3] = t;
  STACK[at + 4] = h;
}

/** Bound, over a turn of ± h, on the acceleration in the host's frame of a diver's point, `reachHost` from the host's origin now. */
function accelInHost(md: Motion, reachDiver: number, mh: Motion, reachHost: number, h: number): number {
  const v = md.originSpeedMm + md.turnSpeed * reachDiver + mh.originSpeedMm;
  return (
    md.originAccelMm +
    (md.turnSpeed * md.turnSpeed + md.turnAccel) * reachDiver +
    mh.originAccelMm +
    2 * mh.turnSpeed * v +
    (mh.turnSpeed * mh.turnSpeed + mh.turnAccel) * (reachHost + v * h)
  );
}

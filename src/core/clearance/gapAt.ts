/**
 * The signed gap of two moving outlines at one crank angle: positive, their distance; negative, minus the depth of the
 * deepest point (see core/outline/depth.ts). One work area, nothing allocated per call.
 */
import type { Deepest } from '../outline/depth.ts';
import { deepest, deepestAgain, newDeepest } from '../outline/depth.ts';
import type { FlatOutline } from '../outline/flat.ts';
import { overlaps } from '../outline/overlap.ts';
import type { Probe } from '../outline/probe.ts';
import { LONGEST_STEP_RAD, newProbe, probe } from '../outline/probe.ts';
import type { Relative } from '../outline/relative.ts';
import { newRelative, setRelative } from '../outline/relative.ts';
import { separated } from '../outline/separated.ts';
import type { Motion, Pose } from '../plane/pose.ts';
import { newPose, poseX, poseY } from '../plane/pose.ts';

/** A rigid outline and how it moves. */
export interface Mover {
  readonly flat: FlatOutline;
  readonly motion: Motion;
}

/** Result of one evaluation. `slopeMm`: change per radian of crank angle; of an overlap at its deepest point as it is now. */
export interface GapAt {
  gapMm: number;
  slopeMm: number;
  overlapping: boolean;
  /** Nearest points of A and B, or the deepest point and the nearest place to it: engine frame, mm. */
  ax: number;
  ay: number;
  bx: number;
  by: number;
  /** Of an overlap: whether the deepest point is A's (else it is B's). Only that point is sure to lie in both. */
  deepestIsA: boolean;
}

export function newGapAt(): GapAt {
  return { gapMm: 0, slopeMm: 0, overlapping: false, ax: 0, ay: 0, bx: 0, by: 0, deepestIsA: true };
}

/** Outlines nearer than this count as touching: their depth is then looked for. Far below what a micrometre's certificate can tell. */
const TOUCH_MM = 1e-7;

/** Depth is found to this. */
export const DEPTH_TOLERANCE_MM = 1e-5;

/** Cells for one depth at one angle; an overlap of 300 mm in lines and arcs takes some hundreds. */
const DEPTH_BUDGET = 200_000;

const poseA: Pose = newPose();
const poseB: Pose = newPose();
const relative: Relative = newRelative();
/** B in A's frame. */
const inside: Relative = newRelative();
const found: Probe = newProbe();
const depth: Deepest = newDeepest();

/** The pose of A in B's frame at a crank angle. */
function place(a: Mover, b: Mover, crankAngleRad: number): Relative {
  a.motion.write(crankAngleRad, poseA);
  b.motion.write(crankAngleRad, poseB);
  setRelative(relative, poseA, poseB);
  return relative;
}

/** Do the materials share a region, A standing as `rel` says; `p`: what the probe found there. A straight line between them is tried first. */
function overlapping(a: Mover, b: Mover, rel: Relative, p: Probe): boolean {
  if (p.gapMm < TOUCH_MM) return true;
  const nx = p.ax - p.bx;
  const ny = p.ay - p.by;
  const d = Math.sqrt(nx * nx + ny * ny);
  if (d > 0 && separated(a.flat, b.flat, rel, nx / d, ny / d)) return false;
  return overlaps(a.flat, b.flat, rel);
}

/**
 * Signed gap at a crank angle. `bestMm`: distances at or above it are not looked for (gapMm is then `bestMm`); give
 * Infinity for the gap itself. With `points` the nearest points are filled in the engine frame. Without `withDepth` an
 * overlap counts as a gap of 0. `again`: the last depth asked for was of the same outlines at an angle near by.
 */
export function gapAt(
  a: Mover,
  b: Mover,
  crankAngleRad: number,
  bestMm: number,
  points: boolean,
  out: GapAt,
  withDepth = true,
  again = false,
): GapAt {
  place(a, b, crankAngleRad);
  probe(a.flat, a.motion, b.flat, b.motion, relative, bestMm, -1, -1, 0, found);
  out.gapMm = found.gapMm;
  out.slopeMm = found.slopeMm;
  out.overlapping = overlapping(a, b, relative, found);
  if (out.overlapping && !withDepth) out.gapMm = 0;
  else if (out.overlapping) {
    const at = crankAngleRad;
    const to = DEPTH_TOLERANCE_MM;
    if (again) deepestAgain(a.flat, a.motion, b.flat, b.motion, at, -to, to, DEPTH_BUDGET, depth);
    else deepest(a.flat, a.motion, b.flat, b.motion, at, at, -to, to, DEPTH_BUDGET, depth);
    out.gapMm = -depth.depthMm;
    out.slopeMm = depthSlope(depth);
    if (points) {
      placeDepth(depth, out);
    }
  } else if (points && found.gapMm < bestMm) {
    out.ax = poseX(poseB, found.ax, found.ay);
    out.ay = poseY(poseB, found.ax, found.ay);
    out.bx = poseX(poseB, found.bx, found.by);
    out.by = poseY(poseB, found.bx, found.by);
  }
  return out;
}

/** Change of minus the depth per radian, the poses being set: how fast the deepest point goes toward the nearest place of the outline it is in. */
function depthSlope(d: Deepest): number {
  if (!(d.depthMm > 0)) return 0;
  const rel = d.diverIsA ? relative : setRelative(inside, poseB, poseA);
  const vx = rel.dtx + rel.dturn * (d.pointY - rel.ty);
  const vy = rel.dty - rel.dturn * (d.pointX - rel.tx);
  return ((d.hostX - d.pointX) * vx + (d.hostY - d.pointY) * vy) / d.depthMm;
}

/** Carries the two points of a depth, found at the poses now set, into the engine frame: A's point first. */
function placeDepth(d: Deepest, out: GapAt): void {
  const host = d.diverIsA ? poseB : poseA;
  out.deepestIsA = d.diverIsA;
  const pointX = poseX(host, d.pointX, d.pointY);
  const pointY = poseY(host, d.pointX, d.pointY);
  const hostX = poseX(host, d.hostX, d.hostY);
  const hostY = poseY(host, d.hostX, d.hostY);
  out.ax = d.diverIsA ? pointX : hostX;
  out.ay = d.diverIsA ? pointY : hostY;
  out.bx = d.diverIsA ? hostX : pointX;
  out.by = d.diverIsA ? hostY : pointY;
}

/**
 * For the certificate: the distance below `bestMm`, and the safe turns forward and back for `targetMm`, as far as they are asked
 * for (core/outline/probe.ts). Does not look for overlaps.
 */
export function turnsAt(
  a: Mover,
  b: Mover,
  crankAngleRad: number,
  bestMm: number,
  targetMm: number,
  forwardRad = LONGEST_STEP_RAD,
  backRad = LONGEST_STEP_RAD,
): Probe {
  const rel = place(a, b, crankAngleRad);
  return probe(a.flat, a.motion, b.flat, b.motion, rel, bestMm, forwardRad, backRad, targetMm, found);
}

/** The distance alone, below `bestMm`. Does not look for overlaps. */
export function distanceAt(a: Mover, b: Mover, crankAngleRad: number, bestMm: number): Probe {
  return probe(a.flat, a.motion, b.flat, b.motion, place(a, b, crankAngleRad), bestMm, -1, -1, 0, found);
}

/** Whether the materials share a region, where the last call of turnsAt or distanceAt, which gave `p`, placed them. */
export function overlapIn(a: Mover, b: Mover, p: Probe): boolean {
  return overlapping(a, b, relative, p);
}

/** Whether the materials share a region. */
export function overlapAt(a: Mover, b: Mover, crankAngleRad: number): boolean {
  return overlapping(a, b, relative, distanceAt(a, b, crankAngleRad, Number.POSITIVE_INFINITY));
}

// Poses at angles that every cell of a pair asks for, kept while the two motions are the same.
const KEPT = 64;
const keptPoses: Relative[] = Array.from({ length: KEPT }, newRelative);
const keptAt = new Float64Array(KEPT);
let keptA: Motion | null = null;
let keptB: Motion | null = null;

/** As turnsAt and, with `forwardRad` below zero, as distanceAt, at an angle asked for again and again: `slot` from 0 to 63 is its number. */
export function keptTurnsAt(
  a: Mover,
  b: Mover,
  crankAngleRad: number,
  slot: number,
  bestMm: number,
  targetMm: number,
  forwardRad: number,
  backRad: number,
): Probe {
  if (a.motion !== keptA || b.motion !== keptB) {
    keptA = a.motion;
    keptB = b.motion;
    keptAt.fill(Number.NaN);
  }
  const rel = keptPoses[slot]!;
  if (keptAt[slot] !== crankAngleRad) {
    a.motion.write(crankAngleRad, poseA);
    b.motion.write(crankAngleRad, poseB);
    setRelative(rel, poseA, poseB);
    keptAt[slot] = crankAngleRad;
  }
  return probe(a.flat, a.motion, b.flat, b.motion, rel, bestMm, forwardRad, backRad, targetMm, found);
}

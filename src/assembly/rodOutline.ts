/**
 * Outlines of a rod in its own frame: origin at the crankpin, +y toward the small end.
 *
 * The big end is a disc with two upright boxes, the bolt bosses, from the bottom of the bolt to the top of its shoulder;
 * a beam of even width joins it to the disc of the small end. Each outline is the union, so that the depth of an overlap
 * counts the whole rod, not one of its parts.
 */
import type { Outline } from '../core/outline/outline.ts';
import { box, disc, Path } from '../core/outline/path.ts';
import { mirrorX } from '../core/outline/transform.ts';
import { union } from '../core/outline/union.ts';

export interface RodDims {
  readonly lengthMm: number;
  readonly bigEndRadiusMm: number;
  readonly boltSpreadMm: number;
  readonly boltBossRadiusMm: number;
  readonly shoulderHeightMm: number;
  readonly boltLengthMm: number;
  readonly beamWidthMm: number;
  readonly smallEndRadiusMm: number;
}

/** Big end with its bolt bosses: the sections to either side of the beam. */
export function bigEndOutline(d: RodDims): Outline {
  const inner = d.boltSpreadMm - d.boltBossRadiusMm;
  const outer = d.boltSpreadMm + d.boltBossRadiusMm;
  const boss = box(inner, -d.boltLengthMm, outer, d.shoulderHeightMm);
  return union(union(disc(0, 0, d.bigEndRadiusMm), boss), mirrorX(boss));
}

/** Big end with its bosses, beam and small end: the section through the middle of the rod. */
export function rodOutline(d: RodDims): Outline {
  const half = d.beamWidthMm / 2;
  const y = d.lengthMm - Math.sqrt(d.smallEndRadiusMm ** 2 - half ** 2);
  const beam = new Path(-half, 0).line(half, 0).line(half, y).arcTo(0, d.lengthMm, -half, y).close();
  return union(bigEndOutline(d), beam);
}

/**
 * Pistons as bodies: own frame with the bore axis as y, the pin at height 0.
 *
 * The wall is round about the bore axis. At axial distance z from it the outside stands at sqrt(R^2 - z^2), the inside
 * at sqrt((R - t)^2 - z^2); within the skirt's half angle it reaches down to the skirt's edge, beside it only to the
 * relief. The union over a slice takes the outside at the smallest |z|, the inside at the largest: both are reached
 * within the slice and everything between is filled, so that nothing is added.
 */
import { measuredOf, pistonOf } from '../build/bodyOf.ts';
import type { Assembly } from '../build/document.ts';
import { pistonMotion } from '../core/kinematics/motions.ts';
import type { RoundLayer } from '../core/outline/layers.ts';
import type { Outline } from '../core/outline/outline.ts';
import { box, disc, Path } from '../core/outline/path.ts';
import { assumedOf, mm, rad } from './dims.ts';
import type { Body, Cylinder, DrawnShape } from './engine.ts';
import { measuredShape } from './measured.ts';

/** Smallest and largest distance from a centre within an axial range. */
export function axialReach(z0: number, z1: number, centre: number): { near: number; far: number } {
  const a = Math.abs(z0 - centre);
  const b = Math.abs(z1 - centre);
  const straddles = (z0 - centre) * (z1 - centre) <= 0;
  return { near: straddles ? 0 : Math.min(a, b), far: Math.max(a, b) };
}

/** Half the chord of a circle at distance z from its middle; 0 beyond it. */
export function halfChord(radius: number, z: number): number {
  return z >= radius ? 0 : Math.sqrt((radius - z) * (radius + z));
}

/** A cup upside down: crown on top, a wall on either side down to `lowY`; solid where the inside has closed. */
function cup(outerX: number, innerX: number, topY: number, underY: number, lowY: number): Outline {
  if (innerX <= 0 || lowY >= underY) return box(-outerX, Math.min(lowY, underY), outerX, topY);
  return new Path(-outerX, lowY)
    .line(-innerX, lowY)
    .line(-innerX, underY)
    .line(innerX, underY)
    .line(innerX, lowY)
    .line(outerX, lowY)
    .line(outerX, topY)
    .line(-outerX, topY)
    .close();
}

export function layPistons(assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  return cylinders.map((c) => layPiston(assembly, c));
}

export function layPiston(assembly: Assembly, c: Cylinder): Body {
  const resolved = pistonOf(assembly, c.number);
  const { dims } = resolved;
  const points = measuredOf(resolved);
  const measured = points && measuredShape(points, 'pin boss outline');
  const R = mm(dims.skirtDiameter) / 2;
  const inner = R - mm(dims.skirtThickness);
  const top = mm(dims.compressionHeight);
  const under = top - mm(dims.crownThickness);
  const skirtY = -mm(dims.skirtBelowPin);
  const reliefY = -mm(dims.reliefBelowPin);
  const panel = Math.min(R * Math.sin(rad(dims.skirtHalfAngle)), R);
  const z = c.boreCentreMm;
  const wall = (part: string, from: number, to: number, lowY: number): RoundLayer => ({
    part,
    z0Mm: z + from,
    z1Mm: z + to,
    centreMm: z,
    slice: (z0, z1) => {
      const { near, far } = axialReach(z0, z1, z);
      const outerX = halfChord(R, near);
      return outerX > 0 ? cup(outerX, halfChord(inner, far), top, under, lowY) : null;
    },
    alike: { key: `${part} ${R} ${inner} ${from} ${to}`, heightsMm: [top, under, lowY] },
  });
  const round = [wall('skirt', -panel, panel, skirtY)];
  if (panel < R) round.push(wall('wall', -R, -panel, reliefY), wall('wall', panel, R, reliefY));
  const pinX = mm(dims.pinOffset);
  const bossR = mm(dims.bossRadius);
  const formula = new Path(pinX - bossR, 0)
    .arcTo(pinX, 0, pinX + bossR, 0)
    .line(pinX + bossR, under)
    .line(pinX - bossR, under)
    .close();
  const boss = measured?.outline ?? formula;
  const deviationMm = measured?.deviationMm ?? 0;
  const gap = mm(dims.bossGap) / 2;
  const span = mm(dims.bossSpan) / 2;
  const keyed = [R, inner, top, under, skirtY, reliefY, panel, pinX, measured?.key ?? bossR, gap, span];
  const mirrored = [R, inner, top, under, skirtY, reliefY, panel, -pinX, bossR, gap, span];
  return {
    name: `piston ${c.number}`,
    kind: 'piston',
    cylinder: c.number,
    motion: pistonMotion(c.slider, c.bankAngleRad, c.alphaAtZeroRad, c.boreOffsetMm),
    layers: [
      { part: 'pin boss', outline: boss, z0Mm: z - span, z1Mm: z - gap, deviationMm },
      { part: 'pin boss', outline: boss, z0Mm: z + gap, z1Mm: z + span, deviationMm },
    ],
    round,
    drawn: [
      { style: 'cut', outline: cup(R, inner, top, under, skirtY), hatch: { slopeDeg: -45, spacingMm: 3 } },
      ...ringGrooves(R, top, mm(dims.pinDiameter) / 2),
      { style: 'behind', outline: boss },
      { style: 'cut', outline: disc(pinX, 0, mm(dims.pinDiameter) / 2), hatch: { slopeDeg: 45, spacingMm: 2 } },
    ],
    z0Mm: z - R,
    z1Mm: z + R,
    assumed: [
      ...assumedOf('piston', measured === undefined ? dims : { ...dims, bossRadius: null, outlineDeviation: null }),
      ...(measured?.assumed ?? []),
      ...assumedOf('rod', assembly.rod, ['length']),
      ...assumedOf('crank', assembly.crank, ['stroke']),
    ],
    shapeKey: `piston ${keyed.join(' ')}`,
    baseMm: z,
    move: { kind: 'piston', cylinder: c },
    ...(measured === undefined ? { mirror: { shapeKey: `piston ${mirrored.join(' ')}`, baseMm: -z } } : {}),
  };
}

/** Three rings as a drawing shows them where nothing is known of their places: marks between crown and pin, not to scale. */
function ringGrooves(R: number, top: number, pinRadius: number): DrawnShape[] {
  const land = (top - pinRadius) / 7;
  const depth = R * 0.06;
  return [1, 2.6, 4.2].flatMap((k) =>
    [-1, 1].map((side): DrawnShape => {
      const y = top - k * land - land * 0.6;
      const x0 = side < 0 ? -R : R - depth;
      return { style: 'behind', outline: box(x0, y, x0 + depth, y + land * 0.6) };
    }),
  );
}

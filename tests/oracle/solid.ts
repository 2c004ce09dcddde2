/** Gap of two parts in space at a crank angle by trying points and sections: imports nothing of the program. */
import type { Shape, XY } from './plane.ts';
import { gapOf, nearestOn, signedDistanceMm } from './plane.ts';
import { lowestOver } from './sweep.ts';
import type { Part, Prism, Variant } from './v8.ts';
import { inPlace } from './v8.ts';

interface Placed {
  readonly prisms: readonly Prism[];
  readonly part: Part;
  readonly crank: number;
}

function placedPart(v: Variant, part: Part, crank: number): Placed {
  const at = part.place(crank);
  return { prisms: part.prisms.map((p) => ({ ...p, shape: inPlace(v, p.shape, at) })), part, crank };
}

/** Axial distance of two ranges; 0 when they overlap. */
function apart(a0: number, a1: number, b0: number, b1: number): number {
  return Math.max(0, a0 - b1, b0 - a1);
}

/** From the distance of outlines and the axial distance. */
function inSpace(inPlane: number, axial: number): number {
  return axial === 0 ? inPlane : Math.hypot(Math.max(0, inPlane), axial);
}

/** The distance of outlines that would beat `best` at an axial distance; null when none would. */
function limit(best: number, axial: number): number | null {
  if (axial === 0) return best;
  return best <= axial ? null : Math.sqrt(best * best - axial * axial);
}

/** `fine`: sections every two millimetres and closer about the best, every lobe point; else a quick look for where to try harder. */
export function gapAtCrank(v: Variant, a: Part, b: Part, crank: number, fine: boolean): number {
  const pa = placedPart(v, a, crank);
  const pb = placedPart(v, b, crank);
  let best = Number.POSITIVE_INFINITY;
  for (const p of pa.prisms) for (const q of pb.prisms) best = prisms(p, q, best, fine);
  for (const p of pa.prisms) {
    if (b.round) best = throughSections(v, p, pb, best, fine);
    if (b.cloud) best = throughCloud(v, p, pb, best, fine);
  }
  return best;
}

function prisms(p: Prism, q: Prism, best: number, fine: boolean): number {
  const axial = apart(p.z0, p.z1, q.z0, q.z1);
  const below = limit(best, axial);
  if (below === null) return best;
  return Math.min(best, inSpace(gapOf(p.shape, q.shape, fine ? 0.5 : 2, below).gapMm, axial));
}

function throughSections(v: Variant, p: Prism, b: Placed, best: number, fine: boolean): number {
  const round = b.part.round!;
  const at = b.part.place(b.crank);
  const section = (z: number, soFar: number): number => {
    const axial = apart(p.z0, p.z1, z, z);
    let least = soFar;
    for (const s of round.at(z)) {
      const below = limit(least, axial);
      if (below === null) break;
      least = Math.min(least, inSpace(gapOf(p.shape, inPlace(v, s, at), fine ? 0.5 : 2, below).gapMm, axial));
    }
    return least;
  };
  const count = fine ? 32 : 8;
  const places = Array.from({ length: count + 1 }, (_, k) => round.z0 + ((round.z1 - round.z0) * k) / count);
  // The partner's faces, the places where the section jumps, and a hair to either side of them.
  for (const z of [p.z0, p.z1, ...round.edges]) places.push(z - 1e-6, z, z + 1e-6);
  const inRange = places.filter((z) => z > round.z0 && z < round.z1).sort((s, t) => s - t);
  let least = best;
  let where = Number.NaN;
  for (const z of inRange) {
    const g = section(z, least);
    if (g < least) {
      least = g;
      where = z;
    }
  }
  if (!fine || Number.isNaN(where)) return least;
  // Closer about the best: by halving steps.
  for (let step = (round.z1 - round.z0) / count; step > 1e-6; step /= 2) {
    for (const z of [where - step, where + step]) {
      if (z <= round.z0 || z >= round.z1) continue;
      const g = section(z, least);
      if (g < least) {
        least = g;
        where = z;
      }
    }
  }
  return least;
}

function cloudInPlace(v: Variant, b: Placed, every: number): XY[] {
  const at = b.part.place(b.crank);
  const [c, s] = [Math.cos(at.turn), Math.sin(at.turn)];
  const sign = v.counterclockwise ? -1 : 1;
  return b.part
    .cloud!.points.filter((_, k) => k % every === 0)
    .map(([x, y]): XY => [sign * (at.x + c * x + s * y), at.y - s * x + c * y]);
}

function throughCloud(v: Variant, p: Prism, b: Placed, best: number, fine: boolean): number {
  const { z0, z1 } = b.part.cloud!;
  const axial = apart(p.z0, p.z1, z0, z1);
  let below = limit(best, axial);
  if (below === null) return best;
  let least = best;
  for (const [x, y] of cloudInPlace(v, b, fine ? 1 : 40)) {
    if (Math.hypot(x - p.shape.cx, y - p.shape.cy) - p.shape.reach >= below) continue;
    const g = inSpace(signedDistanceMm(p.shape, x, y), axial);
    if (g < least) {
      least = g;
      below = limit(least, axial)!;
      if (below === null) return least;
    }
  }
  return least;
}

/** The smallest gap over a period: where a quick look finds dips, closer and finer. */
export function lowestGap(v: Variant, a: Part, b: Part, period: number, count: number): { value: number; at: number } {
  const rough = lowestOver((t) => gapAtCrank(v, a, b, t, false), period, count, 2, 0.01);
  const step = 0.02;
  const fine = lowestOver((t) => gapAtCrank(v, a, b, rough.at - step + t, true), 2 * step, 5, 1, 2e-6);
  return { value: fine.value, at: rough.at - step + fine.at };
}

/** How far a point of the section plane is from the outlines of a part's prisms or its lobe points, at a crank angle. */
export function strayFrom(v: Variant, part: Part, crank: number, x: number, y: number): number {
  const p = placedPart(v, part, crank);
  let least = Number.POSITIVE_INFINITY;
  for (const q of p.prisms) {
    const [nx, ny] = nearestOn(q.shape as Shape, x, y);
    least = Math.min(least, Math.hypot(nx - x, ny - y));
  }
  if (part.cloud) for (const [px, py] of cloudInPlace(v, p, 1)) least = Math.min(least, Math.hypot(px - x, py - y));
  return least;
}

/**
 * Union and offset of polygons in the plane, by a general-purpose library that works on whole numbers: no rounding inside it can lose a
 * crossing. Coordinates are rounded to `GRID_MM`; whoever needs the result on one side of the truth allows `ROUNDED_MM` for that.
 */
import {
  Clipper64,
  ClipperOffset,
  ClipType,
  EndType,
  FillRule,
  JoinType,
  type Path64,
  type Paths64,
} from 'clipper2-ts';

/** A closed polygon, x y x y …, mm. Counterclockwise around material, clockwise around a hole in it. */
export type Polygon = readonly number[];

/** 0.1 micrometre: 500 mm are then 5 million, and no product of two lengths leaves the whole numbers that a double holds exactly. */
const GRID_MM = 1e-4;

/** How far rounding to the grid, once for a point and once for a crossing, moves a boundary at most: two half diagonals and some. */
export const ROUNDED_MM = 2 * GRID_MM;

function toGrid(polygon: Polygon): Path64 {
  const path: Path64 = [];
  for (let k = 0; k < polygon.length; k += 2)
    path.push({ x: Math.round(polygon[k]! / GRID_MM), y: Math.round(polygon[k + 1]! / GRID_MM) });
  return path;
}

function fromGrid(paths: Paths64): Polygon[] {
  return paths.map((path) => path.flatMap(({ x, y }) => [x * GRID_MM, y * GRID_MM]));
}

/** Everything that lies in any of the polygons. Each must run counterclockwise, but for holes of an earlier union. */
export function union(polygons: readonly Polygon[]): Polygon[] {
  const clipper = new Clipper64();
  clipper.addSubject(polygons.map(toGrid));
  const out: Paths64 = [];
  clipper.execute(ClipType.Union, FillRule.NonZero, out);
  return fromGrid(out);
}

/** Corners of an offset are rounded with chords that stay inside the circle by at most this, mm. */
export const JOIN_MM = 0.001;

/** Grown by at least `byMm` and at most `JOIN_MM` more; holes shrink. The polygons must be those of a union. */
export function grown(polygons: readonly Polygon[], byMm: number): Polygon[] {
  const offset = new ClipperOffset(2, JOIN_MM / GRID_MM);
  offset.addPaths(polygons.map(toGrid), JoinType.Round, EndType.Polygon);
  const out: Paths64 = [];
  offset.execute((byMm + JOIN_MM) / GRID_MM, out);
  return fromGrid(out);
}

/** Twice the area, positive counterclockwise, mm². */
export function doubleArea(polygon: Polygon): number {
  let sum = 0;
  const n = polygon.length;
  for (let k = 0; k < n; k += 2) {
    const [x0, y0, x1, y1] = [polygon[k]!, polygon[k + 1]!, polygon[(k + 2) % n]!, polygon[(k + 3) % n]!];
    sum += x0 * y1 - x1 * y0;
  }
  return sum;
}

/**
 * Without the corners that are not needed: the boundary moves by at most `offMm`. Ramer (1972), Douglas and Peucker (1973), with the
 * distance from the chord itself; the library's own takes it from the line through it, which may cut off a slit along it.
 */
export function simplified(polygons: readonly Polygon[], offMm: number): Polygon[] {
  return polygons.map((p) => simpler(p, offMm)).filter((p) => p.length >= 6);
}

function simpler(p: Polygon, offMm: number): Polygon {
  const n = p.length / 2;
  const kept = new Uint8Array(n);
  kept[0] = 1;
  kept[n - 1] = 1;
  const open: [number, number][] = [[0, n - 1]];
  for (let stretch = open.pop(); stretch !== undefined; stretch = open.pop()) {
    const [from, to] = stretch;
    let far = -1;
    let most = offMm;
    for (let k = from + 1; k < to; k++) {
      const off = fromChordMm(p, k, from, to);
      if (off > most) {
        most = off;
        far = k;
      }
    }
    if (far < 0) continue;
    kept[far] = 1;
    open.push([from, far], [far, to]);
  }
  const out: number[] = [];
  for (let k = 0; k < n; k++) if (kept[k] === 1) out.push(p[2 * k]!, p[2 * k + 1]!);
  return out;
}

/** Distance of corner k from the chord between two others. */
function fromChordMm(p: Polygon, k: number, from: number, to: number): number {
  const [ax, ay] = [p[2 * from]!, p[2 * from + 1]!];
  const [dx, dy] = [p[2 * to]! - ax, p[2 * to + 1]! - ay];
  const [x, y] = [p[2 * k]! - ax, p[2 * k + 1]! - ay];
  const squared = dx * dx + dy * dy;
  const along = squared > 0 ? Math.min(1, Math.max(0, (x * dx + y * dy) / squared)) : 0;
  return Math.hypot(x - along * dx, y - along * dy);
}

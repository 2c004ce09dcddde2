/**
 * The fit boundary of a map, margin nothing, as lines: their course by contours of the cells' margins, their points moved
 * along the sides of the grid to where the margin was found to be nothing (crossings.ts). Between two such points a line is
 * straight, for the eye.
 */
import { contours } from 'd3-contour';
import type { Crossing, Edge } from './crossings.ts';
import type { MapCell, MapSpec } from './spec.ts';

/** In cells: (i, j) of a cell is its middle. */
export type Line = readonly (readonly [number, number])[];

export interface Grid {
  readonly columns: number;
  readonly rows: number;
  /** By row, then column; null while a cell is not done. */
  readonly cells: readonly (MapCell | null)[];
}

export function gridOf(spec: Pick<MapSpec, 'a' | 'b'>, cells: Iterable<MapCell>): Grid {
  const columns = spec.a.values.length;
  const rows = spec.b.values.length;
  const all: (MapCell | null)[] = new Array(columns * rows).fill(null);
  for (const cell of cells) all[cell.j * columns + cell.i] = cell;
  return { columns, rows, cells: all };
}

/** Sides of the grid on which the sign of the margin changes; both cells can be built. */
export function edgesOf(grid: Grid): Edge[] {
  const out: Edge[] = [];
  const take = (i: number, j: number, along: 'a' | 'b', p: MapCell | null, q: MapCell | null | undefined): void => {
    if (p === null || q === null || q === undefined || p.refused !== null || q.refused !== null) return;
    if (p.fitMm < 0 !== q.fitMm < 0) out.push({ i, j, along, fitMm: [p.fitMm, q.fitMm] });
  };
  for (let j = 0; j < grid.rows; j++) {
    for (let i = 0; i < grid.columns; i++) {
      const here = grid.cells[j * grid.columns + i]!;
      if (i + 1 < grid.columns) take(i, j, 'a', here, grid.cells[j * grid.columns + i + 1]);
      if (j + 1 < grid.rows) take(i, j, 'b', here, grid.cells[(j + 1) * grid.columns + i]);
    }
  }
  return out;
}

/** Lines between what fits and what does not. The edge of the map and of what can't be built is no part of them. */
export function boundaryOf(grid: Grid, crossings: readonly Crossing[]): Line[] {
  const { columns, rows } = grid;
  if (columns < 2 || rows < 2) return [];
  const values = grid.cells.map((cell) => (cell === null || cell.refused !== null ? Number.NaN : cell.fitMm));
  const found = new Map(crossings.map((c) => [`${c.along} ${c.i} ${c.j}`, c.share]));
  const lines: Line[] = [];
  const [shape] = contours().size([columns, rows]).thresholds([0])(values as number[]);
  for (const ring of (shape?.coordinates ?? []).flat()) {
    const points = ring.map(([x, y]) => onGrid(x! - 0.5, y! - 0.5, grid, found));
    lines.push(...unbroken(points));
  }
  return lines;
}

/** A point of a contour, which lies on a side of the grid; null on the map's edge and beside what can't be built. */
function onGrid(
  x: number,
  y: number,
  grid: Grid,
  found: ReadonlyMap<string, number>,
): readonly [number, number] | null {
  const i = Math.floor(x + 1e-9);
  const j = Math.floor(y + 1e-9);
  const level = Math.abs(y - Math.round(y)) < 1e-9;
  const upright = Math.abs(x - Math.round(x)) < 1e-9;
  const known = (p: number, q: number): boolean => {
    const cell = p < 0 || q < 0 || p >= grid.columns || q >= grid.rows ? null : grid.cells[q * grid.columns + p];
    return cell !== null && cell !== undefined && cell.refused === null;
  };
  if (level && upright) return known(i, j) ? [x, y] : null;
  if (level) {
    const row = Math.round(y);
    if (!known(i, row) || !known(i + 1, row)) return null;
    return [i + (found.get(`a ${i} ${row}`) ?? x - i), row];
  }
  const column = Math.round(x);
  if (!known(column, j) || !known(column, j + 1)) return null;
  return [column, j + (found.get(`b ${column} ${j}`) ?? y - j)];
}

/** Stretches of a closed ring between its gaps. */
function unbroken(ring: readonly (readonly [number, number] | null)[]): Line[] {
  const gap = ring.indexOf(null);
  if (gap < 0) return [ring as Line];
  const turned = [...ring.slice(gap, -1), ...ring.slice(0, gap + 1)];
  const out: (readonly [number, number])[][] = [];
  let open: (readonly [number, number])[] = [];
  for (const point of turned) {
    if (point !== null) open.push(point);
    else {
      if (open.length > 1) out.push(open);
      open = [];
    }
  }
  if (open.length > 1) out.push(open);
  return out;
}

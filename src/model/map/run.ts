/** A map worked out by a pool from its first cell to its boundary, told as it grows. */
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { Gap } from '../results.ts';
import type { Line } from './boundary.ts';
import { boundaryOf, edgesOf, gridOf } from './boundary.ts';
import type { MapResult, MapShared } from './cells.ts';
import type { Crossing, Edge } from './crossings.ts';
import { refusedByFields } from './fieldRules.ts';
import { coarsePieces, tilePieces } from './plan.ts';
import type { MapCell, MapSpec } from './spec.ts';

export interface MapGrowing {
  readonly spec: MapSpec;
  /** By place, `j * columns + i`; null while a cell is not done. */
  readonly cells: readonly (MapCell | null)[];
  readonly done: number;
  readonly crossings: readonly Crossing[];
  readonly boundary: readonly Line[];
  readonly finished: boolean;
}

/** Neighbouring sides of the grid that one piece takes: some twenty designs. */
const EDGES_A_PIECE = 12;

export interface OnMap {
  /** After each piece. The same array of cells, filled further. */
  readonly grown: (map: MapGrowing, fresh: readonly MapCell[]) => void;
  readonly failed: (why: string) => void;
}

/** `gaps`: certified gaps of the build as it stands, to begin from. Returns the way to cancel. */
export function runMap(pool: Pool<Work>, spec: MapSpec, gaps: readonly Gap[], on: OnMap): () => void {
  const shared: MapShared = { spec, gaps, thorough: refusedByFields(spec) };
  const columns = spec.a.values.length;
  const cells: (MapCell | null)[] = new Array(columns * spec.b.values.length).fill(null);
  let done = 0;
  let crossings: Crossing[] = [];
  let boundary: Line[] = [];
  let cancel = (): void => {};
  let cancelled = false;

  const tell = (fresh: readonly MapCell[], finished = false): void =>
    on.grown({ spec, cells, done, crossings, boundary, finished }, fresh);
  const take = (result: MapResult): void => {
    for (const cell of result.cells) cells[cell.j * columns + cell.i] = cell;
    done += result.cells.length;
    tell(result.cells);
  };

  const coarse: MapResult[] = [];
  function trace(): void {
    const grid = gridOf(
      spec,
      cells.filter((cell) => cell !== null),
    );
    const edges = edgesOf(grid);
    const pieces: Edge[][] = [];
    for (let k = 0; k < edges.length; k += EDGES_A_PIECE) pieces.push(edges.slice(k, k + EDGES_A_PIECE));
    const found: Crossing[] = [];
    cancel = pool.run(OWNER, 'map crossings', shared, pieces, {
      piece: (_, result) => found.push(...result),
      done: () => {
        // In one order, whoever was quicker.
        crossings = found.sort((p, q) => p.j - q.j || p.i - q.i || (p.along < q.along ? -1 : 1));
        boundary = boundaryOf(grid, crossings);
        tell([], true);
      },
      failed: on.failed,
    });
  }
  function fill(): void {
    const { pieces } = tilePieces(spec, coarse);
    cancel = pool.run(OWNER, 'map cells', shared, pieces, {
      piece: (_, result) => take(result),
      done: trace,
      failed: on.failed,
    });
  }
  cancel = pool.run(OWNER, 'map cells', shared, coarsePieces(spec), {
    piece: (_, result) => {
      coarse.push(result);
      take(result);
    },
    done: () => {
      if (!cancelled) fill();
    },
    failed: on.failed,
  });
  return () => {
    cancelled = true;
    cancel();
  };
}

const OWNER = 'map';

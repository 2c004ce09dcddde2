/**
 * In which order the cells of a map are done: a few far apart for a first picture, then one for each tile, then whole tiles,
 * those first where it matters: where the boundary passes, where another pair comes to limit, where builds begin to be refused.
 */
import type { KnownAt, MapPiece, MapResult } from './cells.ts';
import type { MapCell, MapSpec } from './spec.ts';

/** Cells along a side of a tile. */
export const TILE = 8;

interface Tile {
  readonly ti: number;
  readonly tj: number;
  /** The cell that stands for it. */
  readonly middle: readonly [number, number];
}

export function tilesOf(spec: Pick<MapSpec, 'a' | 'b'>): Tile[] {
  const columns = spec.a.values.length;
  const rows = spec.b.values.length;
  const out: Tile[] = [];
  for (let tj = 0; tj * TILE < rows; tj++) {
    for (let ti = 0; ti * TILE < columns; ti++) {
      const middle = (k: number, n: number): number => Math.min(k * TILE + TILE / 2, n - 1);
      out.push({ ti, tj, middle: [middle(ti, columns), middle(tj, rows)] });
    }
  }
  return out;
}

/** One cell of each tile, every other tile of every other row first. */
export function coarsePieces(spec: Pick<MapSpec, 'a' | 'b'>): MapPiece[] {
  const tiles = tilesOf(spec);
  const far = tiles.filter(({ ti, tj }) => ti % 2 === 0 && tj % 2 === 0);
  return [...far, ...tiles.filter((tile) => !far.includes(tile))].map(({ middle }) => ({
    cells: [middle],
    from: null,
    tell: true,
  }));
}

/** The rest of each tile, in the order in which it matters. `coarse`: what came of the coarse pieces. */
export function tilePieces(
  spec: Pick<MapSpec, 'a' | 'b'>,
  coarse: readonly MapResult[],
): { readonly pieces: MapPiece[]; readonly mattering: number } {
  const columns = spec.a.values.length;
  const rows = spec.b.values.length;
  const done = new Map<string, MapCell>();
  const known = new Map<string, KnownAt>();
  for (const result of coarse) {
    for (const cell of result.cells) done.set(`${cell.i} ${cell.j}`, cell);
    if (result.known !== null) known.set(`${result.known.i} ${result.known.j}`, result.known);
  }
  const tiles = tilesOf(spec);
  const cellOf = new Map(tiles.map((t) => [`${t.ti} ${t.tj}`, done.get(t.middle.join(' '))]));
  const ranked = tiles.map((tile) => {
    const here = cellOf.get(`${tile.ti} ${tile.tj}`);
    const beside: (MapCell | undefined)[] = [];
    for (const di of [-1, 0, 1])
      for (const dj of [-1, 0, 1]) beside.push(cellOf.get(`${tile.ti + di} ${tile.tj + dj}`));
    return {
      tile,
      rank: rankOf(
        here,
        beside.filter((cell) => cell !== undefined),
      ),
      fitMm: Math.abs(here?.fitMm ?? 0),
    };
  });
  ranked.sort((p, q) => p.rank - q.rank || p.fitMm - q.fitMm);
  const pieces = ranked.map(({ tile }): MapPiece => {
    const cells: [number, number][] = [];
    for (let p = 0; p < TILE; p++) {
      const i = tile.ti * TILE + p;
      if (i >= columns) break;
      for (let q = 0; q < TILE; q++) {
        // To and fro, so that each design is next to the one before.
        const j = tile.tj * TILE + (p % 2 === 0 ? q : TILE - 1 - q);
        if (j < rows && !(i === tile.middle[0] && j === tile.middle[1])) cells.push([i, j]);
      }
    }
    return { cells, from: known.get(tile.middle.join(' ')) ?? null, tell: false };
  });
  return {
    pieces: pieces.filter((piece) => piece.cells.length > 0),
    mattering: ranked.filter((r) => r.rank < 2).length,
  };
}

/** 0 where the boundary passes or builds begin to be refused, 1 where another pair comes to limit, 2 elsewhere. */
function rankOf(here: MapCell | undefined, beside: readonly MapCell[]): number {
  if (here === undefined) return 2;
  const fits = (cell: MapCell): boolean => cell.fitMm >= 0;
  if (beside.some((cell) => (cell.refused === null) !== (here.refused === null) || fits(cell) !== fits(here))) return 0;
  const limiting = (cell: MapCell): string => `${cell.pair?.kind} ${cell.pair?.parts.join()}`;
  return beside.some((cell) => limiting(cell) !== limiting(here)) ? 1 : 2;
}

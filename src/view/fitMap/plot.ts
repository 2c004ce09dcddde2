/**
 * The map as a drawing: a field for each design in the tint of its state, hatched by the pair that limits, with the fit boundary,
 * axes, and the build as it stands. Nothing here computes a margin.
 */
import type { MapGrowing } from '../../model/map/run.ts';
import type { MapCell } from '../../model/map/spec.ts';
import { drawAxes, FONT, type Frame, frameOf, type PlotInk } from './axes.ts';

export interface Mark {
  /** In cells; (0, 0) is the middle of the first one. */
  readonly x: number;
  readonly y: number;
}

export interface Plot {
  readonly map: MapGrowing;
  readonly present: Mark | null;
  readonly replaced: Mark | null;
  readonly cursor: { readonly i: number; readonly j: number } | null;
  /** Names of the two dimensions with their unit. */
  readonly across: string;
  readonly upward: string;
  readonly earlier: boolean;
}

/** What limits, by kind and parts: its letter and its hatching. */
export interface Region {
  readonly key: string;
  readonly letter: string;
  readonly example: NonNullable<MapCell['pair']>;
  readonly cells: number;
}

export const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

export function regionKey(cell: MapCell): string {
  return cell.pair === null ? '' : `${cell.pair.kind} ${cell.pair.parts.join(' ')}`;
}

/** Regions in the order of their size. */
export function regionsOf(cells: readonly (MapCell | null)[]): Region[] {
  const found = new Map<string, { example: NonNullable<MapCell['pair']>; cells: number }>();
  for (const cell of cells) {
    if (cell === null || cell.refused !== null || cell.pair === null) continue;
    const key = regionKey(cell);
    const known = found.get(key);
    if (known === undefined) found.set(key, { example: cell.pair, cells: 1 });
    else known.cells += 1;
  }
  return [...found]
    .sort(([, p], [, q]) => q.cells - p.cells)
    .map(([key, { example, cells: count }], k) => ({ key, letter: LETTERS[k] ?? '·', example, cells: count }));
}

/** The cell under a point of the drawing; null outside. */
export function cellAt(map: MapGrowing, frame: Frame, x: number, y: number): { i: number; j: number } | null {
  const columns = map.spec.a.values.length;
  const rows = map.spec.b.values.length;
  const i = Math.floor(((x - frame.x) / frame.width) * columns);
  const j = Math.floor((1 - (y - frame.y) / frame.height) * rows);
  return i < 0 || j < 0 || i >= columns || j >= rows ? null : { i, j };
}

/** Slopes of hatching by region: 45, -45, level, upright, and the same wider. */
const HATCHES: readonly (readonly [dx: number, dy: number, gapPx: number])[] = [
  [1, 1, 9],
  [1, -1, 9],
  [1, 0, 7],
  [0, 1, 7],
  [1, 1, 16],
  [1, -1, 16],
  [1, 0, 13],
  [0, 1, 13],
];

export function drawPlot(ctx: CanvasRenderingContext2D, width: number, height: number, plot: Plot, ink: PlotInk): void {
  const { map } = plot;
  const columns = map.spec.a.values.length;
  const rows = map.spec.b.values.length;
  const frame = frameOf(width, height);
  const cw = frame.width / columns;
  const ch = frame.height / rows;
  const px = (i: number): number => frame.x + (i + 0.5) * cw;
  const py = (j: number): number => frame.y + frame.height - (j + 0.5) * ch;
  ctx.clearRect(0, 0, width, height);
  ctx.globalAlpha = plot.earlier ? 0.45 : 1;
  drawCells(ctx, plot, frame, ink);
  drawRegions(ctx, map, regionsOf(map.cells), frame, ink);
  for (const [style, weight] of [
    [ink.paper, 5],
    [ink.ink, 2.5],
  ] as const) {
    ctx.strokeStyle = style;
    ctx.lineWidth = weight;
    ctx.lineJoin = 'round';
    for (const line of map.boundary) {
      ctx.beginPath();
      for (const [k, [x, y]] of line.entries()) {
        if (k === 0) ctx.moveTo(px(x), py(y));
        else ctx.lineTo(px(x), py(y));
      }
      ctx.stroke();
    }
  }
  ctx.globalAlpha = 1;
  drawAxes(ctx, map.spec, plot.across, plot.upward, frame, ink);
  if (plot.replaced !== null) {
    const [x, y] = [px(plot.replaced.x), py(plot.replaced.y)];
    for (const [style, weight] of [
      [ink.paper, 4],
      [ink.ink, 1.5],
    ] as const) {
      ctx.strokeStyle = style;
      ctx.lineWidth = weight;
      ctx.strokeRect(x - 6, y - 6, 12, 12);
    }
  }
  if (plot.present !== null) {
    const [x, y] = [px(plot.present.x), py(plot.present.y)];
    for (const [style, weight] of [
      [ink.paper, 5],
      [ink.accent, 2],
    ] as const) {
      ctx.strokeStyle = style;
      ctx.lineWidth = weight;
      ctx.beginPath();
      ctx.arc(x, y, 7, 0, 2 * Math.PI);
      for (const [dx, dy] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        ctx.moveTo(x + 4 * dx, y + 4 * dy);
        ctx.lineTo(x + 12 * dx, y + 12 * dy);
      }
      ctx.stroke();
    }
  }
  if (plot.cursor !== null) {
    const { i, j } = plot.cursor;
    const w = Math.max(cw, 9);
    const h = Math.max(ch, 9);
    for (const [style, weight] of [
      [ink.paper, 4],
      [ink.accent, 2],
    ] as const) {
      ctx.strokeStyle = style;
      ctx.lineWidth = weight;
      ctx.strokeRect(px(i) - w / 2, py(j) - h / 2, w, h);
    }
  }
}

/** Tints by state; a design not done yet takes that of the nearest one done in its tile, fainter. */
function drawCells(ctx: CanvasRenderingContext2D, plot: Plot, frame: Frame, ink: PlotInk): void {
  const { map } = plot;
  const columns = map.spec.a.values.length;
  const rows = map.spec.b.values.length;
  const cw = frame.width / columns;
  const ch = frame.height / rows;
  const alpha = ctx.globalAlpha;
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const own = map.cells[j * columns + i] ?? null;
      const cell = own ?? standIn(map, i, j);
      if (cell === null) continue;
      const x = frame.x + i * cw;
      const y = frame.y + frame.height - (j + 1) * ch;
      if (cell.refused !== null) {
        ctx.strokeStyle = ink.faint;
        ctx.lineWidth = 1;
        ctx.globalAlpha = alpha;
        ctx.beginPath();
        ctx.moveTo(x + cw * 0.25, y + ch * 0.25);
        ctx.lineTo(x + cw * 0.75, y + ch * 0.75);
        ctx.moveTo(x + cw * 0.75, y + ch * 0.25);
        ctx.lineTo(x + cw * 0.25, y + ch * 0.75);
        ctx.stroke();
        continue;
      }
      ctx.globalAlpha = alpha * (own === null ? 0.5 : 1) * STRENGTH[cell.state];
      ctx.fillStyle = ink[cell.state];
      // A hair over, so that no seams show.
      ctx.fillRect(x - 0.3, y - 0.3, cw + 0.6, ch + 0.6);
    }
  }
  ctx.globalAlpha = alpha;
}

const STRENGTH = { clears: 0.16, unproven: 0.12, tight: 0.34, contact: 0.5 } as const;

/** Side of a tile, for what stands for it: see model/map/plan.ts. */
const TILE = 8;

function standIn(map: MapGrowing, i: number, j: number): MapCell | null {
  const columns = map.spec.a.values.length;
  const rows = map.spec.b.values.length;
  for (const size of [TILE, 2 * TILE]) {
    const p = Math.min(Math.floor(i / size) * size + TILE / 2, columns - 1);
    const q = Math.min(Math.floor(j / size) * size + TILE / 2, rows - 1);
    const cell = map.cells[q * columns + p];
    if (cell != null) return cell;
  }
  return null;
}

/** Hatching over each region, and its letter in the middle of its longest row. */
function drawRegions(
  ctx: CanvasRenderingContext2D,
  map: MapGrowing,
  regions: readonly Region[],
  frame: Frame,
  ink: PlotInk,
): void {
  const columns = map.spec.a.values.length;
  const rows = map.spec.b.values.length;
  const cw = frame.width / columns;
  const ch = frame.height / rows;
  const alpha = ctx.globalAlpha;
  for (const [k, region] of regions.entries()) {
    const inside = (i: number, j: number): boolean => {
      const cell = map.cells[j * columns + i];
      return cell != null && cell.refused === null && regionKey(cell) === region.key;
    };
    ctx.save();
    ctx.beginPath();
    let longest = { from: 0, length: 0, row: 0 };
    for (let j = 0; j < rows; j++) {
      let from = -1;
      for (let i = 0; i <= columns; i++) {
        if (i < columns && inside(i, j)) {
          if (from < 0) from = i;
        } else if (from >= 0) {
          ctx.rect(frame.x + from * cw, frame.y + frame.height - (j + 1) * ch, (i - from) * cw, ch);
          const middling = Math.abs(j - rows / 2) < Math.abs(longest.row - rows / 2);
          if (i - from > longest.length || (i - from === longest.length && middling))
            longest = { from, length: i - from, row: j };
          from = -1;
        }
      }
    }
    ctx.clip();
    const [dx, dy, gap] = HATCHES[k % HATCHES.length]!;
    ctx.strokeStyle = ink.ink;
    ctx.globalAlpha = alpha * 0.28;
    ctx.lineWidth = 1;
    ctx.beginPath();
    const reach = frame.width + frame.height;
    for (let at = -reach; at < reach; at += gap) {
      const [sx, sy] = dx === 0 ? [at, 0] : [0, at];
      ctx.moveTo(frame.x + sx, frame.y + sy);
      ctx.lineTo(frame.x + sx + dx * reach, frame.y + sy + dy * reach);
    }
    ctx.stroke();
    ctx.restore();
    ctx.globalAlpha = alpha;
    if (longest.length * cw < 14) continue;
    const x = frame.x + (longest.from + longest.length / 2) * cw;
    const y = frame.y + frame.height - (longest.row + 0.5) * ch;
    ctx.font = `600 15px ${FONT}`;
    ctx.textAlign = 'center';
    ctx.textBaseline = 'middle';
    ctx.fillStyle = ink.paper;
    ctx.fillRect(x - 9, y - 10, 18, 20);
    ctx.fillStyle = ink.ink;
    ctx.fillText(region.letter, x, y);
  }
}

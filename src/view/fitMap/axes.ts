/** Frame, axes and figures of the map, and where a value stands along an axis. */
import { measureOf } from '../../model/map/axis.ts';
import type { MapSpec } from '../../model/map/spec.ts';

/** Colours as the style sheet gives them. */
export interface PlotInk {
  readonly paper: string;
  readonly ink: string;
  readonly faint: string;
  readonly clears: string;
  readonly tight: string;
  readonly contact: string;
  readonly unproven: string;
  readonly accent: string;
}

/** Room for axes and their figures, px. */
const LEFT = 62;
const BOTTOM = 46;
const TOP = 10;
const RIGHT = 12;

export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function frameOf(width: number, height: number): Frame {
  return { x: LEFT, y: TOP, width: width - LEFT - RIGHT, height: height - TOP - BOTTOM };
}

export const FONT = 'system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", sans-serif';

export function drawAxes(
  ctx: CanvasRenderingContext2D,
  { a, b }: Pick<MapSpec, 'a' | 'b'>,
  across: string,
  upward: string,
  frame: Frame,
  ink: PlotInk,
): void {
  ctx.strokeStyle = ink.ink;
  ctx.fillStyle = ink.ink;
  ctx.lineWidth = 1;
  ctx.strokeRect(frame.x + 0.5, frame.y + 0.5, frame.width - 1, frame.height - 1);
  ctx.font = `13px ${FONT}`;
  const cw = frame.width / a.values.length;
  const ch = frame.height / b.values.length;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'top';
  for (const k of ticks(a.values, Math.max(2, Math.floor(frame.width / 70)))) {
    const x = frame.x + (k + 0.5) * cw;
    line(ctx, x, frame.y + frame.height, x, frame.y + frame.height + 5);
    ctx.fillText(figure(a.values[k]!), x, frame.y + frame.height + 7);
  }
  ctx.fillText(across, frame.x + frame.width / 2, frame.y + frame.height + 26);
  ctx.textAlign = 'right';
  ctx.textBaseline = 'middle';
  for (const k of ticks(b.values, Math.max(2, Math.floor(frame.height / 48)))) {
    const y = frame.y + frame.height - (k + 0.5) * ch;
    line(ctx, frame.x - 5, y, frame.x, y);
    ctx.fillText(figure(b.values[k]!), frame.x - 8, y);
  }
  ctx.save();
  ctx.translate(9, frame.y + frame.height / 2);
  ctx.rotate(-Math.PI / 2);
  ctx.textAlign = 'center';
  ctx.fillText(upward, 0, 0);
  ctx.restore();
}

function line(ctx: CanvasRenderingContext2D, x0: number, y0: number, x1: number, y1: number): void {
  ctx.beginPath();
  ctx.moveTo(x0, y0);
  ctx.lineTo(x1, y1);
  ctx.stroke();
}

/** Values that get a figure: evenly spread, about so many. */
function ticks(values: readonly string[], most: number): number[] {
  const every = Math.max(1, Math.ceil(values.length / most));
  const first = Math.floor((((values.length - 1) % every) + 1) / 2);
  return values.flatMap((_, k) => (k % every === first % every ? [k] : []));
}

/** A literal without its unit and tolerance: the unit stands at the axis. */
function figure(text: string): string {
  return (/^[-+−]?[\d./ -]*[\d]/.exec(text)?.[0] ?? text).trim();
}

/** Where a value stands along an axis, in cells; null outside. */
export function placeOn(values: readonly string[], text: string): number | null {
  const v = measureOf(text);
  const numbers = values.map(measureOf);
  const same = numbers.findIndex((n) => Math.abs(n - v) < 1e-9);
  if (same >= 0) return same;
  const k = numbers.findIndex((n, index) => index + 1 < numbers.length && v > n && v < numbers[index + 1]!);
  return k < 0 ? null : k + (v - numbers[k]!) / (numbers[k + 1]! - numbers[k]!);
}

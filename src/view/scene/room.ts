/** The room of the section on the page, in px of the drawing: where text is set larger it is drawn for less room, and shown larger as a whole. */
import { textScale } from '../textScale.ts';
import type { Box } from './camera.ts';
import type { ScreenSize } from './framing.ts';

const MOST_RESOLUTION = 2;

export interface Room {
  readonly size: ScreenSize;
  /** Px of the page for one of the drawing. */
  readonly scaled: number;
}

export function roomOf(host: HTMLElement): Room {
  const scaled = textScale();
  const size = {
    width: Math.max(host.clientWidth, 1) / scaled,
    height: Math.max(host.clientHeight, 1) / scaled,
    resolution: Math.min(devicePixelRatio || 1, MOST_RESOLUTION) * scaled,
  };
  return { size, scaled };
}

/** Lays the canvas over all of it. */
export function spread(canvas: HTMLCanvasElement, { size, scaled }: Room): void {
  canvas.style.width = `${size.width * scaled}px`;
  canvas.style.height = `${size.height * scaled}px`;
}

/** Boxes of what lies over the section, in px of the drawing. */
export function boxesOver(host: HTMLElement, over: readonly HTMLElement[], scaled: number): Box[] {
  const own = host.getBoundingClientRect();
  return over
    .filter((one) => one.isConnected && !one.hidden)
    .map((one) => one.getBoundingClientRect())
    .map((box) => ({
      x0: (box.left - own.left) / scaled,
      y0: (box.top - own.top) / scaled,
      x1: (box.right - own.left) / scaled,
      y1: (box.bottom - own.top) / scaled,
    }));
}

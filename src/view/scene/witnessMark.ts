/**
 * The mark between the two nearest points of a pair, by state in colour and line: clears, a thin solid line; tight, a
 * double line with short ticks; contact, a heavy line across a filled lens as thick as the depth; unproven, dashes.
 */

import type { GapState } from '../../model/results.ts';
import type { Ink } from '../theme.ts';
import { dashStrokes } from './dashes.ts';
import type { Pen } from './pen.ts';

export function stateInk(state: GapState, ink: Ink): number {
  return ink[state];
}

/** Half length of a mark whose two points fall together, px. */
const LEAST_HALF_PX = 5;
const LENS_HALF_PX = 14;
const PICKED_RING_PX = 36;

/** Draws one mark; points in px on the screen. */
export function drawWitness(
  g: Pen,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  state: GapState,
  ink: Ink,
  picked: boolean,
): void {
  const color = stateInk(state, ink);
  const length = Math.hypot(x1 - x0, y1 - y0);
  const ux = length > 0.01 ? (x1 - x0) / length : 1;
  const uy = length > 0.01 ? (y1 - y0) / length : 0;
  const mx = (x0 + x1) / 2;
  const my = (y0 + y1) / 2;
  if (state === 'contact') {
    // The lens lies across the line of approach; its thickness is the depth, never thinner than 5 px.
    const half = Math.max(length, 5) / 2;
    const wide = LENS_HALF_PX;
    g.moveTo(mx - uy * wide, my + ux * wide);
    g.quadraticCurveTo(mx + ux * 2 * half, my + uy * 2 * half, mx + uy * wide, my - ux * wide);
    g.quadraticCurveTo(mx - ux * 2 * half, my - uy * 2 * half, mx - uy * wide, my + ux * wide);
    g.fill({ color, alpha: 0.85 });
    g.moveTo(mx - ux * half, my - uy * half).lineTo(mx + ux * half, my + uy * half);
    g.stroke({ width: 3.5, color, cap: 'round' });
  } else if (state === 'tight') {
    const half = Math.max(length / 2, LEAST_HALF_PX);
    for (const side of [-2, 2]) {
      g.moveTo(mx - ux * half - uy * side, my - uy * half + ux * side);
      g.lineTo(mx + ux * half - uy * side, my + uy * half + ux * side);
    }
    for (const end of [-half, half]) {
      g.moveTo(mx + ux * end - uy * 6, my + uy * end + ux * 6).lineTo(mx + ux * end + uy * 6, my + uy * end - ux * 6);
    }
    g.stroke({ width: 1.5, color });
  } else if (state === 'unproven') {
    for (const s of [dashStrokes([x0, y0, x1, y1], false, [4, 3])]) {
      for (let k = 0; k < s.length; k += 4) g.moveTo(s[k]!, s[k + 1]!).lineTo(s[k + 2]!, s[k + 3]!);
    }
    g.stroke({ width: 1.25, color });
  } else {
    g.moveTo(x0, y0).lineTo(x1, y1).stroke({ width: 1, color });
    g.circle(x0, y0, 1.5).circle(x1, y1, 1.5).fill({ color });
  }
  if (!picked) return;
  // The picked place is ringed; where it is long, its ends are.
  if (length < PICKED_RING_PX) g.circle(mx, my, length / 2 + 10).stroke({ width: 1.5, color: ink.accent });
  else g.circle(x0, y0, 6).circle(x1, y1, 6).stroke({ width: 1.5, color: ink.accent });
}

/** The smallest upright box round an outline, exact. */
import { type Outline, pieceStart } from './outline.ts';

export interface Extent {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Millimetres. Of no pieces: an empty box, from plus to minus infinity. */
export function extentOf(outline: Outline): Extent {
  const far = Number.POSITIVE_INFINITY;
  const box = { x0: far, y0: far, x1: -far, y1: -far };
  const include = (x: number, y: number): void => {
    box.x0 = Math.min(box.x0, x);
    box.y0 = Math.min(box.y0, y);
    box.x1 = Math.max(box.x1, x);
    box.y1 = Math.max(box.y1, y);
  };
  for (const p of outline.pieces) {
    include(...pieceStart(p));
    if (p.kind === 'line') continue;
    // The four outermost places of the circle, as far as the arc passes them.
    for (let quarter = 0; quarter < 4; quarter++) {
      const angle = (quarter * Math.PI) / 2;
      const past = (angle - p.startRad) * Math.sign(p.sweepRad);
      const turned = past - 2 * Math.PI * Math.floor(past / (2 * Math.PI));
      if (turned <= Math.abs(p.sweepRad)) include(p.cx + p.r * Math.cos(angle), p.cy + p.r * Math.sin(angle));
    }
  }
  return box;
}

/** The rim of a counterweight, for its dimension line. */
import type { Body } from '../../assembly/engine.ts';

/** Where along the rim its radius is dimensioned: aside from the middle, over which the rod passes. */
const ARROW_ALONG_RIM = 0.78;

/** The rim of a counterweight: its largest arc about the crank axis; radius, and where the arrow meets it (from +x, y up). */
export function rimOf(body: Body): { r: number; arrowRad: number } | null {
  let best: { r: number; arrowRad: number } | null = null;
  for (const shape of body.drawn) {
    for (const piece of shape.outline.pieces) {
      if (piece.kind !== 'arc' || Math.hypot(piece.cx, piece.cy) > 1e-6 || piece.sweepRad <= 0) continue;
      if (best === null || piece.r > best.r)
        best = { r: piece.r, arrowRad: piece.startRad + piece.sweepRad * ARROW_ALONG_RIM };
    }
  }
  return best;
}

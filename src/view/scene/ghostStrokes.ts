/**
 * The outline of the replaced assembly's parts, dashed, where it differs from the part on show: where both run along the
 * same line the part on show keeps its full edge.
 */
import type { Body, Engine } from '../../assembly/engine.ts';
import type { Piece } from '../../core/outline/outline.ts';
import type { State } from '../../model/state.ts';
import { bodiesInView, type Seen } from '../inView.ts';
import { dashStrokes, HIDDEN_PX } from './dashes.ts';
import { outlinePoints } from './tessellate.ts';

/** Edges nearer than this are one line on paper, mm. */
const SAME_LINE_MM = 0.05;

/** Crank, rod and piston of the other assembly at the same cylinder: what the present one has changed. */
export function ghostBodies(ghost: Engine, state: State): readonly Seen[] {
  if (!ghost.cylinders.some((c) => c.number === state.cylinder)) return [];
  const seen = bodiesInView({ engine: ghost, cylinder: state.cylinder, gaps: [], picked: null });
  return seen.filter(({ role, body }) => role === 'cut' && body.kind !== 'block');
}

/** Strokes [x0, y0, x1, y1, …] of the ghost of a body, px of its frame; `shown`: the same part of the assembly on show. */
export function ghostStrokes(body: Body, shown: Body | undefined, pxPerMm: number): number[] {
  const alike = shown !== undefined && JSON.stringify(shown.move) === JSON.stringify(body.move);
  const edges = alike ? shown.drawn.flatMap((s) => [s.outline, ...(s.holes ?? [])]).flatMap((o) => o.pieces) : [];
  const onEdge = (x: number, y: number) =>
    edges.some((piece) => distanceMm(piece, x / pxPerMm, -y / pxPerMm) < SAME_LINE_MM);
  const strokes: number[] = [];
  for (const shape of body.drawn) {
    if (shape.style !== 'cut' && shape.style !== 'behind') continue;
    for (const outline of [shape.outline, ...(shape.holes ?? [])]) {
      const loop = outlinePoints(outline, pxPerMm);
      loop.push(loop[0]!, loop[1]!);
      let run: number[] = [];
      const close = () => {
        if (run.length > 2) strokes.push(...dashStrokes(run, false, HIDDEN_PX));
        run = [];
      };
      for (let k = 0; k + 3 < loop.length; k += 2) {
        const [x0, y0, x1, y1] = [loop[k]!, loop[k + 1]!, loop[k + 2]!, loop[k + 3]!];
        if (onEdge(x0, y0) && onEdge(x1, y1) && onEdge((x0 + x1) / 2, (y0 + y1) / 2)) close();
        else {
          if (run.length === 0) run.push(x0, y0);
          run.push(x1, y1);
        }
      }
      close();
    }
  }
  return strokes;
}

/** Distance of a point from a straight or round edge, mm. */
function distanceMm(piece: Piece, x: number, y: number): number {
  if (piece.kind === 'line') {
    const [dx, dy] = [piece.x1 - piece.x0, piece.y1 - piece.y0];
    const along = ((x - piece.x0) * dx + (y - piece.y0) * dy) / Math.max(dx * dx + dy * dy, 1e-12);
    const part = Math.min(Math.max(along, 0), 1);
    return Math.hypot(x - piece.x0 - part * dx, y - piece.y0 - part * dy);
  }
  const { cx, cy, r, startRad, sweepRad } = piece;
  const turn = 2 * Math.PI;
  const past = (Math.atan2(y - cy, x - cx) - startRad) * Math.sign(sweepRad);
  const inside = ((past % turn) + turn) % turn <= Math.abs(sweepRad);
  if (inside) return Math.abs(Math.hypot(x - cx, y - cy) - r);
  const end = (angle: number) => Math.hypot(x - cx - r * Math.cos(angle), y - cy - r * Math.sin(angle));
  return Math.min(end(startRad), end(startRad + sweepRad));
}

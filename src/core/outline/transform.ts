/** Outlines mirrored and moved. */
import type { Outline, Piece } from './outline.ts';

/** Mirror image in the y axis; stays counterclockwise. */
export function mirrorX(o: Outline): Outline {
  const pieces = o.pieces.map(
    (p): Piece =>
      p.kind === 'line'
        ? { kind: 'line', x0: -p.x1, y0: p.y1, x1: -p.x0, y1: p.y0 }
        : {
            kind: 'arc',
            cx: -p.cx,
            cy: p.cy,
            r: p.r,
            startRad: Math.PI - (p.startRad + p.sweepRad),
            sweepRad: p.sweepRad,
          },
  );
  return { pieces: pieces.reverse() };
}

export function shift(o: Outline, dx: number, dy: number): Outline {
  return {
    pieces: o.pieces.map(
      (p): Piece =>
        p.kind === 'line'
          ? { kind: 'line', x0: p.x0 + dx, y0: p.y0 + dy, x1: p.x1 + dx, y1: p.y1 + dy }
          : { ...p, cx: p.cx + dx, cy: p.cy + dy },
    ),
  };
}

/**
 * Closed outlines of straight and circular edges, exact: what a section of a part looks like in its own frame.
 *
 * Convention: x to the right, y up, counterclockwise positive, as in ordinary plane geometry. An outline runs
 * counterclockwise, so that its material lies on the left of every edge; an arc with positive sweep is convex
 * (material inside its circle), with negative sweep concave. Lengths in millimetres, angles in radians, arc angles
 * from +x.
 */

export interface LinePiece {
  readonly kind: 'line';
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export interface ArcPiece {
  readonly kind: 'arc';
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly startRad: number;
  /** Positive = counterclockwise; magnitude at most 2 pi. */
  readonly sweepRad: number;
}

export type Piece = LinePiece | ArcPiece;

/** A closed chain of pieces: each begins where the one before ends. */
export interface Outline {
  readonly pieces: readonly Piece[];
}

export function pieceStart(p: Piece): [number, number] {
  return p.kind === 'line' ? [p.x0, p.y0] : [p.cx + p.r * Math.cos(p.startRad), p.cy + p.r * Math.sin(p.startRad)];
}

export function pieceEnd(p: Piece): [number, number] {
  if (p.kind === 'line') return [p.x1, p.y1];
  const end = p.startRad + p.sweepRad;
  return [p.cx + p.r * Math.cos(end), p.cy + p.r * Math.sin(end)];
}

/**
 * The edge from (x0, y0) to (x1, y1) with a bulge, tan(included angle / 4), positive when it turns counterclockwise; 0 is
 * straight. For a chord of length d the radius is d (1 + b^2) / (4 |b|), and the centre lies d (1 - b^2) / (4 b) to the
 * left of the chord's middle. The ends must be apart.
 */
export function bulgedPiece(x0: number, y0: number, x1: number, y1: number, bulge: number): Piece {
  if (bulge === 0) return { kind: 'line', x0, y0, x1, y1 };
  const left = (1 - bulge * bulge) / (4 * bulge);
  const cx = (x0 + x1) / 2 - (y1 - y0) * left;
  const cy = (y0 + y1) / 2 + (x1 - x0) * left;
  const r = (Math.hypot(x1 - x0, y1 - y0) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return { kind: 'arc', cx, cy, r, startRad: Math.atan2(y0 - cy, x0 - cx), sweepRad: 4 * Math.atan(bulge) };
}

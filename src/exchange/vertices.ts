/**
 * An outline as vertices with bulges and back, in plain numbers: what drawing files hold.
 *
 * Bulge b = tan(included angle / 4), positive counterclockwise, belongs to the edge that begins at the vertex.
 */
import type { ArcPiece, Outline, Piece } from '../core/outline/outline.ts';
import { bulgedPiece, pieceEnd, pieceStart } from '../core/outline/outline.ts';

export interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

type XY = readonly [number, number];

/**
 * Arcs over this are divided into equal parts: half a circle is the most that a vertex of a build may hold, and five
 * degrees less leave room for ends that are rounded afterwards.
 */
export const MOST_ARC_RAD = (175 / 180) * Math.PI;
/** mm; ends nearer than this are the same point but for rounding, and are left as they are. */
const SAME_POINT_MM = 1e-9;

/** The pieces with every long arc divided. */
export function divided(outline: Outline): Outline {
  return { pieces: outline.pieces.flatMap((p): Piece[] => (p.kind === 'line' ? [p] : dividedArc(p))) };
}

function dividedArc(p: ArcPiece): ArcPiece[] {
  const parts = Math.ceil(Math.abs(p.sweepRad) / MOST_ARC_RAD);
  const sweepRad = p.sweepRad / parts;
  return Array.from({ length: parts }, (_, k) => ({ ...p, startRad: p.startRad + k * sweepRad, sweepRad }));
}

/** A vertex for every piece, long arcs divided; the last edge returns to the first vertex. Millimetres. */
export function verticesOf(outline: Outline): Vertex[] {
  return divided(outline).pieces.map((p) => {
    const [x, y] = pieceStart(p);
    return { x, y, bulge: p.kind === 'line' ? 0 : Math.tan(p.sweepRad / 4) };
  });
}

/** The closed chain through vertices; neighbours apart. */
export function outlineThrough(vertices: readonly Vertex[]): Outline {
  const pieces = vertices.map((v, k) => {
    const w = vertices[(k + 1) % vertices.length]!;
    return bulgedPiece(v.x, v.y, w.x, w.y, v.bulge);
  });
  return { pieces };
}

/**
 * Vertices whose positions are moved a little by `place`: each arc is bent anew so that its middle stays where it was. An
 * arc then strays from the old one by no more than its ends do.
 */
export function movedVertices(outline: Outline, place: (p: XY, piece: number) => XY): Vertex[] {
  const { pieces } = divided(outline);
  const at = pieces.map((p, k) => place(pieceStart(p), k));
  return pieces.map((p, k) => {
    const [x, y] = at[k]!;
    return { x, y, bulge: p.kind === 'line' ? 0 : bulgeThrough([x, y], at[(k + 1) % at.length]!, p) };
  });
}

/** The middle of an arc stands bulge times half the chord to the right of the chord. */
function bulgeThrough(p: XY, q: XY, arc: ArcPiece): number {
  const [ox, oy] = pieceStart(arc);
  const [ex, ey] = pieceEnd(arc);
  const kept = Math.hypot(ox - p[0], oy - p[1]) < SAME_POINT_MM && Math.hypot(ex - q[0], ey - q[1]) < SAME_POINT_MM;
  if (kept) return Math.tan(arc.sweepRad / 4);
  const middle = arc.startRad + arc.sweepRad / 2;
  const mx = arc.cx + arc.r * Math.cos(middle) - (p[0] + q[0]) / 2;
  const my = arc.cy + arc.r * Math.sin(middle) - (p[1] + q[1]) / 2;
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  return (2 * (mx * dy - my * dx)) / (dx * dx + dy * dy);
}

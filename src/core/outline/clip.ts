/**
 * The part of an outline on one side of a level line, for an outline that the line parts in two.
 *
 * Every piece is cut where it meets the line; the stretches on the wanted side must follow one another, and so must the
 * others. The part is closed along the line. Nothing is added to it and nothing lost, but for rounding.
 */
import type { Outline, Piece } from './outline.ts';
import { pieceEnd, pieceStart } from './outline.ts';

/** Stretches shorter than this are left out, mm: they come from joints that lie on the line but for rounding. */
const SAME_POINT_MM = 1e-9;

/**
 * The part at or below `y` (or at or above it), counterclockwise; the whole where all of it lies there. Null where nothing
 * does, and where the line meets the outline in more than two places: then it is more than one part. Millimetres, closed
 * counterclockwise outline that does not cross itself.
 */
export function clipLevel(outline: Outline, y: number, keep: 'below' | 'above'): Outline | null {
  const stretches = outline.pieces.flatMap((p) => cutAt(p, y));
  const kept = stretches.map((p) => (keep === 'below' ? middleY(p) <= y : middleY(p) >= y));
  if (kept.every((k) => k)) return outline;
  const n = stretches.length;
  const starts = kept.flatMap((k, i) => (k && !kept[(i + n - 1) % n] ? [i] : []));
  const [first] = starts;
  if (first === undefined || starts.length > 1) return null;
  const pieces: Piece[] = [];
  for (let i = first; kept[i % n]; i++) pieces.push(stretches[i % n]!);
  const [x1, y1] = pieceStart(pieces[0]!);
  const [x0, y0] = pieceEnd(pieces[pieces.length - 1]!);
  if (Math.hypot(x1 - x0, y1 - y0) > SAME_POINT_MM) pieces.push({ kind: 'line', x0, y0, x1, y1 });
  return { pieces };
}

/** Fractions, 0 to 1, at which a piece meets the line, in order. */
function fractionsAt(p: Piece, y: number): number[] {
  if (p.kind === 'line') return p.y0 === p.y1 ? [] : [(y - p.y0) / (p.y1 - p.y0)];
  const sine = (y - p.cy) / p.r;
  if (Math.abs(sine) >= 1) return [];
  const turn = 2 * Math.PI;
  return [Math.asin(sine), Math.PI - Math.asin(sine)]
    .map((angle) => {
      const past = (angle - p.startRad) * Math.sign(p.sweepRad);
      return (past - turn * Math.floor(past / turn)) / Math.abs(p.sweepRad);
    })
    .sort((a, b) => a - b);
}

function cutAt(p: Piece, y: number): Piece[] {
  const length = p.kind === 'line' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweepRad);
  const cuts = [0];
  for (const f of [...fractionsAt(p, y), 1]) {
    const far = (f - cuts[cuts.length - 1]!) * length > SAME_POINT_MM && (f === 1 || (1 - f) * length > SAME_POINT_MM);
    if (f <= 1 && far) cuts.push(f);
  }
  if (cuts[cuts.length - 1] !== 1) cuts.push(1);
  return cuts.slice(1).map((to, k) => stretch(p, cuts[k]!, to));
}

function stretch(p: Piece, from: number, to: number): Piece {
  if (from === 0 && to === 1) return p;
  if (p.kind === 'arc') return { ...p, startRad: p.startRad + from * p.sweepRad, sweepRad: (to - from) * p.sweepRad };
  const at = (f: number): [number, number] => [p.x0 + f * (p.x1 - p.x0), p.y0 + f * (p.y1 - p.y0)];
  const [[x0, y0], [x1, y1]] = [at(from), at(to)];
  return { kind: 'line', x0, y0, x1, y1 };
}

function middleY(p: Piece): number {
  return p.kind === 'line' ? (p.y0 + p.y1) / 2 : p.cy + p.r * Math.sin(p.startRad + p.sweepRad / 2);
}

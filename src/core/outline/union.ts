/**
 * The outer outline of two overlapping outlines taken together.
 *
 * Every piece is cut where it meets the other outline; stretches that run inside the other are dropped; the rest are
 * joined end to end. Where the two run along one another in the same direction the first keeps the stretch. Holes that
 * the two enclose between them are filled: the result is never smaller than the union, which is the safe side.
 */
import { flatten } from './flat.ts';
import type { ArcPiece, LinePiece, Outline, Piece } from './outline.ts';
import { pieceEnd, pieceStart } from './outline.ts';
import type { NearestPlace } from './signedDistance.ts';
import { signedDistance } from './signedDistance.ts';

/** Ends nearer than this are one corner, mm: far above rounding (1e-12), far below anything a machinist measures. */
const SAME_POINT_MM = 1e-6;

/** Loops of less are what rounding leaves where outlines run along one another, mm^2. */
const LEAST_AREA_MM2 = 0.001;

/** A stretch this near the other outline runs along it, mm. */
const ALONG_MM = 1e-7;

const place: NearestPlace = { x: 0, y: 0, piece: 0, corner: false };

/** Union of two outlines that overlap. Throws a RangeError when they do not form one closed outline (they are apart). */
export function union(a: Outline, b: Outline): Outline {
  const stretches = [...outside(a, b, true), ...outside(b, a, false)];
  return { pieces: largestLoop(stretches) };
}

function outside(mine: Outline, other: Outline, keepShared: boolean): Piece[] {
  const flat = flatten(other);
  const out: Piece[] = [];
  for (const piece of mine.pieces) {
    const cuts = [0, 1];
    for (const foreign of other.pieces) cuts.push(...meetings(piece, foreign));
    cuts.sort((p, q) => p - q);
    for (let k = 0; k + 1 < cuts.length; k++) {
      const [from, to] = [cuts[k]!, cuts[k + 1]!];
      if ((to - from) * lengthOf(piece) < SAME_POINT_MM) continue;
      const part = stretch(piece, from, to);
      const [x, y] = pointAt(part, 0.5);
      const sd = signedDistance(flat, x, y, place);
      if (sd > ALONG_MM || (keepShared && Math.abs(sd) <= ALONG_MM && sameWay(part, other, x, y))) out.push(part);
    }
  }
  return out;
}

function lengthOf(p: Piece): number {
  return p.kind === 'line' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweepRad);
}

/** Point at a fraction, 0 to 1, of a piece. */
function pointAt(p: Piece, f: number): [number, number] {
  if (p.kind === 'line') return [p.x0 + f * (p.x1 - p.x0), p.y0 + f * (p.y1 - p.y0)];
  const a = p.startRad + f * p.sweepRad;
  return [p.cx + p.r * Math.cos(a), p.cy + p.r * Math.sin(a)];
}

function stretch(p: Piece, from: number, to: number): Piece {
  if (p.kind === 'arc') return { ...p, startRad: p.startRad + from * p.sweepRad, sweepRad: (to - from) * p.sweepRad };
  const [x0, y0] = pointAt(p, from);
  const [x1, y1] = pointAt(p, to);
  return { kind: 'line', x0, y0, x1, y1 };
}

/** Unit direction of travel at a fraction of a piece. */
function direction(p: Piece, f: number): [number, number] {
  if (p.kind === 'line') {
    const len = lengthOf(p);
    return [(p.x1 - p.x0) / len, (p.y1 - p.y0) / len];
  }
  const a = p.startRad + f * p.sweepRad;
  const s = Math.sign(p.sweepRad);
  return [-Math.sin(a) * s, Math.cos(a) * s];
}

/** Does some piece of `other` run through (x, y) in the same direction as the middle of `part`. */
function sameWay(part: Piece, other: Outline, x: number, y: number): boolean {
  const [dx, dy] = direction(part, 0.5);
  return other.pieces.some((p) => {
    const f = fractionOf(p, x, y);
    if (f === null || f < 0 || f > 1) return false;
    const [px, py] = pointAt(p, f);
    if (Math.hypot(px - x, py - y) > 2 * ALONG_MM) return false;
    const [ex, ey] = direction(p, f);
    return dx * ex + dy * ey > 0;
  });
}

/** Fraction of a piece nearest to a point on its whole line or circle; null at an arc's centre. */
function fractionOf(p: Piece, x: number, y: number): number | null {
  if (p.kind === 'line') {
    const dx = p.x1 - p.x0;
    const dy = p.y1 - p.y0;
    return ((x - p.x0) * dx + (y - p.y0) * dy) / (dx * dx + dy * dy);
  }
  if (x === p.cx && y === p.cy) return null;
  const turn = Math.atan2(y - p.cy, x - p.cx) - p.startRad;
  const full = 2 * Math.PI;
  let t = p.sweepRad > 0 ? turn : -turn;
  t = ((t % full) + full) % full;
  // A hair before the start is the start, not nearly a full turn.
  if (full - t < 1e-9) t = 0;
  return t / Math.abs(p.sweepRad);
}

/** Fractions of `p` at which it meets `q`, ends included. */
function meetings(p: Piece, q: Piece): number[] {
  const points =
    p.kind === 'line'
      ? q.kind === 'line'
        ? lineLine(p, q)
        : lineCircle(p, q)
      : q.kind === 'line'
        ? lineCircle(q, p)
        : circleCircle(p, q);
  // Ends of q that lie on p: where the two run along one another.
  points.push(pieceStart(q), pieceEnd(q));
  const out: number[] = [];
  for (const [x, y] of points) {
    const f = within(p, x, y);
    if (f !== null && within(q, x, y) !== null) out.push(f);
  }
  return out;
}

/** Fraction of the piece at a point that lies on it to SAME_POINT_MM; null if it does not. */
function within(p: Piece, x: number, y: number): number | null {
  const f = fractionOf(p, x, y);
  if (f === null) return null;
  const clamped = Math.min(1, Math.max(0, f));
  const [px, py] = pointAt(p, clamped);
  return Math.hypot(px - x, py - y) < SAME_POINT_MM ? clamped : null;
}

function lineLine(p: LinePiece, q: LinePiece): [number, number][] {
  const dx = p.x1 - p.x0;
  const dy = p.y1 - p.y0;
  const ex = q.x1 - q.x0;
  const ey = q.y1 - q.y0;
  const cross = dx * ey - dy * ex;
  if (Math.abs(cross) < 1e-12 * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return [];
  const t = ((q.x0 - p.x0) * ey - (q.y0 - p.y0) * ex) / cross;
  return [[p.x0 + t * dx, p.y0 + t * dy]];
}

function lineCircle(p: LinePiece, c: ArcPiece): [number, number][] {
  const len = lengthOf(p);
  const tx = (p.x1 - p.x0) / len;
  const ty = (p.y1 - p.y0) / len;
  const dx = p.x0 - c.cx;
  const dy = p.y0 - c.cy;
  const along = dx * tx + dy * ty;
  const across = dx * ty - dy * tx;
  const under = c.r * c.r - across * across;
  if (under < 0) return [];
  const half = Math.sqrt(under);
  return [-along - half, -along + half].map((t) => [p.x0 + t * tx, p.y0 + t * ty]);
}

function circleCircle(a: ArcPiece, b: ArcPiece): [number, number][] {
  const px = b.cx - a.cx;
  const py = b.cy - a.cy;
  const d = Math.hypot(px, py);
  if (d === 0 || d > a.r + b.r || d < Math.abs(a.r - b.r)) return [];
  const along = (d * d + a.r * a.r - b.r * b.r) / (2 * d);
  const half = Math.sqrt(Math.max(0, a.r * a.r - along * along));
  return [-1, 1].map((k) => [a.cx + (along * px - k * half * py) / d, a.cy + (along * py + k * half * px) / d]);
}

/** Joins stretches end to end into loops and returns the one that encloses the most. */
function largestLoop(stretches: readonly Piece[]): Piece[] {
  const left = new Set(stretches);
  let best: Piece[] = [];
  let bestArea = 0;
  let apart = 0;
  while (left.size > 0) {
    const first = left.values().next().value as Piece;
    left.delete(first);
    const loop = [first];
    const [sx, sy] = pieceStart(first);
    let [x, y] = pieceEnd(first);
    while (Math.hypot(x - sx, y - sy) > SAME_POINT_MM * 2) {
      let next: Piece | undefined;
      for (const p of left) {
        const [px, py] = pieceStart(p);
        if (Math.hypot(px - x, py - y) < SAME_POINT_MM * 2) next = p;
      }
      if (next === undefined) break;
      left.delete(next);
      loop.push(next);
      [x, y] = pieceEnd(next);
    }
    const closed = Math.hypot(x - sx, y - sy) <= SAME_POINT_MM * 2;
    const area = closed ? areaOf(loop) : 0;
    // Holes run clockwise and are left out; a second loop counterclockwise stands apart, and would be lost.
    if (area > LEAST_AREA_MM2) apart += 1;
    if (area > bestArea) {
      bestArea = area;
      best = loop;
    }
  }
  if (apart > 1) throw new RangeError('union: the two outlines stand apart');
  if (best.length === 0) throw new RangeError('union: the two outlines do not join into one closed outline');
  return best;
}

/** Signed area, mm^2, of a closed chain of pieces: positive when counterclockwise. */
export function areaOf(pieces: readonly Piece[]): number {
  let area = 0;
  for (const p of pieces) {
    const [x0, y0] = pieceStart(p);
    const [x1, y1] = pieceEnd(p);
    area += (x0 * y1 - x1 * y0) / 2;
    if (p.kind === 'arc') area += (p.r * p.r * (p.sweepRad - Math.sin(p.sweepRad))) / 2;
  }
  return area;
}

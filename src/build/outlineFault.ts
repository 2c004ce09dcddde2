/**
 * What is wrong with a measured outline: an edge without length, the wrong way round, no area, edges that cross or touch.
 *
 * Crossing is judged on the exact pieces, arcs included: two pieces share a point that is not their common joint. Pieces that lie
 * along one another share their ends or middles, so these are tried as well.
 */
import {
  type ArcPiece,
  type LinePiece,
  type Outline,
  type Piece,
  pieceEnd,
  pieceStart,
} from '../core/outline/outline.ts';
import type { OutlinePoint } from './document.ts';
import { outlinePieces } from './outlinePieces.ts';

/** mm; shorter edges than this are slips of typing, not measurements. */
export const SHORTEST_EDGE_MM = 0.01;
/** mm²; a smaller outline is none. */
export const LEAST_AREA_MM2 = 1;
/** mm; pieces nearer to one another count as touching: far above rounding (1e-12 of 1 m), far below any measurement. */
const TOUCH_MM = 1e-6;
/** mm; shared points this near to the common joint of two neighbours are the joint: tangent neighbours blur it to the root of rounding. */
const JOINT_MM = 1e-3;

export interface OutlineFault {
  readonly kind: 'short edge' | 'clockwise' | 'tiny' | 'crossing';
  /** Index of the point at which the edge concerned begins; 0 for the outline as a whole. */
  readonly point: number;
  /** What is wrong, as a sentence. */
  readonly says: string;
}

type Point = readonly [number, number];

/** The first fault of an outline, or null. */
export function outlineFault(points: readonly OutlinePoint[]): OutlineFault | null {
  const outline = outlinePieces(points);
  const short = outline.pieces.findIndex((p) => !(distance(pieceStart(p), pieceEnd(p)) >= SHORTEST_EDGE_MM));
  if (short >= 0) {
    const last = short === points.length - 1 ? ' The outline closes by itself; do not repeat the first point.' : '';
    const says = `The edge from point ${short + 1} is shorter than ${SHORTEST_EDGE_MM} mm.${last}`;
    return { kind: 'short edge', point: short, says };
  }
  const crossing = firstCrossing(outline);
  if (crossing !== null) return crossing;
  const area = outlineAreaMm2(outline);
  if (area < 0) {
    return {
      kind: 'clockwise',
      point: 0,
      says: 'The points run clockwise; allowed: counterclockwise, material on the left.',
    };
  }
  if (area < LEAST_AREA_MM2) {
    return { kind: 'tiny', point: 0, says: `The outline encloses less than ${LEAST_AREA_MM2} mm².` };
  }
  return null;
}

/** Signed area, mm², positive counterclockwise: the polygon of the joints and a circle segment for each arc. */
export function outlineAreaMm2(outline: Outline): number {
  let twice = 0;
  for (const p of outline.pieces) {
    const [x0, y0] = pieceStart(p);
    const [x1, y1] = pieceEnd(p);
    twice += x0 * y1 - x1 * y0;
    if (p.kind === 'arc') twice += p.r * p.r * (p.sweepRad - Math.sin(p.sweepRad));
  }
  return twice / 2;
}

/** Area over half the length round: the width of a strip, the radius of a disc. */
export function meanWidthMm(outline: Outline): number {
  const around = outline.pieces.reduce(
    (sum, p) => sum + (p.kind === 'line' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweepRad)),
    0,
  );
  return (2 * outlineAreaMm2(outline)) / around;
}

function firstCrossing(outline: Outline): OutlineFault | null {
  const { pieces } = outline;
  const boxes = pieces.map(box);
  for (let i = 0; i < pieces.length; i++) {
    for (let j = i + 1; j < pieces.length; j++) {
      if (!boxesMeet(boxes[i]!, boxes[j]!)) continue;
      const joints: Point[] = [];
      if (j === i + 1) joints.push(pieceEnd(pieces[i]!));
      if (i === (j + 1) % pieces.length) joints.push(pieceEnd(pieces[j]!));
      const shared = sharedPoints(pieces[i]!, pieces[j]!).find((p) => joints.every((q) => distance(p, q) > JOINT_MM));
      if (shared !== undefined) {
        const where = `x ${shared[0].toFixed(2)} mm, y ${shared[1].toFixed(2)} mm`;
        const says = `The edges from points ${i + 1} and ${j + 1} cross or touch at ${where}.`;
        return { kind: 'crossing', point: j, says };
      }
    }
  }
  return null;
}

function sharedPoints(a: Piece, b: Piece): Point[] {
  const candidates = [...crossings(a, b), ...marks(a), ...marks(b)];
  return candidates.filter((p) => liesOn(p, a) && liesOn(p, b));
}

/** Points in which the lines or circles of two pieces meet. */
function crossings(a: Piece, b: Piece): Point[] {
  if (a.kind === 'line') return b.kind === 'line' ? lineLine(a, b) : lineCircle(a, b);
  return b.kind === 'line' ? lineCircle(b, a) : circleCircle(a, b);
}

function lineLine(a: LinePiece, b: LinePiece): Point[] {
  const [ux, uy, vx, vy] = [a.x1 - a.x0, a.y1 - a.y0, b.x1 - b.x0, b.y1 - b.y0];
  const cross = ux * vy - uy * vx;
  if (cross === 0) return [];
  const t = ((b.x0 - a.x0) * vy - (b.y0 - a.y0) * vx) / cross;
  return [[a.x0 + t * ux, a.y0 + t * uy]];
}

function lineCircle(line: LinePiece, circle: ArcPiece): Point[] {
  const length = Math.hypot(line.x1 - line.x0, line.y1 - line.y0);
  const [ux, uy] = [(line.x1 - line.x0) / length, (line.y1 - line.y0) / length];
  const [wx, wy] = [circle.cx - line.x0, circle.cy - line.y0];
  const along = wx * ux + wy * uy;
  const aside = ux * wy - uy * wx;
  const halfSq = circle.r * circle.r - aside * aside;
  // A tangent that misses by rounding still touches.
  if (Math.abs(aside) > circle.r + TOUCH_MM) return [];
  const half = Math.sqrt(Math.max(halfSq, 0));
  return [along - half, along, along + half].map((t) => [line.x0 + t * ux, line.y0 + t * uy] as const);
}

function circleCircle(a: ArcPiece, b: ArcPiece): Point[] {
  const [dx, dy] = [b.cx - a.cx, b.cy - a.cy];
  const d = Math.hypot(dx, dy);
  if (d < TOUCH_MM || d > a.r + b.r + TOUCH_MM || d < Math.abs(a.r - b.r) - TOUCH_MM) return [];
  const along = (d * d + a.r * a.r - b.r * b.r) / (2 * d);
  const half = Math.sqrt(Math.max(a.r * a.r - along * along, 0));
  return [-half, 0, half].map((h) => [a.cx + (along * dx - h * dy) / d, a.cy + (along * dy + h * dx) / d] as const);
}

/** Start, middle and end. */
function marks(p: Piece): Point[] {
  const middle: Point =
    p.kind === 'line'
      ? [(p.x0 + p.x1) / 2, (p.y0 + p.y1) / 2]
      : [p.cx + p.r * Math.cos(p.startRad + p.sweepRad / 2), p.cy + p.r * Math.sin(p.startRad + p.sweepRad / 2)];
  return [pieceStart(p), middle, pieceEnd(p)];
}

function liesOn([x, y]: Point, p: Piece): boolean {
  if (p.kind === 'line') {
    const length = Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
    const [ux, uy] = [(p.x1 - p.x0) / length, (p.y1 - p.y0) / length];
    const along = (x - p.x0) * ux + (y - p.y0) * uy;
    const aside = (y - p.y0) * ux - (x - p.x0) * uy;
    return Math.abs(aside) <= TOUCH_MM && along >= -TOUCH_MM && along <= length + TOUCH_MM;
  }
  if (Math.abs(Math.hypot(x - p.cx, y - p.cy) - p.r) > TOUCH_MM) return false;
  const turn = 2 * Math.PI;
  const sense = Math.sign(p.sweepRad);
  const past = ((((Math.atan2(y - p.cy, x - p.cx) - p.startRad) * sense) % turn) + turn) % turn;
  const slack = TOUCH_MM / p.r;
  return past <= Math.abs(p.sweepRad) + slack || past >= turn - slack;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

type Box = readonly [number, number, number, number];

/** Of a whole circle for an arc: larger than needed, never smaller. */
function box(p: Piece): Box {
  if (p.kind === 'arc') return [p.cx - p.r, p.cy - p.r, p.cx + p.r, p.cy + p.r];
  return [Math.min(p.x0, p.x1), Math.min(p.y0, p.y1), Math.max(p.x0, p.x1), Math.max(p.y0, p.y1)];
}

function boxesMeet(a: Box, b: Box): boolean {
  const slack = 2 * TOUCH_MM;
  return a[0] <= b[2] + slack && b[0] <= a[2] + slack && a[1] <= b[3] + slack && b[1] <= a[3] + slack;
}

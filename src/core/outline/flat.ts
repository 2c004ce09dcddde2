/**
 * An outline packed for hot loops: one stride of numbers per piece, nothing allocated after packing.
 *
 * Every arc is cut so that it turns through at most `MAX_ARC_RAD`; then "is this direction inside the arc's sector" is
 * two dot products with the outward normals of the sector's two rays, and how far a point is outside the sector is
 * bounded below by the larger of them.
 */
import type { Outline, Piece } from './outline.ts';
import { pieceEnd, pieceStart } from './outline.ts';

export const LINE = 0;
export const CONVEX = 1;
export const CONCAVE = 2;

export const STRIDE = 24;
/** Start point. */
export const X0 = 0;
export const Y0 = 1;
/** Line: outward unit normal (to the right of travel). */
export const NX = 2;
export const NY = 3;
/** Line: length. */
export const LEN = 4;
/** Line: unit tangent. */
export const TX = 5;
export const TY = 6;
/** Arc: centre and radius. */
export const CX = 2;
export const CY = 3;
export const R = 4;
/** Arc: outward normals of the two rays that bound its sector. */
export const E1X = 5;
export const E1Y = 6;
export const E2X = 7;
export const E2Y = 8;
/** A disc that holds the piece. */
export const BX = 9;
export const BY = 10;
export const BR = 11;
/** End point. */
export const X1 = 12;
export const Y1 = 13;
/** Sign of the corner at the start: +1 convex, -1 reflex, 0 smooth. */
export const CORNER = 14;
/** Length of the piece. */
export const ARCLEN = 15;
/** Distances from the body's own origin: of the start corner, of an arc's centre, of the disc's centre. */
export const CORNER_REACH = 16;
export const CENTRE_REACH = 17;
export const DISC_REACH = 18;
/** The upright box that holds the piece, in the outline's own frame. */
export const LEFT = 19;
export const RIGHT = 20;
export const LOW = 21;
export const HIGH = 22;

/** Largest turn of one packed arc: well under pi, so that a sector is the meeting of two half planes. */
const MAX_ARC_RAD = 2;

/** Sine of the turn below which two pieces count as running on smoothly: below it the sign of a corner has no meaning in double arithmetic. */
const SMOOTH_SIN = 1e-9;

export interface FlatOutline {
  readonly n: number;
  readonly kind: Uint8Array;
  readonly at: Float64Array;
  /** Of the whole outline, packed like a piece: a disc that holds it and its centre's distance from the origin, the upright box. */
  readonly whole: Float64Array;
  /** The discs and the boxes once more, four numbers to a piece and last those of the whole: x, y, radius, distance from the origin; left, right, low, high. */
  readonly discs: Float64Array;
  readonly boxes: Float64Array;
  /** Largest distance of any point from the body's own origin. */
  readonly reachMm: number;
}

function cutArcs(pieces: readonly Piece[]): Piece[] {
  const out: Piece[] = [];
  for (const p of pieces) {
    if (p.kind === 'line') {
      out.push(p);
      continue;
    }
    const parts = Math.max(1, Math.ceil(Math.abs(p.sweepRad) / MAX_ARC_RAD));
    const sweepRad = p.sweepRad / parts;
    for (let k = 0; k < parts; k++) out.push({ ...p, startRad: p.startRad + k * sweepRad, sweepRad });
  }
  return out;
}

function tangentAt(p: Piece, end: boolean): [number, number] {
  if (p.kind === 'line') {
    const len = Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
    return [(p.x1 - p.x0) / len, (p.y1 - p.y0) / len];
  }
  const a = p.startRad + (end ? p.sweepRad : 0);
  const s = Math.sign(p.sweepRad);
  return [-Math.sin(a) * s, Math.cos(a) * s];
}

/** Packs an outline. It must have passed the checks of validOutline.ts: closed, counterclockwise, no piece of zero length. */
export function flatten(outline: Outline): FlatOutline {
  const pieces = cutArcs(outline.pieces);
  const n = pieces.length;
  const kind = new Uint8Array(n);
  const at = new Float64Array(n * STRIDE);
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  let reachMm = 0;
  for (let i = 0; i < n; i++) {
    const p = pieces[i]!;
    const o = i * STRIDE;
    const [x0, y0] = pieceStart(p);
    const [x1, y1] = pieceEnd(p);
    at[o + X0] = x0;
    at[o + Y0] = y0;
    at[o + X1] = x1;
    at[o + Y1] = y1;
    const [inX, inY] = tangentAt(pieces[(i + n - 1) % n]!, true);
    const [outX, outY] = tangentAt(p, false);
    const turn = inX * outY - inY * outX;
    at[o + CORNER] = Math.abs(turn) < SMOOTH_SIN && inX * outX + inY * outY > 0 ? 0 : Math.sign(turn);
    if (p.kind === 'line') {
      kind[i] = LINE;
      const len = distance(x1 - x0, y1 - y0);
      const tx = (x1 - x0) / len;
      const ty = (y1 - y0) / len;
      at[o + NX] = ty;
      at[o + NY] = -tx;
      at[o + LEN] = len;
      at[o + TX] = tx;
      at[o + TY] = ty;
      at[o + BX] = (x0 + x1) / 2;
      at[o + BY] = (y0 + y1) / 2;
      at[o + BR] = len / 2;
      at[o + ARCLEN] = len;
    } else {
      kind[i] = p.sweepRad > 0 ? CONVEX : CONCAVE;
      const low = p.sweepRad > 0 ? p.startRad : p.startRad + p.sweepRad;
      const high = p.sweepRad > 0 ? p.startRad + p.sweepRad : p.startRad;
      at[o + CX] = p.cx;
      at[o + CY] = p.cy;
      at[o + R] = p.r;
      // Clockwise of the low ray, counterclockwise of the high ray.
      at[o + E1X] = Math.sin(low);
      at[o + E1Y] = -Math.cos(low);
      at[o + E2X] = -Math.sin(high);
      at[o + E2Y] = Math.cos(high);
      // The arc turns through less than pi: the disc on its chord as diameter holds it up to a half turn.
      const mid = (low + high) / 2;
      const half = (high - low) / 2;
      const chordMid = p.r * Math.cos(half);
      const sagitta = p.r - chordMid;
      const halfChord = p.r * Math.sin(half);
      at[o + BX] = p.cx + chordMid * Math.cos(mid);
      at[o + BY] = p.cy + chordMid * Math.sin(mid);
      at[o + BR] = Math.max(halfChord, sagitta);
      at[o + ARCLEN] = p.r * Math.abs(p.sweepRad);
    }
    const bx = at[o + BX]!;
    const by = at[o + BY]!;
    const br = at[o + BR]!;
    at[o + CORNER_REACH] = distance(x0, y0);
    at[o + CENTRE_REACH] = p.kind === 'arc' ? distance(p.cx, p.cy) : 0;
    at[o + DISC_REACH] = distance(bx, by);
    boxOf(p, at, o);
    minX = Math.min(minX, at[o + LEFT]!);
    maxX = Math.max(maxX, at[o + RIGHT]!);
    minY = Math.min(minY, at[o + LOW]!);
    maxY = Math.max(maxY, at[o + HIGH]!);
    reachMm = Math.max(reachMm, distance(bx, by) + br);
  }
  const discX = (minX + maxX) / 2;
  const discY = (minY + maxY) / 2;
  let discR = 0;
  for (let i = 0; i < n; i++) {
    const o = i * STRIDE;
    discR = Math.max(discR, distance(at[o + BX]! - discX, at[o + BY]! - discY) + at[o + BR]!);
  }
  const whole = new Float64Array(STRIDE);
  whole[BX] = discX;
  whole[BY] = discY;
  whole[BR] = discR;
  whole[DISC_REACH] = distance(discX, discY);
  whole[LEFT] = minX;
  whole[RIGHT] = maxX;
  whole[LOW] = minY;
  whole[HIGH] = maxY;
  const discs = new Float64Array(4 * n + 4);
  const boxes = new Float64Array(4 * n + 4);
  for (let i = 0; i <= n; i++) {
    const from = i < n ? at : whole;
    const o = i < n ? i * STRIDE : 0;
    DISC_PLACES.forEach((place, k) => {
      discs[4 * i + k] = from[o + place]!;
    });
    BOX_PLACES.forEach((place, k) => {
      boxes[4 * i + k] = from[o + place]!;
    });
  }
  return { n, kind, at, whole, discs, boxes, reachMm };
}

const DISC_PLACES = [BX, BY, BR, DISC_REACH];
const BOX_PLACES = [LEFT, RIGHT, LOW, HIGH];

/** Math.hypot guards against overflow that lengths of an engine never come near, and takes ten times as long. */
function distance(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}

/** An arc's box reaches out to its circle where its sector holds the direction; this much is allowed for rounding, mm. */
const BOX_ROUNDING_MM = 1e-9;

/** Fills the box of the packed piece at `o`. */
function boxOf(p: Piece, at: Float64Array, o: number): void {
  at[o + LEFT] = Math.min(at[o + X0]!, at[o + X1]!);
  at[o + RIGHT] = Math.max(at[o + X0]!, at[o + X1]!);
  at[o + LOW] = Math.min(at[o + Y0]!, at[o + Y1]!);
  at[o + HIGH] = Math.max(at[o + Y0]!, at[o + Y1]!);
  if (p.kind === 'line') return;
  const holds = (ux: number, uy: number): boolean =>
    Math.max(ux * at[o + E1X]! + uy * at[o + E1Y]!, ux * at[o + E2X]! + uy * at[o + E2Y]!) * p.r <= BOX_ROUNDING_MM;
  if (holds(-1, 0)) at[o + LEFT] = p.cx - p.r;
  if (holds(1, 0)) at[o + RIGHT] = p.cx + p.r;
  if (holds(0, -1)) at[o + LOW] = p.cy - p.r;
  if (holds(0, 1)) at[o + HIGH] = p.cy + p.r;
}

/** Builds a closed outline edge by edge, counterclockwise, from corner to corner and round arcs about given centres. */
import type { Outline, Piece } from './outline.ts';

/** Edges shorter than this are left out, mm: they come from two corners meant to coincide and would have no direction. */
const SAME_POINT_MM = 1e-9;

export class Path {
  private readonly pieces: Piece[] = [];
  private readonly startX: number;
  private readonly startY: number;
  private x: number;
  private y: number;

  constructor(x: number, y: number) {
    this.startX = x;
    this.startY = y;
    this.x = x;
    this.y = y;
  }

  /** A straight edge to (x, y). */
  line(x: number, y: number): this {
    if (Math.hypot(x - this.x, y - this.y) > SAME_POINT_MM) {
      this.pieces.push({ kind: 'line', x0: this.x, y0: this.y, x1: x, y1: y });
      this.x = x;
      this.y = y;
    }
    return this;
  }

  /** An arc about (cx, cy), from where the path stands, through `sweepRad` (positive: counterclockwise, convex). */
  arc(cx: number, cy: number, sweepRad: number): this {
    const r = Math.hypot(this.x - cx, this.y - cy);
    if (r * Math.abs(sweepRad) <= SAME_POINT_MM) return this;
    const startRad = Math.atan2(this.y - cy, this.x - cx);
    this.pieces.push({ kind: 'arc', cx, cy, r, startRad, sweepRad });
    this.x = cx + r * Math.cos(startRad + sweepRad);
    this.y = cy + r * Math.sin(startRad + sweepRad);
    return this;
  }

  /** An arc about (cx, cy) counterclockwise to the direction of (x, y) from there. */
  arcTo(cx: number, cy: number, x: number, y: number): this {
    const from = Math.atan2(this.y - cy, this.x - cx);
    let sweep = Math.atan2(y - cy, x - cx) - from;
    if (sweep < 0) sweep += 2 * Math.PI;
    return this.arc(cx, cy, sweep);
  }

  close(): Outline {
    this.line(this.startX, this.startY);
    return { pieces: this.pieces };
  }
}

/** A full disc. */
export function disc(cx: number, cy: number, r: number): Outline {
  return { pieces: [{ kind: 'arc', cx, cy, r, startRad: 0, sweepRad: 2 * Math.PI }] };
}

/** An upright box from (x0, y0) to (x1, y1), x0 < x1, y0 < y1. */
export function box(x0: number, y0: number, x1: number, y1: number): Outline {
  return new Path(x0, y0).line(x1, y0).line(x1, y1).line(x0, y1).close();
}

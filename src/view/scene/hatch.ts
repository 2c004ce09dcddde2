/**
 * Section hatching: the parts of evenly spaced parallel lines that lie inside an outline and outside its holes.
 *
 * Each line is cut where it crosses the edges, straight or round; crossings in order, taken two by two, are the drawn
 * strokes (even-odd rule). An edge counts as crossed when its ends lie on different sides, "on the line" counting as
 * below, so a corner on a line is counted once or not at all and strokes never run astray.
 */
import type { Outline, Piece } from '../../core/outline/outline.ts';

/** Lengths in mm, y up. Returns [x0, y0, x1, y1, …], four numbers a stroke. */
export function hatchStrokes(outlines: readonly Outline[], slopeRad: number, spacingMm: number): number[] {
  if (!(spacingMm > 0)) throw new RangeError(`Hatching needs a spacing above zero, got ${spacingMm}`);
  // Turned so that the hatching runs level: along the line `a`, across it `b`.
  const cos = Math.cos(slopeRad);
  const sin = Math.sin(slopeRad);
  const crossings = new Map<number, number[]>();
  const add = (line: number, a: number) => {
    const row = crossings.get(line);
    if (row === undefined) crossings.set(line, [a]);
    else row.push(a);
  };
  const across = (x: number, y: number) => -sin * x + cos * y;
  const along = (x: number, y: number) => cos * x + sin * y;
  for (const outline of outlines) {
    for (const piece of outline.pieces) {
      for (const part of monotoneParts(piece, slopeRad)) {
        const b0 = across(part.x0, part.y0);
        const b1 = across(part.x1, part.y1);
        const low = Math.min(b0, b1);
        const high = Math.max(b0, b1);
        // Lines with low < b <= high.
        for (let line = Math.floor(low / spacingMm) + 1; line * spacingMm <= high; line++) {
          add(line, part.at(line * spacingMm, along, across));
        }
      }
    }
  }
  const strokes: number[] = [];
  for (const [line, row] of crossings) {
    row.sort((p, q) => p - q);
    const b = line * spacingMm;
    for (let k = 0; k + 1 < row.length; k += 2) {
      const a0 = row[k]!;
      const a1 = row[k + 1]!;
      if (a1 > a0) strokes.push(cos * a0 - sin * b, sin * a0 + cos * b, cos * a1 - sin * b, sin * a1 + cos * b);
    }
  }
  return strokes;
}

interface MonotonePart {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Place along the hatching where the part crosses the level `b`. */
  readonly at: (b: number, along: (x: number, y: number) => number, across: (x: number, y: number) => number) => number;
}

/** Splits a piece where it runs parallel to the hatching, so that every part crosses a level at most once. */
function monotoneParts(piece: Piece, slopeRad: number): MonotonePart[] {
  if (piece.kind === 'line') {
    const { x0, y0, x1, y1 } = piece;
    return [
      {
        x0,
        y0,
        x1,
        y1,
        at: (b, along, across) => {
          const b0 = across(x0, y0);
          const part = (b - b0) / (across(x1, y1) - b0);
          const a0 = along(x0, y0);
          return a0 + part * (along(x1, y1) - a0);
        },
      },
    ];
  }
  const { cx, cy, r, startRad, sweepRad } = piece;
  const point = (angle: number) => [cx + r * Math.cos(angle), cy + r * Math.sin(angle)] as const;
  const low = Math.min(startRad, startRad + sweepRad);
  const high = Math.max(startRad, startRad + sweepRad);
  // The circle's extremes across the hatching lie square to it.
  const turns: number[] = [low];
  const first = slopeRad + Math.PI / 2;
  for (let k = Math.ceil((low - first) / Math.PI); first + k * Math.PI < high; k++) {
    if (first + k * Math.PI > low) turns.push(first + k * Math.PI);
  }
  turns.push(high);
  const parts: MonotonePart[] = [];
  for (let k = 0; k + 1 < turns.length; k++) {
    const [x0, y0] = point(turns[k]!);
    const [x1, y1] = point(turns[k + 1]!);
    const side = Math.sign(Math.cos((turns[k]! + turns[k + 1]!) / 2 - slopeRad));
    parts.push({
      x0,
      y0,
      x1,
      y1,
      at: (b, along, across) => {
        const rise = b - across(cx, cy);
        return along(cx, cy) + side * Math.sqrt(Math.max(r * r - rise * rise, 0));
      },
    });
  }
  return parts;
}

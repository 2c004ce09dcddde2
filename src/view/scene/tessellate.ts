/**
 * Outlines as pixel polylines. The outline stays lines and true arcs; only the drawn copy is split, finely enough that
 * no chord leaves its arc by more than a twelfth of a pixel at the scale it is made for.
 *
 * Pixels: y down, so y is negated here and nowhere else for a body's own frame.
 */
import type { Outline, Piece } from '../../core/outline/outline.ts';

/** Largest distance between a drawn chord and its arc. Below what a screen shows. */
const CHORD_ERROR_PX = 0.08;

function arcSteps(radiusPx: number, sweepRad: number): number {
  if (radiusPx <= CHORD_ERROR_PX) return 1;
  const step = 2 * Math.acos(1 - CHORD_ERROR_PX / radiusPx);
  return Math.max(1, Math.ceil(Math.abs(sweepRad) / step));
}

function appendPiece(out: number[], piece: Piece, pxPerMm: number, withEnd: boolean): void {
  if (piece.kind === 'line') {
    out.push(piece.x0 * pxPerMm, -piece.y0 * pxPerMm);
    if (withEnd) out.push(piece.x1 * pxPerMm, -piece.y1 * pxPerMm);
    return;
  }
  const steps = arcSteps(piece.r * pxPerMm, piece.sweepRad);
  const last = withEnd ? steps : steps - 1;
  for (let k = 0; k <= last; k++) {
    const angle = piece.startRad + (piece.sweepRad * k) / steps;
    out.push((piece.cx + piece.r * Math.cos(angle)) * pxPerMm, -(piece.cy + piece.r * Math.sin(angle)) * pxPerMm);
  }
}

/** A closed outline as [x0, y0, x1, y1, …] in pixels of its own frame; the first point is not repeated. */
export function outlinePoints(outline: Outline, pxPerMm: number): number[] {
  const out: number[] = [];
  for (const piece of outline.pieces) appendPiece(out, piece, pxPerMm, false);
  return out;
}

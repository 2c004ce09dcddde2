/**
 * How one body is drawn, in its own frame and at one scale: outlines, section hatching, hidden and construction lines.
 * Made when the engine, the ink or the scale changes; turning the crank only moves what is made here.
 */
import { GraphicsContext } from 'pixi.js';
import type { DrawnShape } from '../../assembly/engine.ts';
import type { Ink } from '../theme.ts';
import { CENTRE_LINE_PX, dashStrokes, HIDDEN_PX } from './dashes.ts';
import { hatchStrokes } from './hatch.ts';
import { BEHIND_PX, CUT_PX, type Drawing, hatchSpacingPx, isHatched, THIN_PX } from './lineWeights.ts';
import { outlinePoints } from './tessellate.ts';

export interface BodyDrawing {
  readonly drawing: Drawing;
  readonly pxPerMm: number;
  readonly ink: Ink;
  /** Slope of the hatching in the body's frame, radians from +x with y up, for a slope on paper; absent: no hatching. */
  readonly hatchRad?: ((slopeDeg: number) => number) | undefined;
}

/** Adds strokes [x0, y0, x1, y1, …] as one line set. */
export function strokeSegments(
  context: GraphicsContext,
  strokes: readonly number[],
  width: number,
  color: number,
  alpha = 1,
): void {
  if (strokes.length === 0) return;
  for (let k = 0; k < strokes.length; k += 4) {
    context.moveTo(strokes[k]!, strokes[k + 1]!).lineTo(strokes[k + 2]!, strokes[k + 3]!);
  }
  context.stroke({ width, color, alpha });
}

/** The filled area of a shape, holes left out; in px of its body's frame. */
export function fillShape(context: GraphicsContext, shape: DrawnShape, pxPerMm: number, color: number): void {
  context.poly(outlinePoints(shape.outline, pxPerMm)).fill({ color });
  for (const hole of shape.holes ?? []) context.poly(outlinePoints(hole, pxPerMm)).cut();
}

function drawShape(context: GraphicsContext, shape: DrawnShape, how: BodyDrawing): void {
  const { drawing, pxPerMm, ink, hatchRad } = how;
  const loops = [shape.outline, ...(shape.holes ?? [])].map((outline) => outlinePoints(outline, pxPerMm));
  if (shape.style === 'hidden' || shape.style === 'construction') {
    const pattern = shape.style === 'hidden' ? HIDDEN_PX : CENTRE_LINE_PX;
    for (const loop of loops) strokeSegments(context, dashStrokes(loop, true, pattern), THIN_PX, ink.faint);
    return;
  }
  if (drawing !== 'open') fillShape(context, shape, pxPerMm, ink.paper);
  if (hatchRad !== undefined && shape.hatch !== undefined && isHatched(shape, drawing)) {
    const spacingMm = hatchSpacingPx(shape.hatch.spacingMm) / pxPerMm;
    const strokes = hatchStrokes([shape.outline, ...(shape.holes ?? [])], hatchRad(shape.hatch.slopeDeg), spacingMm);
    for (let k = 0; k < strokes.length; k++) strokes[k] = strokes[k]! * (k % 2 === 0 ? pxPerMm : -pxPerMm);
    strokeSegments(context, strokes, THIN_PX, ink.ink, ink.hatchAlpha);
  }
  const cut = shape.style === 'cut' && (drawing === 'cut' || drawing === 'open');
  const width = cut ? CUT_PX : BEHIND_PX;
  const color = drawing === 'behind' ? ink.faint : ink.ink;
  // The first corner once more at the end: not every renderer draws the closing edge by itself.
  for (const loop of loops) {
    context.poly([...loop, loop[0]!, loop[1]!]).stroke({ width, color, join: 'round' });
  }
}

/** Some shapes of a body, in pixels of its own frame at `pxPerMm`; free it with `destroy`. */
export function makeBodyContext(shapes: readonly DrawnShape[], how: BodyDrawing): GraphicsContext {
  const context = new GraphicsContext();
  for (const shape of shapes) drawShape(context, shape, how);
  return context;
}

/**
 * How one body is drawn, in its own frame and at one scale: outlines, section hatching, hidden and construction lines.
 * Made when the engine, the ink or the scale changes; turning the crank only moves what is made here.
 */
import { GraphicsContext } from 'pixi.js';
import type { Body, DrawnShape } from '../../assembly/engine.ts';
import type { Role } from '../inView.ts';
import type { Ink } from '../theme.ts';
import { CENTRE_LINE_PX, dashStrokes, HIDDEN_PX } from './dashes.ts';
import { hatchStrokes } from './hatch.ts';
import { outlinePoints } from './tessellate.ts';

/** Line weights, px on the screen at any zoom. */
export const CUT_PX = 2;
export const BEHIND_PX = 1;
export const THIN_PX = 0.75;

/** Distance between hatching lines on the screen for a part that asks for 2.5 mm; finer or coarser parts follow. */
const HATCH_PX_AT_2_5_MM = 6.5;
const LEAST_HATCH_PX = 4.5;
const MOST_HATCH_PX = 12;

/** `open`: cut, but not hiding what lies behind, so that an overlap shows. */
export type Drawing = Role | 'ghost' | 'open';

function strokeSegments(
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

function drawShape(context: GraphicsContext, shape: DrawnShape, drawing: Drawing, pxPerMm: number, ink: Ink): void {
  const outer = outlinePoints(shape.outline, pxPerMm);
  const holes = (shape.holes ?? []).map((hole) => outlinePoints(hole, pxPerMm));
  if (drawing === 'ghost') {
    if (shape.style !== 'cut' && shape.style !== 'behind') return;
    for (const loop of [outer, ...holes]) strokeSegments(context, dashStrokes(loop, true, HIDDEN_PX), 1, ink.faint);
    return;
  }
  if (shape.style === 'hidden' || shape.style === 'construction') {
    const pattern = shape.style === 'hidden' ? HIDDEN_PX : CENTRE_LINE_PX;
    for (const loop of [outer, ...holes]) strokeSegments(context, dashStrokes(loop, true, pattern), THIN_PX, ink.faint);
    return;
  }
  const cut = shape.style === 'cut' && (drawing === 'cut' || drawing === 'open');
  if (drawing !== 'open') {
    context.poly(outer).fill({ color: ink.paper });
    for (const hole of holes) context.poly(hole).cut();
  }
  if (cut && shape.hatch !== undefined) {
    const px = Math.min(Math.max((shape.hatch.spacingMm / 2.5) * HATCH_PX_AT_2_5_MM, LEAST_HATCH_PX), MOST_HATCH_PX);
    const slopeRad = (shape.hatch.slopeDeg * Math.PI) / 180;
    const strokes = hatchStrokes([shape.outline, ...(shape.holes ?? [])], slopeRad, px / pxPerMm);
    for (let k = 0; k < strokes.length; k++) strokes[k] = strokes[k]! * (k % 2 === 0 ? pxPerMm : -pxPerMm);
    strokeSegments(context, strokes, THIN_PX, ink.ink, ink.hatchAlpha);
  }
  const width = cut ? CUT_PX : BEHIND_PX;
  const color = drawing === 'behind' ? ink.faint : ink.ink;
  // The first corner once more at the end: not every renderer draws the closing edge by itself.
  for (const loop of [outer, ...holes]) {
    context.poly([...loop, loop[0]!, loop[1]!]).stroke({ width, color, join: 'round' });
  }
}

/** The whole body, or its shapes of one style only. Pixels of its own frame at `pxPerMm`; free it with `destroy`. */
export function makeBodyContext(
  body: Body,
  drawing: Drawing,
  pxPerMm: number,
  ink: Ink,
  only?: DrawnShape['style'],
): GraphicsContext {
  const context = new GraphicsContext();
  for (const shape of body.drawn) {
    if (only === undefined || shape.style === only) drawShape(context, shape, drawing, pxPerMm, ink);
  }
  return context;
}

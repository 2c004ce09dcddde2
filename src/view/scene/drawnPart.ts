/**
 * One body on the screen: made once for a scale, then moved. Section hatching keeps its slope on the paper whatever the
 * part's turn, as on a drawing: a part that never turns has it cut to its outline, a part that turns lies as a stencil over
 * a sheet of lines that moves along but does not turn.
 */
import { Container, Graphics, GraphicsContext } from 'pixi.js';
import type { Body, DrawnShape } from '../../assembly/engine.ts';
import { newPose, POSE_TURN } from '../../core/plane/pose.ts';
import type { Ink } from '../theme.ts';
import { type BodyDrawing, fillShape, makeBodyContext, strokeSegments } from './bodyContext.ts';
import { type Camera, placeBody } from './camera.ts';
import { type Drawing, hatchSpacingPx, isHatched, THIN_PX } from './lineWeights.ts';
import { outlinePoints } from './tessellate.ts';

const DEG = Math.PI / 180;

export interface PartContent {
  readonly body: Body;
  readonly drawing: Drawing;
  readonly pxPerMm: number;
  readonly mirror: 1 | -1;
  readonly ink: Ink;
  /** Slope on the paper of parts that do not turn. */
  readonly slope: (slopeDeg: number) => number;
  /** What is drawn of it, in its own frame. */
  readonly shapes: readonly DrawnShape[];
  /** Where only a round window of the part is ever seen: its place on the screen. The sheets of lines stay there. */
  readonly window?: { readonly x: number; readonly y: number; readonly radiusPx: number } | undefined;
}

export interface DrawnPart {
  readonly view: Container;
  turn(camera: Camera, crankAngleRad: number): void;
  /** Goes on as another body of the same shapes, which moves in its own way. */
  become(next: Body): void;
  destroy(): void;
}

/** Whether a body keeps its turn while the crank goes round. */
function neverTurns(body: Body): boolean {
  return body.move.kind === 'fixed' || body.move.kind === 'piston' || body.move.kind === 'valve';
}

export function makePart(what: PartContent): DrawnPart {
  const { shapes, drawing, pxPerMm, mirror, ink, slope, window } = what;
  let { body } = what;
  const view = new Container();
  const pose = newPose();
  body.motion.write(0, pose);
  const turnRad = pose[POSE_TURN]!;
  const still = neverTurns(body);
  const how: BodyDrawing = {
    drawing,
    pxPerMm,
    ink,
    // On the screen the body is mirrored first, then turned clockwise.
    hatchRad: still ? (slopeDeg) => mirror * slope(slopeDeg) * DEG + turnRad : undefined,
  };
  const contexts: GraphicsContext[] = [];
  const graphics = (context: GraphicsContext): Graphics => {
    contexts.push(context);
    const made = new Graphics(context);
    view.addChild(made);
    return made;
  };
  const moved = [graphics(makeBodyContext(shapes, how))];
  const sheets: Graphics[] = [];
  if (!still) {
    for (const shape of shapes) {
      if (!isHatched(shape, drawing)) continue;
      const stencil = new GraphicsContext();
      fillShape(stencil, shape, pxPerMm, 0xffffff);
      const mask = graphics(stencil);
      const sheet = graphics(hatchSheet(shape, window?.radiusPx ?? reachPx(shape, pxPerMm), ink));
      sheet.mask = mask;
      moved.push(mask);
      if (window !== undefined) sheet.position.set(window.x, window.y);
      else sheets.push(sheet);
    }
  }

  return {
    view,
    turn(camera, crankAngleRad) {
      body.motion.write(crankAngleRad, pose);
      for (const one of moved) placeBody(one, pose, camera, mirror, pxPerMm);
      for (const sheet of sheets) {
        placeBody(sheet, pose, camera, mirror, pxPerMm);
        sheet.rotation = 0;
        sheet.scale.set(camera.pxPerMm / pxPerMm);
      }
    },
    become(next) {
      body = next;
    },
    destroy() {
      view.destroy({ children: true });
      for (const context of contexts) context.destroy();
    },
  };
}

/** How far a shape reaches from its body's origin, px. */
function reachPx(shape: DrawnShape, pxPerMm: number): number {
  const points = outlinePoints(shape.outline, pxPerMm);
  let reach = 0;
  for (let k = 0; k < points.length; k += 2) reach = Math.max(reach, Math.hypot(points[k]!, points[k + 1]!));
  return reach;
}

/** Parallel lines that cover a disc about (0, 0), one of them through the middle. */
function hatchSheet(shape: DrawnShape, radiusPx: number, ink: Ink): GraphicsContext {
  const context = new GraphicsContext();
  const { slopeDeg, spacingMm } = shape.hatch!;
  const apart = hatchSpacingPx(spacingMm);
  const cos = Math.cos(slopeDeg * DEG);
  const sin = -Math.sin(slopeDeg * DEG);
  const strokes: number[] = [];
  const count = Math.floor(radiusPx / apart);
  for (let k = -count; k <= count; k++) {
    const off = k * apart;
    const half = Math.sqrt(Math.max(radiusPx ** 2 - off ** 2, 0));
    strokes.push(-sin * off - cos * half, cos * off - sin * half, -sin * off + cos * half, cos * off + sin * half);
  }
  strokeSegments(context, strokes, THIN_PX, ink.ink, ink.hatchAlpha);
  return context;
}

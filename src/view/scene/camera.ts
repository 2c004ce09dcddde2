/**
 * From the engine frame (mm, y up, angles clockwise) to the screen (px, y down), in this one place.
 *
 * Every engine is laid out in the frame of a clockwise one; a counterclockwise one is shown mirrored. `mirror` is −1
 * then, and only points that come from the canonical frame are mirrored here.
 */
import type { Container } from 'pixi.js';
import { POSE_TURN, POSE_X, POSE_Y, type Pose } from '../../core/plane/pose.ts';

export interface Camera {
  readonly pxPerMm: number;
  /** Where the crank axis stands on the screen, px. */
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export const LEAST_PX_PER_MM = 0.15;
export const MOST_PX_PER_MM = 120;

/** The camera that shows a box of the engine frame (mm) inside a rectangle of the screen (px). */
export function fitCamera(boxMm: Box, screenPx: Box): Camera {
  const wide = Math.max(boxMm.x1 - boxMm.x0, 1);
  const high = Math.max(boxMm.y1 - boxMm.y0, 1);
  const pxPerMm = Math.min((screenPx.x1 - screenPx.x0) / wide, (screenPx.y1 - screenPx.y0) / high);
  const scale = Math.min(Math.max(pxPerMm, LEAST_PX_PER_MM), MOST_PX_PER_MM);
  return {
    pxPerMm: scale,
    x: (screenPx.x0 + screenPx.x1) / 2 - ((boxMm.x0 + boxMm.x1) / 2) * scale,
    y: (screenPx.y0 + screenPx.y1) / 2 + ((boxMm.y0 + boxMm.y1) / 2) * scale,
  };
}

/** Zooms by a factor and keeps the point of the drawing under (x, y) where it is. */
export function zoomAt(camera: Camera, factor: number, x: number, y: number): Camera {
  const pxPerMm = Math.min(Math.max(camera.pxPerMm * factor, LEAST_PX_PER_MM), MOST_PX_PER_MM);
  const real = pxPerMm / camera.pxPerMm;
  return { pxPerMm, x: x + (camera.x - x) * real, y: y + (camera.y - y) * real };
}

export function panBy(camera: Camera, dx: number, dy: number): Camera {
  return { pxPerMm: camera.pxPerMm, x: camera.x + dx, y: camera.y + dy };
}

export function screenX(camera: Camera, xMm: number): number {
  return camera.x + xMm * camera.pxPerMm;
}

export function screenY(camera: Camera, yMm: number): number {
  return camera.y - yMm * camera.pxPerMm;
}

/** Puts a container, whose content is drawn in its body's own frame at `builtPxPerMm`, at a pose. */
export function placeBody(
  container: Container,
  pose: Pose,
  camera: Camera,
  mirror: 1 | -1,
  builtPxPerMm = camera.pxPerMm,
): void {
  const scale = camera.pxPerMm / builtPxPerMm;
  container.position.set(screenX(camera, mirror * pose[POSE_X]!), screenY(camera, pose[POSE_Y]!));
  container.rotation = mirror * pose[POSE_TURN]!;
  container.scale.set(mirror * scale, scale);
}

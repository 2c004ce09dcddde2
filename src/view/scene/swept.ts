/** What the parts of the section cover on the paper, coarsely: for framing the picture and finding room for words. */
import type { Outline } from '../../core/outline/outline.ts';
import { newPose, poseX, poseY } from '../../core/plane/pose.ts';
import type { Seen } from '../inView.ts';
import { type Box, type Camera, screenX, screenY } from './camera.ts';
import type { FreePlaces } from './freePlaces.ts';
import { outlinePoints } from './tessellate.ts';

/** Crank angles at which the sweep of the parts is looked at for layout of the screen; not for any figure. */
const LAYOUT_STEPS = 24;
/** And how finely their outlines are looked at then: an arc within half a millimetre. */
const LAYOUT_PX_PER_MM = 0.16;

/** An outline in mm, y down, coarse. */
function layoutPoints(outline: Outline): number[] {
  return outlinePoints(outline, LAYOUT_PX_PER_MM).map((px) => px / LAYOUT_PX_PER_MM);
}

/** What the bodies ever cover, engine frame, mm, mirrored already. */
export function sweptBox(seen: readonly Seen[], mirror: 1 | -1, cycleRad: number): Box {
  const pose = newPose();
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const body of new Set(seen.map((s) => s.body))) {
    const still = body.move.kind === 'fixed';
    for (const shape of body.drawn) {
      const points = layoutPoints(shape.outline);
      for (let k = 0; k < (still ? 1 : LAYOUT_STEPS); k++) {
        body.motion.write((cycleRad * k) / LAYOUT_STEPS, pose);
        for (let p = 0; p < points.length; p += 2) {
          const x = mirror * poseX(pose, points[p]!, -points[p + 1]!);
          const y = poseY(pose, points[p]!, -points[p + 1]!);
          box.x0 = Math.min(box.x0, x);
          box.x1 = Math.max(box.x1, x);
          box.y0 = Math.min(box.y0, y);
          box.y1 = Math.max(box.y1, y);
        }
      }
    }
  }
  if (!Number.isFinite(box.x0)) return { x0: -100, y0: -100, x1: 100, y1: 100 };
  return box;
}

/** Marks every cell of the screen over which a drawn edge passes in the course of the cycle. */
export function takeSwept(
  places: FreePlaces,
  seen: readonly Seen[],
  mirror: 1 | -1,
  camera: Camera,
  cycleRad: number,
): void {
  const angles = Array.from({ length: LAYOUT_STEPS }, (_, k) => (cycleRad * k) / LAYOUT_STEPS);
  takeEdges(places, seen, mirror, camera, angles);
}

/** Marks every cell of the screen over which a drawn edge passes at these crank angles. */
export function takeEdges(
  places: FreePlaces,
  seen: readonly Seen[],
  mirror: 1 | -1,
  camera: Camera,
  crankAnglesRad: readonly number[],
): void {
  const pose = newPose();
  for (const body of new Set(seen.map((s) => s.body))) {
    const still = body.move.kind === 'fixed';
    for (const shape of body.drawn) {
      const points = layoutPoints(shape.outline);
      for (const crankAngleRad of still ? crankAnglesRad.slice(0, 1) : crankAnglesRad) {
        body.motion.write(crankAngleRad, pose);
        let lastX = Number.NaN;
        let lastY = Number.NaN;
        for (let p = 0; p <= points.length; p += 2) {
          const x = points[p % points.length]!;
          const y = -points[(p + 1) % points.length]!;
          const px = screenX(camera, mirror * poseX(pose, x, y));
          const py = screenY(camera, poseY(pose, x, y));
          if (Number.isFinite(lastX)) places.takeLine(lastX, lastY, px, py);
          lastX = px;
          lastY = py;
        }
      }
    }
  }
}

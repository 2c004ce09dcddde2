/** The bodies of one engine in view as pixi graphics: made once a rebuild, moved by position and rotation only. */
import { Container } from 'pixi.js';
import type { Body, Engine } from '../../assembly/engine.ts';
import type { Outline } from '../../core/outline/outline.ts';
import { newPose, poseX, poseY } from '../../core/plane/pose.ts';
import type { Seen } from '../inView.ts';
import type { Ink } from '../theme.ts';
import { type Box, type Camera, screenX, screenY } from './camera.ts';
import { type DrawnPart, makePart } from './drawnPart.ts';
import type { FreePlaces } from './freePlaces.ts';
import { paperSlope } from './hatchSlope.ts';
import { outlinePoints } from './tessellate.ts';

export interface SectionParts {
  readonly view: Container;
  rebuild(engine: Engine, seen: readonly Seen[], pxPerMm: number, ink: Ink): void;
  turn(camera: Camera, crankAngleRad: number): void;
  destroy(): void;
}

export function createSectionParts(): SectionParts {
  const view = new Container();
  let parts: { readonly key: string; readonly made: DrawnPart }[] = [];

  function clear(): void {
    for (const part of parts) part.made.destroy();
    parts = [];
  }

  return {
    view,
    rebuild(engine, seen, pxPerMm, ink) {
      const mirror = engine.mirrored ? -1 : 1;
      const slope = paperSlope(engine);
      const common = JSON.stringify([pxPerMm, mirror, ink, slope(45), slope(-45)]);
      // While one dimension is dragged most parts keep their shapes: those are kept, and only move in a new way.
      const before = parts;
      const kept = new Set<DrawnPart>();
      view.removeChildren();
      parts = seen.map(({ body, role, part }) => {
        const shapes = part === undefined ? body.drawn : body.drawn.filter(part);
        const key = `${common} ${body.kind} ${role} ${body.move.kind} ${bankOf(body)} ${JSON.stringify(shapes)}`;
        const old = before.find((each) => each.key === key && !kept.has(each.made));
        const made = old?.made ?? makePart({ body, shapes, drawing: role, pxPerMm, mirror, ink, slope });
        made.become(body);
        kept.add(made);
        view.addChild(made.view);
        return { key, made };
      });
      for (const { made } of before) if (!kept.has(made)) made.destroy();
    },
    turn(camera, crankAngleRad) {
      for (const part of parts) part.made.turn(camera, crankAngleRad);
    },
    destroy() {
      clear();
      view.destroy({ children: true });
    },
  };
}

/** Turn of a body that never turns, which its hatching is cut to. */
function bankOf(body: Body): number {
  if (body.move.kind === 'fixed' || body.move.kind === 'valve') return body.move.turnRad;
  return body.move.kind === 'piston' ? body.move.cylinder.bankAngleRad : 0;
}

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
  const pose = newPose();
  for (const body of new Set(seen.map((s) => s.body))) {
    const still = body.move.kind === 'fixed';
    for (const shape of body.drawn) {
      const points = layoutPoints(shape.outline);
      for (let k = 0; k < (still ? 1 : LAYOUT_STEPS); k++) {
        body.motion.write((cycleRad * k) / LAYOUT_STEPS, pose);
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

/** The bodies of one engine in view as pixi graphics: made once a rebuild, moved by position and rotation only. */
import { Container } from 'pixi.js';
import type { Body, Engine } from '../../assembly/engine.ts';
import type { Seen } from '../inView.ts';
import type { Ink } from '../theme.ts';
import type { Camera } from './camera.ts';
import { type DrawnPart, makePart } from './drawnPart.ts';
import { paperSlope } from './hatchSlope.ts';

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

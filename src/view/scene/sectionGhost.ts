/** The ghost over the section: the replaced assembly's parts at the same crank angle, dashed and faint. */
import { Container, Graphics, GraphicsContext } from 'pixi.js';
import type { Body, Engine } from '../../assembly/engine.ts';
import { newPose } from '../../core/plane/pose.ts';
import type { State } from '../../model/state.ts';
import type { Ink } from '../theme.ts';
import { strokeSegments } from './bodyContext.ts';
import { type Camera, placeBody } from './camera.ts';
import { ghostBodies, ghostStrokes } from './ghostStrokes.ts';
import { BEHIND_PX } from './lineWeights.ts';

export interface SectionGhost {
  readonly view: Container;
  /** `ghost` null: none. */
  rebuild(ghost: Engine | null, state: State, pxPerMm: number, ink: Ink): void;
  turn(camera: Camera, crankAngleRad: number): void;
  destroy(): void;
}

export function createSectionGhost(): SectionGhost {
  const view = new Container();
  const pose = newPose();
  let parts: { readonly body: Body; readonly graphics: Graphics; readonly context: GraphicsContext }[] = [];
  let mirror: 1 | -1 = 1;
  let builtPxPerMm = 1;

  function clear(): void {
    for (const { graphics, context } of parts) {
      graphics.destroy();
      context.destroy();
    }
    parts = [];
  }

  return {
    view,
    rebuild(ghost, state, pxPerMm, ink) {
      clear();
      if (ghost === null) return;
      mirror = ghost.mirrored ? -1 : 1;
      builtPxPerMm = pxPerMm;
      parts = [...new Set(ghostBodies(ghost, state).map(({ body }) => body))].map((body) => {
        const shown = state.engine.bodies.find((b) => b.name === body.name);
        const context = new GraphicsContext();
        strokeSegments(context, ghostStrokes(body, shown, pxPerMm), BEHIND_PX, ink.faint);
        const graphics = new Graphics(context);
        view.addChild(graphics);
        return { body, graphics, context };
      });
    },
    turn(camera, crankAngleRad) {
      for (const { body, graphics } of parts) {
        body.motion.write(crankAngleRad, pose);
        placeBody(graphics, pose, camera, mirror, builtPxPerMm);
      }
    },
    destroy() {
      clear();
      view.destroy({ children: true });
    },
  };
}

/** The swept band behind the section: a light construction line round it and a faint fill; it moves with the body from which it is seen. */
import { Container, Graphics, GraphicsContext } from 'pixi.js';
import type { Engine } from '../../assembly/engine.ts';
import type { Motion } from '../../core/plane/pose.ts';
import { newPose } from '../../core/plane/pose.ts';
import type { Band } from '../../model/envelope/watcher.ts';
import type { Ink } from '../theme.ts';
import { strokeSegments } from './bodyContext.ts';
import { type Camera, placeBody } from './camera.ts';
import { CENTRE_LINE_PX, dashStrokes } from './dashes.ts';
import { BEHIND_PX } from './lineWeights.ts';

export interface SectionBand {
  readonly view: Container;
  /** `band` null: none. */
  rebuild(band: Band | null, engine: Engine, pxPerMm: number, ink: Ink): void;
  turn(camera: Camera, crankAngleRad: number): void;
  destroy(): void;
}

const FILL_ALPHA = 0.1;

export function createSectionBand(): SectionBand {
  const view = new Container();
  const pose = newPose();
  let drawn: { readonly graphics: Graphics; readonly context: GraphicsContext } | null = null;
  let motion: Motion | null = null;
  let mirror: 1 | -1 = 1;
  let builtPxPerMm = 1;

  function clear(): void {
    drawn?.graphics.destroy();
    drawn?.context.destroy();
    drawn = null;
  }

  return {
    view,
    rebuild(band, engine, pxPerMm, ink) {
      clear();
      if (band === null) return;
      motion = band.from === null ? null : (engine.bodies.find((b) => b.name === band.from)?.motion ?? null);
      // The body that it was seen from is not in this engine.
      if (band.from !== null && motion === null) return;
      mirror = engine.mirrored ? -1 : 1;
      builtPxPerMm = pxPerMm;
      const context = new GraphicsContext();
      const loops = band.polygons.map((p) => p.map((mm, k) => (k % 2 === 0 ? mm : -mm) * pxPerMm));
      const holes = loops.filter((loop) => area(loop) > 0);
      for (const loop of loops.filter((each) => area(each) < 0)) {
        context.poly(loop).fill({ color: ink.accent, alpha: FILL_ALPHA });
        for (const hole of holes) if (holds(loop, hole[0]!, hole[1]!)) context.poly(hole).cut();
      }
      for (const loop of loops) strokeSegments(context, dashStrokes(loop, true, CENTRE_LINE_PX), BEHIND_PX, ink.accent);
      const graphics = new Graphics(context);
      view.addChild(graphics);
      drawn = { graphics, context };
    },
    turn(camera, crankAngleRad) {
      if (drawn === null) return;
      pose.fill(0);
      motion?.write(crankAngleRad, pose);
      placeBody(drawn.graphics, pose, camera, mirror, builtPxPerMm);
    },
    destroy() {
      clear();
      view.destroy({ children: true });
    },
  };
}

/** Twice the area; on the screen, y down, material is negative. */
function area(loop: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < loop.length; k += 2) {
    const m = (k + 2) % loop.length;
    sum += loop[k]! * loop[m + 1]! - loop[m]! * loop[k + 1]!;
  }
  return sum;
}

/** Does a point lie within a loop: a ray from it crosses the loop an odd number of times. */
function holds(loop: readonly number[], x: number, y: number): boolean {
  let inside = false;
  for (let k = 0; k < loop.length; k += 2) {
    const m = (k + 2) % loop.length;
    const [ax, ay, bx, by] = [loop[k]!, loop[k + 1]!, loop[m]!, loop[m + 1]!];
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  }
  return inside;
}

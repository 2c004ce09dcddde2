/** A magnified round view of the tightest place in view, with the two parts that meet there, drawn at its own scale. */
import { type BitmapText, Container, Graphics } from 'pixi.js';
import type { Engine } from '../../assembly/engine.ts';
import type { Gap, GapNow } from '../../model/results.ts';
import type { Ink } from '../theme.ts';
import { formatFixed } from '../words.ts';
import { type Camera, screenX, screenY } from './camera.ts';
import { type DrawnPart, makePart } from './drawnPart.ts';
import { paperSlope } from './hatchSlope.ts';
import { letters, SMALL_PX } from './lettering.ts';
import { meeting, rangeMm, worthEnlarging } from './meeting.ts';
import { drawWitness, stateInk } from './witnessMark.ts';

export interface InsetContent {
  readonly engine: Engine;
  readonly gaps: readonly Gap[];
  readonly ink: Ink;
  readonly radiusPx: number;
  /** Centre on the screen. */
  readonly x: number;
  readonly y: number;
}

export interface Magnified {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly radiusPx: number;
}

export interface Inset {
  readonly view: Container;
  rebuild(what: InsetContent): void;
  /** Shows the gap now, or nothing if it is null or wide; returns what is magnified, and where on the screen. */
  turn(gap: GapNow | null, camera: Camera, crankAngleRad: number): Magnified | null;
  destroy(): void;
}

export function createInset(): Inset {
  const view = new Container();
  const pointer = new Graphics();
  const backdrop = new Graphics();
  const inside = new Container();
  const mask = new Graphics();
  const bodies = new Container();
  const witness = new Graphics();
  const frame = new Graphics();
  view.addChild(pointer, backdrop, inside, frame);
  inside.addChild(bodies, witness, mask);
  inside.mask = mask;
  view.visible = false;
  let content: InsetContent | null = null;
  let caption: BitmapText | null = null;
  let shownPair = '';
  let pxPerMm = 1;
  let limitMm = 0;
  let drawn: DrawnPart[] = [];

  function clearBodies(): void {
    for (const d of drawn) d.destroy();
    drawn = [];
    shownPair = '';
  }

  function showPair(id: string, what: InsetContent): void {
    clearBodies();
    const pair = what.engine.pairs.find((p) => p.id === id);
    if (pair === undefined) return;
    shownPair = id;
    limitMm = pair.limitMm;
    pxPerMm = what.radiusPx / rangeMm(limitMm);
    drawn = [pair.b, pair.a].map((body) => {
      const mirror = what.engine.mirrored ? -1 : 1;
      const slope = paperSlope(what.engine);
      const shapes = meeting(
        body,
        what.gaps.find((g) => g.id === id),
      );
      const made = makePart({ body, shapes, drawing: 'open', pxPerMm, mirror, ink: what.ink, slope, window: what });
      bodies.addChild(made.view);
      return made;
    });
  }

  return {
    view,
    rebuild(what) {
      content = what;
      clearBodies();
      const { x, y, radiusPx, ink } = what;
      mask.clear().circle(x, y, radiusPx).fill({ color: 0xffffff });
      backdrop.clear().circle(x, y, radiusPx).fill({ color: ink.paper });
      caption?.destroy();
      caption = letters('', SMALL_PX, ink.ink);
      view.addChild(caption);
    },
    turn(gap, camera, crankAngleRad) {
      view.visible = false;
      if (gap === null || content === null || caption === null) return null;
      const { x, y, radiusPx, ink } = content;
      if (gap.id !== shownPair) showPair(gap.id, content);
      if (!worthEnlarging(gap.gapMm, limitMm) || shownPair === '' || pxPerMm < camera.pxPerMm * 1.5) return null;
      view.visible = true;
      const [[ax, ay], [bx, by]] = gap.pointsMm;
      const middleX = (ax + bx) / 2;
      const middleY = (ay + by) / 2;
      const own: Camera = { pxPerMm, x: x - middleX * pxPerMm, y: y + middleY * pxPerMm };
      for (const d of drawn) d.turn(own, crankAngleRad);
      const color = stateInk(gap.state, ink);
      witness.clear();
      drawWitness(
        witness,
        screenX(own, ax),
        screenY(own, ay),
        screenX(own, bx),
        screenY(own, by),
        gap.state,
        ink,
        false,
      );
      frame.clear().circle(x, y, radiusPx).stroke({ width: 1.5, color });
      const px = screenX(camera, middleX);
      const py = screenY(camera, middleY);
      const small = Math.max(radiusPx / (pxPerMm / camera.pxPerMm), 7);
      const away = Math.hypot(x - px, y - py) || 1;
      pointer.clear().circle(px, py, small);
      if (away > radiusPx + small) {
        pointer.moveTo(px + ((x - px) / away) * small, py + ((y - py) / away) * small);
        pointer.lineTo(x - ((x - px) / away) * radiusPx, y - ((y - py) / away) * radiusPx);
      }
      pointer.stroke({ width: 1, color });
      const times = pxPerMm / camera.pxPerMm;
      const text = `enlarged ${formatFixed(times, times < 9.5 ? 1 : 0)} times`;
      if (caption.text !== text) caption.text = text;
      caption.position.set(Math.round(x - caption.width / 2), Math.round(y + radiusPx + 5));
      return { id: gap.id, x, y, radiusPx };
    },
    destroy() {
      clearBodies();
      view.destroy({ children: true });
    },
  };
}

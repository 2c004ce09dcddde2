/** Boxes that call out the leading gaps in view: value and names, tied to the place by a thin line. */
import { type BitmapText, Container, Graphics } from 'pixi.js';
import type { Gap, GapNow } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import type { Ink } from '../theme.ts';
import { formatGap, gapLabel } from '../words.ts';
import { type Camera, screenX, screenY } from './camera.ts';
import type { GivePlace } from './freePlaces.ts';
import type { Magnified } from './inset.ts';
import { FIGURE_PX, letters, SMALL_PX } from './lettering.ts';
import { stateInk } from './witnessMark.ts';

const PAD_PX = 8;
const BOX_HEIGHT_PX = 64;
const SHORT_BOX_PX = 28;
const WIDEST_VALUE = { in: '−.0000 in', mm: '−00.000 mm', both: '−00.00 mm (−.000 in)' } as const;

interface Callout {
  readonly gap: Gap;
  readonly box: Container;
  readonly frame: Graphics;
  readonly value: BitmapText;
  readonly names: BitmapText | null;
  readonly width: number;
  readonly height: number;
  readonly x: number;
  readonly y: number;
  drawnAs: string;
}

export interface Callouts {
  readonly view: Container;
  /** Gives each of these gaps a place of its own; `anchor` is where on the screen it is closest; `short`: without names. */
  rebuild(
    gaps: readonly Gap[],
    units: Units,
    ink: Ink,
    give: GivePlace,
    anchor: (gap: Gap) => { x: number; y: number },
    short: boolean,
  ): void;
  /**
   * Shows the boxes of these gaps with their values now, at most `most` of them; `axial`: gaps along the crank;
   * `magnified`: the gap in the inset, whose line need only lead there. */
  turn(
    now: readonly GapNow[],
    camera: Camera,
    most: number,
    axial: ReadonlySet<string>,
    magnified: Magnified | null,
  ): void;
  destroy(): void;
}

export function createCallouts(): Callouts {
  const view = new Container();
  const leaders = new Graphics();
  view.addChild(leaders);
  let callouts: Callout[] = [];
  let ink: Ink | null = null;
  let units: Units = 'both';
  let short = false;

  function clear(): void {
    for (const c of callouts) c.box.destroy({ children: true });
    callouts = [];
  }

  return {
    view,
    rebuild(gaps, newUnits, newInk, give, anchor, inShort) {
      short = inShort;
      clear();
      ink = newInk;
      units = newUnits;
      callouts = gaps.map((gap) => {
        const value = letters(WIDEST_VALUE[newUnits], FIGURE_PX, newInk.ink);
        const names = letters(short ? '' : nameOf(gap, gap.direction === 'axial'), SMALL_PX, newInk.ink);
        const height = short ? SHORT_BOX_PX : BOX_HEIGHT_PX;
        const width = Math.ceil(Math.max(value.width, short ? 0 : names.width)) + 2 * PAD_PX;
        const near = anchor(gap);
        const { x, y } = give(gap.id, width, height, near.x, near.y);
        const frame = new Graphics();
        const box = new Container();
        box.addChild(frame, value, names);
        value.position.set(PAD_PX, 5);
        names.position.set(PAD_PX, 26);
        box.position.set(Math.round(x), Math.round(y));
        box.visible = false;
        view.addChild(box);
        return { gap, box, frame, value, names: short ? null : names, width, height, x, y, drawnAs: '' };
      });
    },
    turn(now, camera, most, axial, magnified) {
      leaders.clear();
      if (ink === null) return;
      let shown = 0;
      for (const callout of callouts) {
        const at = now.find((g) => g.id === callout.gap.id);
        callout.box.visible = at !== undefined && shown < most;
        if (at === undefined || !callout.box.visible) continue;
        shown++;
        const color = stateInk(at.state, ink);
        const text = formatGap({ gapMm: at.gapMm, limitMm: callout.gap.limitMm, state: at.state }, units);
        if (callout.value.text !== text) callout.value.text = text;
        if (callout.drawnAs !== at.state) {
          callout.drawnAs = at.state;
          callout.value.tint = color;
          const width = at.state === 'contact' ? 2 : 1;
          callout.frame.clear().rect(0, 0, callout.width, callout.height);
          callout.frame.fill({ color: ink.paper, alpha: 0.94 }).stroke({ width, color });
        }
        const [[ax, ay], [bx, by]] = at.pointsMm;
        const name = nameOf(callout.gap, axial.has(at.id));
        if (callout.names !== null && callout.names.text !== name) callout.names.text = name;
        if (axial.has(at.id)) continue;
        const px = screenX(camera, (ax + bx) / 2);
        const py = screenY(camera, (ay + by) / 2);
        const [mx, my] = [callout.x + callout.width / 2, callout.y + callout.height / 2];
        const toInset = magnified?.id === at.id && !short ? Math.hypot(mx - magnified.x, my - magnified.y) : Infinity;
        if (magnified !== null && toInset < Math.hypot(mx - px, my - py)) {
          const rim = magnified.radiusPx / Math.max(toInset, magnified.radiusPx);
          drawLeader(leaders, callout, magnified.x + (mx - magnified.x) * rim, magnified.y + (my - magnified.y) * rim);
        } else drawLeader(leaders, callout, px, py);
        leaders.stroke({ width: 1, color });
      }
    },
    destroy() {
      clear();
      view.destroy({ children: true });
    },
  };
}

function nameOf(gap: Gap, along: boolean): string {
  // One part a line: narrow boxes find room nearer to what they speak of.
  const label = gapLabel(gap).replace(' · ', ' ·\n');
  return along ? `${label}, along the crank` : label;
}

/** From the middle of the side that faces the place, a short level run, then straight to it. */
function drawLeader(g: Graphics, { x, y, width, height }: Callout, px: number, py: number): void {
  const middle = y + height / 2;
  if (px > x + width || px < x) {
    const side = px > x + width ? 1 : -1;
    const from = side > 0 ? x + width : x;
    const elbow = from + side * Math.min(16, Math.abs(px - from) / 2);
    g.moveTo(from, middle).lineTo(elbow, middle).lineTo(px, py);
  } else {
    const from = py > middle ? y + height : y;
    g.moveTo(x + width / 2, from).lineTo(px, py);
  }
}

/**
 * Dimension lines of the section: bore, stroke, deck clearance on the chosen bore; rod length, compression height and
 * counterweight radius on the parts, moving with them. Values come from the figures; only places are worked out here.
 */
import { Container, Graphics, type Text } from 'pixi.js';
import type { Body, Cylinder, Engine } from '../../assembly/engine.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../core/plane/pose.ts';
import type { Figures } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import type { Ink } from '../theme.ts';
import { formatLength } from '../words.ts';
import { type Camera, screenX, screenY } from './camera.ts';
import { type DimensionPlace, drawDimension, uprightRad } from './dimensionLine.ts';
import type { FreePlaces } from './freePlaces.ts';
import { stillLetters } from './lettering.ts';
import { THIN_PX } from './lineWeights.ts';
import { rimOf } from './rim.ts';
import { valveReachMm } from './valveReach.ts';

export interface DimensionContent {
  readonly engine: Engine;
  readonly cylinder: Cylinder;
  readonly figures: Figures;
  readonly units: Units;
  readonly camera: Camera;
  readonly ink: Ink;
  readonly resolution: number;
  readonly rod: Body | undefined;
  readonly piston: Body | undefined;
  readonly counterweight: Body | undefined;
  /** Farthest reach of the block from the chosen bore's axis, on either side, mm. */
  readonly blockReachMm: number;
  /** 'few': bore and stroke only, where the section is small. */
  readonly extent: 'all' | 'few';
}

export interface Dimensions {
  readonly view: Container;
  rebuild(what: DimensionContent, places: FreePlaces): void;
  turn(camera: Camera, crankAngleRad: number): void;
  clear(): void;
  destroy(): void;
}

interface Moving {
  readonly body: Body;
  readonly holder: Container;
  readonly label: Container;
  /** Direction of the line in the holder, screen radians. */
  readonly alongRad: number;
}

const OUTSIDE_PX = 26;
const LABEL_OFF_PX = 9;

export function createDimensions(): Dimensions {
  const view = new Container();
  const still = new Container();
  view.addChild(still);
  let moving: Moving[] = [];
  let mirror: 1 | -1 = 1;
  let builtPxPerMm = 1;
  const pose = newPose();

  function clear(): void {
    for (const old of still.removeChildren()) old.destroy({ children: true });
    for (const m of moving) m.holder.destroy({ children: true });
    moving = [];
  }

  return {
    view,
    clear,
    rebuild(what, places) {
      clear();
      const { camera, ink, cylinder, figures, units } = what;
      mirror = what.engine.mirrored ? -1 : 1;
      builtPxPerMm = camera.pxPerMm;
      const s = camera.pxPerMm;
      const lines = new Graphics();
      still.addChild(lines);
      // Points along (u) and across (v) the chosen bore, to px from the crank axis.
      const sin = Math.sin(cylinder.bankAngleRad);
      const cos = Math.cos(cylinder.bankAngleRad);
      const at = (u: number, v: number) => [mirror * (u * sin + v * cos) * s, -(u * cos - v * sin) * s] as const;
      const outer = cylinder.bankAngleRad < -0.01 ? -1 : 1;
      const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = cylinder.slider;
      const crownTop = Math.sqrt((l + r) ** 2 - e ** 2) + figures.compressionHeightMm;
      const crownLow = Math.sqrt((l - r) ** 2 - e ** 2) + figures.compressionHeightMm;
      const deck = crownTop + cylinder.deckClearanceMm;
      const axis = cylinder.boreOffsetMm;

      const label = (text: (units: Units) => string, place: DimensionPlace, off = LABEL_OFF_PX): void => {
        let made = words(text(units), what);
        if (made.width > place.lengthPx + 8 && units === 'both') {
          made.destroy();
          made = words(text('mm'), what);
        }
        made.position.set(place.x + place.awayX * off, place.y + place.awayY * off);
        made.rotation = place.rotationRad;
        still.addChild(made);
        takeWords(places, camera.x + made.x, camera.y + made.y, made, place.rotationRad);
      };
      const span = (u0: number, v0: number, u1: number, v1: number, offPx: number): DimensionPlace => {
        const [x0, y0] = at(u0, v0);
        const [x1, y1] = at(u1, v1);
        const place = drawDimension(lines, x0, y0, x1, y1, offPx, ink.ink, THIN_PX);
        const [dx, dy] = [(x1 - x0) / 2, (y1 - y0) / 2];
        const [x, y] = [camera.x + place.x, camera.y + place.y];
        places.takeLine(x - dx, y - dy, x + dx, y + dy);
        return place;
      };

      const boreR = cylinder.boreRadiusMm;
      // Across the bore, outside the deck: the left-hand normal of increasing v points along +u unless mirrored.
      label(
        (u) => `bore Ø ${formatLength(2 * boreR, u)}`,
        span(
          deck,
          axis - boreR,
          deck,
          axis + boreR,
          mirror * (OUTSIDE_PX + valveReachMm(what.engine, cylinder, deck) * s),
        ),
      );
      const aside = (what.blockReachMm - boreR) * s + OUTSIDE_PX;
      const differs = Math.abs(figures.travelMm - figures.strokeMm) >= 0.005;
      const stroke = (u: Units) =>
        differs
          ? `travel ${formatLength(figures.travelMm, u)}, stroke ${formatLength(figures.strokeMm, u)}`
          : `stroke ${formatLength(figures.strokeMm, u)}`;
      const edge = axis + outer * boreR;
      label(stroke, span(crownLow, edge, crownTop, edge, -outer * mirror * aside));

      if (what.extent === 'all') {
        const inner = axis - outer * boreR;
        const [low, high] = [Math.min(crownTop, deck), Math.max(crownTop, deck)];
        const clearance = span(low, inner, high, inner, outer * mirror * (OUTSIDE_PX + 8));
        deckLabel(clearance, `deck clearance ${formatLength(cylinder.deckClearanceMm, units)}`);
        addMoving(what.rod, [0, 0], [0, l], 'rod ', l, true);
        const rim = what.counterweight?.name.startsWith('counterweight') ? rimOf(what.counterweight) : null;
        if (rim !== null) {
          const end = [rim.r * Math.cos(rim.arrowRad), rim.r * Math.sin(rim.arrowRad)] as const;
          addMoving(what.counterweight, [0, 0], end, 'R ', rim.r, false);
        }
        addCompressionHeight(what.piston, -outer, figures.compressionHeightMm);
      }

      /** The small space at the deck gets its words beside it, level, where the bank leaves room. */
      function deckLabel(place: DimensionPlace, text: string): void {
        const made = words(text, what);
        const reach = 34;
        const x = place.x + place.awayX * reach;
        const y = place.y + place.awayY * reach;
        lines.moveTo(place.x, place.y).lineTo(x, y).stroke({ width: THIN_PX, color: ink.ink });
        made.position.set(x + (place.awayX >= 0 ? 1 : -1) * (made.width / 2 + 4), y);
        still.addChild(made);
        takeWords(places, camera.x + made.x, camera.y + made.y, made, 0);
      }

      /** A length along a part, its words on the line; the first unit alone where both do not fit, else nothing. */
      function addMoving(
        body: Body | undefined,
        fromMm: readonly [number, number],
        toMm: readonly [number, number],
        name: string,
        mm: number,
        bothArrows: boolean,
      ): void {
        if (body === undefined) return;
        const g = new Graphics();
        const [x0, y0, x1, y1] = [mirror * fromMm[0] * s, -fromMm[1] * s, mirror * toMm[0] * s, -toMm[1] * s];
        const place = drawDimension(g, x0, y0, x1, y1, 0, ink.ink, THIN_PX, bothArrows);
        const room = place.lengthPx * 0.72;
        let lettersOn = words(name + formatLength(mm, units), what);
        if (lettersOn.width > room && units === 'both') {
          lettersOn.destroy();
          lettersOn = words(name + formatLength(mm, 'mm'), what);
        }
        if (lettersOn.width > room) {
          lettersOn.destroy();
          g.destroy();
          return;
        }
        carry(body, g, lettersOn, place.x, place.y, Math.atan2(y1 - y0, x1 - x0));
      }

      /** Pin to crown, outside the inner wall of the bore, moving with the piston. */
      function addCompressionHeight(body: Body | undefined, innerSide: number, mm: number): void {
        if (body === undefined) return;
        const g = new Graphics();
        const away = what.blockReachMm * s + OUTSIDE_PX * 0.6;
        const place = drawDimension(g, 0, 0, 0, -mm * s, -mirror * innerSide * away, ink.ink, THIN_PX);
        const lettersOn = words(formatLength(mm, units === 'both' ? 'mm' : units), what);
        // Words longer than the line run on toward the crank, not over the deck.
        const down = Math.max(0, (lettersOn.width - place.lengthPx) / 2 + 4);
        carry(body, g, lettersOn, place.x + place.awayX * LABEL_OFF_PX, place.y + down, -Math.PI / 2);
        // Its lane beside the bore stays free from the one dead centre to the other.
        const lane = axis + innerSide * (away / s);
        const [x0, y0] = at(crownLow - mm, lane);
        const [x1, y1] = at(crownTop, lane);
        for (const off of [0, LABEL_OFF_PX * 2]) {
          const [ox, oy] = [mirror * innerSide * cos * off, innerSide * sin * off];
          places.takeLine(camera.x + x0 + ox, camera.y + y0 + oy, camera.x + x1 + ox, camera.y + y1 + oy);
        }
      }

      function carry(body: Body, g: Graphics, lettersOn: Text, x: number, y: number, alongRad: number): void {
        const back = new Graphics()
          .rect(-lettersOn.width / 2 - 3, -lettersOn.height / 2, lettersOn.width + 6, lettersOn.height)
          .fill({ color: ink.paper, alpha: 0.9 });
        const holder = new Container();
        const carrier = new Container();
        holder.addChild(g, carrier);
        carrier.addChild(back, lettersOn);
        carrier.position.set(x, y);
        view.addChild(holder);
        moving.push({ body, holder, label: carrier, alongRad });
      }
    },
    turn(camera, crankAngleRad) {
      const scale = camera.pxPerMm / builtPxPerMm;
      still.position.set(camera.x, camera.y);
      still.scale.set(scale);
      for (const m of moving) {
        m.body.motion.write(crankAngleRad, pose);
        m.holder.position.set(screenX(camera, mirror * pose[POSE_X]!), screenY(camera, pose[POSE_Y]!));
        m.holder.rotation = mirror * pose[POSE_TURN]!;
        m.holder.scale.set(scale);
        m.label.rotation = uprightRad(m.holder.rotation + m.alongRad) - m.holder.rotation;
      }
    },
    destroy() {
      clear();
      view.destroy({ children: true });
    },
  };
}

function words(text: string, what: DimensionContent): Text {
  const made = stillLetters(text, what.ink.ink, what.resolution);
  made.anchor.set(0.5);
  return made;
}

/** Keeps the boxes off words that stand turned about their middle. */
function takeWords(places: FreePlaces, x: number, y: number, made: Text, rotationRad: number): void {
  const [cos, sin] = [Math.cos(rotationRad), Math.sin(rotationRad)];
  const half = made.width / 2;
  for (const off of [-made.height / 2, 0, made.height / 2]) {
    const [cx, cy] = [x - sin * off, y + cos * off];
    places.takeLine(cx - cos * half, cy - sin * half, cx + cos * half, cy + sin * half);
  }
}

/** What a step of the tour draws over the section, in the accent: circles of the pin, metal ground off, where the piston stops, a part. */
import type { Body, Engine } from '../../assembly/engine.ts';
import { newPose } from '../../core/plane/pose.ts';
import type { GroundThrow } from '../../model/sums/index.ts';
import { type Camera, screenX, screenY } from '../scene/camera.ts';
import { drawDimension } from '../scene/dimensionLine.ts';
import { outlinePath } from '../svgSection/svgBodies.ts';
import { hex, px, SvgPen } from '../svgSection/svgPen.ts';
import type { Ink } from '../theme.ts';
import type { Side } from './compared.ts';
import type { Lit } from './tour.ts';

/** Height of letters over the section, px. */
export const LIT_PX = 18;

export interface LitContent {
  readonly lit: Lit;
  readonly was: Side | null;
  readonly now: Side;
  readonly ground: GroundThrow | null;
  readonly crankAngleRad: number;
  readonly camera: Camera;
  readonly ink: Ink;
  readonly length: (mm: number) => string;
  /** Height of letters, px. */
  readonly lettersPx: number;
}

const HEAVY_PX = 3;
/** A line across the bore reaches this far past it, mm. */
const PAST_BORE_MM = 8;

/** Elements to be put over the section; none for what needs no drawing. */
export function litElements(what: LitContent): string {
  const pen = new SvgPen();
  switch (what.lit) {
    case 'pin circle':
      pinCircles(pen, what);
      break;
    case 'grind':
      groundPin(pen, what);
      break;
    case 'rod':
    case 'piston':
      part(pen, what, what.lit);
      break;
    case 'top':
      stops(pen, what, 'crownTopMm');
      break;
    case 'bottom':
      stops(pen, what, 'crownLowMm');
      break;
    case 'gap':
    case 'nothing':
      break;
  }
  return pen.elements();
}

function pinCircles(pen: SvgPen, what: LitContent): void {
  const { was, now, camera, ink, length } = what;
  const s = camera.pxPerMm;
  const radius = now.cylinder.slider.crankRadiusMm * s;
  if (was !== null) {
    const before = was.cylinder.slider.crankRadiusMm * s;
    pen.raw(
      `<circle cx="${px(camera.x)}" cy="${px(camera.y)}" r="${px(before)}" fill="none" stroke="${hex(ink.ink)}" stroke-width="1.5" stroke-dasharray="6 4"/>`,
    );
  }
  pen.circle(camera.x, camera.y, radius).stroke({ width: HEAVY_PX, color: ink.accent });
  const [x, y] = [camera.x, camera.y];
  drawDimension(pen, x - radius, y, x + radius, y, 0, ink.accent, 1.5);
  label(pen, what, length(2 * now.cylinder.slider.crankRadiusMm), x, y - 8, true);
}

/** Where the middle of the pin stands, at a radius, on the screen. */
function pinAt({ now, crankAngleRad, camera }: LitContent, radiusMm: number): readonly [number, number] {
  const { cylinder, engine } = now;
  const angle = cylinder.bankAngleRad + crankAngleRad + cylinder.alphaAtZeroRad;
  const mirror = engine.mirrored ? -1 : 1;
  return [screenX(camera, mirror * radiusMm * Math.sin(angle)), screenY(camera, radiusMm * Math.cos(angle))];
}

function groundPin(pen: SvgPen, what: LitContent): void {
  const { ground, now, camera, ink } = what;
  if (ground === null) return;
  const radiusMm = now.cylinder.slider.crankRadiusMm;
  const [x, y] = pinAt(what, radiusMm);
  const [ox, oy] = pinAt(what, radiusMm - ground.movementMm);
  const [old, fresh] = [(ground.oldMm / 2) * camera.pxPerMm, (ground.newMm / 2) * camera.pxPerMm];
  const ring = new SvgPen().circle(ox, oy, old).circle(x, y, fresh).stroke({ width: 1, color: 0 }).elements();
  const d = /d="([^"]*)"/.exec(ring)![1]!;
  pen.raw(
    `<defs><pattern id="sw-counter-off" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" stroke="${hex(ink.accent)}" stroke-width="2.5"/></pattern></defs>` +
      `<path d="${d}" fill="url(#sw-counter-off)" fill-rule="evenodd"/>`,
  );
  pen.raw(
    `<circle cx="${px(ox)}" cy="${px(oy)}" r="${px(old)}" fill="none" stroke="${hex(ink.accent)}" stroke-width="2" stroke-dasharray="6 4"/>`,
  );
  pen.circle(x, y, fresh).stroke({ width: HEAVY_PX, color: ink.accent });
  for (const [cx, cy] of [
    [x, y],
    [ox, oy],
  ] as const)
    pen
      .moveTo(cx - 9, cy)
      .lineTo(cx + 9, cy)
      .moveTo(cx, cy - 9)
      .lineTo(cx, cy + 9);
  pen.stroke({ width: 1.5, color: ink.accent });
}

function part(pen: SvgPen, what: LitContent, kind: 'rod' | 'piston'): void {
  const outlined = ({ engine, cylinder }: Side, dashed: boolean): void => {
    const body = engine.bodies.find((b: Body) => b.kind === kind && b.cylinder === cylinder.number);
    if (body === undefined) return;
    const pose = newPose();
    body.motion.write(what.crankAngleRad, pose);
    for (const shape of body.drawn) {
      if (shape.style !== 'cut' && shape.style !== 'behind') continue;
      const d = outlinePath(shape.outline, pose, engine.mirrored ? -1 : 1, what.camera);
      pen.raw(
        `<path d="${d}" fill="none" stroke="${hex(dashed ? what.ink.ink : what.ink.accent)}" stroke-width="${dashed ? 1.5 : HEAVY_PX}" stroke-linejoin="round"${dashed ? ' stroke-dasharray="6 4"' : ''}/>`,
      );
    }
  };
  if (what.was !== null && kind === 'rod') outlined(what.was, true);
  outlined(what.now, false);
}

/** Lines across the bore where the crown stops, before and now. */
function stops(pen: SvgPen, what: LitContent, which: 'crownTopMm' | 'crownLowMm'): void {
  const { was, now, ink, length } = what;
  const across = (side: Side, color: number, width: number, dash: string): readonly [number, number] => {
    const [x0, y0] = inBore(side.engine, side, what.camera, side[which], -1);
    const [x1, y1] = inBore(side.engine, side, what.camera, side[which], 1);
    pen.raw(
      `<path d="M${px(x0)} ${px(y0)}L${px(x1)} ${px(y1)}" fill="none" stroke="${hex(color)}" stroke-width="${width}"${dash}/>`,
    );
    return [x1, y1];
  };
  const here = across(now, ink.accent, HEAVY_PX, '');
  if (was === null || Math.abs(was[which] - now[which]) < 0.005) return;
  const there = across(was, ink.ink, 2, ' stroke-dasharray="6 4"');
  // Outside the bore, on the side where its lines end.
  const [inX, inY] = inBore(now.engine, now, what.camera, now[which], -1);
  const leftward = (here[0] - inX) * (there[1] - here[1]) - (here[1] - inY) * (there[0] - here[0]);
  const place = drawDimension(pen, here[0], here[1], there[0], there[1], leftward > 0 ? 14 : -14, ink.accent, 1.5);
  const text = length(Math.abs(was[which] - now[which]));
  label(pen, what, text, place.x + place.awayX * 14, place.y + place.awayY * 14 + 6, false, place.awayX);
}

function inBore(engine: Engine, { cylinder }: Side, camera: Camera, up: number, side: 1 | -1): [number, number] {
  const [sin, cos] = [Math.sin(cylinder.bankAngleRad), Math.cos(cylinder.bankAngleRad)];
  const v = cylinder.boreOffsetMm + side * (cylinder.boreRadiusMm + PAST_BORE_MM);
  const mirror = engine.mirrored ? -1 : 1;
  return [screenX(camera, mirror * (up * sin + v * cos)), screenY(camera, up * cos - v * sin)];
}

/** Words with a border of paper, so that they read over lines. */
function label(
  pen: SvgPen,
  { ink, lettersPx }: LitContent,
  text: string,
  x: number,
  y: number,
  middle: boolean,
  toward = 1,
): void {
  const anchor = middle ? 'middle' : toward >= 0 ? 'start' : 'end';
  const made = new SvgPen().words(text, x, y, { size: lettersPx, color: ink.accent, anchor, heavy: true }).elements();
  pen.raw(
    made.replace(
      '<text ',
      `<text stroke="${hex(ink.paper)}" stroke-width="5" stroke-linejoin="round" paint-order="stroke" `,
    ),
  );
}

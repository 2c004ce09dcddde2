/** What is said of the gaps on the drawn section: the tightest place enlarged, and boxes with value and names. */
import type { Engine } from '../../assembly/engine.ts';
import type { Gap, GapState } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import { type Camera, screenX, screenY } from '../scene/camera.ts';
import type { FreePlaces } from '../scene/freePlaces.ts';
import { meeting, rangeMm, worthEnlarging } from '../scene/meeting.ts';
import { drawWitness, stateInk } from '../scene/witnessMark.ts';
import type { Ink } from '../theme.ts';
import { formatFixed, formatGap, gapLabel } from '../words.ts';
import { bodyElements, type Hatchings } from './svgBodies.ts';
import { aboutWidth, hex, px, SvgPen } from './svgPen.ts';

/** A gap as it is at the angle drawn. */
export interface CalledOut {
  readonly gap: Gap;
  readonly gapMm: number;
  readonly state: GapState;
  /** Engine frame as shown, mm. */
  readonly pointsMm: readonly [readonly number[], readonly number[]];
}

export interface Speaking {
  readonly engine: Engine;
  readonly crankAngleRad: number;
  readonly units: Units;
  readonly ink: Ink;
  readonly height: number;
  readonly id: string;
}

const VALUE_PX = 15;
const NAME_PX = 13;
const BOX_PAD_PX = 8;

export function paperPoints(
  [a, b]: CalledOut['pointsMm'],
  camera: Camera,
): readonly [readonly [number, number], readonly [number, number]] {
  return [
    [screenX(camera, a[0]!), screenY(camera, a[1]!)],
    [screenX(camera, b[0]!), screenY(camera, b[1]!)],
  ];
}

export interface Round {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

/** The place where two parts come closest, enlarged in a circle beside, and that circle; null where it is wide enough to be seen as it is. */
export function enlarged(
  pen: SvgPen,
  what: Speaking,
  one: CalledOut,
  camera: Camera,
  places: FreePlaces,
  hatchings: Hatchings,
): Round | null {
  const { engine, ink, crankAngleRad } = what;
  const pair = engine.pairs.find((p) => p.id === one.gap.id);
  if (pair === undefined || !worthEnlarging(one.gapMm, one.gap.limitMm)) return null;
  const r = Math.min(96, Math.max(56, what.height * 0.16));
  const pxPerMm = r / rangeMm(one.gap.limitMm);
  if (pxPerMm < camera.pxPerMm * 1.5) return null;
  const [[ax, ay], [bx, by]] = paperPoints(one.pointsMm, camera);
  const [mx, my] = [(ax + bx) / 2, (ay + by) / 2];
  const wide = Math.max(2 * r, 140);
  const given = places.give(wide, 2 * r + 24, mx, my);
  const [x, y] = [given.x + wide / 2, given.y + r];
  const middleXMm = (one.pointsMm[0][0]! + one.pointsMm[1][0]!) / 2;
  const middleYMm = (one.pointsMm[0][1]! + one.pointsMm[1][1]!) / 2;
  const own: Camera = { pxPerMm, x: x - middleXMm * pxPerMm, y: y + middleYMm * pxPerMm };
  const color = stateInk(one.state, ink);
  const small = Math.max((r * camera.pxPerMm) / pxPerMm, 7);
  const away = Math.hypot(x - mx, y - my) || 1;
  pen.circle(mx, my, small);
  if (away > r + small) {
    pen.moveTo(mx + ((x - mx) / away) * small, my + ((y - my) / away) * small);
    pen.lineTo(x - ((x - mx) / away) * r, y - ((y - my) / away) * r);
  }
  pen.stroke({ width: 1, color });
  const clip = `${what.id}-enlarged`;
  hatchings.set(clip, `<clipPath id="${clip}"><circle cx="${px(x)}" cy="${px(y)}" r="${px(r)}"/></clipPath>`);
  const inside = new SvgPen();
  const shapes = [pair.b, pair.a].map((body) => {
    const meet = meeting(body, one.gap);
    return { body: { ...body, drawn: meet }, role: 'cut' as const };
  });
  inside.raw(bodyElements(shapes, { engine, crankAngleRad, camera: own, ink, id: what.id }, hatchings, true));
  const [[ox, oy], [px2, py2]] = paperPoints(one.pointsMm, own);
  drawWitness(inside, ox, oy, px2, py2, one.state, ink, false);
  pen.raw(
    `<circle cx="${px(x)}" cy="${px(y)}" r="${px(r)}" fill="${hex(ink.paper)}"/><g clip-path="url(#${clip})">\n${inside.elements()}</g>`,
  );
  pen.circle(x, y, r).stroke({ width: 1.5, color });
  const times = pxPerMm / camera.pxPerMm;
  pen.words(`enlarged ${formatFixed(times, times < 9.5 ? 1 : 0)} times`, x, y + r + 17, {
    size: NAME_PX,
    color: ink.ink,
    anchor: 'middle',
  });
  return { x, y, r };
}

export function callOut(
  pen: SvgPen,
  what: Speaking,
  { gap, gapMm, state, pointsMm }: CalledOut,
  camera: Camera,
  places: FreePlaces,
  round: Round | null,
): void {
  const { ink, units } = what;
  const color = stateInk(state, ink);
  const value = formatGap({ gapMm, limitMm: gap.limitMm, state }, units);
  const names = `${gapLabel(gap)}${gap.direction === 'axial' ? ', along the crank' : ''}`.split(' · ');
  const rows = names.map((name, k) => (k + 1 < names.length ? `${name} ·` : name));
  const width =
    Math.ceil(Math.max(aboutWidth(value, VALUE_PX) * 1.08, ...rows.map((n) => aboutWidth(n, NAME_PX)))) + 16;
  const height = 26 + rows.length * 17 + 4;
  const [[ax, ay], [bx, by]] = paperPoints(pointsMm, camera);
  const near = round ?? { x: (ax + bx) / 2, y: (ay + by) / 2, r: 0 };
  const { x, y } = places.give(width, height, near.x, near.y);
  if (gap.direction !== 'axial') {
    const [cx, cy] = [x + width / 2, y + height / 2];
    const far = Math.hypot(cx - near.x, cy - near.y) || 1;
    const [tx, ty] = [near.x + ((cx - near.x) / far) * near.r, near.y + ((cy - near.y) / far) * near.r];
    if (tx > x + width || tx < x) pen.moveTo(tx > x + width ? x + width : x, cy).lineTo(tx, ty);
    else pen.moveTo(cx, ty > cy ? y + height : y).lineTo(tx, ty);
    pen.stroke({ width: 1, color });
  }
  pen.poly([x, y, x + width, y, x + width, y + height, x, y + height]).fill({ color: ink.paper, alpha: 0.94 });
  pen.poly([x, y, x + width, y, x + width, y + height, x, y + height]);
  pen.stroke({ width: state === 'contact' ? 2 : 1, color });
  pen.words(value, x + BOX_PAD_PX, y + 20, { size: VALUE_PX, color, heavy: true });
  for (const [k, row] of rows.entries())
    pen.words(row, x + BOX_PAD_PX, y + 38 + k * 17, { size: NAME_PX, color: ink.ink });
}

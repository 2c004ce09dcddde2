/** Dimension lines on the drawn section: bore, stroke, deck clearance, rod length, compression height, counterweight radius. */
import type { Body, Cylinder, Engine } from '../../assembly/engine.ts';
import type { Figures } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import type { Camera } from '../scene/camera.ts';
import { type DimensionPlace, drawDimension, uprightRad } from '../scene/dimensionLine.ts';
import type { FreePlaces } from '../scene/freePlaces.ts';
import { THIN_PX } from '../scene/lineWeights.ts';
import { rimOf } from '../scene/rim.ts';
import { valveReachMm } from '../scene/valveReach.ts';
import type { Ink } from '../theme.ts';
import { formatLength } from '../words.ts';
import { placeOf } from './svgBodies.ts';
import { aboutWidth, type SvgPen } from './svgPen.ts';

export interface SvgDimensions {
  readonly engine: Engine;
  readonly cylinder: Cylinder;
  readonly figures: Figures;
  readonly crankAngleRad: number;
  readonly units: Units;
  readonly camera: Camera;
  readonly ink: Ink;
  readonly rod: Body | undefined;
  readonly piston: Body | undefined;
  readonly counterweight: Body | undefined;
  readonly blockReachMm: number;
}

const OUTSIDE_PX = 26;
const LABEL_OFF_PX = 5;
const SIZE_PX = 13;
const DEG = 180 / Math.PI;

export function drawSvgDimensions(pen: SvgPen, what: SvgDimensions, places: FreePlaces): void {
  const { camera, cylinder, figures, units, ink, engine } = what;
  const mirror = engine.mirrored ? -1 : 1;
  const s = camera.pxPerMm;
  const sin = Math.sin(cylinder.bankAngleRad);
  const cos = Math.cos(cylinder.bankAngleRad);
  const at = (u: number, v: number) =>
    [camera.x + mirror * (u * sin + v * cos) * s, camera.y - (u * cos - v * sin) * s] as const;
  const outer = cylinder.bankAngleRad < -0.01 ? -1 : 1;
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = cylinder.slider;
  const crownTop = Math.sqrt((l + r) ** 2 - e ** 2) + figures.compressionHeightMm;
  const crownLow = Math.sqrt((l - r) ** 2 - e ** 2) + figures.compressionHeightMm;
  const deck = crownTop + cylinder.deckClearanceMm;
  const axis = cylinder.boreOffsetMm;
  const boreR = cylinder.boreRadiusMm;

  function span(u0: number, v0: number, u1: number, v1: number, offPx: number): DimensionPlace {
    const [x0, y0] = at(u0, v0);
    const [x1, y1] = at(u1, v1);
    const place = drawDimension(pen, x0, y0, x1, y1, offPx, ink.ink, THIN_PX);
    places.takeLine(place.x - (x1 - x0) / 2, place.y - (y1 - y0) / 2, place.x + (x1 - x0) / 2, place.y + (y1 - y0) / 2);
    return place;
  }
  /** Words along a line, on its far side or its near one, whichever reads from below. */
  function along(text: string, place: DimensionPlace): void {
    // Letters rise from their base line; where that is toward the line they stand farther off.
    const rises = Math.sin(place.rotationRad) * place.awayX - Math.cos(place.rotationRad) * place.awayY;
    const off = rises < 0 ? LABEL_OFF_PX + SIZE_PX * 0.75 : LABEL_OFF_PX;
    const [x, y] = [place.x + place.awayX * off, place.y + place.awayY * off];
    pen.words(text, x, y, { size: SIZE_PX, color: ink.ink, anchor: 'middle', turnDeg: place.rotationRad * DEG });
    const half = aboutWidth(text, SIZE_PX) / 2;
    const [dx, dy] = [Math.cos(place.rotationRad) * half, Math.sin(place.rotationRad) * half];
    places.takeLine(x - dx, y - dy, x + dx, y + dy);
  }
  /** Words on a line, on a patch of paper. */
  function on(text: string, place: DimensionPlace): void {
    const turnDeg = place.rotationRad * DEG;
    const wide = aboutWidth(text, SIZE_PX) + 6;
    if (wide > place.lengthPx * 0.9) return;
    const [nx, ny] = [-Math.sin(place.rotationRad), Math.cos(place.rotationRad)];
    const [dx, dy] = [(Math.cos(place.rotationRad) * wide) / 2, (Math.sin(place.rotationRad) * wide) / 2];
    const corner = (a: number, b: number) => [place.x + a * dx + b * 9 * nx, place.y + a * dy + b * 9 * ny];
    pen.poly([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)].flat());
    pen.fill({ color: ink.paper, alpha: 0.9 });
    pen.words(text, place.x + nx * 4.5, place.y + ny * 4.5, {
      size: SIZE_PX,
      color: ink.ink,
      anchor: 'middle',
      turnDeg,
    });
  }

  along(
    `bore Ø ${formatLength(2 * boreR, units)}`,
    span(deck, axis - boreR, deck, axis + boreR, mirror * (OUTSIDE_PX + valveReachMm(engine, cylinder, deck) * s)),
  );
  const aside = (what.blockReachMm - boreR) * s + OUTSIDE_PX;
  const differs = Math.abs(figures.travelMm - figures.strokeMm) >= 0.005;
  const edge = axis + outer * boreR;
  along(
    differs
      ? `travel ${formatLength(figures.travelMm, units)}, stroke ${formatLength(figures.strokeMm, units)}`
      : `stroke ${formatLength(figures.strokeMm, units)}`,
    span(crownLow, edge, crownTop, edge, -outer * mirror * aside),
  );
  const inner = axis - outer * boreR;
  const clearance = span(
    Math.min(crownTop, deck),
    inner,
    Math.max(crownTop, deck),
    inner,
    outer * mirror * (OUTSIDE_PX + 8),
  );
  const [cx, cy] = [clearance.x + clearance.awayX * 34, clearance.y + clearance.awayY * 34];
  pen.moveTo(clearance.x, clearance.y).lineTo(cx, cy).stroke({ width: THIN_PX, color: ink.ink });
  const side = clearance.awayX >= 0 ? 1 : -1;
  const said = `deck clearance ${formatLength(cylinder.deckClearanceMm, units)}`;
  pen.words(said, cx + side * 4, cy + 4, { size: SIZE_PX, color: ink.ink, anchor: side > 0 ? 'start' : 'end' });
  places.takeLine(cx, cy, cx + side * (aboutWidth(said, SIZE_PX) + 8), cy);

  const carried = (
    body: Body | undefined,
    toMm: readonly [number, number],
    text: string,
    both: boolean,
    offPx = 0,
  ): void => {
    if (body === undefined) return;
    const { x, y, turnRad } = placeOf(body, what.crankAngleRad, mirror, camera);
    const [lx, ly] = [mirror * toMm[0] * s, -toMm[1] * s];
    const [tx, ty] = [
      x + lx * Math.cos(turnRad) - ly * Math.sin(turnRad),
      y + lx * Math.sin(turnRad) + ly * Math.cos(turnRad),
    ];
    const place = drawDimension(pen, x, y, tx, ty, offPx, ink.ink, THIN_PX, both);
    if (offPx === 0) on(text, place);
    else along(text, { ...place, rotationRad: uprightRad(place.rotationRad) });
  };
  carried(what.rod, [0, l], `rod ${formatLength(l, units)}`, true);
  const rim = what.counterweight?.name.startsWith('counterweight') ? rimOf(what.counterweight) : null;
  if (rim !== null)
    carried(
      what.counterweight,
      [rim.r * Math.cos(rim.arrowRad), rim.r * Math.sin(rim.arrowRad)],
      `R ${formatLength(rim.r, units)}`,
      false,
    );
  const height = figures.compressionHeightMm;
  carried(
    what.piston,
    [0, height],
    formatLength(height, units),
    true,
    outer * mirror * (what.blockReachMm * s + OUTSIDE_PX * 0.6),
  );
}

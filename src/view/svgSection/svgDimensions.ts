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
  /** Of the whole drawing. */
  readonly widthPx: number;
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
  /** Words along a line, on its far side or its near one, whichever reads from below; in one unit where both are too long. */
  function along(words: (units: Units) => string, place: DimensionPlace): void {
    const text = fitting(words, place.lengthPx + 8);
    // Letters rise from their base line; where that is toward the line they stand farther off.
    const rises = Math.sin(place.rotationRad) * place.awayX - Math.cos(place.rotationRad) * place.awayY;
    const off = rises < 0 ? LABEL_OFF_PX + SIZE_PX * 0.75 : LABEL_OFF_PX;
    const [x, y] = [place.x + place.awayX * off, place.y + place.awayY * off];
    pen.words(text, x, y, { size: SIZE_PX, color: ink.ink, anchor: 'middle', turnDeg: place.rotationRad * DEG });
    const half = aboutWidth(text, SIZE_PX) / 2;
    const [dx, dy] = [Math.cos(place.rotationRad) * half, Math.sin(place.rotationRad) * half];
    places.takeLine(x - dx, y - dy, x + dx, y + dy);
  }
  function fitting(words: (units: Units) => string, roomPx: number): string {
    const text = words(units);
    return units === 'both' && aboutWidth(text, SIZE_PX) > roomPx ? words('mm') : text;
  }
  /** Words on a line, on a patch of paper; left out where they are longer than the line. */
  function on(words: (units: Units) => string, place: DimensionPlace): void {
    const turnDeg = place.rotationRad * DEG;
    const text = fitting(words, place.lengthPx * 0.9 - 6);
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
    (u) => `bore Ø ${formatLength(2 * boreR, u)}`,
    span(deck, axis - boreR, deck, axis + boreR, mirror * (OUTSIDE_PX + valveReachMm(engine, cylinder, deck) * s)),
  );
  const aside = (what.blockReachMm - boreR) * s + OUTSIDE_PX;
  const differs = Math.abs(figures.travelMm - figures.strokeMm) >= 0.005;
  const edge = axis + outer * boreR;
  along(
    (u) =>
      differs
        ? `travel ${formatLength(figures.travelMm, u)}, stroke ${formatLength(figures.strokeMm, u)}`
        : `stroke ${formatLength(figures.strokeMm, u)}`,
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
  const room = (side > 0 ? what.widthPx - cx : cx) - 8;
  const whole = fitting((u) => `deck clearance ${formatLength(cylinder.deckClearanceMm, u)}`, room);
  const said = aboutWidth(whole, SIZE_PX) > room ? whole.replace('deck clearance', 'deck') : whole;
  pen.words(said, cx + side * 4, cy + 4, { size: SIZE_PX, color: ink.ink, anchor: side > 0 ? 'start' : 'end' });
  places.takeLine(clearance.x, clearance.y, cx, cy);
  places.takeLine(cx, cy, cx + side * (aboutWidth(said, SIZE_PX) + 8), cy);

  /** A length on a moving part, along it. */
  const carried = (
    body: Body | undefined,
    toMm: readonly [number, number],
    words: (units: Units) => string,
    both: boolean,
  ): void => {
    const ends = body === undefined ? null : endsOf(body, toMm);
    if (ends !== null) on(words, drawDimension(pen, ...ends, 0, ink.ink, THIN_PX, both));
  };
  const endsOf = (body: Body, toMm: readonly [number, number]): [number, number, number, number] => {
    const { x, y, turnRad } = placeOf(body, what.crankAngleRad, mirror, camera);
    const [lx, ly] = [mirror * toMm[0] * s, -toMm[1] * s];
    return [
      x,
      y,
      x + lx * Math.cos(turnRad) - ly * Math.sin(turnRad),
      y + lx * Math.sin(turnRad) + ly * Math.cos(turnRad),
    ];
  };
  carried(what.rod, [0, l], (u) => `rod ${formatLength(l, u)}`, true);
  const rim = what.counterweight?.name.startsWith('counterweight') ? rimOf(what.counterweight) : null;
  if (rim !== null)
    carried(
      what.counterweight,
      [rim.r * Math.cos(rim.arrowRad), rim.r * Math.sin(rim.arrowRad)],
      (u) => `R ${formatLength(rim.r, u)}`,
      false,
    );
  if (what.piston !== undefined) compressionHeight(endsOf(what.piston, [0, figures.compressionHeightMm]));

  /** Pin to crown: beside the bore on the inner side, or beyond the stroke where parts stand in its way there. */
  function compressionHeight([x0, y0, x1, y1]: [number, number, number, number]): void {
    const text = formatLength(figures.compressionHeightMm, units === 'both' ? 'mm' : units);
    const inside = outer * mirror * (what.blockReachMm * s + OUTSIDE_PX * 0.6);
    const outside = -outer * mirror * (aside + boreR * s + 2 * OUTSIDE_PX);
    const long = Math.hypot(x1 - x0, y1 - y0);
    const [ux, uy] = [(x1 - x0) / long, (y1 - y0) / long];
    const half = aboutWidth(text, SIZE_PX) / 2;
    const clear = [inside, inside + Math.sign(inside) * SIZE_PX].every((off) => {
      const [mx, my] = [(x0 + x1) / 2 + uy * off, (y0 + y1) / 2 - ux * off];
      return places.partTaken(mx - ux * half, my - uy * half, mx + ux * half, my + uy * half) === 0;
    });
    const place = drawDimension(pen, x0, y0, x1, y1, clear ? inside : outside, ink.ink, THIN_PX);
    along(() => text, { ...place, rotationRad: uprightRad(place.rotationRad) });
  }
}

/**
 * An outline as points of a build document.
 *
 * Coordinates are written to 4 decimals in inches, 3 in millimetres: rounding moves a point by at most .00007 in
 * (0.0018 mm) or 0.0007 mm, and the edges between by no more, since every arc is bent anew through its old middle. So
 * `outlinePieces` gives the outline back within 0.002 mm. Arcs over 175 degrees are divided.
 */
import type { Dim, OutlinePoint, Provenance } from '../build/index.ts';
import type { Outline } from '../core/outline/outline.ts';
import { MM_PER_INCH } from './units.ts';
import { movedVertices } from './vertices.ts';

const PLACES = { in: 4, mm: 3 } as const;
const SIZE_MM = { in: MM_PER_INCH, mm: 1 } as const;

/** Closed counterclockwise outline in mm, edges apart by more than the rounding. `from` is given to every coordinate. */
export function outlineToPoints(outline: Outline, from: Provenance, unit: 'in' | 'mm'): OutlinePoint[] {
  return written(outline, from, unit, PLACES[unit]);
}

/** As `outlineToPoints`, in millimetres to a billionth: for judging an outline by the rules of the build without moving it. */
export function exactPoints(outline: Outline): OutlinePoint[] {
  return written(outline, 'stated', 'mm', 9);
}

function written(outline: Outline, from: Provenance, unit: 'in' | 'mm', places: number): OutlinePoint[] {
  const size = SIZE_MM[unit];
  const round = (mm: number): string => (mm / size).toFixed(places);
  const vertices = movedVertices(outline, ([x, y]) => [Number(round(x)) * size, Number(round(y)) * size]);
  const dim = (mm: number): Dim => ({ value: `${literal(round(mm), unit)} ${unit}`, from });
  return vertices.map((v) => ({ x: dim(v.x), y: dim(v.y), ...(v.bulge === 0 ? {} : { bulge: v.bulge }) }));
}

/** No minus before zero; no zero before the point of inches. */
function literal(decimal: string, unit: 'in' | 'mm'): string {
  const digits = /[1-9]/.test(decimal) ? decimal : decimal.replace('-', '');
  return unit === 'in' ? digits.replace(/^(-?)0\./, '$1.') : digits;
}

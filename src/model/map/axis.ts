/** Which dimensions a map can be over, and the values along its sides, as literals in the unit of the present one. */
import type { BuildDocument, Dim } from '../../build/document.ts';
import {
  angleDeg,
  kindOf,
  lengthMm,
  parseTyped,
  stepLiteral,
  unitOfLiteral,
  withoutTolerance,
} from '../../build/literal.ts';
import { at } from '../edit.ts';
import type { DimPath } from '../state.ts';
import type { MapAxis } from './spec.ts';

/** One dimension of an assembly or of the block. */
export interface MapDim {
  /** "crank.stroke", "block.deckHeight". */
  readonly id: string;
  /** "stroke", "rod length". */
  readonly name: string;
  readonly path: DimPath;
}

export const FEWEST_CELLS = 2;
export const MOST_CELLS = 96;

/** Share of the present value to either side, unless a range is asked for. */
const SHARE = 0.1;

/** Least difference of two values of a side: what a shop reads. */
const FINEST = { in: '0.0001 in', thou: '0.1 thou', mm: '0.001 mm', deg: '0.01 deg' } as const;

/** To either side of a value of nothing, mm or degrees. */
const ABOUT_NOTHING = 2.54;

/** Lengths and angles, single ones: lists, limits and speeds are left out. */
export function mapDims(doc: BuildDocument, assembly: string): MapDim[] {
  const index = doc.assemblies.findIndex((a) => a.name === assembly);
  const out: MapDim[] = [];
  const walk = (tree: object, path: DimPath, id: readonly string[]): void => {
    for (const [key, value] of Object.entries(tree)) {
      if (typeof value !== 'object' || value === null || Array.isArray(value)) continue;
      const here = [...id, key];
      if (isDim(value)) {
        const kind = kindOf(value.value);
        if (kind === 'length' || kind === 'angle')
          out.push({ id: here.join('.'), name: nameOf(here), path: [...path, key] });
      } else walk(value, [...path, key], here);
    }
  };
  const found = doc.assemblies[index];
  if (found === undefined) return out;
  const { crank, rod, piston, camshaft } = found;
  walk({ crank, rod, piston, ...(camshaft === undefined ? {} : { camshaft }) }, ['assemblies', index], []);
  walk(doc.block, ['block'], ['block']);
  return out;
}

function isDim(value: object): value is Dim {
  return 'value' in value && 'from' in value;
}

/** "crank.counterweight.radius" is the counterweight radius, "crank.stroke" the stroke. */
function nameOf(id: readonly string[]): string {
  const said = id[0] === 'crank' || id[0] === 'block' ? id.slice(1) : id;
  return said.map((key) => key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)).join(' ');
}

/** The dimension called so: by its name, its place, or the last words of its name where those are its alone. */
export function findDim(dims: readonly MapDim[], called: string): MapDim | null {
  const plain = (text: string): string =>
    text
      .toLowerCase()
      .replace(/[-\s_]+/g, ' ')
      .trim();
  const wanted = plain(called);
  const exact = dims.find((dim) => plain(dim.name) === wanted || dim.id.toLowerCase() === wanted);
  if (exact !== undefined) return exact;
  const ending = dims.filter((dim) => plain(dim.name).endsWith(` ${wanted}`));
  return ending.length === 1 ? ending[0]! : null;
}

export function literalAt(doc: BuildDocument, path: DimPath): string {
  return (at(doc, path) as Dim).value;
}

/** Millimetres or degrees. */
export function measureOf(text: string): number {
  return kindOf(text) === 'angle' ? angleDeg(text) : lengthMm(text);
}

/** One unit of the literal in mm, or one degree. */
function unitSize(text: string): number {
  const unit = unitOfLiteral(text);
  return unit === 'in' ? 25.4 : unit === 'thou' ? 0.0254 : 1;
}

function finestOf(text: string): string {
  return FINEST[unitOfLiteral(text) as keyof typeof FINEST];
}

/** A tenth to either side of the present value, in round steps, the present value one of them. */
export function usualAxis(doc: BuildDocument, path: DimPath, cells: number): MapAxis {
  const text = literalAt(doc, path);
  const size = unitSize(text);
  const value = measureOf(text);
  const reach = (value === 0 ? ABOUT_NOTHING : Math.abs(value) * SHARE) / size;
  const unit = unitOfLiteral(text);
  const step = `${roundStep((2 * reach) / (cells - 1), Number.parseFloat(finestOf(text)))} ${unit}`;
  const half = Math.floor(cells / 2);
  const values = Array.from({ length: cells }, (_, k) => stepLiteral(text, k - half, step));
  // A part that has a size keeps one.
  return { path, values: value > 0 ? values.filter((each) => measureOf(each) > 0) : values };
}

/** The nearest of 1, 2, 5, 10, 20 … of the finest, as decimals. */
function roundStep(step: number, finest: number): string {
  const exponent = Math.floor(Math.log10(step));
  const choices = [1, 2, 5, 10].map((m) => ({ m, size: m * 10 ** exponent }));
  const best = choices.reduce((p, q) => (Math.abs(q.size - step) < Math.abs(p.size - step) ? q : p));
  const places = Math.max(0, -exponent);
  return best.size < finest ? String(finest) : best.size.toFixed(places);
}

/** `cells` values from one to the other, rounded to what a shop reads; or why not, a sentence. */
export function rangeAxis(
  doc: BuildDocument,
  path: DimPath,
  from: string,
  to: string,
  cells: number,
): MapAxis | string {
  const text = literalAt(doc, path);
  const ends: number[] = [];
  for (const end of [from, to]) {
    const read = parseTyped(end, text);
    if (!read.ok) return `${read.offending || 'Nothing'} is refused. ${read.allowed}`;
    ends.push(measureOf(read.text));
  }
  if (!Number.isInteger(cells) || cells < FEWEST_CELLS || cells > MOST_CELLS)
    return `${cells} cells are refused. Allowed: ${FEWEST_CELLS} to ${MOST_CELLS}.`;
  const [low, high] = ends as [number, number];
  if (!(high > low)) return `From ${from} to ${to} is refused. Allowed: a range that rises.`;
  const finest = finestOf(text);
  const size = Number.parseFloat(finest) * unitSize(text);
  const start = measureOf(text);
  const values = Array.from({ length: cells }, (_, k) =>
    stepLiteral(text, Math.round((low + ((high - low) * k) / (cells - 1) - start) / size), finest),
  );
  if (new Set(values.map(measureOf)).size < cells)
    return `From ${from} to ${to} is refused. Allowed: a range of at least ${finest} for each cell.`;
  return { path, values };
}

/** The literal that stands a share of the way between two neighbours: for places between the cells. */
export function between(a: string, b: string, share: number): string {
  const unit = unitSize(a);
  // A millionth of an inch, ten nanometres: far below what a margin shows.
  const steps = Math.round(((measureOf(b) - measureOf(a)) * share) / (unit * 1e-6));
  return stepLiteral(a, steps, `0.000001 ${unitOfLiteral(a)}`);
}

/** First and last value of a side, without the tolerance that the dimension keeps. */
export function endsOf(axis: MapAxis): readonly [string, string] {
  return [withoutTolerance(axis.values[0]!), withoutTolerance(axis.values.at(-1)!)];
}

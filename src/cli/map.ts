/** The map of the worst margin over two dimensions: what is asked for, the map as data, and as characters with the pairs that limit. */
import { layOut } from '../assembly/layOut.ts';
import type { BuildDocument } from '../build/index.ts';
import { certifiedGaps } from '../model/certified.ts';
import { findDim, literalAt, type MapDim, mapDims, rangeAxis, usualAxis } from '../model/map/axis.ts';
import { CROSSING_MM } from '../model/map/crossings.ts';
import type { MapGrowing } from '../model/map/run.ts';
import { runMap } from '../model/map/run.ts';
import type { MapAxis, MapCell, MapSpec } from '../model/map/spec.ts';
import { directPool } from '../model/pieces/kind.ts';
import { WORK } from '../model/pieces/table.ts';
import type { GapState } from '../model/results.ts';
import type { Asked } from './options.ts';
import { gapName, inBoth, plain } from './words.ts';

const USUAL_CELLS = 16;

/** What the options ask for; null: no map; a sentence: why not. */
export function mapAsked(doc: BuildDocument, assembly: string, asked: Asked): (MapSpec & Named) | string | null {
  if (asked.map === undefined) return null;
  const dims = mapDims(doc, assembly);
  const found: MapDim[] = [];
  for (const called of asked.map) {
    const dim = findDim(dims, called);
    if (dim === null) return `--map: no dimension is called ${called}. Allowed: ${dims.map((d) => d.name).join(', ')}.`;
    found.push(dim);
  }
  const [p, q] = found as [MapDim, MapDim];
  if (p.id === q.id) return `--map: ${p.name} is named twice; a map is over two dimensions.`;
  const cells = asked.cells ?? USUAL_CELLS;
  const side = (dim: MapDim, name: 'range-a' | 'range-b'): MapAxis | string => {
    const range = asked[name];
    if (range === undefined) return usualAxis(doc, dim.path, cells);
    const [from, to, more] = range.split('..').map((end) => end.trim());
    if (from === undefined || to === undefined || more !== undefined)
      return `--${name}: ${range} is no range. Allowed: two values of the dimension, such as "3.5 in..4.0 in".`;
    const axis = rangeAxis(doc, dim.path, from, to, cells);
    return typeof axis === 'string' ? `--${name}: ${axis}` : axis;
  };
  const a = side(p, 'range-a');
  if (typeof a === 'string') return a;
  const b = side(q, 'range-b');
  if (typeof b === 'string') return b;
  return { doc, assembly, deckHeld: !asked['keep-piston'], a, b, names: [p.name, q.name] };
}

export interface Named {
  readonly names: readonly [string, string];
}

export interface ReportedMap {
  readonly across: { readonly dimension: string; readonly values: readonly string[] };
  readonly upward: { readonly dimension: string; readonly values: readonly string[] };
  readonly compressionHeightFollows: boolean;
  /** Row by row from the lowest value of the second dimension. Null margin: refused, or not certified. */
  readonly cells: readonly {
    readonly across: number;
    readonly upward: number;
    readonly state: GapState | 'refused';
    readonly marginMm: number | null;
    readonly certified: boolean;
    readonly between: readonly [string, string] | null;
    readonly parts: readonly [string, string] | null;
    readonly refused: string | null;
  }[];
  /** Where the margin is nothing, to `boundaryErrorMm` of margin: lines of points, in cells from the first values. */
  readonly boundary: readonly (readonly (readonly [number, number])[])[];
  readonly boundaryErrorMm: number;
}

export interface Mapped {
  readonly map: MapGrowing;
  readonly spec: MapSpec & Named;
  readonly report: ReportedMap;
}

/** Works the whole map out, here and now. */
export function mapped(spec: MapSpec & Named): Mapped {
  const gaps = certifiedGaps(spec.doc, layOut(spec.doc, spec.assembly), new Map());
  let last: MapGrowing | null = null;
  let fault: string | null = null;
  runMap(directPool(WORK), spec, gaps, {
    grown: (map) => {
      last = map;
    },
    failed: (why) => {
      fault = why;
    },
  });
  if (fault !== null || last === null) throw new Error(fault ?? 'the map came to no end');
  const map = last as MapGrowing;
  const report: ReportedMap = {
    across: { dimension: spec.names[0], values: spec.a.values },
    upward: { dimension: spec.names[1], values: spec.b.values },
    compressionHeightFollows: spec.deckHeld,
    cells: map.cells.filter((cell) => cell !== null).map(cellOf),
    boundary: map.boundary,
    boundaryErrorMm: CROSSING_MM,
  };
  return { map, spec, report };
}

function cellOf(cell: MapCell): ReportedMap['cells'][number] {
  const { i, j, refused, state, marginMm, certified, pair } = cell;
  return {
    across: i,
    upward: j,
    state: refused === null ? state : 'refused',
    marginMm: refused === null ? marginMm : null,
    certified: refused === null && certified && state !== 'contact',
    between: pair?.between ?? null,
    parts: pair?.parts ?? null,
    refused,
  };
}

/** Letters for pairs, in the order in which they are met. */
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWYZ';

const MARKS: Readonly<Record<GapState, string>> = { clears: ' ', unproven: '?', tight: '+', contact: '#' };

/** A row of characters for each value of the second dimension, two a cell: who limits, and the state. */
export function printedMap({ map, spec, report }: Mapped): string {
  const columns = spec.a.values.length;
  const kinds = new Map<string, { letter: string; example: MapCell }>();
  const who = (cell: MapCell): string => {
    const key = `${cell.pair?.kind} ${cell.pair?.parts.join()}`;
    if (!kinds.has(key)) kinds.set(key, { letter: LETTERS[kinds.size] ?? 'Z', example: cell });
    return kinds.get(key)!.letter;
  };
  const present = [literalAt(spec.doc, spec.a.path), literalAt(spec.doc, spec.b.path)];
  const width = Math.max(...spec.b.values.map((value) => value.length));
  const lines: string[] = [];
  for (let j = spec.b.values.length - 1; j >= 0; j--) {
    const row = map.cells.slice(j * columns, (j + 1) * columns).map((cell) => {
      if (cell === null) return '  ';
      return cell.refused === null ? who(cell) + MARKS[cell.state] : 'x ';
    });
    lines.push(`${spec.b.values[j]!.padStart(width)}  ${row.join(' ').trimEnd()}`);
  }
  const reasons = new Set(
    map.cells.flatMap((cell) =>
      cell?.refused == null ? [] : [cell.refused.replace(/:.*? is refused/, ' is refused')],
    ),
  );
  const told = [...kinds.values()].map(({ letter, example }) => {
    const pair = example.pair!;
    return `  ${letter}  ${gapName({ between: pair.between, parts: pair.parts })} and alike, limit ${inBoth(pair.limitMm)}`;
  });
  const across = `${spec.a.values[0]} to ${spec.a.values.at(-1)}`;
  return `${[
    `Worst margin over ${spec.names[0]} (across, ${across}) and ${spec.names[1]} (upward); the build now: ${present.join(', ')}.`,
    report.compressionHeightFollows
      ? 'Compression height follows, so that the deck clearance stays.'
      : 'The piston stays as it is.',
    '',
    ...lines,
    '',
    'Which pair limits, and its state (blank clears, + tight, # contact, ? unproven; x can’t be built):',
    ...told,
    ...(reasons.size === 0 ? [] : ['', 'Can’t be built:', ...[...reasons].slice(0, 4).map((reason) => `  ${reason}`)]),
  ]
    .map(plain)
    .join('\n')}\n`;
}

/**
 * A file of measured points or a drawing, as the outline of a body of a build.
 *
 * The stated deviation is kept whole: what the fit may leave, what joining the ends of a drawing moves, and what the rounding of
 * the coordinates takes, together stay below it. So the polygon of the points, or what is drawn, stands out of the outline in
 * the build by no more than the stated deviation, which is what the certificate takes off.
 *
 * A drawing of more than STRAIGHT_IS_TRACED straight edges and nothing else is a traced curve: its corners count as measured
 * points. Any other drawing is taken as drawn.
 */
import type { OutlinePoint, Provenance } from '../build/index.ts';
import { MOST } from '../build/schemaPieces.ts';
import type { Outline } from '../core/outline/outline.ts';
import { fitOutline } from './fitOutline.ts';
import { asSeen, type Rotation, type SeenFrom } from './front.ts';
import { outlineToPoints } from './outlineToPoints.ts';
import { readOutlineCsv } from './readCsv.ts';
import { readOutlineDxf } from './readDxf.ts';
import { type FileProblem, type FileUnit, fileProblem, type Refused, refused } from './units.ts';
import { verticesOf } from './vertices.ts';

/** mm; by so much at most rounding moves an outline on its way into a build (outlineToPoints.ts). */
export const ROUNDING_MM = 0.002;
/** mm; the least and the greatest deviation that may be stated. */
export const LEAST_DEVIATION_MM = 0.005;
export const GREATEST_DEVIATION_MM = 10;
export const STRAIGHT_IS_TRACED = 24;
export const LARGEST_FILE_BYTES = 16_000_000;

export interface ImportOptions {
  readonly deviationMm: number;
  /** Where whoever measured or drew it stood. */
  readonly seenFrom: SeenFrom;
  readonly rotation: Rotation;
  /** Given to every coordinate. */
  readonly from: Provenance;
  readonly unit?: FileUnit;
  readonly columns?: 'xy' | 'polar';
  readonly layer?: string;
}

export interface ImportedOutline {
  readonly ok: true;
  readonly kind: 'csv' | 'dxf';
  readonly unit: FileUnit;
  /** In the build's frame, mm, as the fit found it. */
  readonly outline: Outline;
  /** The same as the build holds it. */
  readonly points: readonly OutlinePoint[];
  /** What was measured, in the build's frame, mm; of a drawing taken as drawn its corners. */
  readonly measured: readonly (readonly [number, number])[];
  readonly fitted: boolean;
  readonly lines: number;
  readonly arcs: number;
  /** Of the polygon of the points, or of the drawing, from the outline in the build: rounding included, mm. */
  readonly largestDeviationMm: number;
  /** Largest distance of neighbouring points, and largest height of a round edge over it, mm; null of a drawing taken as drawn. */
  readonly largestStepMm: number | null;
  readonly largestSagittaMm: number | null;
  readonly notes: readonly string[];
}

/** Never throws. `name` tells the kind of file by its ending; where it doesn't, the content does. */
export function importOutline(bytes: Uint8Array, name: string, options: ImportOptions): ImportedOutline | Refused {
  const { deviationMm } = options;
  if (!(deviationMm >= LEAST_DEVIATION_MM && deviationMm <= GREATEST_DEVIATION_MM)) {
    return refused(
      0,
      '',
      `A deviation of ${deviationMm} mm is refused. Allowed: ${LEAST_DEVIATION_MM} to ${GREATEST_DEVIATION_MM} mm.`,
    );
  }
  if (bytes.length > LARGEST_FILE_BYTES) {
    return refused(0, '', `The file has more than ${LARGEST_FILE_BYTES / 1e6} MB.`);
  }
  if (bytes.includes(0)) return refused(0, '', 'This is a binary file. Allowed: text, as CSV or as ASCII DXF.');
  const text = decoded(bytes);
  return kindOf(name, text) === 'dxf' ? fromDxf(text, options) : fromCsv(text, options);
}

/** UTF-8, or the eight-bit letters of older programs; numbers are the same in both. */
function decoded(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function kindOf(name: string, text: string): 'csv' | 'dxf' {
  const ending = /\.(dxf|csv|tsv|txt)$/i.exec(name)?.[1]?.toLowerCase();
  if (ending !== undefined) return ending === 'dxf' ? 'dxf' : 'csv';
  return /^\s*(0|999)\s*[\r\n]/.test(text) ? 'dxf' : 'csv';
}

function fromCsv(text: string, options: ImportOptions): ImportedOutline | Refused {
  const { unit, columns } = options;
  const read = readOutlineCsv(text, { ...(unit && { unit }), ...(columns && { columns }) });
  if (!read.ok) return read;
  const notes = read.leftOut.length === 0 ? [] : [`Columns left out: ${read.leftOut.join(', ')}.`];
  return fromPoints('csv', read.unit, read.points, read.lines, notes, options);
}

function fromDxf(text: string, options: ImportOptions): ImportedOutline | Refused {
  const { deviationMm, layer } = options;
  const read = readOutlineDxf(text, options.unit, layer === undefined ? {} : { layer });
  if (!read.ok) return read;
  const corners = verticesOf(read.outline).map((v) => [v.x, v.y] as const);
  const isTraced = read.outline.pieces.every((p) => p.kind === 'line') && corners.length > STRAIGHT_IS_TRACED;
  if (isTraced) {
    const notes = [...read.notes, 'Straight edges only: its corners were taken as measured points.'];
    return fromPoints('dxf', read.unit, corners, null, notes, options);
  }
  const movedMm = read.largestJoinMm / 2 + ROUNDING_MM;
  if (movedMm > deviationMm) {
    const says = `Ends of the drawing miss one another by ${read.largestJoinMm.toFixed(3)} mm. Allowed with this deviation: ${(2 * (deviationMm - ROUNDING_MM)).toFixed(3)} mm.`;
    return refused(0, '', says);
  }
  const outline = asSeen(read.outline, options.rotation, options.seenFrom);
  return finished('dxf', read.unit, outline, corners, options, {
    fitted: false,
    largestDeviationMm: movedMm,
    largestStepMm: null,
    largestSagittaMm: null,
    notes: read.notes,
  });
}

function fromPoints(
  kind: 'csv' | 'dxf',
  unit: FileUnit,
  points: readonly (readonly [number, number])[],
  rows: readonly number[] | null,
  notes: readonly string[],
  options: ImportOptions,
): ImportedOutline | Refused {
  const fit = fitOutline(points, Math.max(options.deviationMm - ROUNDING_MM, 0.001));
  if (!fit.ok) {
    const concerns = fit.kind === 'duplicate' || fit.kind === 'crossing' || fit.kind === 'number';
    const line = rows === null || !concerns ? 0 : (rows[fit.point] ?? 0);
    return { ok: false, problems: [fileProblem(line, '', fit.says)] };
  }
  return finished(kind, unit, asSeen(fit.outline, options.rotation, options.seenFrom), points, options, {
    fitted: true,
    largestDeviationMm: fit.largestDeviationMm + ROUNDING_MM,
    largestStepMm: fit.largestStepMm,
    largestSagittaMm: fit.largestSagittaMm,
    notes: [...notes, ...fit.notes],
  });
}

type Findings = Pick<ImportedOutline, 'fitted' | 'largestDeviationMm' | 'largestStepMm' | 'largestSagittaMm' | 'notes'>;

function finished(
  kind: 'csv' | 'dxf',
  unit: FileUnit,
  outline: Outline,
  measured: readonly (readonly [number, number])[],
  options: ImportOptions,
  findings: Findings,
): ImportedOutline | Refused {
  const points = outlineToPoints(outline, options.from, unit);
  if (points.length > MOST.outlinePoints) {
    const says = `${points.length} edges are refused. Allowed: ${MOST.outlinePoints}; state a larger deviation, or draw it with fewer.`;
    return { ok: false, problems: [fileProblem(0, '', says)] satisfies FileProblem[] };
  }
  const mirrored = (options.seenFrom === 'rear') !== (options.rotation === 'counterclockwise');
  return {
    ok: true,
    kind,
    unit,
    outline,
    points,
    measured: mirrored ? measured.map(([x, y]) => [-x, y] as const) : measured,
    lines: outline.pieces.filter((p) => p.kind === 'line').length,
    arcs: outline.pieces.filter((p) => p.kind === 'arc').length,
    ...findings,
  };
}

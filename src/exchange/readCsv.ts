/**
 * Measured points from a table: two columns, x and y, or radius and angle.
 *
 *   separator   tab, else semicolon, else comma: the first of these that the first row holds
 *   decimals    a point; a comma only where the separator is a semicolon, and then one of the two in the whole file
 *   header      one row, optional: x, y, radius (or r), angle, each with its unit if it has one: "x mm", "radius [in]",
 *               "angle (deg)", "y_mm". Further columns (a point number, a remark) are left out and named in the result.
 *   units       mm or in for lengths, deg for angles; in the header or as an argument, the same for both lengths
 *   blank rows, and rows that begin with #, are left out; cells may stand in double quotes
 *
 * Polar: the angle grows clockwise from +y as everywhere in a build (for a counterweight from the crankpin's direction), so
 * x = radius sin(angle), y = radius cos(angle).
 */
import { csvCells, csvSeparator } from './csvCells.ts';
import { type FileProblem, type FileUnit, fileProblem, type Refused, refused, UNIT_MM } from './units.ts';

export const MOST_CSV_CHARACTERS = 4_000_000;
/** Problems listed; beyond them their number is said. */
const MOST_PROBLEMS = 20;
const GREATEST_MM = 10_000;
const GREATEST_DEG = 720;

export interface CsvOptions {
  /** Of the lengths; needed where the header states none. */
  readonly unit?: FileUnit;
  /** What the two columns of a file without header hold; x and y unless stated. */
  readonly columns?: 'xy' | 'polar';
}

export interface CsvOutline {
  readonly ok: true;
  /** Millimetres, x right and y up, in the order of the file. */
  readonly points: readonly (readonly [number, number])[];
  /** Line of each point, counted from 1. */
  readonly lines: readonly number[];
  readonly unit: FileUnit;
  readonly columns: 'xy' | 'polar';
  readonly separator: ',' | ';' | '\t';
  /** Headings of columns left out. */
  readonly leftOut: readonly string[];
}

interface Columns {
  readonly kind: 'xy' | 'polar';
  readonly first: number;
  readonly second: number;
  readonly unit: FileUnit | undefined;
  readonly count: number;
  readonly leftOut: readonly string[];
}

interface Row {
  readonly line: number;
  readonly text: string;
  readonly cells: readonly string[];
}

/** Never throws; what can't be read comes back as problems with line and text. */
export function readOutlineCsv(text: string, options: CsvOptions = {}): CsvOutline | Refused {
  if (text.length > MOST_CSV_CHARACTERS) {
    return refused(0, '', `The file has more than ${MOST_CSV_CHARACTERS} characters.`);
  }
  const kept = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map((row, k) => ({ line: k + 1, text: row }))
    .filter((row) => row.text.trim() !== '' && !row.text.trimStart().startsWith('#'));
  const head = kept[0];
  if (head === undefined) return refused(0, '', 'The file holds no rows.');
  const separator = csvSeparator(head.text);
  if (separator === null) {
    return refused(head.line, head.text, 'One column only. Allowed: two, separated by comma, semicolon or tab.');
  }
  const rows: Row[] = [];
  for (const row of kept) {
    const cells = csvCells(row.text, separator);
    if (cells === null) return refused(row.line, row.text, 'A quotation mark is not closed.');
    rows.push({ ...row, cells });
  }
  const headed = rows[0]!.cells.some((cell) => /[a-z]/i.test(cell.replace(/(?<=\d)e(?=[-+]?\d)/i, '')));
  const columns = headed ? fromHeader(rows[0]!) : withoutHeader(rows[0]!, options.columns ?? 'xy');
  if ('ok' in columns) return columns;
  if (headed && options.columns !== undefined && options.columns !== columns.kind) {
    return refused(
      head.line,
      head.text,
      `The heading says ${said(columns.kind)}, ${said(options.columns)} was asked for.`,
    );
  }
  if (columns.unit !== undefined && options.unit !== undefined && columns.unit !== options.unit) {
    return refused(head.line, head.text, `The heading says ${columns.unit}, ${options.unit} was asked for.`);
  }
  const unit = columns.unit ?? options.unit;
  if (unit === undefined) {
    return refused(
      0,
      '',
      'The unit of the lengths is stated neither in the heading nor beside the file. Allowed: mm or in.',
    );
  }
  return readRows(headed ? rows.slice(1) : rows, columns, unit, separator);
}

function said(kind: 'xy' | 'polar'): string {
  return kind === 'xy' ? 'x and y' : 'radius and angle';
}

const HEADING = /^(x|y|r|radius|angle)(?:[\s_]*[[(]?\s*(mm|in|inch|inches|deg|degrees|°)\s*[\])]?)?$/i;

function fromHeader(row: Row): Columns | Refused {
  const at: Record<string, number> = {};
  const leftOut: string[] = [];
  let unit: FileUnit | undefined;
  for (const [k, cell] of row.cells.entries()) {
    const parts = HEADING.exec(cell);
    if (parts === null) {
      leftOut.push(cell);
      continue;
    }
    const name = parts[1]!.toLowerCase().replace(/^r$/, 'radius');
    if (at[name] !== undefined) return refused(row.line, row.text, `Two columns are headed ${name}.`);
    at[name] = k;
    const own = parts[2]?.toLowerCase();
    if (own === undefined) continue;
    const isAngle = /^(deg|degrees|°)$/.test(own);
    if (isAngle !== (name === 'angle')) {
      return refused(row.line, cell, `Allowed: ${name === 'angle' ? 'deg for an angle' : 'mm or in for a length'}.`);
    }
    if (isAngle) continue;
    const length: FileUnit = own === 'mm' ? 'mm' : 'in';
    if (unit !== undefined && unit !== length) return refused(row.line, row.text, 'The lengths are in two units.');
    unit = length;
  }
  const xy = at['x'] !== undefined && at['y'] !== undefined;
  const polar = at['radius'] !== undefined && at['angle'] !== undefined;
  if (xy === polar) {
    const both = xy ? 'Both x, y and radius, angle are there' : 'The heading names no pair of columns';
    return refused(row.line, row.text, `${both}. Allowed: x and y, or radius and angle, with their units.`);
  }
  const [first, second] = xy ? [at['x']!, at['y']!] : [at['radius']!, at['angle']!];
  return { kind: xy ? 'xy' : 'polar', first, second, unit, count: row.cells.length, leftOut };
}

function withoutHeader(row: Row, kind: 'xy' | 'polar'): Columns | Refused {
  if (row.cells.length !== 2) {
    const says = `${row.cells.length} columns without a heading. Allowed: two, or a heading that names them.`;
    return refused(row.line, row.text, says);
  }
  return { kind, first: 0, second: 1, unit: undefined, count: 2, leftOut: [] };
}

function readRows(
  rows: readonly Row[],
  columns: Columns,
  unit: FileUnit,
  separator: CsvOutline['separator'],
): CsvOutline | Refused {
  const problems: FileProblem[] = [];
  const points: [number, number][] = [];
  const lines: number[] = [];
  const decimals: Decimals = { comma: separator === ';', mark: undefined };
  for (const row of rows) {
    if (row.cells.length !== columns.count) {
      const says = `${row.cells.length} cells. Allowed: ${columns.count}, as in the first row.`;
      problems.push(fileProblem(row.line, row.text, says));
      continue;
    }
    const first = readNumber(row.cells[columns.first]!, decimals);
    const second = readNumber(row.cells[columns.second]!, decimals);
    const broken = [first, second].filter((n) => typeof n === 'string');
    if (typeof first === 'string' || typeof second === 'string') {
      const cell = row.cells[typeof first === 'string' ? columns.first : columns.second]!;
      problems.push(fileProblem(row.line, cell === '' ? row.text : cell, broken[0]!));
      continue;
    }
    const outside = outOfRange(columns.kind, first, second, unit);
    if (outside !== null) {
      problems.push(fileProblem(row.line, row.text, outside));
      continue;
    }
    const size = UNIT_MM[unit];
    const angle = (second * Math.PI) / 180;
    points.push(
      columns.kind === 'xy'
        ? [first * size, second * size]
        : [first * size * Math.sin(angle), first * size * Math.cos(angle)],
    );
    lines.push(row.line);
  }
  if (problems.length > MOST_PROBLEMS) {
    const more = fileProblem(0, '', `${problems.length - MOST_PROBLEMS} further rows are refused.`);
    return { ok: false, problems: [...problems.slice(0, MOST_PROBLEMS), more] };
  }
  if (problems.length > 0) return { ok: false, problems };
  if (points.length === 0) return refused(0, '', 'The file holds a heading and no rows.');
  return { ok: true, points, lines, unit, columns: columns.kind, separator, leftOut: columns.leftOut };
}

function outOfRange(kind: 'xy' | 'polar', first: number, second: number, unit: FileUnit): string | null {
  const far = (n: number): boolean => !(Math.abs(n) * UNIT_MM[unit] <= GREATEST_MM);
  if (kind === 'xy') return far(first) || far(second) ? `Allowed: at most ${GREATEST_MM} mm either way.` : null;
  if (far(first) || first < 0) return `Allowed: a radius of 0 to ${GREATEST_MM} mm.`;
  return Math.abs(second) <= GREATEST_DEG ? null : `Allowed: angles to ${GREATEST_DEG} deg either way.`;
}

interface Decimals {
  readonly comma: boolean;
  /** The decimal mark met first in the file. */
  mark: '.' | ',' | undefined;
}

const NUMBER = /^[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[-+]?\d{1,3})?$/i;

/** The number, or what is wrong with it. */
function readNumber(cell: string, decimals: Decimals): number | string {
  if (cell === '') return 'A cell is empty. Allowed: a number in both columns.';
  const plain = cell.replace('\u2212', '-');
  if (!NUMBER.test(plain)) return 'Allowed: a number without unit, such as 12.75 or -3.';
  const mark = plain.includes(',') ? ',' : plain.includes('.') ? '.' : undefined;
  if (mark === ',' && !decimals.comma) return 'A decimal comma is allowed only where the separator is a semicolon.';
  if (mark !== undefined) {
    if (decimals.mark !== undefined && decimals.mark !== mark) {
      return 'Decimal points and decimal commas in one file. Allowed: one of them.';
    }
    decimals.mark = mark;
  }
  return Number(plain.replace(',', '.'));
}

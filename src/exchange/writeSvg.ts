/**
 * Outlines as a drawing at full size, to print, cut out and lay on the crank as a grinding template.
 *
 * Scalable Vector Graphics 1.1: width and height in mm and a viewBox of as many units, so that one unit is one millimetre.
 * There y runs down; arcs stay arcs. With them stand two scale bars (a print that is not at full size shows in them), a
 * cross at the crank centre, what is drawn, the date and the caution.
 */
import { type Extent, extentOf } from '../core/outline/extent.ts';
import { asSeen, CRANK_CENTRE, type NamedOutline, type Rotation, requireDrawable, type SeenFrom } from './front.ts';
import { svgMm as mm, svgPath } from './svgPath.ts';
import { svgText, wrapped } from './svgText.ts';
import { MM_PER_INCH } from './units.ts';
import { divided } from './vertices.ts';

export interface SvgWriting {
  /** What the sheet is called. */
  readonly title: string;
  /** As it is to be printed; nothing is asked of a clock. */
  readonly date: string;
  /** Sense of crank rotation of the build. */
  readonly rotation: Rotation;
  /** Left out: front. */
  readonly seenFrom?: SeenFrom;
  /** What lies at the origin, where the cross stands: the crank centre unless told otherwise. */
  readonly origin?: string;
  /** Further lines under what is drawn. */
  readonly notes?: readonly string[];
  /** What lies in the direction of +y from the crank centre, such as "crankpin"; unnamed if left out. */
  readonly up?: string;
}

const MARGIN = 10;
/** Half of the cross at the crank centre, mm. */
const CROSS = 10;
const BAR_MM = 100;
const BAR_IN = 4;
const LETTER_MM = 3.5;
/** Of a letter's height, generous, since the type is the reader's own. */
const LETTER_WIDTH = 0.65;
const ROW = 6;
/** One for each outline, beginning again after the last: dashes of the line, mm. */
const DASHES = ['', '6 2', '2 2', '8 2 2 2'] as const;
const INK = '#000000';

export const TEMPLATE_CAUTION =
  'Print at 100 %, measure both scale bars, and verify on the part: the drawing is what the build says, not what stands on the bench.';

/** Throws RangeError if there is nothing to write or a number is not finite. */
export function writeOutlineSvg(outlines: readonly NamedOutline[], options: SvgWriting): string {
  requireDrawable(outlines);
  const shown = outlines.map((o) => ({
    ...o,
    outline: divided(asSeen(o.outline, options.rotation, options.seenFrom)),
  }));
  const box = extent(shown);
  const wide = Math.max(box.x1 - box.x0, BAR_IN * MM_PER_INCH);
  const width = wide + 2 * MARGIN;
  const X = (x: number): string => mm(x - box.x0 + MARGIN);
  const Y = (y: number): string => mm(box.y1 - y + MARGIN);

  const drawn = shown.map(({ name, outline }, k) => {
    const d = svgPath(outline, X, Y);
    return `<path d="${d}" stroke-width="0.35"${dashes(k)}><title>${svgText(name)}</title></path>`;
  });

  let row = box.y1 - box.y0 + 2 * MARGIN + ROW;
  const foot: string[] = [];
  const bar = (length: number, step: number, label: string): void => {
    const ticks = Array.from(
      { length: Math.round(length / step) + 1 },
      (_, k) => `M${mm(MARGIN + k * step)} ${mm(row)}v-3`,
    );
    foot.push(`<path d="M${mm(MARGIN)} ${mm(row)}h${mm(length)} ${ticks.join(' ')}" stroke-width="0.25"/>`);
    row += LETTER_MM + 1;
    foot.push(lettering(MARGIN, row, label));
    row += ROW + 2;
  };
  bar(BAR_MM, 10, '100 mm');
  bar(BAR_IN * MM_PER_INCH, MM_PER_INCH, '4 in');
  const letters = Math.floor((width - 2 * MARGIN) / (LETTER_MM * LETTER_WIDTH));
  const say = (text: string, k?: number): void => {
    if (k !== undefined) {
      foot.push(`<path d="M${mm(MARGIN)} ${mm(row - 1)}h12" stroke-width="0.35"${dashes(k)}/>`);
    }
    const indent = k === undefined ? 0 : 15;
    for (const part of wrapped(text, letters - Math.ceil(indent / (LETTER_MM * LETTER_WIDTH)))) {
      foot.push(lettering(MARGIN + indent, row, part));
      row += ROW;
    }
  };
  say(options.title);
  for (const [k, o] of outlines.entries()) say(o.name, k);
  say(options.date);
  for (const note of options.notes ?? []) say(note);
  const turns = `the crank turns ${options.rotation}`;
  say(
    options.seenFrom === 'rear'
      ? `As seen from the rear of the engine; seen from the front ${turns}.`
      : `As seen from the front of the engine; ${turns}.`,
  );
  say(`Cross: ${options.origin ?? CRANK_CENTRE}.`);
  say(TEMPLATE_CAUTION);
  const height = row - ROW + MARGIN;

  const cross =
    `<path id="${(options.origin ?? CRANK_CENTRE).replaceAll(/[^a-z]+/g, '-')}" d="M${mm(-CROSS - box.x0 + MARGIN)} ${Y(0)}h${2 * CROSS} ` +
    `M${X(0)} ${mm(box.y1 + CROSS + MARGIN)}v${-2 * CROSS}" stroke-width="0.2"/>`;
  const up =
    options.up === undefined ? [] : [lettering(-box.x0 + MARGIN + 2, box.y1 - CROSS + MARGIN, `${options.up}, up`)];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}">`,
    `<title>${svgText(options.title)}</title>`,
    `<rect width="${mm(width)}" height="${mm(height)}" fill="#FFFFFF"/>`,
    `<g fill="none" stroke="${INK}">`,
    ...drawn,
    cross,
    ...foot.filter((f) => f.startsWith('<path')),
    '</g>',
    `<g fill="${INK}" font-family="sans-serif" font-size="${LETTER_MM}">`,
    ...up,
    ...foot.filter((f) => f.startsWith('<text')),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

function dashes(k: number): string {
  const pattern = DASHES[k % DASHES.length]!;
  return pattern === '' ? '' : ` stroke-dasharray="${pattern}"`;
}

function lettering(x: number, y: number, text: string): string {
  return `<text x="${mm(x)}" y="${mm(y)}">${svgText(text)}</text>`;
}

/** Of the outlines and the cross at their origin. */
function extent(shown: readonly NamedOutline[]): Extent {
  const boxes = [{ x0: -CROSS, y0: -CROSS, x1: CROSS, y1: CROSS }, ...shown.map((o) => extentOf(o.outline))];
  return {
    x0: Math.min(...boxes.map((b) => b.x0)),
    y0: Math.min(...boxes.map((b) => b.y0)),
    x1: Math.max(...boxes.map((b) => b.x1)),
    y1: Math.max(...boxes.map((b) => b.y1)),
  };
}

/** Drawing as on a board, in millimetres of paper, y down: outlines, hatching, dimension lines, leaders, words. */
import { svg } from '../element.ts';

type Place = readonly [x: number, y: number];

/** Height of the letters, mm: 13 px. */
export const LETTER_MM = 3.44;
const ARROW_MM = 2.4;
const ARROW_HALF_MM = 0.42;
/** A dimension line and its extension lines, mm. */
const BEYOND_MM = 1.2;
const OFF_MM = 0.8;

const n = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`A coordinate of a drawing must be finite, got ${value}`);
  return value.toFixed(3);
};

/** A drawing of that size on paper. `title` is read to those who can't see it. */
export function board(
  widthMm: number,
  heightMm: number,
  title: string,
  ...parts: readonly SVGElement[]
): SVGSVGElement {
  return svg(
    'svg',
    {
      class: 'sw-draft',
      width: `${widthMm}mm`,
      height: `${heightMm}mm`,
      viewBox: `0 0 ${n(widthMm)} ${n(heightMm)}`,
      role: 'img',
      'aria-label': title,
    },
    ...parts,
  );
}

export type Line = 'edge' | 'thin' | 'dashed' | 'centre';

export function circle([x, y]: Place, radius: number, line: Line): SVGElement {
  return svg('circle', { cx: n(x), cy: n(y), r: n(radius), class: `sw-draft-${line}` });
}

export function line(a: Place, b: Place, kind: Line): SVGElement {
  return svg('line', { x1: n(a[0]), y1: n(a[1]), x2: n(b[0]), y2: n(b[1]), class: `sw-draft-${kind}` });
}

/** An arc about a middle, from one angle to another, degrees clockwise from up. */
export function arc([x, y]: Place, radius: number, fromDeg: number, toDeg: number, kind: Line): SVGElement {
  const at = (deg: number): string =>
    `${n(x + radius * Math.sin((deg * Math.PI) / 180))} ${n(y - radius * Math.cos((deg * Math.PI) / 180))}`;
  const large = Math.abs(toDeg - fromDeg) > 180 ? 1 : 0;
  const d = `M${at(fromDeg)}A${n(radius)} ${n(radius)} 0 ${large} ${toDeg > fromDeg ? 1 : 0} ${at(toDeg)}`;
  return svg('path', { d, class: `sw-draft-${kind}` });
}

/** Centre lines that cross in a circle. */
export function cross([x, y]: Place, reach: number): SVGElement[] {
  return [line([x - reach, y], [x + reach, y], 'centre'), line([x, y - reach], [x, y + reach], 'centre')];
}

/** Hatched is what lies within the outer circle and without the inner one. */
export function between(outer: Place, outerRadius: number, inner: Place, innerRadius: number): SVGElement[] {
  const round = ([x, y]: Place, r: number): string =>
    `M${n(x - r)} ${n(y)}A${n(r)} ${n(r)} 0 1 1 ${n(x + r)} ${n(y)}A${n(r)} ${n(r)} 0 1 1 ${n(x - r)} ${n(y)}Z`;
  const id = 'sw-draft-hatch';
  return [
    svg(
      'defs',
      {},
      svg(
        'pattern',
        { id, width: '1.3', height: '1.3', patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
        svg('line', { x1: '0', y1: '0', x2: '0', y2: '1.3', class: 'sw-draft-thin' }),
      ),
    ),
    svg('path', {
      d: round(outer, outerRadius) + round(inner, innerRadius),
      'fill-rule': 'evenodd',
      fill: `url(#${id})`,
      stroke: 'none',
    }),
  ];
}

export function words(
  text: string,
  [x, y]: Place,
  anchor: 'start' | 'middle' | 'end' = 'start',
  kind = '',
): SVGElement {
  return svg('text', { x: n(x), y: n(y), 'text-anchor': anchor, class: `sw-draft-text ${kind}` }, text);
}

/** Closed and narrow, its point at `tip`, coming from the direction of `from`. */
function arrow(tip: Place, from: Place): SVGElement {
  const long = Math.hypot(from[0] - tip[0], from[1] - tip[1]) || 1;
  const [ux, uy] = [(from[0] - tip[0]) / long, (from[1] - tip[1]) / long];
  const [bx, by] = [tip[0] + ux * ARROW_MM, tip[1] + uy * ARROW_MM];
  const points = [
    tip,
    [bx - uy * ARROW_HALF_MM, by + ux * ARROW_HALF_MM],
    [bx + uy * ARROW_HALF_MM, by - ux * ARROW_HALF_MM],
  ];
  return svg('polygon', { points: points.map(([x, y]) => `${n(x!)},${n(y!)}`).join(' '), class: 'sw-draft-arrow' });
}

/** Words to a place: a line from the words, an arrow at the place. */
export function leader(tip: Place, elbow: Place, text: string, anchor: 'start' | 'end'): SVGElement[] {
  const side = anchor === 'start' ? 1 : -1;
  const end: Place = [elbow[0] + side * 2.5, elbow[1]];
  return [
    line(tip, elbow, 'thin'),
    line(elbow, end, 'thin'),
    arrow(tip, elbow),
    words(text, [end[0] + side * 0.8, end[1] + LETTER_MM * 0.35], anchor),
  ];
}

/**
 * A height between `y0` and `y1`, measured at `x`; extension lines come from `from0` and `from1`. Where it is too short for
 * two arrows between, they stand outside. The words stand on the line's side `beside`, away from the drawing; `along` it where
 * they are turned to be read from the right.
 */
export function height(
  x: number,
  [y0, y1]: readonly [number, number],
  [from0, from1]: readonly [number, number],
  text: string,
  beside: 'left' | 'right' | 'along',
): SVGElement[] {
  const [top, bottom] = y0 < y1 ? [y0, y1] : [y1, y0];
  const extend = (from: number, y: number): SVGElement => {
    const toward = Math.sign(x - from) || 1;
    return line([from + toward * OFF_MM, y], [x + toward * BEYOND_MM, y], 'thin');
  };
  const room = bottom - top > 2.6 * ARROW_MM;
  const marks = room
    ? [line([x, top], [x, bottom], 'thin'), arrow([x, top], [x, bottom]), arrow([x, bottom], [x, top])]
    : [
        line([x, top - 2 * ARROW_MM], [x, bottom + 2 * ARROW_MM], 'thin'),
        arrow([x, top], [x, top - ARROW_MM]),
        arrow([x, bottom], [x, bottom + ARROW_MM]),
      ];
  const middle = (top + bottom) / 2;
  const letters =
    beside === 'along'
      ? turned(text, [x - 1, middle])
      : words(
          text,
          [x + (beside === 'left' ? -1.4 : 1.4), middle + LETTER_MM * 0.35],
          beside === 'left' ? 'end' : 'start',
        );
  return [extend(from0, y0), extend(from1, y1), ...marks, letters];
}

function turned(text: string, [x, y]: Place): SVGElement {
  const made = words(text, [0, 0], 'middle');
  made.setAttribute('transform', `translate(${n(x)} ${n(y)}) rotate(-90)`);
  return made;
}

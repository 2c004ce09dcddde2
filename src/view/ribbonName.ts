/** The name beside a ribbon: both parts in full, on one line where there is room, else on two. */
import { svg } from './element.ts';

const LETTER_PX = 13;
/** Distance between the two lines. */
export const NAME_LINE_PX = 15;

const pen = document.createElement('canvas').getContext('2d');

/** Lines of a pair's label ("rod 1 · piston 1") that fit into `roomPx`, set in the lettering of `host`. */
export function nameLines(label: string, roomPx: number, host: Element): readonly string[] {
  if (pen === null) return [label];
  pen.font = `${LETTER_PX}px ${getComputedStyle(host).fontFamily}`;
  if (pen.measureText(label).width <= roomPx) return [label];
  const [first, second] = label.split(' · ');
  return second === undefined ? [label] : [`${first} ·`, second];
}

/** The lines as one text, the first on the base line at (x, y). */
export function nameText(lines: readonly string[], x: number, y: number, anchor: 'start' | 'end'): SVGTextElement {
  const made = svg('text', { 'aria-hidden': 'true', x: String(x), y: String(y), 'text-anchor': anchor });
  lines.forEach((line, k) => {
    made.append(k === 0 ? line : svg('tspan', { x: String(x), dy: String(NAME_LINE_PX) }, line));
  });
  return made;
}

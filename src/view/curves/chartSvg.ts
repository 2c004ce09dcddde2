/** Curves as a drawing of their own: the same lines, ticks and marks as on the screen, as Scalable Vector Graphics. */
import { aboutWidth, escaped, hex, px, SvgPen } from '../svgSection/svgPen.ts';
import type { Ink } from '../theme.ts';
import type { PlotContent } from './plot.ts';
import { said, tick } from './scale.ts';
import { hexColours, lookOf } from './strokes.ts';

const WIDTH = 960;
/** Where the axis of crank angle lies; the key stands below it, as long as it needs. */
const AXIS = 474;
const LEFT = 84;
const RIGHT = 24;
const TOP = 24;
const BOTTOM = 60;
const KEY_ROW = 22;
/** So that drawings of a few curves are of one size. */
const LEAST_ROWS = 3;
const SIZE = 13;

/** Round steps of an axis: 1, 2 or 5 times a power of ten, about as many as wanted. */
export function roundStep(span: number, wanted: number): number {
  const ten = 10 ** Math.floor(Math.log10(span / wanted));
  for (const times of [1, 2, 5]) if (span / (times * ten) <= wanted) return times * ten;
  return 10 * ten;
}

export function chartSvg(
  { x, xLabel, xStep, lines, yLabel, scale, place }: PlotContent,
  ink: Ink,
  title: string,
): string {
  const colours = hexColours(ink);
  const values = lines.flatMap((line) => [...line.values, ...line.marks.map((m) => m.value)]).filter(Number.isFinite);
  const [least, greatest] = [Math.min(...values) * scale.factor, Math.max(...values) * scale.factor];
  const step = roundStep(Math.max(greatest - least, 1e-9), 7);
  const y0 = Math.floor(least / step) * step;
  const y1 = Math.max(Math.ceil(greatest / step) * step, y0 + step);
  const [x0, x1] = [x[0]!, x.at(-1)!];
  const bottom = AXIS;
  const height = bottom + BOTTOM + Math.max(LEAST_ROWS, lines.length) * KEY_ROW;
  const atX = (v: number): number => LEFT + ((v - x0) / (x1 - x0)) * (WIDTH - LEFT - RIGHT);
  const atY = (v: number): number => bottom - ((v - y0) / (y1 - y0)) * (bottom - TOP);
  const pen = new SvgPen();
  const rule = ink.faint;
  const stepX = xStep ?? roundStep(x1 - x0, 8);
  for (let k = Math.ceil(x0 / stepX - 1e-9); k * stepX <= x1 + 1e-9; k++) {
    pen
      .moveTo(atX(k * stepX), TOP)
      .lineTo(atX(k * stepX), bottom)
      .stroke({ width: 0.5, color: rule, alpha: 0.5 });
    pen.words(tick(k * stepX, ''), atX(k * stepX), bottom + 18, { size: SIZE, color: ink.ink, anchor: 'middle' });
  }
  for (let k = Math.round(y0 / step); k * step <= y1 + step * 1e-6; k++) {
    pen.moveTo(LEFT, atY(k * step)).lineTo(WIDTH - RIGHT, atY(k * step));
    pen.stroke({ width: k === 0 ? 1 : 0.5, color: rule, alpha: k === 0 ? 1 : 0.5 });
    pen.words(tick(k * step, scale.unit), LEFT - 8, atY(k * step) + 4, { size: SIZE, color: ink.ink, anchor: 'end' });
  }
  for (const [k, line] of lines.entries()) {
    const look = lookOf(line, colours);
    let d = '';
    let drawing = false;
    for (const [n, v] of line.values.entries()) {
      if (!Number.isFinite(v)) {
        drawing = false;
        continue;
      }
      d += `${drawing ? 'L' : 'M'}${px(atX(x[n]!))} ${px(atY(v * scale.factor))}`;
      drawing = true;
    }
    const dash = look.dash.length === 0 ? '' : ` stroke-dasharray="${look.dash.join(' ')}"`;
    pen.raw(`<path d="${d}" fill="none" stroke="${look.stroke}" stroke-width="${look.width}"${dash}/>`);
    for (const mark of line.marks) {
      const [mx, my] = [atX(mark.deg), atY(mark.value * scale.factor)];
      pen.raw(`<circle cx="${px(mx)}" cy="${px(my)}" r="4" fill="none" stroke="${look.stroke}" stroke-width="2"/>`);
    }
    const text = `${line.name}${line.marks.map((m) => `; ${place(m.deg)} ${said(m.value, scale)}`).join('')}`;
    const top = bottom + 52 + k * KEY_ROW;
    pen.raw(
      `<path d="M${LEFT} ${px(top - 4)}H${LEFT + 40}" fill="none" stroke="${look.stroke}" stroke-width="${look.width}"${dash}/>`,
    );
    const most = Math.floor((WIDTH - LEFT - 60) / aboutWidth('n', SIZE));
    pen.words(text.length > most ? `${text.slice(0, most - 1)}…` : text, LEFT + 50, top, {
      size: SIZE,
      color: ink.ink,
    });
  }
  pen.words(xLabel, (LEFT + WIDTH - RIGHT) / 2, bottom + 36, { size: SIZE, color: ink.ink, anchor: 'middle' });
  pen.words(`${yLabel}${scale.unit === '' ? '' : `, ${scale.unit}`}`, 18, (TOP + bottom) / 2, {
    size: SIZE,
    color: ink.ink,
    anchor: 'middle',
    turnDeg: -90,
  });
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" role="img">` +
    `<title>${escaped(title)}</title><rect width="${WIDTH}" height="${height}" fill="${hex(ink.paper)}"/>\n${pen.elements()}</svg>`
  );
}

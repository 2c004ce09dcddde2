/** The figure of a lesson: one or more curves over plain axes, drawn anew at the width it has, so that its letters keep their size. */
import { type Chart, sayValue } from '../../model/lessons/index.ts';
import type { Units } from '../../model/state.ts';
import { html, svg } from '../element.ts';
import { textScale } from '../textScale.ts';

const HEIGHT = 240;
/** Width of a letter of the ticks, about, px; and of their distance from the axis. */
const LETTER = 7.4;
const LEAST_LEFT = 44;
const RIGHT = 16;
const TOP = 26;
const BOTTOM = 44;
/** Ticks at most along an axis. */
const TICKS = 5;

/** A figure element with its caption; it is drawn once `asked` has told its curves. */
export function createChart(
  asked: (told: (chart: Chart) => void) => void,
  units: Units,
  caption: readonly Node[],
): HTMLElement {
  const drawing = svg('svg', { class: 'sw-chart', role: 'img', 'aria-label': 'Curve, being drawn' });
  const element = html('figure', { class: 'sw-lesson-chart' });
  const note = html('figcaption');
  note.append(...caption);
  element.append(drawing, note);
  let width = 0;
  let scaled = 1;
  let chart: Chart | null = null;
  const draw = (): void => {
    if (chart === null || width === 0) return;
    drawing.setAttribute('viewBox', `0 0 ${width} ${HEIGHT}`);
    drawing.setAttribute('width', String(width * scaled));
    drawing.setAttribute('height', String(HEIGHT * scaled));
    drawing.replaceChildren(...parts(chart, units, width));
  };
  const watch = new ResizeObserver(([entry]) => {
    scaled = textScale();
    const next = Math.round(entry!.contentRect.width / scaled);
    if (next === width || next < 120) return;
    width = next;
    draw();
  });
  watch.observe(element);
  asked((told) => {
    chart = told;
    drawing.setAttribute('aria-label', `${told.yName} against ${told.xName}`);
    draw();
  });
  return element;
}

/** Of the units in which an inch reader sees an amount, in the unit it is kept in. */
const PER_INCH_UNIT: Readonly<Partial<Record<Chart['xAs'], number>>> = {
  length: 25.4,
  speed: 0.00508,
  acceleration: 9.80665,
};

function parts(chart: Chart, units: Units, width: number): SVGElement[] {
  const all = chart.lines.flatMap((line) => line.points);
  const [x0, x1] = ends(all.map(([x]) => x));
  const unitsShown: Units = units === 'both' ? 'in' : units;
  // Even steps in the unit that is read, not in the one it is kept in.
  const perUnit = (as: Chart['xAs']): number =>
    (unitsShown === 'in' ? PER_INCH_UNIT[as] : undefined) ?? (as === 'share' ? 0.01 : 1);
  const ys = all.map(([, y]) => y);
  const yTicks = even(...ends(ys), perUnit(chart.yAs));
  const xTicks = even(x0, x1, perUnit(chart.xAs), chart.xAs === 'angle' ? 45 : undefined).filter(
    (x) => x >= x0 - 1e-9 && x <= x1 + 1e-9,
  );
  const [y0, y1] = [yTicks[0]!, yTicks.at(-1)!];
  const yWords = yTicks.map((y) =>
    sayValue({ as: chart.yAs, value: y }, unitsShown, chart.yAs === 'angle' ? ['whole'] : []),
  );
  const left = Math.max(LEAST_LEFT, LETTER * Math.max(...yWords.map((said) => said.length)) + 8);
  const px = (x: number): number => left + ((width - left - RIGHT) * (x - x0)) / (x1 - x0);
  const py = (y: number): number => HEIGHT - BOTTOM - ((HEIGHT - TOP - BOTTOM) * (y - y0)) / (y1 - y0);
  const line = (name: string, ax: number, ay: number, bx: number, by: number): SVGElement =>
    svg('line', { class: name, x1: ax.toFixed(1), y1: ay.toFixed(1), x2: bx.toFixed(1), y2: by.toFixed(1) });
  const words = (x: number, y: number, anchor: string, said: string, name = 'sw-chart-words'): SVGElement =>
    svg('text', { class: name, x: x.toFixed(1), y: y.toFixed(1), 'text-anchor': anchor }, said);
  const grid = [
    ...yTicks.flatMap((y, k) => [
      line(Math.abs(y) < 1e-12 ? 'sw-chart-zero' : 'sw-chart-grid', left, py(y), width - RIGHT, py(y)),
      words(left - 6, py(y) + 4, 'end', yWords[k]!),
    ]),
    ...xTicks.flatMap((x) => [
      line('sw-chart-grid', px(x), TOP, px(x), HEIGHT - BOTTOM),
      words(
        px(x),
        HEIGHT - BOTTOM + 17,
        'middle',
        sayValue({ as: chart.xAs, value: x }, unitsShown, chart.xAs === 'angle' ? ['whole'] : []),
      ),
    ]),
    words(left, 14, 'start', chart.yName, 'sw-chart-name'),
    words(width - RIGHT, HEIGHT - 6, 'end', chart.xName, 'sw-chart-name'),
  ];
  const curves = chart.lines.flatMap(({ name, points }, k) => {
    const d = points.map(([x, y], n) => `${n === 0 ? 'M' : 'L'}${px(x).toFixed(1)} ${py(y).toFixed(1)}`).join('');
    const path = svg('path', { class: `sw-chart-line sw-chart-line-${k}`, d });
    if (chart.lines.length === 1) return [path];
    // Its name stands where the curves are farthest apart, which is not at their ends.
    const [x, y] = points[Math.floor(points.length * (0.3 + 0.25 * k))]!;
    return [path, words(px(x) + 6, py(y) + (k === 0 ? -8 : 18), 'start', name, `sw-chart-label sw-chart-line-${k}`)];
  });
  const marks = chart.marks.flatMap(({ x, y }) => [
    line('sw-chart-mark', px(x), py(y), px(x), HEIGHT - BOTTOM),
    svg('circle', { class: 'sw-chart-dot', cx: px(x).toFixed(1), cy: py(y).toFixed(1), r: '4.5' }),
    words(px(x) + 7, HEIGHT - BOTTOM - 6, 'start', sayValue({ as: chart.xAs, value: x }, unitsShown), 'sw-chart-said'),
  ]);
  return [...grid, ...curves, ...marks];
}

function ends(values: readonly number[]): [number, number] {
  const low = Math.min(...values);
  const high = Math.max(...values);
  return low === high ? [low - 1, high + 1] : [low, high];
}

/** Round values from at or below the lowest to at or above the highest, in steps of 1, 2 or 5 of the unit, or of `step`. */
function even(low: number, high: number, unit: number, step?: number): number[] {
  const rough = (high - low) / unit / TICKS;
  const power = 10 ** Math.floor(Math.log10(rough));
  const by = (step ?? [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough)!) * unit;
  const from = Math.floor(low / by + 1e-9);
  const to = Math.ceil(high / by - 1e-9);
  return Array.from({ length: to - from + 1 }, (_, k) => (from + k) * by);
}

/** Curves over one axis of crank angle, drawn by uPlot once; the cursor is a line of its own that only moves. */
import uPlot from 'uplot';
import type { Line } from '../../model/curves/lines.ts';
import { html, setText } from '../element.ts';
import { textScale } from '../textScale.ts';
import { readInk, watchTheme } from '../theme.ts';
import { type Scale, said, tick } from './scale.ts';
import { hexColours, lookOf } from './strokes.ts';

export interface PlotContent {
  readonly x: Float64Array;
  readonly xLabel: string;
  /** Ticks at multiples of it; null: where they fall. */
  readonly xStep: number | null;
  readonly lines: readonly Line[];
  readonly yLabel: string;
  readonly scale: Scale;
  /** What the words of a mark begin with, as "74.1°". */
  readonly place: (x: number) => string;
}

export interface Plot {
  readonly element: HTMLElement;
  /** Within it, what the cursor moves over. */
  readonly area: HTMLElement;
  show(content: PlotContent): void;
  /** Moves the cursor; nothing is drawn anew. */
  moveTo(x: number): void;
  /** Px in the plot of a place, for checks from outside. */
  px(x: number, y: number): { readonly x: number; readonly y: number } | null;
  destroy(): void;
}

const HEIGHT_PX = 460;
const LEAST_PX = 240;
const LEAST_HEIGHT_PX = 300;

/** `drag` is told where a hand puts the cursor; without it there is none. */
export function createPlot(drag: ((x: number) => void) | null): Plot {
  const element = html('div', { class: 'sw-curves-plot' });
  // Written out over the axis, where it is never cut off.
  const heading = html('p', { class: 'sw-curves-heading' });
  const whole = html('div', {}, heading, element);
  const line = html('div', { class: 'sw-curves-cursor' });
  let plot: uPlot | null = null;
  let content: PlotContent | null = null;
  let at = 0;

  function draw(): void {
    plot?.destroy();
    plot = null;
    if (content !== null) {
      const { unit } = content.scale;
      setText(heading, `${content.yLabel}${unit === '' ? '' : `, ${unit}`}`);
    }
    const width = Math.max(LEAST_PX, element.clientWidth);
    if (content === null || element.clientWidth === 0) return;
    const { x, lines, scale, xStep } = content;
    const colours = hexColours(readInk());
    const scaled = textScale();
    const font = `${13 * scaled}px system-ui, sans-serif`;
    const axis = { stroke: colours.ink, font, labelFont: font, labelSize: 30 * scaled };
    const grid = { stroke: colours.rule, width: 1 };
    const ticks = { stroke: colours.rule, width: 1 };
    const ends = [x[0]!, x.at(-1)!] as const;
    plot = new uPlot(
      {
        width,
        height: Math.min(HEIGHT_PX * scaled, Math.max(LEAST_HEIGHT_PX * scaled, Math.round(width * 0.6))),
        legend: { show: false },
        cursor: { show: false },
        scales: { x: { time: false, range: [...ends] } },
        axes: [
          {
            ...axis,
            grid,
            ticks,
            label: content.xLabel,
            size: 50 * scaled,
            values: (_, splits) => splits.map((v) => tick(v, '')),
            ...(xStep === null
              ? {}
              : {
                  splits: () => {
                    const step = width < 480 * scaled ? 2 * xStep : xStep;
                    return Array.from(
                      { length: Math.floor((ends[1] - ends[0]) / step) + 1 },
                      (_, k) => ends[0] + k * step,
                    );
                  },
                }),
          },
          { ...axis, grid, ticks, size: 64 * scaled, values: (_, splits) => splits.map((v) => tick(v, scale.unit)) },
        ],
        series: [{}, ...lines.map((each) => ({ ...lookOf(each, colours), spanGaps: false, pxAlign: 0 }))],
        // Each drawing may have made room for other figures at the axis: then the place of an angle is another.
        hooks: { draw: [marks, place] },
      },
      dataOf(content),
      element,
    );
    plot.over.append(line);
    line.hidden = drag === null;
    place();
  }

  /** Rings at the extremes, each with its angle and value, unless one farther out stands too near: the key has them all. */
  function marks(u: uPlot): void {
    const { lines, scale, place: where } = content!;
    const { ctx } = u;
    const ratio = (devicePixelRatio || 1) * textScale();
    const colours = hexColours(readInk());
    const written: { x: number; y: number; w: number }[] = [];
    ctx.save();
    ctx.font = `${13 * ratio}px system-ui, sans-serif`;
    ctx.textAlign = 'left';
    ctx.textBaseline = 'alphabetic';
    ctx.setLineDash([]);
    ctx.lineJoin = 'round';
    const middle = u.bbox.top + u.bbox.height / 2;
    const placed = lines
      .flatMap((each) =>
        each.marks.map((mark) => ({
          stroke: lookOf(each, colours).stroke,
          px: u.valToPos(mark.deg, 'x', true),
          py: u.valToPos(mark.value * scale.factor, 'y', true),
          text: `${where(mark.deg)} ${said(mark.value, scale)}`,
        })),
      )
      // The outermost first: of rings that crowd one another it is the one written at.
      .sort((a, b) => Math.abs(b.py - middle) - Math.abs(a.py - middle));
    for (const { stroke, px, py, text } of placed) {
      ctx.strokeStyle = stroke;
      ctx.lineWidth = 2 * ratio;
      ctx.beginPath();
      ctx.arc(px, py, 4 * ratio, 0, 2 * Math.PI);
      ctx.stroke();
      const w = ctx.measureText(text).width;
      const tx = Math.min(Math.max(px - w / 2, u.bbox.left + 2), u.bbox.left + u.bbox.width - w - 2);
      // Outside the bend, over a crest and under a trough; inside it only where there is no room outside.
      const over = py - 9 * ratio;
      const under = py + 20 * ratio;
      const inBox = (y: number): boolean => y - 13 * ratio > u.bbox.top && y + 4 * ratio < u.bbox.top + u.bbox.height;
      const ty = (py < middle ? [over, under] : [under, over]).find(inBox);
      const crowded = written.some(
        (o) => Math.abs(o.y - (ty ?? 0)) < 15 * ratio && tx < o.x + o.w + 6 && o.x < tx + w + 6,
      );
      if (ty === undefined || crowded) continue;
      written.push({ x: tx, y: ty, w });
      ctx.strokeStyle = colours.paper;
      ctx.lineWidth = 4 * ratio;
      ctx.strokeText(text, tx, ty);
      ctx.fillStyle = colours.ink;
      ctx.fillText(text, tx, ty);
    }
    ctx.restore();
  }

  function place(): void {
    if (plot === null) return;
    line.style.transform = `translateX(${plot.valToPos(at, 'x').toFixed(2)}px)`;
  }

  function dragged(event: PointerEvent): void {
    if (plot === null || drag === null || event.buttons === 0) return;
    const box = plot.over.getBoundingClientRect();
    const px = Math.min(Math.max(event.clientX - box.left, 0), box.width);
    drag(plot.posToVal(px, 'x'));
    event.preventDefault();
  }
  element.addEventListener('pointerdown', (event) => {
    if (plot === null || drag === null || !(event.target instanceof Node) || !plot.over.contains(event.target)) return;
    element.setPointerCapture(event.pointerId);
    dragged(event);
  });
  element.addEventListener('pointermove', dragged);

  const size = new ResizeObserver(([entry]) => {
    if (plot === null || Math.abs(entry!.contentRect.width - plot.width) > 1) draw();
  });
  size.observe(element);
  const stopTheme = watchTheme(draw);

  return {
    element: whole,
    area: element,
    show(next) {
      const same = plot !== null && content !== null && isDrawnAlike(content, next);
      content = next;
      if (same) plot!.setData(dataOf(next));
      else draw();
    },
    moveTo(x) {
      at = x;
      place();
    },
    px: (x, y) => {
      if (plot === null || content === null) return null;
      return { x: plot.valToPos(x, 'x'), y: plot.valToPos(y * content.scale.factor, 'y') };
    },
    destroy() {
      size.disconnect();
      stopTheme();
      plot?.destroy();
    },
  };
}

function dataOf({ x, lines, scale }: PlotContent): uPlot.AlignedData {
  return [
    x,
    ...lines.map(({ values }) => Array.from(values, (v) => (Number.isFinite(v) ? v * scale.factor : null))),
  ] as unknown as uPlot.AlignedData;
}

/** Whether only the values differ: then the plot that is there takes them. */
function isDrawnAlike(a: PlotContent, b: PlotContent): boolean {
  const looks = ({ lines }: PlotContent): string => lines.map(({ look, part }) => `${look}${part ?? ''}`).join();
  return (
    a.x === b.x &&
    a.xLabel === b.xLabel &&
    a.xStep === b.xStep &&
    a.yLabel === b.yLabel &&
    a.scale.unit === b.scale.unit &&
    looks(a) === looks(b)
  );
}

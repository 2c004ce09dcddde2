/**
 * The measured points over the fitted outline, to scale, with what stands at the body now behind it. Drawn as SVG in the ink of the
 * section; the finished path comes with the data, nothing is computed here but the scale.
 */
import type { OutlinePreview } from '../../model/outlineShown.ts';
import { make } from '../make.ts';

const SVG = 'http://www.w3.org/2000/svg';
const MARGIN = 0.06;
/** Points drawn at most: more are one line on a screen. */
const MOST_DOTS = 2000;
/** A rod is five times as tall as wide: no taller than this, px. */
const HIGHEST_PX = 340;
const NICE_MM = [1, 2, 5, 10, 20, 50, 100, 200];

function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Record<string, string>,
): SVGElementTagNameMap[K] {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

export function drawPreview(data: OutlinePreview, inches: boolean): HTMLElement {
  const { x0, y0, x1, y1 } = data.box;
  const size = Math.max(x1 - x0, y1 - y0);
  const pad = size * MARGIN;
  const [width, height] = [x1 - x0 + 2 * pad, y1 - y0 + 2 * pad];
  const figure = make('figure', '', 'sw-outlines_figure');
  figure.style.width = `min(100%, ${Math.round((HIGHEST_PX * width) / height)}px)`;
  const picture = svg('svg', {
    viewBox: `${x0 - pad} ${-y1 - pad} ${width} ${height}`,
    role: 'img',
    'aria-label': data.label,
  });
  // The cross of the origin, as far as it is in sight.
  const arm = size / 30;
  picture.append(svg('path', { class: 'cross', d: `M${-arm} 0H${arm}M0 ${-arm}V${arm}` }));
  for (const d of data.now) picture.append(svg('path', { class: data.path === null ? 'fitted' : 'now', d }));
  if (data.path !== null) picture.append(svg('path', { class: 'fitted', d: data.path }));
  const every = Math.ceil(data.points.length / MOST_DOTS);
  const dots = data.points.filter((_, k) => k % every === 0).map(([x, y]) => `M${x.toFixed(3)} ${(-y).toFixed(3)}h0`);
  if (dots.length > 0) picture.append(svg('path', { class: 'dots', d: dots.join('') }));
  figure.append(picture, scaleBar(width, inches));
  return figure;
}

/** A bar of a round length beside the picture: its share of the picture's width is its length on the part. */
function scaleBar(widthMm: number, inches: boolean): HTMLElement {
  const unit = inches ? 25.4 : 1;
  const steps = inches ? [0.05, 0.1, 0.25, 0.5, 1, 2, 5] : NICE_MM;
  const length = steps.filter((s) => s * unit <= widthMm / 3).at(-1) ?? steps[0]!;
  const bar = make('div', '', 'sw-outlines_scale');
  const line = make('span');
  line.style.width = `${((length * unit) / widthMm) * 100}%`;
  bar.append(line, make('span', inches ? `${String(length).replace(/^0/, '')} in` : `${length} mm`));
  return bar;
}

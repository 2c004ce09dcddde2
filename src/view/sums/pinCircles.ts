/** The rod journal of the core and the one ground out of it, one inside the other, to scale: where metal goes, and how much. */
import type { BuildDocument } from '../../build/document.ts';
import type { Units } from '../../model/state.ts';
import { groundThrows, written } from '../../model/sums/index.ts';
import { html, svg } from '../element.ts';

const SIZE = 300;
const MARGIN = 34;

/** The throw with least to spare; null where the assembly is not ground from a core, or something is missing. */
export function pinCircles(doc: BuildDocument, assembly: string, units: Units): HTMLElement | null {
  const throws = groundThrows(doc, assembly);
  const worst = throws.reduce<(typeof throws)[number] | null>(
    (a, b) => (a === null || b.thinMm < a.thinMm ? b : a),
    null,
  );
  if (worst === null) return null;
  const { oldMm, newMm, movementMm, thinMm, thickMm, caseMm, throwNumber } = worst;
  const scale = (SIZE - 2 * MARGIN) / oldMm;
  const [cx, cy] = [SIZE / 2, SIZE / 2];
  const old = (oldMm / 2) * scale;
  const fresh = (newMm / 2) * scale;
  // Outward, away from the crank axis, is up.
  const up = cy - movementMm * scale;
  const length = (mm: number): string => written({ as: 'fine length', value: worst.exact(mm) }, units);
  const circle = (y: number, r: number, style: string) =>
    svg('circle', { cx: String(cx), cy: String(y), r: r.toFixed(2), class: style });
  const line = (x0: number, y0: number, x1: number, y1: number, style: string) =>
    svg('line', { x1: x0.toFixed(1), y1: y0.toFixed(1), x2: x1.toFixed(1), y2: y1.toFixed(1), class: style });
  const drawn = svg(
    'svg',
    {
      viewBox: `0 0 ${SIZE} ${SIZE}`,
      role: 'img',
      'aria-label': `Throw ${throwNumber}: journal of ${length(oldMm)} ground to ${length(newMm)}, its middle moved outward by ${length(movementMm)}; ${length(thinMm)} removed on the thin side, ${length(thickMm)} on the thick side.`,
    },
    svg(
      'defs',
      {},
      svg(
        'pattern',
        {
          id: 'sw-ground-off',
          width: '6',
          height: '6',
          patternUnits: 'userSpaceOnUse',
          patternTransform: 'rotate(45)',
        },
        svg('line', { x1: '0', y1: '0', x2: '0', y2: '6', class: 'sw-pin-hatch' }),
      ),
    ),
    circle(cy, old, 'sw-pin-off'),
    circle(up, fresh, 'sw-pin-new'),
    circle(cy, old, 'sw-pin-old'),
    ...(caseMm === null || old - caseMm * scale <= 0 ? [] : [circle(cy, old - caseMm * scale, 'sw-pin-case')]),
    line(cx, cy - old - 12, cx, cy + old + 12, 'sw-pin-axis'),
    line(cx - 14, cy, cx + 14, cy, 'sw-pin-axis'),
    line(cx - 14, up, cx + 14, up, 'sw-pin-axis'),
    svg('text', { x: String(cx), y: '16', class: 'sw-pin-text', 'text-anchor': 'middle' }, 'outward'),
    svg(
      'text',
      { x: String(cx), y: String(SIZE - 6), class: 'sw-pin-text', 'text-anchor': 'middle' },
      'toward the crank axis',
    ),
  );
  const legend: readonly (readonly [string, string])[] = [
    ['Throw with least to spare', String(throwNumber)],
    ['Journal, before', length(oldMm)],
    ['Journal, after', length(newMm)],
    ['Middle moved', length(movementMm)],
    ['Off the thin side, outward', length(thinMm)],
    ['Off the thick side, toward the crank axis', length(thickMm)],
    ...(caseMm === null ? [] : [['Hardened case, dashed', length(caseMm)] as const]),
  ];
  return html(
    'figure',
    { class: 'sw-pin' },
    drawn,
    html('dl', {}, ...legend.flatMap(([term, said]) => [html('dt', {}, term), html('dd', {}, said)])),
  );
}

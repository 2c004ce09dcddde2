/** The unbalance in the two planes of correction, as seen from the front along the crank: how much, and where the heavy side is. */
import type { Units } from '../../model/state.ts';
import { type Compared, written } from '../../model/sums/index.ts';
import { html, svg } from '../element.ts';

const SIZE = 190;
const REACH = 66;

/** Null where the sums of the balance do not tell it. */
export function planeVectors(group: Compared, units: Units): HTMLElement | null {
  const amount = (key: string) => group.rows.find((row) => row.key === key)?.proposed?.amount ?? null;
  const planes = (['front', 'rear'] as const).map((plane) => ({
    plane,
    size: amount(`unbalance in the ${plane} plane`),
    heavy: amount(`its heavy side in the ${plane} plane`),
  }));
  if (planes.some(({ size, heavy }) => size === null || heavy === null)) return null;
  const most = Math.max(...planes.map(({ size }) => size!.value.toNumber()), Number.MIN_VALUE);
  return html(
    'figure',
    { class: 'sw-pin sw-planes' },
    ...planes.map(({ plane, size, heavy }) => {
      const degrees = heavy!.value.toNumber();
      const said = `${plane} plane: ${written(size!, units)}, heavy side ${written(heavy!, units)} from the pin of cylinder 1`;
      return html('div', {}, drawn(plane, degrees, size!.value.toNumber() / most, said), html('p', {}, said));
    }),
  );
}

function drawn(plane: string, degrees: number, share: number, said: string): SVGSVGElement {
  const middle = SIZE / 2;
  const at = (deg: number, r: number): [number, number] => [
    middle + r * Math.sin((deg * Math.PI) / 180),
    middle - r * Math.cos((deg * Math.PI) / 180),
  ];
  const line = (from: readonly [number, number], to: readonly [number, number], style: string) =>
    svg('line', {
      x1: from[0].toFixed(1),
      y1: from[1].toFixed(1),
      x2: to[0].toFixed(1),
      y2: to[1].toFixed(1),
      class: style,
    });
  const tip = at(degrees, REACH * share);
  const barb = (turn: number): [number, number] => {
    const [x, y] = at(degrees + 180 + turn, 9);
    return [tip[0] + x - middle, tip[1] + y - middle];
  };
  return svg(
    'svg',
    { viewBox: `0 0 ${SIZE} ${SIZE}`, role: 'img', 'aria-label': said },
    svg('circle', { cx: String(middle), cy: String(middle), r: String(REACH), class: 'sw-pin-old' }),
    line([middle, middle - REACH - 8], [middle, middle + REACH + 8], 'sw-pin-axis'),
    line([middle - REACH - 8, middle], [middle + REACH + 8, middle], 'sw-pin-axis'),
    svg('text', { x: String(middle), y: '14', class: 'sw-pin-text', 'text-anchor': 'middle' }, 'pin of cylinder 1'),
    line([middle, middle], tip, 'sw-planes-vector'),
    ...(share > 0.1 ? [line(tip, barb(22), 'sw-planes-vector'), line(tip, barb(-22), 'sw-planes-vector')] : []),
    svg('text', { x: String(middle), y: String(SIZE - 4), class: 'sw-pin-text', 'text-anchor': 'middle' }, plane),
  );
}

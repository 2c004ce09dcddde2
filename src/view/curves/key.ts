/** The key of the curves: of each line its look, its name, what it says at the cursor, and its extremes. */
import type { Line } from '../../model/curves/lines.ts';
import { html, setText } from '../element.ts';
import { readInk } from '../theme.ts';
import { type Scale, said } from './scale.ts';
import { borderOf, hexColours } from './strokes.ts';

export interface Key {
  readonly element: HTMLTableElement;
  /** `place` says where a mark stands. */
  show(lines: readonly Line[], scale: Scale, place: (deg: number) => string): void;
  /** Writes the values at an angle, degrees after TDC; returns them in words. */
  readAt(deg: number): string;
}

export function createKey(): Key {
  const rows = html('tbody');
  const where = html('th', { scope: 'col' });
  const element = html(
    'table',
    { class: 'sw-curves-key' },
    html(
      'thead',
      {},
      html('tr', {}, html('td'), html('th', { scope: 'col' }, 'Line'), where, html('th', { scope: 'col' }, 'Ringed')),
    ),
    rows,
  );
  let lines: readonly Line[] = [];
  let scale: Scale | null = null;
  let ink = '';

  return {
    element,
    show(next, nowIn, place) {
      const colours = hexColours(readInk());
      const same = next.length === lines.length && next.every((line, k) => isAlike(line, lines[k]!));
      lines = next;
      scale = nowIn;
      if (!same || ink !== colours.lines.join()) {
        ink = colours.lines.join();
        rows.replaceChildren(
          ...lines.map((line) => {
            const swatch = html('span', { class: 'sw-curves-swatch' });
            swatch.style.borderTop = borderOf(line, colours);
            return html(
              'tr',
              {},
              html('td', {}, swatch),
              html('th', { scope: 'row' }, line.name),
              html('td', {}),
              html('td', {}),
            );
          }),
        );
      }
      for (const [n, { marks }] of lines.entries())
        setText(
          rows.rows[n]!.cells[3]!,
          marks.map(({ deg, value }) => `${said(value, nowIn)} at ${place(deg)}`).join(', '),
        );
    },
    readAt(deg) {
      setText(where, `At ${deg.toFixed(1)}°`);
      const values = lines.map((line) => {
        const { value, exact } = line.at(deg);
        return `${exact || !Number.isFinite(value) ? '' : 'about '}${said(value, scale!)}`;
      });
      for (const [n, value] of values.entries()) setText(rows.rows[n]!.cells[2]!, value);
      return lines.map(({ name }, n) => `${name} ${values[n]}`).join(', ');
    },
  };
}

function isAlike(a: Line, b: Line): boolean {
  return a.name === b.name && a.look === b.look && a.part === b.part;
}

/** The key of the curves: of each line its look, its name and what it says at the cursor. */
import type { Line } from '../../model/curves/lines.ts';
import { html, setText } from '../element.ts';
import { readInk } from '../theme.ts';
import { type Scale, said } from './scale.ts';
import { borderOf, hexColours } from './strokes.ts';

export interface Key {
  readonly element: HTMLTableElement;
  show(lines: readonly Line[]): void;
  /** Writes the values at an angle, degrees after TDC; returns them in words. */
  readAt(deg: number, scale: Scale): string;
}

export function createKey(): Key {
  const element = html('table', { class: 'sw-curves-key', 'aria-label': 'Values at the cursor' });
  let lines: readonly Line[] = [];
  let ink = '';

  return {
    element,
    show(next) {
      const colours = hexColours(readInk());
      const same = next.length === lines.length && next.every((line, k) => isAlike(line, lines[k]!));
      lines = next;
      if (same && ink === colours.lines.join()) return;
      ink = colours.lines.join();
      element.replaceChildren(
        html(
          'tbody',
          {},
          ...lines.map((line) => {
            const swatch = html('span', { class: 'sw-curves-swatch' });
            swatch.style.borderTop = borderOf(line, colours);
            return html('tr', {}, html('td', {}, swatch), html('th', { scope: 'row' }, line.name), html('td', {}));
          }),
        ),
      );
    },
    readAt(deg, scale) {
      const values = lines.map((line) => {
        const { value, exact } = line.at(deg);
        return `${exact || !Number.isFinite(value) ? '' : 'about '}${said(value, scale)}`;
      });
      for (const [n, value] of values.entries()) setText(element.rows[n]!.cells[2]!, value);
      return lines.map(({ name }, n) => `${name} ${values[n]}`).join(', ');
    },
  };
}

function isAlike(a: Line, b: Line): boolean {
  return a.name === b.name && a.look === b.look && a.part === b.part;
}

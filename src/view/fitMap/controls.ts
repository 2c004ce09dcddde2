/** What a map is over: two dimensions, their ranges, how many designs, what the piston does. Plain fields of the page. */
import { endsOf, literalAt } from '../../model/map/axis.ts';
import type { FitMap, FitMapWatcher, MapChoice } from '../../model/map/watcher.ts';
import type { State } from '../../model/state.ts';
import { html } from '../element.ts';

export interface Controls {
  readonly element: HTMLElement;
  readonly show: (now: FitMap, state: State) => void;
  /** With the unit of their literals, for the axes. */
  readonly names: () => readonly [string, string];
  readonly plainNames: () => readonly [string, string];
}

const COUNTS = [16, 32, 64] as const;

export function createControls(watcher: FitMapWatcher): Controls {
  const side = (which: 'a' | 'b', label: string) => {
    const dim = html('select', { 'aria-label': label });
    const from = html('input', { type: 'text', 'aria-label': `${label}, from`, placeholder: 'from', size: '8' });
    const to = html('input', { type: 'text', 'aria-label': `${label}, to`, placeholder: 'to', size: '8' });
    const element = html('div', { class: 'sw-map-side' }, html('span', {}, label), dim, from, to);
    dim.addEventListener('change', () => {
      from.value = '';
      to.value = '';
      choose();
    });
    for (const field of [from, to]) field.addEventListener('change', () => choose());
    return { which, dim, from, to, element };
  };
  const a = side('a', 'Across');
  const b = side('b', 'Upward');
  const cells = html(
    'select',
    { 'aria-label': 'Designs along each side' },
    ...COUNTS.map((count) => html('option', { value: String(count) }, `${count} × ${count} designs`)),
  );
  const held = html('input', { type: 'checkbox' });
  const usual = html('button', { type: 'button', class: 'sw-button' }, 'Usual ranges');
  const element = html(
    'div',
    { class: 'sw-map-controls' },
    a.element,
    b.element,
    html(
      'div',
      { class: 'sw-map-row' },
      cells,
      usual,
      html('label', {}, held, 'Compression height follows, deck clearance stays'),
    ),
  );
  let unit: readonly [string, string] = ['', ''];

  function choose(): void {
    const choice: MapChoice = {
      a: { id: a.dim.value, from: a.from.value.trim(), to: a.to.value.trim() },
      b: { id: b.dim.value, from: b.from.value.trim(), to: b.to.value.trim() },
      cells: Number(cells.value),
      deckHeld: held.checked,
    };
    watcher.choose(choice);
  }
  cells.addEventListener('change', choose);
  held.addEventListener('change', choose);
  usual.addEventListener('click', () => {
    for (const field of [a.from, a.to, b.from, b.to]) field.value = '';
    choose();
  });

  let offered = '';
  function show({ dims, choice, map }: FitMap, { doc }: State): void {
    const key = dims.map((dim) => dim.id).join();
    if (key !== offered) {
      offered = key;
      for (const { dim } of [a, b])
        dim.replaceChildren(...dims.map((each) => html('option', { value: each.id }, sentence(each.name))));
    }
    for (const [field, chosen] of [
      [a, choice.a],
      [b, choice.b],
    ] as const) {
      field.dim.value = chosen.id;
      if (map !== null) [field.from.placeholder, field.to.placeholder] = endsOf(map.spec[field.which]);
    }
    cells.value = String(choice.cells);
    held.checked = choice.deckHeld;
    const unitOf = (id: string): string => {
      const dim = dims.find((each) => each.id === id);
      return dim === undefined ? '' : (/[a-z"°]+\s*$/.exec(literalAt(doc, dim.path))?.[0] ?? '').trim();
    };
    unit = [unitOf(choice.a.id), unitOf(choice.b.id)];
  }
  const said = (select: HTMLSelectElement): string => select.selectedOptions[0]?.textContent ?? '';
  return {
    element,
    show,
    names: () => [`${said(a.dim)}, ${unit[0]}`, `${said(b.dim)}, ${unit[1]}`],
    plainNames: () => [said(a.dim), said(b.dim).toLowerCase()],
  };
}

function sentence(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

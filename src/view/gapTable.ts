/** Every pair of parts as a table: in words and figures what the section shows. A row goes to its closest place. */
import type { Gap } from '../model/results.ts';
import type { State, Store } from '../model/state.ts';
import { html, setText } from './element.ts';
import { certificateWords } from './gapWords.ts';
import { isMoving } from './inView.ts';
import { formatAngleShort, formatGap, formatLength, gapLabel } from './words.ts';

interface Row {
  readonly row: HTMLTableRowElement;
  readonly go: HTMLButtonElement;
  readonly gap: HTMLElement;
  readonly proven: HTMLElement;
  readonly where: HTMLElement;
  readonly limit: HTMLElement;
  readonly mark: HTMLElement;
  at: number;
}

/** Fills `host` with the table; rows stand in the order of the state, worst margin first. */
export function createGapTable(host: HTMLElement, store: Store): { destroy(): void } {
  const heads = ['Between', 'State', 'Smallest gap', 'Limit', 'Where', 'Proven'];
  const body = html('tbody', { role: 'rowgroup' });
  const caption = html('caption');
  const head = html(
    'thead',
    { role: 'rowgroup' },
    html('tr', { role: 'row' }, ...heads.map((text) => html('th', { scope: 'col', role: 'columnheader' }, text))),
  );
  // Roles are said outright, since a narrow pane lays the rows out as blocks.
  const table = html('table', { class: 'sw-gaps', role: 'table' }, caption, head, body);
  host.replaceChildren(html('div', { class: 'sw-gaps-place' }, table));
  const rows = new Map<string, Row>();

  function goTo(id: string): void {
    const row = rows.get(id);
    if (row === undefined) return;
    store.send({ do: 'pick', id });
    store.send({ do: 'turn to', crankAngleRad: row.at });
  }

  function makeRow(id: string): Row {
    const go = html('button', { type: 'button', class: 'sw-gaps-go' });
    const mark = html('span', { class: 'sw-mark sw-inked' });
    const gap = html('td', { class: 'sw-number', role: 'cell' });
    const limit = html('td', { class: 'sw-number', role: 'cell', 'data-before': 'limit ' });
    const where = html('td', { role: 'cell' });
    const proven = html('td', { role: 'cell' });
    const row = html(
      'tr',
      { role: 'row' },
      html('th', { scope: 'row', role: 'rowheader' }, go),
      html('td', { role: 'cell' }, mark),
      gap,
      limit,
      where,
      proven,
    );
    row.addEventListener('click', () => goTo(id));
    return { row, go, gap, proven, where, limit, mark, at: 0 };
  }

  function fill(made: Row, gap: Gap, state: State): void {
    const cylinder = state.engine.cylinders.find((c) => c.number === gap.cylinder);
    made.at = gap.atCrankRad;
    setText(made.go, gapLabel(gap));
    setText(made.gap, `${formatGap(gap, state.units)}${gap.direction === 'axial' ? ' axial' : ''}`);
    setText(made.limit, formatLength(gap.limitMm, state.units));
    setText(
      made.where,
      cylinder ? `${formatAngleShort(gap.atCrankRad, cylinder, gap.periodRad)}, cylinder ${gap.cylinder}` : '',
    );
    setText(made.proven, certificateWords(gap, state.units));
    setText(made.mark, gap.state);
    made.mark.dataset['state'] = gap.state;
  }

  function showPicked(state: State): void {
    for (const [id, made] of rows) {
      const picked = id === state.picked;
      made.row.toggleAttribute('data-picked', picked);
      made.go.setAttribute('aria-pressed', String(picked));
    }
  }

  function show(state: State): void {
    const settled = !isMoving(state);
    const count = (which: Gap['state']) => state.gaps.filter((g) => g.state === which).length;
    setText(
      caption,
      `${state.gaps.length} pairs of parts over the whole turn: ${count('contact')} in contact, ${count('tight')} tight, ` +
        `${count('unproven')} unproven, ${count('clears')} clear.`,
    );
    const wanted: HTMLTableRowElement[] = [];
    const kept = new Set<string>();
    for (const gap of state.gaps) {
      let made = rows.get(gap.id);
      if (made === undefined) {
        made = makeRow(gap.id);
        rows.set(gap.id, made);
      }
      fill(made, gap, state);
      kept.add(gap.id);
      wanted.push(made.row);
    }
    for (const [id, made] of rows) {
      if (kept.has(id)) continue;
      made.row.remove();
      rows.delete(id);
    }
    // Rows change places only when the figures have settled, or when there are other rows: not under the hand.
    const inOrder = body.children.length === wanted.length && wanted.every((row, k) => body.children[k] === row);
    if (!inOrder && (settled || body.children.length !== wanted.length)) {
      const focused = document.activeElement;
      body.replaceChildren(...wanted);
      if (focused instanceof HTMLElement && body.contains(focused)) focused.focus();
    }
    showPicked(state);
  }

  body.addEventListener('keydown', (event) => {
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    const row = event.target instanceof Element ? event.target.closest('tr') : null;
    if (step === 0 || row === null) return;
    const next = step > 0 ? row.nextElementSibling : row.previousElementSibling;
    next?.querySelector('button')?.focus();
    event.preventDefault();
  });

  show(store.state);
  // While a dimension is dragged and its page is put away the table is left as it was.
  const watchShown = new MutationObserver(() => {
    if (!host.hidden) show(store.state);
  });
  watchShown.observe(host, { attributes: true, attributeFilter: ['hidden'] });
  const stop = store.watch((state, changed) => {
    if (host.hidden && isMoving(state)) return;
    if (changed.has('gaps') || changed.has('engine') || changed.has('units')) show(state);
    else if (changed.has('view')) showPicked(state);
  });
  return {
    destroy() {
      stop();
      watchShown.disconnect();
      host.replaceChildren();
    },
  };
}

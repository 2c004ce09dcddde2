/** The sheet for the bench: the places worth measuring, with angle and prediction, and room to write. The browser prints it. */
import { benchRows, isTwoTurns } from '../../model/mockUp/benchRows.ts';
import type { State, Store } from '../../model/state.ts';
import { button, make } from '../make.ts';
import { createSegmented } from '../segmented.ts';
import { lengthText } from '../unitHint.ts';

const CAUTION =
  'Turn by hand, with the bolts torqued, and stop at the first resistance. Predicted gaps are those of the drawing at rest; the limits are the builder’s and the part maker’s to set.';

type Scope = 'one' | 'all';

export function createBenchSheet(store: Store): {
  readonly element: HTMLElement;
  readonly show: (state: State) => void;
} {
  const element = make('section', '', 'sw-mock_bench');
  element.setAttribute('aria-label', 'Sheet for the bench');
  let scope: Scope = 'one';
  const scopes = createSegmented<Scope>(document, 'Cylinders on the sheet', (chosen) => {
    scope = chosen;
    show(store.state);
  });
  const said = make('p', '', 'sw-mock_quiet');
  element.append(
    make('h3', 'Sheet for the bench'),
    said,
    scopes.element,
    button('Print the sheet', () => print()),
  );
  const sheet = make('section', '', 'sw-sheet');
  sheet.setAttribute('aria-hidden', 'true');
  document.body.append(sheet);
  addEventListener('afterprint', () => {
    delete document.body.dataset['print'];
  });

  function print(): void {
    fill(store.state);
    document.body.dataset['print'] = 'bench';
    globalThis.print();
  }

  function rowsOf(state: State): ReturnType<typeof benchRows> {
    return benchRows(state.engine, state.gaps, scope === 'one' ? state.cylinder : null);
  }

  function fill(state: State): void {
    const { doc, assembly, units, engine } = state;
    const table = make('table');
    const head = make('tr');
    for (const text of ['', 'Between', 'Crank at', 'Predicted', 'Limit', 'Measured', 'With']) {
      const cell = make('th', text);
      cell.scope = 'col';
      head.append(cell);
    }
    const rows = rowsOf(state).map(({ gap, cylinder, afterTdcDeg }, k) => {
      const row = make('tr');
      const firing = isTwoTurns(gap.periodRad) ? 'firing ' : '';
      const at = gap.kind === 'deck' ? `TDC ${cylinder}` : `${afterTdcDeg.toFixed(1)}° after ${firing}TDC ${cylinder}`;
      const name = `${gap.between[0]} ${partOf(gap.parts[0], gap.between[0])}· ${gap.between[1]} ${partOf(gap.parts[1], gap.between[1])}`;
      const state = gap.state === 'clears' ? '' : ` (${gap.state})`;
      row.append(
        make('td', String(k + 1)),
        make('td', name.trim()),
        make('td', at),
        make('td', `${lengthText(gap.gapMm, units)}${state}`),
        make('td', lengthText(gap.limitMm, units)),
        make('td'),
        make('td'),
      );
      return row;
    });
    const top = make('thead');
    top.append(head);
    const body = make('tbody');
    body.append(...rows);
    table.append(top, body);
    const turn = engine.mirrored ? 'counterclockwise' : 'clockwise';
    sheet.replaceChildren(
      make('h1', `Mock-up of ${doc.name}: ${assembly}`),
      make(
        'p',
        `In the order in which the crank brings them up, turning ${turn} seen from the front. Date: __________  By: __________`,
      ),
      table,
      make('p', CAUTION),
    );
  }

  function show(state: State): void {
    scopes.element.hidden = state.engine.cylinders.length === 1;
    scopes.show(
      [
        { value: 'one', label: `Cylinder ${state.cylinder}` },
        { value: 'all', label: 'All' },
      ],
      scope,
    );
    const count = rowsOf(state).length;
    said.textContent = `${count} ${count === 1 ? 'place' : 'places'} worth measuring: what is not clear, what has less than twice its limit, and the closest of each kind; with predictions and angles, and room to write.`;
  }

  return { element, show };
}

/** The part that comes closest, where the body's name does not say it already. */
function partOf(part: string, body: string): string {
  return part === '' || body.includes(part) ? '' : `${part} `;
}

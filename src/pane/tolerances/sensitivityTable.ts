/** What moves the gap: a row for each dimension, weightiest first, with its bar to scale and what its tolerance takes. */
import type { State } from '../../model/state.ts';
import type { Sensitivity } from '../../model/tolerances/sensitivity.ts';
import { slopeOf } from '../../model/tolerances/sensitivity.ts';
import { rangeOf } from '../../model/tolerances/stack.ts';
import { button, make } from '../make.ts';
import { lengthText } from '../unitHint.ts';
import { changeBar } from './drawing.ts';
import { changeOf, stepWords } from './words.ts';

/** Rows shown before the rest is asked for. */
const SHOWN_FIRST = 6;

export interface SensitivityTable {
  readonly element: HTMLElement;
  readonly show: (list: readonly Sensitivity[], state: State) => void;
}

export function createSensitivityTable(): SensitivityTable {
  const element = make('div');
  let all = false;

  function show(list: readonly Sensitivity[], state: State): void {
    if (list.length === 0) {
      element.replaceChildren(make('p', 'No dimension of this build moves it.'));
      return;
    }
    const table = make('table', '', 'sw-tol_table');
    const head = make('tr');
    for (const title of ['Dimension', 'One step larger', 'Tolerance takes']) {
      const cell = make('th', title);
      cell.scope = 'col';
      head.append(cell);
    }
    const most = Math.max(...list.flatMap((s) => [Math.abs(s.upMm ?? 0), Math.abs(s.downMm ?? 0)]));
    const body = make('tbody');
    body.append(...(all ? list : list.slice(0, SHOWN_FIRST)).map((s) => row(s, state, most)));
    const top = make('thead');
    top.append(head);
    table.append(top, body);
    element.replaceChildren(table);
    if (list.length > SHOWN_FIRST) {
      const more = button(all ? 'Fewer' : `${list.length - SHOWN_FIRST} more`, () => {
        all = !all;
        show(list, state);
        element.querySelector<HTMLElement>(':scope > button')?.focus();
      });
      more.setAttribute('aria-expanded', String(all));
      element.append(more);
    }
  }
  return { element, show };
}

function row(s: Sensitivity, state: State, most: number): HTMLTableRowElement {
  const made = make('tr');
  const { body, label, text, kind, from, band } = s.variable;
  const name = make('th');
  name.scope = 'row';
  name.append(
    make('span', `${body}, ${label}`),
    make('span', from === 'assumed' ? `${text}, assumed` : text, 'sw-mock_quiet'),
  );
  const { lines, upMm, downMm } = changeOf(s, state.units);
  const change = make('td');
  change.append(
    changeBar(upMm, downMm, slopeOf(s) !== null, most),
    ...lines.map((line) => make('span', line)),
    make('span', `for ${stepWords(kind, state.units)}`, 'sw-mock_quiet'),
  );
  const takes = make('td');
  if (band === null) takes.append(make('span', 'none stated: exact', 'sw-mock_quiet'));
  else {
    const { low } = rangeOf(s);
    takes.append(make('span', lengthText(low === 0 ? 0 : -low, state.units === 'both' ? 'mm' : state.units)));
    if (s.atPlusMm === null || s.atMinusMm === null)
      takes.append(make('span', 'one end can’t be built', 'sw-mock_quiet'));
  }
  made.append(name, change, takes);
  return made;
}

/** The shop's sums as a page: two assemblies side by side, each figure opened to its formula, inputs and source. */

import type { ShelfWatcher } from '../../model/shelf/watcher.ts';
import type { State, Store, Units } from '../../model/state.ts';
import { type Amount, type Compared, compared, type Input, type Sum, sumsOf, written } from '../../model/sums/index.ts';
import { html } from '../element.ts';
import { isMoving } from '../inView.ts';
import { pinCircles } from './pinCircles.ts';
import { planeVectors } from './planeVectors.ts';
import { routes } from './routes.ts';
import { createShelfTable } from './shelfTable.ts';

/** Stands where the grinding steps are described. Common practice, no published source. */
const GRINDING =
  'Grinding hurts: guards shut, eyes covered, nothing loose near wheel or shaft, wheel fit for its speed and its maker’s limits, no dust or mist ' +
  'breathed. Shaft and wheel run on after they are switched off. Follow the rules of the shop and of the machine’s maker.';

/** Sums are done when the hand has rested this long, ms: they are for reading, not for following a drag. */
const RESTED_MS = 120;

export interface SumsPage {
  readonly show: () => void;
  /** Nothing is worked out until it is shown again. */
  readonly hide: () => void;
  readonly destroy: () => void;
}

/** Fills `host` once it is shown. `close` leads back to the section. */
export function createSumsPage(host: HTMLElement, store: Store, shelf: ShelfWatcher, close: () => void): SumsPage {
  const opened = new Set<string>();
  let left: string | null = null;
  let right: string | null = null;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let up = false;

  const back = html('button', { type: 'button', class: 'sw-button' }, 'Back to the section');
  back.addEventListener('click', close);
  const choose = (label: string, take: (name: string) => void): HTMLSelectElement => {
    const made = html('select', { 'aria-label': label });
    made.addEventListener('change', () => {
      take(made.value);
      show(store.state);
    });
    return made;
  };
  const leftChoice = choose('Assembly on the left', (name) => {
    left = name;
  });
  const rightChoice = choose('Assembly on the right', (name) => {
    right = name;
  });
  const caution = html(
    'p',
    { class: 'sw-sums-caution' },
    'Planning aid. Measure the real parts before metal is cut. Figures with “about” are estimates; each says what it leaves out. ' +
      'Crank strength after grinding is for a qualified crankshaft grinder to judge.',
  );
  const body = html('div', { class: 'sw-sums-body' });
  const head = html(
    'header',
    { class: 'sw-sums-head' },
    html('h2', {}, 'Shop sums'),
    html('div', { class: 'sw-sums-which' }, leftChoice, html('span', { 'aria-hidden': 'true' }, '→'), rightChoice),
    back,
  );
  const shelfPlace = html('section', { class: 'sw-sums-group', 'aria-label': 'Rods and pistons to be had' });
  const table = createShelfTable(shelfPlace, store, shelf);
  host.replaceChildren(head, caution, body, shelfPlace);

  function names(state: State): readonly [string, string] {
    const has = (name: string | null): name is string => state.doc.assemblies.some((a) => a.name === name);
    return [has(left) ? left : state.doc.replaced, has(right) ? right : state.doc.proposed];
  }

  function show(state: State): void {
    if (!up || state.refused.length > 0) return;
    const [one, other] = names(state);
    for (const [choice, name] of [
      [leftChoice, one],
      [rightChoice, other],
    ] as const) {
      choice.replaceChildren(...state.doc.assemblies.map((a) => new Option(a.name, a.name, false, a.name === name)));
    }
    const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset['sum'] : undefined;
    const groups = compared(sumsOf(state.doc, one), sumsOf(state.doc, other));
    body.replaceChildren(
      routes(state, [one, other]),
      ...groups.map((group) => groupSection(group, state, [one, other])),
    );
    table.show(other);
    if (focused !== undefined) body.querySelector<HTMLElement>(`[data-sum="${CSS.escape(focused)}"]`)?.focus();
  }

  function groupSection(group: Compared, state: State, [one, other]: readonly [string, string]): HTMLElement {
    const rows = group.rows.flatMap((row) => rowsOf(row, state.units));
    const columns = ['Sum', one, other, 'Change'];
    const table = html(
      'table',
      { class: 'sw-sums-table' },
      html('caption', { class: 'sw-sums-spoken' }, `${group.title}: ${one} and ${other}`),
      html(
        'thead',
        { class: 'sw-sums-columns' },
        html('tr', {}, ...columns.map((text) => html('th', { scope: 'col' }, text))),
      ),
      html('tbody', { class: 'sw-sums-rows' }, ...rows),
    );
    const drawing =
      group.title === 'Offset grind'
        ? pinCircles(state.doc, other, state.units)
        : group.title === 'Balance'
          ? planeVectors(group, state.units)
          : null;
    return html(
      'section',
      { class: 'sw-sums-group' },
      html('h3', {}, group.title),
      ...(group.title === 'Offset grind' ? [html('p', { class: 'sw-sums-caution' }, GRINDING)] : []),
      ...(drawing === null ? [] : [drawing]),
      table,
    );
  }

  function rowsOf(row: Compared['rows'][number], units: Units): HTMLTableRowElement[] {
    const { key, replaced, proposed, difference } = row;
    const shown = (proposed ?? replaced)!;
    const open = opened.has(key);
    const name = html(
      'button',
      { type: 'button', class: 'sw-sums-name', 'aria-expanded': String(open), 'data-sum': key },
      capital(shown.name),
    );
    const explained = html('tr', { class: 'sw-sums-explained' }, html('td', { colspan: '4' }));
    explained.hidden = !open;
    const fill = (): void => {
      explained.firstElementChild!.replaceChildren(explanation(row, units));
    };
    if (open) fill();
    name.addEventListener('click', () => {
      const now = !opened.delete(key);
      if (now) {
        opened.add(key);
        fill();
      }
      explained.hidden = !now;
      name.setAttribute('aria-expanded', String(now));
    });
    const change = difference === null || difference.value.isZero() ? '' : written(difference, units, true);
    return [
      html(
        'tr',
        { class: 'sw-sums-row' },
        html('th', { scope: 'row' }, name),
        html('td', { 'data-before': 'Replaced' }, ...cell(replaced, units)),
        html('td', { 'data-before': 'Proposed' }, ...cell(proposed, units)),
        html('td', { 'data-before': 'Change' }, change),
      ),
      explained,
    ];
  }

  const stop = store.watch((state, changed) => {
    if (!up || !(changed.has('document') || changed.has('engine') || changed.has('units'))) return;
    clearTimeout(waiting);
    if (!isMoving(state)) waiting = setTimeout(() => show(store.state), RESTED_MS);
    else waiting = setTimeout(() => show(store.state), 2 * RESTED_MS);
  });
  return {
    show: () => {
      up = true;
      show(store.state);
    },
    hide: () => {
      up = false;
      clearTimeout(waiting);
    },
    destroy: () => {
      clearTimeout(waiting);
      stop();
      host.replaceChildren();
    },
  };
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What a sum comes to: the amount with what qualifies it, or what stands in its way. */
function cell(sum: Sum | null, units: Units): (Node | string)[] {
  if (sum === null) return [html('span', { class: 'sw-sums-none' }, '–')];
  if (sum.refused !== null) return [html('span', { class: 'sw-sums-word' }, `can’t be done: ${sum.refused}`)];
  if (sum.amount === null) return [html('span', { class: 'sw-sums-lacks' }, `needs ${sum.lacks.join(', ')}`)];
  const about = sum.estimate === undefined || sum.amount.value.isZero() ? '' : 'about ';
  const word = (text: string, caution: boolean): HTMLElement =>
    html('span', { class: caution ? 'sw-sums-word' : 'sw-sums-lacks' }, text);
  return [
    html('span', { class: 'sw-sums-amount' }, about + written(sum.amount, units)),
    ...(sum.guide === undefined || sum.guide.state === 'within'
      ? []
      : [word(`${sum.guide.state} the usual range`, true)]),
    ...(sum.remark === undefined ? [] : [word(sum.remark.words, sum.remark.caution)]),
  ];
}

function explanation(row: Compared['rows'][number], units: Units): HTMLElement {
  const shown = (row.proposed ?? row.replaced)!;
  const entries: (readonly [string, string])[] = [['Formula', shown.formula]];
  const inputs = html(
    'table',
    { class: 'sw-sums-inputs' },
    html(
      'thead',
      {},
      html('tr', {}, ...['From', 'Replaced', 'Proposed'].map((text) => html('th', { scope: 'col' }, text))),
    ),
    html(
      'tbody',
      {},
      ...inputNames(row).map((name) =>
        html(
          'tr',
          {},
          html('th', { scope: 'row' }, name),
          html(
            'td',
            {},
            inputText(
              row.replaced?.inputs.find((i) => i.name === name),
              units,
            ),
          ),
          html(
            'td',
            {},
            inputText(
              row.proposed?.inputs.find((i) => i.name === name),
              units,
            ),
          ),
        ),
      ),
    ),
  );
  if (shown.guide !== undefined) entries.push(['Usual', guideText(shown, units)]);
  if (shown.estimate !== undefined) entries.push(['Left out', shown.estimate]);
  entries.push(['Source', shown.source]);
  return html(
    'div',
    {},
    html('dl', {}, ...entries.flatMap(([term, said]) => [html('dt', {}, term), html('dd', {}, said)])),
    inputs,
  );
}

function inputNames(row: Compared['rows'][number]): string[] {
  return [...new Set([...(row.replaced?.inputs ?? []), ...(row.proposed?.inputs ?? [])].map((i) => i.name))];
}

function inputText(input: Input | undefined, units: Units): string {
  if (input === undefined) return '';
  if (input.dim !== undefined) return `${input.dim.value}, ${input.dim.from}`;
  return input.amount === undefined ? 'not stated' : written(input.amount, units);
}

function guideText(sum: Sum, units: Units): string {
  const { guide, amount } = sum;
  if (guide === undefined || amount === null) return '';
  const bound = (value: Amount['value']): string => written({ as: amount.as, value }, units);
  const range =
    guide.low === null
      ? `up to ${bound(guide.high!)}`
      : guide.high === null
        ? `from ${bound(guide.low)}`
        : `${bound(guide.low)} to ${bound(guide.high)}`;
  return `${range}: ${guide.source}. A guide, not a law.`;
}

/** Clearances that are one figure each, below the gaps over the turn: side clearance, quench, skirt, overlaps. Alike ones share a row. */
import { type Alike, alike, placesText } from '../model/scalarPlaces.ts';
import { scalarsOf } from '../model/scalars.ts';
import type { State, Store } from '../model/state.ts';
import { html } from './element.ts';
import { isMoving } from './inView.ts';
import { formatLength } from './words.ts';
import './scalarTable.css';

/** Fills `host`; while it is hidden, or a control moves, nothing is worked out. */
export function createScalarTable(host: HTMLElement, store: Store): { destroy(): void } {
  const list = html('ul', { class: 'sw-scalars-list' });
  host.replaceChildren(
    html(
      'section',
      { class: 'sw-scalars', 'aria-label': 'Single figures' },
      html('h3', {}, 'Clearances that are one figure'),
      list,
    ),
  );
  let of: State['engine'] | null = null;
  let units: State['units'] | null = null;

  function show(state: State): void {
    if (host.closest('[hidden]') !== null || isMoving(state)) return;
    if (state.engine === of && state.units === units) return;
    of = state.engine;
    units = state.units;
    list.replaceChildren(...alike(scalarsOf(state.doc, state.engine)).map((each) => row(each, state)));
  }

  show(store.state);
  const watchShown = new MutationObserver(() => show(store.state));
  watchShown.observe(host, { attributes: true, attributeFilter: ['hidden'] });
  const stop = store.watch((state, changed) => {
    if (state.refused.length > 0) return;
    if (changed.has('gaps') || changed.has('engine') || changed.has('units')) show(state);
  });
  return {
    destroy() {
      stop();
      watchShown.disconnect();
      host.replaceChildren();
    },
  };
}

function row({ scalar, places }: Alike, { units }: State): HTMLElement {
  const where = placesText(places);
  const mark =
    scalar.state === undefined
      ? []
      : [html('span', { class: 'sw-mark sw-inked', 'data-state': scalar.state }, scalar.state)];
  const guide =
    scalar.guideMm === null
      ? scalar.guideSource === ''
        ? ''
        : `See: ${scalar.guideSource}.`
      : `At least ${formatLength(scalar.guideMm, units)}: ${scalar.guideSource}.`;
  const assumed = scalar.assumed.length === 0 ? '' : `Rests on assumed: ${scalar.assumed.join(', ')}.`;
  return html(
    'li',
    {},
    html(
      'p',
      { class: 'sw-scalars-head' },
      html('span', {}, scalar.name, where === '' ? '' : html('span', { class: 'sw-scalars-where' }, ` ${where}`)),
      html('span', { class: 'sw-number' }, formatLength(scalar.valueMm, units)),
      ...mark,
    ),
    html('p', { class: 'sw-scalars-note' }, [scalar.note, guide, assumed].filter((t) => t !== '').join(' ')),
  );
}

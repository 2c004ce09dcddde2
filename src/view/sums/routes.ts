/** The work on the crankshaft and the parts of two assemblies. */
import type { State } from '../../model/state.ts';
import { routeOf } from '../../model/sums/index.ts';
import { html } from '../element.ts';

/** What is to be done and bought for each of the two, side by side. */
export function routes(state: State, names: readonly [string, string]): HTMLElement {
  const columns = names.map((name) => {
    const { route, operations, parts } = routeOf(state.doc, name, state.units);
    const list = (tag: 'ol' | 'ul', entries: readonly string[], none: string): HTMLElement =>
      entries.length === 0
        ? html('p', { class: 'sw-sums-lacks' }, none)
        : html(tag, {}, ...entries.map((e) => html('li', {}, e)));
    return html(
      'div',
      {},
      html('h4', {}, name),
      html('p', { class: 'sw-sums-lacks' }, route),
      html('h5', {}, 'Work on the crankshaft, in this order'),
      list('ol', operations, 'None: the crankshaft is used as it is.'),
      html('h5', {}, 'Parts'),
      list('ul', parts, 'Those that are there.'),
    );
  });
  return html(
    'section',
    { class: 'sw-sums-group' },
    html('h3', {}, 'Routes'),
    html('div', { class: 'sw-sums-routes' }, ...columns),
  );
}

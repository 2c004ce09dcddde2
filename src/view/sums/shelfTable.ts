/** Rods and pistons that can be had, each with each: deck clearance, worst gap, and the way to take a pair. */
import type { ShelfWatcher } from '../../model/shelf/watcher.ts';
import type { Store, Units } from '../../model/state.ts';
import { html } from '../element.ts';
import { formatLength } from '../words.ts';

/** Fills `host` for the assembly last looked at; empty while the shop's list is. */
export function createShelfTable(
  host: HTMLElement,
  store: Store,
  shelf: ShelfWatcher,
): { show(assembly: string): void } {
  function draw(): void {
    const { combinations, judged, assembly, failed } = shelf.state;
    if (combinations.length === 0) {
      host.replaceChildren();
      return;
    }
    const { units } = store.state;
    const rows = combinations.map((c, k) => {
      const take = html(
        'button',
        { type: 'button', class: 'sw-button', 'aria-label': `Take ${c.rod} with ${c.piston}` },
        'Take',
      );
      take.addEventListener('click', () => store.send({ do: 'set dimensions', changes: c.changes }));
      const deck = c.deckClearanceMm === null ? 'not known' : formatLength(c.deckClearanceMm, units);
      return html(
        'tr',
        { class: 'sw-sums-row' },
        html(
          'th',
          { scope: 'row' },
          html('span', {}, c.rod),
          html('span', { class: 'sw-sums-lacks' }, [c.piston, ...c.prices].join(' · ')),
        ),
        html('td', { 'data-before': 'Deck' }, deck),
        html('td', { 'data-before': 'Worst gap' }, ...worst(c.misfit, judged[k] ?? null, units)),
        html('td', { 'data-before': '' }, take),
      );
    });
    host.replaceChildren(
      html('h3', {}, `Rods and pistons to be had, for ${assembly}`),
      html(
        'p',
        { class: 'sw-sums-caution' },
        'Closest to the wanted deck clearance first. Every gap of each pair is certified on its own; outlines that the list does not state stay as they are.',
      ),
      ...(failed === null ? [] : [html('p', { class: 'sw-sums-word' }, `Could not be judged: ${failed}`)]),
      html(
        'table',
        { class: 'sw-sums-table' },
        html('caption', { class: 'sw-sums-spoken' }, 'Rods and pistons to be had'),
        html(
          'thead',
          { class: 'sw-sums-columns' },
          html(
            'tr',
            {},
            ...['Rod and piston', 'Deck clearance', 'Worst gap', 'Choose'].map((t) => html('th', { scope: 'col' }, t)),
          ),
        ),
        html('tbody', { class: 'sw-sums-rows' }, ...rows),
      ),
    );
  }

  shelf.watch(draw);
  return {
    show: (assembly) => {
      shelf.look(assembly);
      draw();
    },
  };
}

function worst(
  misfit: string | null,
  judged: ShelfWatcher['state']['judged'][number],
  units: Units,
): (Node | string)[] {
  if (misfit !== null) return [html('span', { class: 'sw-sums-word' }, `does not go together: ${misfit}`)];
  if (judged === null) return [html('span', { class: 'sw-sums-lacks' }, 'being judged …')];
  if (judged.refused !== null) return [html('span', { class: 'sw-sums-word' }, `can’t be built: ${judged.refused}`)];
  const { worst: gap } = judged;
  if (gap === null) return ['–'];
  const mark = html('span', { class: 'sw-mark sw-inked', 'data-state': gap.state }, gap.state);
  return [
    html('span', {}, mark, ` ${formatLength(gap.gapMm, units)}`),
    html('span', { class: 'sw-sums-lacks' }, `${gap.between.join(' · ')}, limit ${formatLength(gap.limitMm, units)}`),
  ];
}

/** All that the shop's sums are given: which assembly, its dimensions for the sums, choices, lists. */
import type { Store } from '../model/state.ts';
import './entries.css';
import { SHOP_FIELDS } from './fieldsShop.ts';
import { createPane } from './pane.ts';
import { createShopLists } from './shopLists.ts';

/** Fills `host`; `destroy` empties it and stops watching. */
export function createShopFigures(host: HTMLElement, store: Store): { destroy(): void } {
  const doc = host.ownerDocument;
  const label = doc.createElement('label');
  label.className = 'sw-entry_row sw-entry_which';
  const which = doc.createElement('select');
  which.addEventListener('change', () => store.send({ do: 'show assembly', name: which.value }));
  label.append('Of the assembly', which);
  const show = (): void => {
    const { doc: build, assembly } = store.state;
    which.replaceChildren(...build.assemblies.map((a) => new Option(a.name, a.name, false, a.name === assembly)));
  };
  show();
  const stop = store.watch((_, changed) => {
    if (changed.has('document') || changed.has('view')) show();
  });
  host.append(label);
  const pane = createPane(host, store, SHOP_FIELDS);
  const lists = createShopLists(host, store);
  return {
    destroy() {
      stop();
      pane.destroy();
      lists.destroy();
      label.remove();
    },
  };
}

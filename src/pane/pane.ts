/**
 * The control pane: everything by which a build is changed, beside the picture. It shows the store's state and sends
 * commands; it holds nothing but what is being typed.
 */
import { Pane } from 'tweakpane';
import type { Changed, State, Store } from '../model/state.ts';
import { DimensionPlugin } from './dimensionPlugin.ts';
import { createDimensionRows } from './dimensionRows.ts';
import './pane.css';
import { createPaneHead } from './paneHead.ts';

/** What the pane shows depends on these; the crank angle isn't among them. */
const SHOWN: readonly Changed[] = ['document', 'engine', 'view', 'units'];

const KEYS =
  'Arrow keys and the grip step, Page keys ten steps; with Alt finer, with Shift coarser. Enter takes, Escape restores.';

/** Fills `host` with the pane of a store; `destroy` empties it and stops watching. */
export function createPane(host: HTMLElement, store: Store): { destroy(): void } {
  const doc = host.ownerDocument;
  const root = doc.createElement('section');
  root.className = 'sw-control';
  root.setAttribute('aria-label', 'Dimensions');
  const body = doc.createElement('div');
  body.className = 'sw-control_body';
  // What a screen reader is told at each field; here for the eye.
  const foot = doc.createElement('p');
  foot.className = 'sw-control_foot';
  foot.textContent = KEYS;

  const head = createPaneHead(doc, store);
  const pane = new Pane({ container: body, document: doc });
  pane.registerPlugin({ id: 'dimension', plugins: [DimensionPlugin] });
  const rows = createDimensionRows(pane, store, (hint) => {
    foot.textContent = hint ?? KEYS;
  });
  root.append(head.element, body, foot);
  host.append(root);

  function show(state: State): void {
    head.show(state, rows.show(state));
  }
  show(store.state);
  const unwatch = store.watch((state, changed) => {
    if (SHOWN.some((one) => changed.has(one))) show(state);
  });

  return {
    destroy() {
      unwatch();
      pane.dispose();
      root.remove();
    },
  };
}

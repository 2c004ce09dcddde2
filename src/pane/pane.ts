/**
 * The control pane: everything by which a build is changed, beside the picture. It shows the store's state and sends
 * commands; it holds nothing but what is being typed.
 */
import { Pane } from 'tweakpane';
import type { Changed, State, Store } from '../model/state.ts';
import { DimensionPlugin } from './dimensionPlugin.ts';
import { createDimensionRows } from './dimensionRows.ts';
import { type FieldSet, PART_FIELDS } from './fields.ts';
import './pane.css';
import { createPaneHead } from './paneHead.ts';

/** What the pane shows depends on these; the crank angle isn't among them. */
const SHOWN: readonly Changed[] = ['document', 'engine', 'view', 'units'];

const KEYS =
  'Arrow keys and the grip step, Page keys ten steps; with Alt finer, with Shift coarser. Enter takes, Escape restores.';

/** Fills `host` with the pane of a store, that of the parts unless another set of fields is given; `destroy` empties it and stops watching. */
export function createPane(host: HTMLElement, store: Store, set: FieldSet = PART_FIELDS): { destroy(): void } {
  const doc = host.ownerDocument;
  const root = doc.createElement('section');
  root.className = 'sw-control';
  root.setAttribute('aria-label', set.label);
  const body = doc.createElement('div');
  body.className = 'sw-control_body';
  // What a screen reader is told at each field; here for the eye.
  const foot = doc.createElement('p');
  foot.className = 'sw-control_foot';
  foot.textContent = KEYS;

  const head = set === PART_FIELDS ? createPaneHead(doc, store) : null;
  const pane = new Pane({ container: body, document: doc });
  pane.registerPlugin({ id: 'dimension', plugins: [DimensionPlugin] });
  const rows = createDimensionRows(pane, store, set, (hint) => {
    foot.textContent = hint ?? KEYS;
  });
  if (head !== null) root.append(head.element);
  root.append(body, foot);
  host.append(root);

  function show(state: State): void {
    const unclaimed = rows.show(state);
    head?.show(state, unclaimed);
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

/** The top of the pane: which build, which assembly, which cylinder, what is held, units, undo, and what is refused elsewhere. */
import { type Problem, problemSentence } from '../build/problem.ts';
import type { Held, State, Store, Units } from '../model/state.ts';
import { createSegmented, type Segment } from './segmented.ts';
import { lengthText } from './unitHint.ts';

export interface PaneHead {
  readonly element: HTMLElement;
  /** `elsewhere`: the refused places that no field of the pane shows. */
  readonly show: (state: State, elsewhere: readonly Problem[]) => void;
}

const HELD: readonly Segment<Held>[] = [
  { value: 'piston', label: 'Piston' },
  { value: 'deck clearance', label: 'Deck clearance' },
];

const UNITS: readonly Segment<Units>[] = [
  { value: 'in', label: 'in' },
  { value: 'mm', label: 'mm' },
  { value: 'both', label: 'both' },
];

export function createPaneHead(doc: Document, store: Store): PaneHead {
  const element = doc.createElement('header');
  element.className = 'sw-control_head';
  const name = doc.createElement('h2');
  const note = doc.createElement('details');
  note.className = 'sw-control_note';
  const noteTitle = doc.createElement('summary');
  noteTitle.textContent = 'About this build';
  const noteText = paragraph(doc, 'sw-control_line');
  note.append(noteTitle, noteText);
  const assembly = createSegmented<string>(doc, 'Assembly', (chosen) =>
    store.send({ do: 'show assembly', name: chosen }),
  );
  const route = paragraph(doc, 'sw-control_line');
  const cylinder = createSegmented<number>(doc, 'Cylinder in view', (chosen) =>
    store.send({ do: 'show cylinder', number: chosen }),
  );
  const held = createSegmented<Held>(doc, 'What is held', (chosen) => store.send({ do: 'hold', held: chosen }));
  const outcome = paragraph(doc, 'sw-control_line');
  outcome.setAttribute('aria-live', 'polite');
  const units = createSegmented<Units>(doc, 'Units', (chosen) => store.send({ do: 'show units', units: chosen }));
  const undo = stepButton(doc, 'Undo', () => store.send({ do: 'undo' }));
  const redo = stepButton(doc, 'Redo', () => store.send({ do: 'redo' }));
  const tools = doc.createElement('div');
  tools.className = 'sw-control_tools';
  const steps = doc.createElement('div');
  steps.className = 'sw-control_steps';
  steps.append(undo, redo);
  tools.append(units.element, steps);
  const refused = doc.createElement('ul');
  refused.className = 'sw-control_refused';
  const refusedRegion = doc.createElement('div');
  refusedRegion.setAttribute('aria-live', 'polite');
  refusedRegion.append(refused);
  element.append(name, note, assembly.element, route, cylinder.element, held.element, outcome, tools, refusedRegion);

  return {
    element,
    show(state, elsewhere) {
      setText(name, state.doc.name);
      setText(noteText, state.doc.note ?? '');
      note.hidden = state.doc.note === undefined;
      assembly.show(
        state.doc.assemblies.map((one) => ({ value: one.name, label: assemblyLabel(one.name, state) })),
        state.assembly,
      );
      setText(route, state.doc.assemblies.find((one) => one.name === state.assembly)?.route ?? '');
      cylinder.show(
        state.engine.cylinders.map((one) => ({ value: one.number, label: String(one.number) })),
        state.cylinder,
      );
      cylinder.element.hidden = state.engine.cylinders.length < 2;
      held.show(HELD, state.held);
      setText(outcome, outcomeText(state));
      units.show(UNITS, state.units);
      undo.setAttribute('aria-disabled', String(!state.canUndo));
      redo.setAttribute('aria-disabled', String(!state.canRedo));
      showRefused(refused, elsewhere);
    },
  };
}

/** The one being replaced is "as it was", whatever the shop calls it. */
function assemblyLabel(name: string, state: State): string {
  return name === state.doc.replaced && name !== 'as it was' ? `${name} (as it was)` : name;
}

/** The quantity that follows from what is held. While the document is refused the figures are of the last one that could be built. */
function outcomeText(state: State): string {
  const { deckClearanceMm, compressionHeightMm } = state.figures;
  const follows =
    state.held === 'piston'
      ? `Result: deck clearance ${lengthText(deckClearanceMm, state.units)}`
      : `Follows: compression height ${lengthText(compressionHeightMm, state.units)}`;
  return state.refused.length === 0 ? follows : `${follows}, from the last values that could be built`;
}

/** Kept focusable while there is nothing to undo, so that the focus stays where the hand is. */
function stepButton(doc: Document, text: string, press: () => void): HTMLButtonElement {
  const button = doc.createElement('button');
  button.type = 'button';
  button.className = 'sw-button';
  button.textContent = text;
  button.addEventListener('click', () => {
    if (button.getAttribute('aria-disabled') !== 'true') press();
  });
  return button;
}

function showRefused(list: HTMLUListElement, problems: readonly Problem[]): void {
  const sentences = problems.map(problemSentence);
  const shown = Array.from(list.children, (item) => item.textContent);
  if (sentences.length === shown.length && sentences.every((sentence, k) => sentence === shown[k])) return;
  list.hidden = sentences.length === 0;
  list.replaceChildren(
    ...sentences.map((sentence) => {
      const item = list.ownerDocument.createElement('li');
      item.textContent = sentence;
      return item;
    }),
  );
}

function paragraph(doc: Document, className: string): HTMLParagraphElement {
  const element = doc.createElement('p');
  element.className = className;
  return element;
}

/** Only where it differs, so that live regions speak of changes alone. */
function setText(element: HTMLElement, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

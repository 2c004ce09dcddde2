/**
 * The folders and their rows of dimensions: what each row shows for a state, and the mends by which a keyboard and a screen
 * reader find their way (names and descriptions of fields, folders that say whether they are open).
 *
 * The pane's bindings hold a mirror of the document, never the state: an edit becomes a command, and the mirror is filled
 * again from the state that comes back.
 */
import type { FolderApi, TpChangeEvent } from '@tweakpane/core';
import type { Pane } from 'tweakpane';
import type { BuildDocument, Dim } from '../build/document.ts';
import { DEFAULT_LIMITS } from '../build/limits.ts';
import type { LiteralKind } from '../build/literal.ts';
import type { Problem } from '../build/problem.ts';
import type { State, Store } from '../model/state.ts';
import { dimAt, isThere, problemsAt, reasonText } from './dimAt.ts';
import { DimensionController, type Surroundings } from './dimensionController.ts';
import type { Field, FieldSet } from './fields.ts';
import { ownNotes } from './ownValues.ts';
import { unitHint } from './unitHint.ts';

export interface DimensionRows {
  /** Fills every row from the state; gives back the problems that no visible row shows. */
  readonly show: (state: State) => readonly Problem[];
}

interface Row {
  readonly field: Field;
  readonly control: DimensionController;
  readonly refresh: () => void;
  readonly setHidden: (hidden: boolean) => void;
}

interface Folder {
  readonly name: string;
  readonly api: FolderApi;
  readonly rows: readonly Row[];
}

/** A bare number typed into a field that is still empty takes this unit; lengths go by the units on show. */
const FORMER_WHEN_EMPTY: Readonly<Record<LiteralKind, string>> = {
  length: '0.000 in',
  angle: '0 deg',
  speed: '0 rpm',
  mass: '0 g',
  volume: '0 cc',
  area: '0 mm2',
  stress: '0 GPa',
  viscosity: '0 mPa s',
  temperature: '0 K',
  expansion: '0 ppm/K',
};

/** `describe` is told the hint of the row under the hand, and null when the hand leaves. */
export function createDimensionRows(
  pane: Pane,
  store: Store,
  set: FieldSet,
  describe: (hint: string | null) => void,
): DimensionRows {
  const mirror: Record<string, string> = {};
  /** While the mirror is being filled, changes of bindings are no edits. */
  let filling = false;
  let assembly = store.state.assembly;

  const folders: readonly Folder[] = set.folders.map((name) => {
    const api = pane.addFolder({ title: name, expanded: set.openAtFirst.has(name) });
    mendFolder(api);
    return { name, api, rows: set.fields.filter((field) => field.folder === name).map((field) => makeRow(api, field)) };
  });

  function makeRow(folder: FolderApi, field: Field): Row {
    mirror[field.id] = literalShown(store.state.doc, indexOfAssembly(store.state), field);
    const binding = folder.addBinding(mirror, field.id, {
      view: 'dimension',
      label: field.label,
      formerWhenEmpty: FORMER_WHEN_EMPTY[field.kind],
      mayBeEmpty: mayBeEmpty(field),
    });
    const control = binding.controller.valueController;
    if (!(control instanceof DimensionController)) throw new TypeError(`${field.id} has no control for dimensions`);
    binding.on('change', (event: TpChangeEvent<unknown>) => {
      if (filling) return;
      const path = field.path(indexOfAssembly(store.state));
      const text = String(event.value);
      if (text === '') store.send({ do: 'clear dimension', path });
      else store.send({ do: 'set dimension', path, text, last: event.last });
      if (event.last) show(store.state);
    });
    mendRow(binding.element, control, field, describe);
    return {
      field,
      control,
      refresh: () => binding.refresh(),
      setHidden: (hidden) => {
        if (binding.hidden !== hidden) binding.hidden = hidden;
      },
    };
  }

  function show(state: State): readonly Problem[] {
    const index = indexOfAssembly(state);
    const otherAssembly = state.assembly !== assembly;
    assembly = state.assembly;
    const claimed = new Set<Problem>();
    for (const folder of folders) {
      let visible = 0;
      let refused = 0;
      for (const row of folder.rows) {
        const hidden = isLeftOut(state.doc, index, row.field);
        row.setHidden(hidden);
        if (hidden) continue;
        visible += 1;
        const problems = problemsAt(state.refused, row.field.path(index));
        for (const problem of problems) claimed.add(problem);
        if (problems.length > 0) refused += 1;
        row.control.surround(surroundings(state, index, row.field, problems));
        if (row.control.busy) continue;
        mirror[row.field.id] = literalShown(state.doc, index, row.field);
        filling = true;
        row.refresh();
        filling = false;
        if (otherAssembly) row.control.dropDraft();
      }
      if (folder.api.hidden !== (visible === 0)) folder.api.hidden = visible === 0;
      const title = refused === 0 ? folder.name : `${folder.name} · ${refused} refused`;
      if (folder.api.title !== title) folder.api.title = title;
    }
    return state.refused.filter((problem) => !claimed.has(problem));
  }

  return { show };
}

/** Emptied, a limit goes back to its default, and what may be left out is left out. */
function mayBeEmpty(field: Field): boolean {
  return field.addable === true || field.folder === 'Limits';
}

function indexOfAssembly(state: State): number {
  const index = state.doc.assemblies.findIndex((one) => one.name === state.assembly);
  if (index < 0) throw new RangeError(`No assembly is called ${state.assembly}`);
  return index;
}

/** Whole parts that an engine may lack: their fields go; what a part that is there may have besides, limits and the allowance stay, to be stated. */
function isLeftOut(doc: BuildDocument, assembly: number, field: Field): boolean {
  const path = field.path(assembly);
  if ((field.folder !== 'Camshaft' && field.folder !== 'Valves') || dimAt(doc, path) !== null) return false;
  return field.addable === undefined || !isThere(doc, path.slice(0, -1));
}

/** The literal as the document has it; for a limit that it leaves out, the default; else empty. */
function literalShown(doc: BuildDocument, assembly: number, field: Field): string {
  const dim = dimAt(doc, field.path(assembly));
  if (dim !== null) return dim.value;
  return field.limit === undefined ? '' : DEFAULT_LIMITS[field.limit].value;
}

function surroundings(state: State, index: number, field: Field, problems: readonly Problem[]): Surroundings {
  const path = field.path(index);
  const dim = dimAt(state.doc, path);
  const first = problems[0];
  return {
    hint: unitHint(literalShown(state.doc, index, field), state.units),
    origin: originText(dim, field),
    assumed: dim?.from === 'assumed',
    refusal: first === undefined ? null : reasonText(first.value, first.allowed),
    notes: [...heldNotes(state, field), ...ownNotes(state.doc.assemblies[index]!, path)],
  };
}

function heldNotes(state: State, field: Field): readonly string[] {
  if (field.id !== 'piston.compressionHeight' || state.held !== 'deck clearance') return [];
  return ['follows stroke and rod length: deck clearance is held'];
}

function originText(dim: Dim | null, field: Field): string {
  if (dim !== null) return dim.from;
  return field.limit === undefined ? 'none stated' : 'default';
}

/** The label names the field, the text under it describes it. */
function mendRow(
  row: HTMLElement,
  control: DimensionController,
  field: Field,
  describe: (hint: string | null) => void,
): void {
  const label = row.querySelector('.tp-lblv_l');
  if (label === null) throw new TypeError(`${field.id} has no label`);
  const name = row.ownerDocument.createElement('label');
  name.id = `${control.meta.id}-name`;
  name.className = 'sw-dim_name';
  name.textContent = field.label;
  control.input.id = `${control.meta.id}-field`;
  name.htmlFor = control.input.id;
  label.replaceChildren(name, control.meta);
  control.input.setAttribute('aria-labelledby', name.id);
  const hint = row.ownerDocument.createElement('span');
  hint.id = `${control.meta.id}-hint`;
  hint.hidden = true;
  hint.textContent = hintText(field);
  row.append(control.notes, control.reason, hint);
  const described = control.input.getAttribute('aria-describedby') ?? '';
  control.input.setAttribute('aria-describedby', `${described} ${hint.id}`.trim());
  row.addEventListener('focusin', () => describe(hintText(field)));
  row.addEventListener('focusout', () => describe(null));
}

/** With a limit goes what the default is and where it comes from, so that a limit set by the shop can be set beside it. */
function hintText(field: Field): string {
  if (field.limit === undefined) return field.hint;
  const { value, source, note } = DEFAULT_LIMITS[field.limit];
  return `${field.hint} ${note} Default ${value}: ${source}.`;
}

function mendFolder(folder: FolderApi): void {
  const button = folder.element.querySelector('.tp-fldv_b');
  if (button === null) throw new TypeError(`${folder.title} has no button`);
  button.setAttribute('aria-expanded', String(folder.expanded));
  folder.on('fold', (event) => {
    if (event.target === folder) button.setAttribute('aria-expanded', String(event.expanded));
  });
}

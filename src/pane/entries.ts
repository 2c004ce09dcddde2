/**
 * A list in the build document, entry by entry: text, choices, whole numbers and dimensions, added and taken out. Each change
 * is one command and one step to undo; a text that can't be read stays in its field with the reason.
 */
import type { Dim } from '../build/document.ts';
import { type LiteralKind, parseTyped } from '../build/literal.ts';
import type { DimPath, State, Store } from '../model/state.ts';
import { placeOf, reasonText } from './dimAt.ts';

export type Cell =
  | { readonly is: 'dimension'; readonly kind: LiteralKind; readonly former: string; readonly optional: boolean }
  | { readonly is: 'text'; readonly optional: boolean }
  | { readonly is: 'choice'; readonly among: readonly string[] }
  | { readonly is: 'number'; readonly least: number; readonly most: number; readonly optional: boolean };

export interface Column {
  readonly key: string;
  readonly label: string;
  readonly cell: Cell;
}

export type Entry = Readonly<Record<string, unknown>>;

export interface EntryList {
  readonly title: string;
  readonly hint: string;
  readonly addLabel: string;
  readonly path: (assembly: number) => DimPath;
  readonly columns: readonly Column[];
  readonly nameOf: (entry: Entry) => string;
  /** A new entry, one that the rules accept. */
  readonly fresh: (state: State, entries: readonly Entry[]) => Entry;
}

let serial = 0;

/** One field for a value of an entry; `set` is told what is to stand there, undefined for nothing. */
export function entryField(doc: Document, column: Column, value: unknown, set: (value: unknown) => void): HTMLElement {
  serial += 1;
  const row = doc.createElement('div');
  row.className = 'sw-entry_row';
  const label = doc.createElement('label');
  label.textContent = column.label;
  const { cell } = column;
  const input = doc.createElement(cell.is === 'choice' ? 'select' : 'input');
  input.id = `sw-entry-${serial}`;
  label.htmlFor = input.id;
  const reason = doc.createElement('p');
  reason.className = 'sw-dim_reason';
  reason.id = `${input.id}-reason`;
  reason.hidden = true;
  input.setAttribute('aria-describedby', reason.id);
  if (cell.is === 'choice') {
    for (const one of cell.among) (input as HTMLSelectElement).add(new Option(one === '' ? 'not stated' : one, one));
  }
  const shown = shownOf(value);
  input.value = shown;
  const refuse = (text: string): void => {
    reason.textContent = text;
    reason.hidden = text === '';
    if (text === '') input.removeAttribute('aria-invalid');
    else input.setAttribute('aria-invalid', 'true');
  };
  input.addEventListener('change', () => {
    const typed = input.value;
    if (typed === shown) return refuse('');
    const read = readCell(cell, typed, value);
    if ('refused' in read) return refuse(read.refused);
    refuse('');
    set(read.value);
  });
  row.append(label, input, reason);
  return row;
}

function shownOf(value: unknown): string {
  if (value === undefined) return '';
  if (typeof value === 'object' && value !== null && 'value' in value) return String((value as Dim).value);
  return String(value);
}

function readCell(
  cell: Cell,
  typed: string,
  before: unknown,
): { readonly value: unknown } | { readonly refused: string } {
  const text = typed.trim();
  if (cell.is === 'choice') return { value: text === '' ? undefined : text };
  if (text === '') return cell.optional ? { value: undefined } : { refused: 'A value is needed here.' };
  if (cell.is === 'text') return { value: text };
  if (cell.is === 'number') {
    const number = /^\d+(\.\d+)?$|^\.\d+$/.test(text) ? Number(text) : Number.NaN;
    if (number >= cell.least && number <= cell.most) return { value: number };
    return { refused: reasonText(text, `Allowed: a number from ${cell.least} to ${cell.most}.`) };
  }
  const former = typeof before === 'object' && before !== null ? (before as Dim) : null;
  const read = parseTyped(text, former?.value ?? cell.former);
  if (!read.ok) return { refused: reasonText(read.offending, read.allowed) };
  return { value: { value: read.text, from: former?.from ?? 'stated' } };
}

/** The list as a folded section; entries stay as they were opened while the document changes. */
export function createEntries(host: HTMLElement, store: Store, list: EntryList): { destroy(): void } {
  const doc = host.ownerDocument;
  const box = doc.createElement('details');
  box.className = 'sw-entries';
  const summary = doc.createElement('summary');
  const hint = doc.createElement('p');
  hint.className = 'sw-entries_hint';
  hint.textContent = list.hint;
  const body = doc.createElement('div');
  const add = doc.createElement('button');
  add.type = 'button';
  add.className = 'sw-button';
  add.textContent = list.addLabel;
  box.append(summary, hint, body, add);
  host.append(box);
  const opened = new Set<number>();
  let drawn: readonly Entry[] | null = null;

  const pathNow = (): DimPath =>
    list.path(store.state.doc.assemblies.findIndex((a) => a.name === store.state.assembly));
  const entriesNow = (): readonly Entry[] => {
    let at: unknown = store.state.doc;
    for (const key of pathNow()) at = (at as Record<string | number, unknown> | undefined)?.[key];
    return (at as readonly Entry[] | undefined) ?? [];
  };
  const put = (entries: readonly Entry[]): void =>
    store.send({ do: 'put', path: pathNow(), value: entries.length === 0 ? undefined : entries });

  function card(entry: Entry, k: number, entries: readonly Entry[]): HTMLElement {
    const made = doc.createElement('details');
    made.className = 'sw-entry';
    made.open = opened.has(k);
    made.addEventListener('toggle', () => {
      if (made.open) opened.add(k);
      else opened.delete(k);
    });
    const name = doc.createElement('summary');
    name.textContent = list.nameOf(entry);
    const remove = doc.createElement('button');
    remove.type = 'button';
    remove.className = 'sw-button';
    remove.textContent = 'Take out';
    remove.setAttribute('aria-label', `Take out ${list.nameOf(entry)}`);
    remove.addEventListener('click', () => {
      opened.clear();
      put(entries.filter((_, j) => j !== k));
      summary.focus();
    });
    const fields = list.columns.map((column) =>
      entryField(doc, column, entry[column.key], (value) => {
        const { [column.key]: _, ...rest } = entry;
        put(
          entries.map((each, j) => (j === k ? (value === undefined ? rest : { ...rest, [column.key]: value }) : each)),
        );
      }),
    );
    made.append(name, ...fields, remove);
    return made;
  }

  function show(): void {
    const entries = entriesNow();
    const problems = store.state.refused.filter((p) => p.place.startsWith(placeOf(pathNow())));
    summary.textContent = `${list.title} · ${entries.length}${problems.length === 0 ? '' : ` · ${problems.length} refused`}`;
    hint.textContent =
      problems.length === 0 ? list.hint : problems.map((p) => reasonText(p.value, p.allowed)).join(' ');
    hint.toggleAttribute('data-refused', problems.length > 0);
    if (entries === drawn) return;
    const focused = doc.activeElement instanceof HTMLElement && body.contains(doc.activeElement) ? placeIn(body) : null;
    drawn = entries;
    body.replaceChildren(...entries.map((entry, k) => card(entry, k, entries)));
    if (focused !== null)
      (body.querySelectorAll<HTMLElement>('summary, input, select, button')[focused] ?? summary).focus();
  }

  add.addEventListener('click', () => {
    const entries = entriesNow();
    opened.add(entries.length);
    put([...entries, list.fresh(store.state, entries)]);
    body.lastElementChild?.querySelector<HTMLElement>('input, select')?.focus();
  });
  const stop = store.watch((_, changed) => {
    if (changed.has('document') || changed.has('view')) show();
  });
  show();
  return {
    destroy() {
      stop();
      box.remove();
    },
  };
}

/** Which of the controls has the focus, counted through the body. */
function placeIn(body: HTMLElement): number {
  return [...body.querySelectorAll('summary, input, select, button')].indexOf(body.ownerDocument.activeElement!);
}

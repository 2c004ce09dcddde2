/** The lists and choices that the shop's sums ask for beside their dimensions. */
import type { LiteralKind } from '../build/literal.ts';
import type { State, Store } from '../model/state.ts';
import { USUAL } from '../model/sums/index.ts';
import { type Column, createEntries, type Entry, type EntryList, entryField } from './entries.ts';

const dimension = (key: string, label: string, kind: LiteralKind = 'length', former = '0.000 in'): Column => ({
  key,
  label,
  cell: { is: 'dimension', kind, former, optional: true },
});
const needed = (column: Column): Column => ({ ...column, cell: { ...column.cell, optional: false } as Column['cell'] });
const name: Column = { key: 'name', label: 'Name', cell: { is: 'text', optional: false } };
const price: Column = { key: 'price', label: 'Price', cell: { is: 'text', optional: true } };

function assemblyOf(state: State) {
  return state.doc.assemblies.find((a) => a.name === state.assembly)!;
}

function freeName(words: string, entries: readonly Entry[]): string {
  for (let k = entries.length + 1; ; k++) {
    if (!entries.some((e) => e['name'] === `${words} ${k}`)) return `${words} ${k}`;
  }
}

const named = (entry: Entry): string => String(entry['name']);

const LISTS: readonly EntryList[] = [
  {
    title: 'Throws measured by themselves',
    hint: 'Of the core crank. A throw that is left out goes by the core’s own figures.',
    addLabel: 'Add a throw',
    path: (assembly) => ['assemblies', assembly, 'core', 'throws'],
    columns: [
      { key: 'throw', label: 'Throw', cell: { is: 'number', least: 1, most: 16, optional: false } },
      dimension('radius', 'Crank radius'),
      dimension('rodJournal', 'Rod journal'),
      dimension('indexError', 'Index error', 'angle', '0 deg'),
    ],
    nameOf: (entry) => `Throw ${entry['throw']}`,
    fresh: (_, entries) => ({ throw: Math.max(0, ...entries.map((e) => Number(e['throw']))) + 1 }),
  },
  {
    title: 'Surfaces turned to fit the block',
    hint: 'Of a crank from another engine: main journals, rear seal surface, oil slinger, flange, thrust width, snout.',
    addLabel: 'Add a surface',
    path: (assembly) => ['assemblies', assembly, 'intoBlock'],
    columns: [
      name,
      { key: 'is', label: 'Measured as', cell: { is: 'choice', among: ['diameter', 'width'] } },
      needed(dimension('has', 'The crank has')),
      needed(dimension('takes', 'The block takes')),
    ],
    nameOf: named,
    fresh: (state, entries) => {
      const { mainJournal } = assemblyOf(state).crank;
      return { name: freeName('surface', entries), is: 'diameter', has: mainJournal, takes: mainJournal };
    },
  },
  {
    title: 'Rods that can be had',
    hint: 'Each is tried with each piston of the list below.',
    addLabel: 'Add a rod',
    path: () => ['shelf', 'rods'],
    columns: [
      name,
      needed(dimension('length', 'Length')),
      dimension('bigEndBore', 'Big-end bore'),
      dimension('bigEndWidth', 'Big-end width'),
      dimension('smallEndBore', 'Small-end bore'),
      dimension('bigEndWeight', 'Big end', 'mass', '0 g'),
      dimension('smallEndWeight', 'Small end', 'mass', '0 g'),
      price,
    ],
    nameOf: named,
    fresh: (state, entries) => ({ name: freeName('rod', entries), length: assemblyOf(state).rod.length }),
  },
  {
    title: 'Pistons that can be had',
    hint: 'Each is tried with each rod of the list above.',
    addLabel: 'Add a piston',
    path: () => ['shelf', 'pistons'],
    columns: [
      name,
      needed(dimension('compressionHeight', 'Compression height')),
      dimension('bore', 'For a bore of'),
      dimension('pinDiameter', 'Pin diameter'),
      dimension('skirtBelowPin', 'Skirt below pin'),
      dimension('dishVolume', 'Dish', 'volume', '0 cc'),
      dimension('weight', 'Weight', 'mass', '0 g'),
      price,
    ],
    nameOf: named,
    fresh: (state, entries) => ({
      name: freeName('piston', entries),
      compressionHeight: assemblyOf(state).piston.compressionHeight,
    }),
  },
  {
    title: 'Guide ranges of this shop',
    hint: 'In place of the usual ranges beside the figures. A guide, not a law.',
    addLabel: 'Add a range',
    path: () => ['guides'],
    columns: [
      { key: 'guide', label: 'Guide', cell: { is: 'choice', among: Object.keys(USUAL) } },
      { key: 'low', label: 'From', cell: { is: 'text', optional: true } },
      { key: 'high', label: 'To', cell: { is: 'text', optional: true } },
      { key: 'source', label: 'Why', cell: { is: 'text', optional: false } },
    ],
    nameOf: (entry) => String(entry['guide']),
    fresh: (_, entries) => ({
      guide: Object.keys(USUAL).find((name) => !entries.some((e) => e['guide'] === name)) ?? 'rod ratio',
      source: 'our own practice',
    }),
  },
];

/** Numbers and choices of the assembly on show that are no dimensions. */
const CHOICES: readonly (Column & { readonly within: 'balance' | 'wanted' })[] = [
  {
    within: 'wanted',
    key: 'compressionRatio',
    label: 'Wanted compression ratio',
    cell: { is: 'number', least: 1.01, most: 40, optional: true },
  },
  {
    within: 'balance',
    key: 'factor',
    label: 'Balance factor',
    cell: { is: 'number', least: 0, most: 1, optional: true },
  },
  {
    within: 'balance',
    key: 'correction',
    label: 'Correction',
    cell: { is: 'choice', among: ['', 'internal', 'external'] },
  },
  { within: 'balance', key: 'plug', label: 'Plug', cell: { is: 'choice', among: ['', 'tungsten alloy', 'lead'] } },
  {
    within: 'balance',
    key: 'grade',
    label: 'Balance grade, mm/s',
    cell: { is: 'number', least: 0.4, most: 4000, optional: true },
  },
];

/** Fills `host` with the lists and choices; `destroy` empties it. */
export function createShopLists(host: HTMLElement, store: Store): { destroy(): void } {
  const doc = host.ownerDocument;
  const choices = doc.createElement('details');
  choices.className = 'sw-entries';
  const summary = doc.createElement('summary');
  summary.textContent = 'Choices';
  const body = doc.createElement('div');
  choices.append(summary, body);
  host.append(choices);
  let drawn = '';

  function showChoices(): void {
    const index = store.state.doc.assemblies.findIndex((a) => a.name === store.state.assembly);
    const assembly = store.state.doc.assemblies[index];
    const values = CHOICES.map(({ within, key }) => (assembly?.[within] as Entry | undefined)?.[key]);
    const now = JSON.stringify([index, values]);
    if (now === drawn) return;
    drawn = now;
    const focused = [...body.querySelectorAll('input, select')].indexOf(doc.activeElement!);
    body.replaceChildren(
      ...CHOICES.map((choice, k) =>
        entryField(doc, choice, values[k], (value) =>
          store.send({ do: 'put', path: ['assemblies', index, choice.within, choice.key], value }),
        ),
      ),
    );
    body.querySelectorAll<HTMLElement>('input, select')[focused]?.focus();
  }

  showChoices();
  const stop = store.watch((_, changed) => {
    if (changed.has('document') || changed.has('view')) showChoices();
  });
  const lists = LISTS.map((list) => createEntries(host, store, list));
  return {
    destroy() {
      stop();
      for (const list of lists) list.destroy();
      choices.remove();
    },
  };
}

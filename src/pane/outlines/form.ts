/** The fields of the page of outlines: which body, which file, and what is said of the file. */
import type { DraftChoices, DraftState, OutlineDraft } from '../../model/outlineDraft.ts';
import { NEW_PART } from '../../model/outlineDraft.ts';
import { type OutlineTarget, outlineTargets, targetName } from '../../model/outlineTarget.ts';
import type { State } from '../../model/state.ts';
import { button, labelled, make } from '../make.ts';
import { createSegmented } from '../segmented.ts';
import { unitHint } from '../unitHint.ts';

export interface OutlineForm {
  /** The body with the faces of a new part; where a file is chosen or dropped; what is said of the file. */
  readonly body: HTMLElement;
  readonly drop: HTMLElement;
  readonly said: HTMLElement;
  readonly show: (state: State, draft: DraftState) => void;
}

const GROUPS: readonly (readonly [OutlineTarget['body'], string])[] = [
  ['counterweight', 'Counterweights, whole cheek'],
  ['rod', 'Rods'],
  ['piston', 'Pistons, pin bosses'],
  ['fixed', 'Fixed parts'],
];

function textField(write: (text: string) => void): HTMLInputElement {
  const field = make('input');
  field.type = 'text';
  field.autocomplete = 'off';
  field.spellcheck = false;
  field.addEventListener('change', () => write(field.value));
  return field;
}

function select<V extends string>(options: readonly (readonly [V, string])[], choose: (value: V) => void) {
  const made = make('select');
  for (const [value, label] of options) made.append(new Option(label, value));
  made.addEventListener('change', () => choose(made.value as V));
  return made;
}

export function createOutlineForm(draft: OutlineDraft): OutlineForm {
  const choose = (part: Partial<DraftChoices>): void => draft.choose(part);
  const bodies = make('select');
  bodies.addEventListener('change', () => choose({ body: bodies.value }));

  const name = textField((text) => choose({ name: text }));
  const front = textField((text) => choose({ front: text }));
  const rear = textField((text) => choose({ rear: text }));
  const faces = make('div', '', 'sw-mock_row');
  faces.append(labelled('Front face, along the shaft', front), labelled('Rear face', rear));
  const part = make('div');
  part.append(
    labelled('Name of the part', name),
    faces,
    make(
      'p',
      'From the bore centre of cylinder 1; toward the flywheel is positive. Such as -.750 in.',
      'sw-mock_quiet',
    ),
  );

  const body = make('div');
  body.append(labelled('Body', bodies), part);

  const picker = make('input');
  picker.type = 'file';
  picker.accept = '.csv,.txt,.tsv,.dxf';
  picker.hidden = true;
  picker.addEventListener('change', () => {
    const chosen = picker.files?.[0];
    if (chosen !== undefined) void load(chosen);
    picker.value = '';
  });
  const open = button('Choose a file', () => picker.click());
  const shownName = make('p', '', 'sw-mock_quiet');
  const drop = make('div', '', 'sw-outlines_drop');
  drop.append(open, shownName, picker);

  async function load(chosen: File): Promise<void> {
    draft.load({ name: chosen.name, bytes: new Uint8Array(await chosen.arrayBuffer()) });
  }

  const unit = select<'' | 'in' | 'mm'>(
    [
      ['', 'as the file says'],
      ['in', 'inches'],
      ['mm', 'millimetres'],
    ],
    (value) => choose({ unit: value === '' ? null : value }),
  );
  const columns = select<'' | 'xy' | 'polar'>(
    [
      ['', 'as headed'],
      ['xy', 'x and y'],
      ['polar', 'radius and angle'],
    ],
    (value) => choose({ columns: value === '' ? null : value }),
  );
  const layer = textField((text) => choose({ layer: text }));
  const from = select<'measured' | 'stated' | 'assumed'>(
    [
      ['measured', 'measured'],
      ['stated', 'stated'],
      ['assumed', 'assumed'],
    ],
    (value) => choose({ from: value }),
  );
  const deviation = textField((text) => choose({ deviation: text }));
  const hint = make('p', '', 'sw-mock_quiet');
  const seen = createSegmented<'front' | 'rear'>(document, 'Seen from', (value) => choose({ seenFrom: value }));

  const row = (...fields: readonly HTMLElement[]): HTMLElement => {
    const made = make('div', '', 'sw-mock_row');
    made.append(...fields);
    return made;
  };
  const layerField = labelled('Layer', layer);
  const columnsField = labelled('Columns', columns);
  const said = make('div');
  said.append(
    row(labelled('Unit', unit), labelled('Comes from', from)),
    row(labelled('Deviation', deviation), columnsField, layerField),
    hint,
    seen.element,
  );
  // A file dropped here is an outline; anywhere else on the page it is a build.
  for (const type of ['dragover', 'drop'] as const) {
    drop.addEventListener(type, (event) => {
      event.preventDefault();
      event.stopPropagation();
      const dropped = type === 'drop' ? event.dataTransfer?.files[0] : undefined;
      if (dropped !== undefined) void load(dropped);
    });
  }

  let offered = '';
  function showBodies(state: State, chosen: string): void {
    const assembly = state.doc.assemblies.find((a) => a.name === state.assembly)!;
    const targets = outlineTargets(state.doc, assembly);
    const names = [...targets.map(targetName), NEW_PART];
    if (names.join('|') !== offered) {
      offered = names.join('|');
      bodies.replaceChildren();
      for (const [kind, label] of GROUPS) {
        const group = make('optgroup');
        group.label = label;
        for (const target of targets.filter((t) => t.body === kind)) {
          const text = targetName(target);
          group.append(new Option('cylinder' in target && target.cylinder === null ? `all ${text}` : text, text));
        }
        if (kind === 'fixed') group.append(new Option(`${NEW_PART} …`, NEW_PART));
        if (group.childElementCount > 0) bodies.append(group);
      }
    }
    const known = names.includes(chosen) ? chosen : names[0]!;
    bodies.value = known;
    if (known !== chosen) queueMicrotask(() => choose({ body: known }));
  }

  const put = (field: HTMLInputElement | HTMLSelectElement, value: string): void => {
    if (field !== document.activeElement || field instanceof HTMLSelectElement) field.value = value;
  };

  return {
    body,
    drop,
    said,
    show: (state, now) => {
      const { choices } = now;
      showBodies(state, choices.body);
      part.hidden = choices.body !== NEW_PART;
      put(name, choices.name);
      put(front, choices.front);
      put(rear, choices.rear);
      put(unit, choices.unit ?? '');
      put(columns, choices.columns ?? '');
      put(layer, choices.layer);
      put(from, choices.from);
      put(deviation, choices.deviation);
      const isDxf = /\.dxf$/i.test(now.fileName ?? '');
      layerField.hidden = !isDxf;
      columnsField.hidden = isDxf;
      const other = unitHint(choices.deviation, state.units);
      hint.textContent = `How far the part may stand out of the outline at most${other === '' ? '' : `, ${other}`}: taken off every gap of it.`;
      seen.show(
        [
          { value: 'front', label: 'the front' },
          { value: 'rear', label: 'the rear' },
        ],
        choices.seenFrom,
      );
      shownName.textContent = now.reading
        ? `${now.fileName} is being read …`
        : (now.fileName ?? 'or drop it here: a table of points (CSV) or a drawing (ASCII DXF).');
    },
  };
}

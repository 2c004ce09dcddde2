/** Writes a measurement into the log: which pair, where in the turn, the reading, with what and when. Made for a thumb beside the engine. */
import { DECK } from '../../build/bodyNames.ts';
import type { MockUpEntry } from '../../build/document.ts';
import type { LengthUnit } from '../../build/literal.ts';
import { type Problem, problemSentence } from '../../build/problem.ts';
import { readContent } from '../../build/text.ts';
import { afterTdcDeg, isTwoTurns } from '../../model/mockUp/benchRows.ts';
import { withLogChange } from '../../model/mockUp/editLog.ts';
import type { State, Store } from '../../model/state.ts';
import { button, labelled, make } from '../make.ts';
import { createSegmented } from '../segmented.ts';
import { draftOf, entryOf } from './draft.ts';

export interface MockUpForm {
  readonly element: HTMLElement;
  readonly show: (state: State) => void;
  /** Puts an entry of the log into the form, to be written back in its place. */
  readonly edit: (index: number, entry: MockUpEntry) => void;
}

const INSTRUMENTS = ['clay', 'feeler gauge', 'dial indicator', 'plastic gauge strip'] as const;
const OTHER = 'something else';
/** Stands in the list of pairs for the one that is not in it. */
const OUTSIDE = 'outside';
type Where = 'smallest' | 'angle';

export function createMockUpForm(store: Store): MockUpForm {
  const element = make('form', '', 'sw-mock_form');
  element.noValidate = true;
  const title = make('h3', 'New measurement');
  const pair = make('select');
  const where = createSegmented<Where>(document, 'Where in the turn', (chosen) => setWhere(chosen));
  const degrees = input('decimal');
  const cylinder = make('select');
  const reading = input('decimal');
  const within = input('decimal');
  const unit = make('select');
  unit.append(...['in', 'thou', 'mm'].map((each) => new Option(each)));
  const instrument = make('select');
  instrument.append(...[...INSTRUMENTS, OTHER].map((each) => new Option(each)));
  const otherName = input('text');
  const date = make('input');
  date.type = 'date';
  const note = make('textarea');
  note.rows = 2;
  const refused = make('div', '', 'sw-mock_refused');
  refused.setAttribute('role', 'alert');
  const log = make('button', 'Log it', 'sw-button sw-button-main');
  log.type = 'submit';
  const cancel = button('Leave it as it was', () => clear());

  const angleLabel = labelled('Degrees after TDC', degrees);
  const angleRow = make('div', '', 'sw-mock_row');
  const ofCylinder = labelled('Of cylinder', cylinder, 'sw-mock_narrow');
  angleRow.append(
    angleLabel,
    ofCylinder,
    button('As on show', () => takeAngle()),
  );
  const atTdc = make('p', 'The deck clearance is taken at TDC.', 'sw-mock_quiet');
  const readingRow = make('div', '', 'sw-mock_row');
  readingRow.append(labelled('Measured', reading), labelled('±', within), labelled('Unit', unit, 'sw-mock_narrow'));
  const readingHint = make('p', 'Without a ± the reading counts as known to half its last place.', 'sw-mock_quiet');
  const withRow = make('div', '', 'sw-mock_row');
  withRow.append(labelled('With', instrument), labelled('On', date));
  const otherRow = labelled('With what', otherName);
  const buttons = make('div', '', 'sw-mock_row');
  buttons.append(log, cancel);
  element.append(
    title,
    labelled('Between', pair),
    where.element,
    angleRow,
    atTdc,
    readingRow,
    readingHint,
    withRow,
    otherRow,
    labelled('Note', note),
    refused,
    buttons,
  );

  let chosenWhere: Where = 'smallest';
  /** The entry that is being put right, by its place; null: a new one. */
  let editing: number | null = null;
  let pairsOf = '';
  /** The pair was chosen in the form: what is picked elsewhere no longer changes it. */
  let chosenHere = false;
  /** An entry that is being put right although its pair is not in the list: of another assembly, or out of reach. */
  let outside: MockUpEntry | null = null;

  function setWhere(chosen: Where): void {
    const turned = chosen === 'angle' && chosenWhere !== 'angle';
    chosenWhere = chosen;
    if (turned && degrees.value === '') takeAngle();
    shape();
  }

  function takeAngle(): void {
    const { state } = store;
    const number = Number(cylinder.value) || state.cylinder;
    const c = state.engine.cylinders.find((each) => each.number === number);
    if (c === undefined) return;
    degrees.value = afterTdcDeg(state.crankAngleRad, c, periodOf(state)).toFixed(1);
  }

  function periodOf(state: State): number {
    return state.gaps.find((g) => g.id === pair.value)?.periodRad ?? 2 * Math.PI;
  }

  /** Shows the fields that the choices made so far ask for. */
  function shape(): void {
    const deck = between()[1] === DECK;
    const atAngle = chosenWhere === 'angle' && !deck;
    where.element.hidden = deck;
    atTdc.hidden = !deck;
    angleRow.hidden = !atAngle;
    otherRow.hidden = instrument.value !== OTHER;
    cancel.hidden = editing === null;
    title.textContent = editing === null ? 'New measurement' : `Measurement ${editing + 1}`;
    log.textContent = editing === null ? 'Log it' : 'Put it right';
    const firing = isTwoTurns(periodOf(store.state));
    angleLabel.querySelector('label')!.textContent = firing ? 'Degrees after firing TDC' : 'Degrees after TDC';
    where.show(
      [
        { value: 'smallest', label: 'Smallest while turning' },
        { value: 'angle', label: 'At an angle' },
      ],
      chosenWhere,
    );
  }

  function between(): readonly [string, string] {
    const gap = store.state.gaps.find((g) => g.id === pair.value);
    return gap?.between ?? outside?.between ?? ['', ''];
  }

  function clear(): void {
    editing = null;
    outside = null;
    pairsOf = '';
    reading.value = '';
    note.value = '';
    degrees.value = '';
    chosenWhere = 'smallest';
    chosenHere = false;
    refused.replaceChildren();
    showPairs(store.state);
    shape();
  }

  function submit(): void {
    const { doc, assembly } = store.state;
    const draft = {
      between: between(),
      at:
        chosenWhere === 'angle' && between()[1] !== DECK
          ? { cylinder: Number(cylinder.value), afterTdc: degrees.value }
          : null,
      reading: reading.value,
      within: within.value,
      unit: unit.value as LengthUnit,
      with: instrument.value === OTHER ? otherName.value : instrument.value,
      date: date.value,
      note: note.value,
    };
    const before = editing === null ? undefined : doc.mockUp?.[editing];
    const entry = entryOf(draft, before?.assembly ?? assembly);
    const index = before === undefined ? (doc.mockUp ?? []).length : editing!;
    const change = before === undefined ? { do: 'add' as const, entry } : { do: 'replace' as const, index, entry };
    const read = readContent(withLogChange(doc, change));
    const problems = read.ok ? [] : read.problems.filter((p) => p.place.startsWith(`mockUp[${index}]`));
    refused.replaceChildren(...problems.map((p) => make('p', refusal(p, index))));
    if (problems.length > 0) {
      fieldOf(problems[0]!, index).focus();
      return;
    }
    store.send({ do: 'change log', change });
    clear();
  }

  function fieldOf({ place }: Problem, index: number): HTMLElement {
    const key = place.slice(`mockUp[${index}].`.length);
    if (key.startsWith('at.cylinder')) return cylinder;
    if (key.startsWith('at')) return degrees;
    if (key.startsWith('measured')) return reading;
    if (key.startsWith('with')) return instrument.value === OTHER ? otherName : instrument;
    return key.startsWith('date') ? date : key.startsWith('note') ? note : pair;
  }

  function showPairs(state: State): void {
    const cylinders = [
      state.cylinder,
      ...state.engine.cylinders.map((c) => c.number).filter((n) => n !== state.cylinder),
    ];
    const key = `${state.cylinder} ${state.gaps.map((g) => g.id).join()}`;
    const before = pair.value;
    if (key !== pairsOf) {
      pairsOf = key;
      pair.replaceChildren(
        ...cylinders.map((number) => {
          const group = make('optgroup');
          group.label = `Cylinder ${number}${number === state.cylinder && cylinders.length > 1 ? ', in view' : ''}`;
          group.append(...state.gaps.filter((g) => g.cylinder === number).map((g) => new Option(g.id, g.id)));
          return group;
        }),
      );
      const numbers = state.engine.cylinders.map((c) => String(c.number));
      if (numbers.join() !== [...cylinder.options].map((o) => o.value).join()) {
        cylinder.replaceChildren(...numbers.map((n) => new Option(n)));
        cylinder.value = String(state.cylinder);
      }
      ofCylinder.hidden = numbers.length < 2;
    }
    const wanted = chosenHere || editing !== null ? before : (state.picked ?? pair.options[0]?.value ?? '');
    if (outside !== null && wanted === OUTSIDE) offerOutside(outside);
    if ([...pair.options].some((o) => o.value === wanted)) pair.value = wanted;
    if (!chosenHere && editing === null) cylinder.value = String(state.cylinder);
  }

  function offerOutside(entry: MockUpEntry): void {
    if (![...pair.options].some((o) => o.value === OUTSIDE)) pair.append(new Option('', OUTSIDE));
    [...pair.options].find((o) => o.value === OUTSIDE)!.text = entry.between.join(' · ');
  }

  pair.addEventListener('change', () => {
    chosenHere = true;
    const cylinderOfPair = store.state.gaps.find((g) => g.id === pair.value)?.cylinder;
    if (cylinderOfPair !== undefined) cylinder.value = String(cylinderOfPair);
    if (chosenWhere === 'angle') takeAngle();
    shape();
  });
  instrument.addEventListener('change', shape);
  element.addEventListener('submit', (event) => {
    event.preventDefault();
    submit();
  });
  date.value = today();
  unit.value = store.state.units === 'mm' ? 'mm' : 'in';
  showPairs(store.state);
  shape();

  return {
    element,
    show: (state) => {
      showPairs(state);
      shape();
    },
    edit: (index, entry) => {
      const draft = draftOf(entry);
      editing = index;
      const names = (a: string, b: string): string => `${a} · ${b}`;
      const ids = [names(...draft.between), names(draft.between[1], draft.between[0])];
      const listed =
        entry.assembly === store.state.assembly ? [...pair.options].find((o) => ids.includes(o.value)) : undefined;
      outside = listed === undefined ? entry : null;
      if (outside !== null) offerOutside(outside);
      pair.value = listed?.value ?? OUTSIDE;
      chosenWhere = draft.at === null ? 'smallest' : 'angle';
      degrees.value = draft.at?.afterTdc ?? '';
      if (draft.at !== null) cylinder.value = String(draft.at.cylinder);
      reading.value = draft.reading;
      within.value = draft.within;
      unit.value = draft.unit;
      const known = (INSTRUMENTS as readonly string[]).includes(draft.with);
      instrument.value = known ? draft.with : OTHER;
      otherName.value = known ? '' : draft.with;
      date.value = draft.date;
      note.value = draft.note;
      refused.replaceChildren();
      shape();
      element.scrollIntoView({ block: 'nearest' });
      reading.focus();
    },
  };
}

/** What is wrong with a field, in the words of the rules; the place is the field itself. */
function refusal(problem: Problem, index: number): string {
  return problemSentence(problem).replace(`mockUp[${index}].`, '');
}

function input(mode: 'decimal' | 'text'): HTMLInputElement {
  const made = make('input');
  made.type = 'text';
  made.inputMode = mode;
  made.autocomplete = 'off';
  return made;
}

/** Today as the machine's own calendar has it, "2026-11-25". */
function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

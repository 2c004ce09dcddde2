/**
 * An outline on its way from a file into the build: the file, what is said of it, what became of it. Nothing of the build
 * changes before it is applied; then one command sets it, as one step.
 */
import {
  type BuildDocument,
  type Dim,
  type Provenance,
  parseLength,
  problemSentence,
  readContent,
} from '../build/index.ts';
import { type FileUnit, fileProblemSentence, type ImportedOutline, type SeenFrom } from '../exchange/index.ts';
import type { OutlineFile, OutlineReader } from './outlineReader.ts';
import { type OutlineEntry, type OutlineTarget, outlineTargets, targetName, withOutline } from './outlineTarget.ts';
import type { Store } from './state.ts';

export interface DraftChoices {
  /** A body by its name, or `NEW_PART`. */
  readonly body: string;
  /** Null: as the file says. */
  readonly unit: FileUnit | null;
  readonly columns: 'xy' | 'polar' | null;
  readonly layer: string;
  readonly seenFrom: SeenFrom;
  readonly from: Provenance;
  /** As typed. */
  readonly deviation: string;
  /** Of a new fixed part, as typed. */
  readonly name: string;
  readonly front: string;
  readonly rear: string;
}

/** Stands in the list of bodies for a fixed part that is not there yet. */
export const NEW_PART = 'a new fixed part';

export interface DraftState {
  readonly choices: DraftChoices;
  readonly fileName: string | null;
  readonly reading: boolean;
  readonly read: ImportedOutline | null;
  /** Why the file can't be used, as sentences. */
  readonly refused: readonly string[];
  /** Why the outline can't stand at the body chosen. */
  readonly barred: readonly string[];
}

export interface OutlineDraft {
  readonly state: DraftState;
  readonly choose: (part: Partial<DraftChoices>) => void;
  readonly load: (file: OutlineFile) => void;
  /** The body chosen; null where it is a new part that has no name or no faces yet. */
  readonly target: () => OutlineTarget | null;
  readonly apply: () => void;
  readonly watch: (listener: (state: DraftState) => void) => void;
}

/** As it first stands in the field: about what careful tracing keeps. */
export const USUAL_DEVIATION = { in: '.002 in', mm: '0.05 mm' } as const;

/** What is fitted again when it changes; the rest only says where the outline goes. */
const FITTED: readonly (keyof DraftChoices)[] = ['unit', 'columns', 'layer', 'seenFrom', 'from', 'deviation'];

export function createOutlineDraft(store: Store, reader: OutlineReader): OutlineDraft {
  const listeners = new Set<(state: DraftState) => void>();
  let file: OutlineFile | null = null;
  let rotation = store.state.doc.block.rotation;
  let state: DraftState = {
    choices: {
      body: '',
      unit: null,
      columns: null,
      layer: '',
      seenFrom: 'front',
      from: 'measured',
      deviation: USUAL_DEVIATION[store.state.units === 'mm' ? 'mm' : 'in'],
      name: '',
      front: '',
      rear: '',
    },
    fileName: null,
    reading: false,
    read: null,
    refused: [],
    barred: [],
  };

  function change(part: Partial<DraftState>): void {
    state = { ...state, ...part };
    for (const listener of [...listeners]) listener(state);
  }

  function read(): void {
    if (file === null) return;
    const { deviation, seenFrom, from, unit, columns, layer } = state.choices;
    const length = parseLength(deviation);
    if (!length.ok) {
      change({ read: null, reading: false, refused: [`Deviation ${deviation}: ${length.allowed}`] });
      return;
    }
    rotation = store.state.doc.block.rotation;
    const mine = file;
    change({ reading: true, read: null, refused: [], barred: [] });
    const options = {
      ...{ deviationMm: length.mm.toNumber(), seenFrom, from, rotation },
      ...(unit !== null && { unit }),
      ...(columns !== null && { columns }),
      ...(layer.trim() !== '' && { layer: layer.trim() }),
    };
    reader(mine, options, (answer) => {
      if (mine !== file) return;
      if (answer.ok) change({ reading: false, read: answer, refused: [] });
      else change({ reading: false, read: null, refused: answer.problems.map(fileProblemSentence) });
    });
  }

  function target(): OutlineTarget | null {
    const { body, name, front, rear } = state.choices;
    const assembly = store.state.doc.assemblies.find((a) => a.name === store.state.assembly);
    if (assembly === undefined) return null;
    if (body !== NEW_PART) return outlineTargets(store.state.doc, assembly).find((t) => targetName(t) === body) ?? null;
    if (name.trim() === '' || front.trim() === '' || rear.trim() === '') return null;
    const face = (value: string): Dim => ({ value: value.trim(), from: 'measured' });
    return { body: 'fixed', name: name.trim(), front: face(front), rear: face(rear) };
  }

  function apply(): void {
    const [to, found] = [target(), state.read];
    if (found === null) return;
    if (to === null) {
      change({ barred: ['A new fixed part needs a name and its two faces along the shaft.'] });
      return;
    }
    const name = targetName(to);
    if (state.choices.body === NEW_PART && store.state.engine.bodies.some((b) => b.name === name)) {
      change({ barred: [`A part called ${name} is there already: choose it as the body, or take another name.`] });
      return;
    }
    const entry: OutlineEntry = {
      outline: found.points,
      outlineFrom: state.choices.from,
      outlineDeviation: { value: state.choices.deviation.trim(), from: 'stated' },
    };
    const problems = problemsOf(withOutline(store.state.doc, store.state.assembly, to, entry));
    if (problems.length > 0) {
      change({ barred: problems });
      return;
    }
    file = null;
    store.send({ do: 'set outline', target: to, entry });
    const { choices } = state;
    change({
      fileName: null,
      read: null,
      refused: [],
      barred: [],
      choices: { ...choices, body: targetName(to), name: '', front: '', rear: '' },
    });
  }

  store.watch((now, changed) => {
    if (changed.has('document') && now.doc.block.rotation !== rotation) read();
  });
  return {
    get state() {
      return state;
    },
    choose: (part) => {
      const again = FITTED.some((key) => part[key] !== undefined && part[key] !== state.choices[key]);
      change({ choices: { ...state.choices, ...part }, barred: [] });
      if (again) read();
    },
    load: (next) => {
      // What was said of another file does not hold for this one, a unit least of all.
      const another = next.name !== state.fileName;
      file = next;
      change({
        fileName: next.name,
        ...(another ? { choices: { ...state.choices, unit: null, columns: null, layer: '' } } : {}),
      });
      read();
    },
    target,
    apply,
    watch: (listener) => listeners.add(listener),
  };
}

function problemsOf(doc: BuildDocument): string[] {
  const read = readContent(doc);
  return read.ok ? [] : read.problems.map(problemSentence);
}

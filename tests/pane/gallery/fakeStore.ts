/**
 * A store for the gallery: keeps a document, takes commands, undoes. Its figures are a plain deck stack without offsets, and
 * it refuses a stroke outside 1 to 6 in; the layout and the sweep are left empty.
 */

import type { BuildDocument } from '../../../src/build/document.ts';
import { DEFAULT_LIMITS } from '../../../src/build/limits.ts';
import { Exact, kindOf, lengthMm, parseLength, withLengthMm } from '../../../src/build/literal.ts';
import type { Problem } from '../../../src/build/problem.ts';
import type { Figures } from '../../../src/model/results.ts';
import type { Changed, Command, DimPath, Held, State, Store, Units } from '../../../src/model/state.ts';

export interface FakeStore extends Store {
  readonly commands: readonly Command[];
}

export function createFakeStore(start: BuildDocument): FakeStore {
  const commands: Command[] = [];
  const listeners = new Set<Parameters<Store['watch']>[0]>();
  const past: BuildDocument[] = [];
  const future: BuildDocument[] = [];
  let doc = start;
  /** The document before the gesture in progress. */
  let before: BuildDocument | null = null;
  let assembly = start.proposed;
  let cylinder = 1;
  let units: Units = start.shownUnits;
  let held: Held = 'piston';
  let lastFigures: Figures | null = null;
  let state = makeState();

  function makeState(): State {
    const index = doc.assemblies.findIndex((one) => one.name === assembly);
    const { crank, rod, piston } = doc.assemblies[index]!;
    const strokeMm = lengthMm(crank.stroke.value);
    const rodLengthMm = lengthMm(rod.length.value);
    const compressionHeightMm = lengthMm(piston.compressionHeight.value);
    const deckClearanceMm = lengthMm(doc.block.deckHeight.value) - strokeMm / 2 - rodLengthMm - compressionHeightMm;
    const refused: Problem[] = [];
    if (strokeMm < 25.4 || strokeMm > 152.4) {
      refused.push({
        place: `assemblies[${index}].crank.stroke`,
        value: crank.stroke.value,
        rule: 'stroke in range',
        allowed: 'Allowed: 1 in to 6 in (25.4 to 152.4 mm).',
      });
    }
    if (lengthMm(doc.block.deckHeight.value) < 100) {
      refused.push({
        place: 'block.boreSpacing',
        value: doc.block.boreSpacing.value,
        rule: 'bores apart',
        allowed: 'Allowed: more than the bore and twice the wall.',
      });
    }
    const figures: Figures =
      refused.length > 0 && lastFigures !== null
        ? lastFigures
        : {
            strokeMm,
            travelMm: strokeMm,
            rodLengthMm,
            rodRatio: rodLengthMm / strokeMm,
            displacementCm3: 0,
            deckClearanceMm,
            compressionHeightMm,
          };
    lastFigures = figures;
    return {
      doc,
      assembly,
      engine: {
        assembly,
        mirrored: false,
        cycleRad: 4 * Math.PI,
        cylinders: [1, 2, 3, 4, 5, 6, 7, 8].map((number) => ({
          number,
          bank: 2 - (number % 2),
          bankAngleRad: 0,
          throw: Math.ceil(number / 2),
          boreCentreMm: 0,
          boreOffsetMm: 0,
          boreRadiusMm: 51,
          slider: { crankRadiusMm: strokeMm / 2, rodLengthMm, offsetMm: 0 },
          alphaAtZeroRad: 0,
          firingPinRad: 0,
          firingTdcRad: 0,
          tdcRad: 0,
          bdcRad: Math.PI,
          deckClearanceMm,
        })),
        bodies: [],
        pairs: [],
        side: [],
      },
      refused,
      figures,
      gaps: [],
      profiles: new Map(),
      cylinder,
      crankAngleRad: 0,
      now: {
        gaps: [],
        motion: { cylinder, fromTdcRad: 0, belowTdcMm: 0, speedMPerS: 0, accelMPerS2: 0, rodAngleRad: 0 },
      },
      playing: false,
      playRpm: 30,
      units,
      held,
      picked: null,
      cures: null,
      canUndo: past.length > 0,
      canRedo: future.length > 0,
    };
  }

  function setDimension(path: DimPath, text: string, last: boolean): void {
    if (kindOf(text) === null) throw new RangeError(`${text} was sent as a dimension`);
    before ??= doc;
    const deckBefore = state.figures.deckClearanceMm;
    doc = withDim(doc, path, text);
    if (held === 'deck clearance' && (path.includes('stroke') || path.includes('length'))) followDeck(deckBefore);
    if (!last) return;
    if (doc !== before) past.push(before);
    future.length = 0;
    before = null;
  }

  function followDeck(deckMm: number): void {
    const index = doc.assemblies.findIndex((one) => one.name === assembly);
    const { crank, rod, piston } = doc.assemblies[index]!;
    const heightMm =
      lengthMm(doc.block.deckHeight.value) - lengthMm(crank.stroke.value) / 2 - lengthMm(rod.length.value) - deckMm;
    const former = piston.compressionHeight.value;
    if (!parseLength(former).ok) return;
    const mm = new Exact(heightMm).toDecimalPlaces(4);
    doc = withDim(doc, ['assemblies', index, 'piston', 'compressionHeight'], withLengthMm(former, mm));
  }

  function move(from: BuildDocument[], to: BuildDocument[]): void {
    const next = from.pop();
    if (next === undefined) return;
    to.push(doc);
    doc = next;
  }

  function send(command: Command): void {
    commands.push(command);
    let changed: Changed = 'view';
    switch (command.do) {
      case 'set dimension':
        setDimension(command.path, command.text, command.last);
        changed = 'document';
        break;
      case 'undo':
        move(past, future);
        changed = 'document';
        break;
      case 'redo':
        move(future, past);
        changed = 'document';
        break;
      case 'show assembly':
        assembly = command.name;
        break;
      case 'show cylinder':
        cylinder = command.number;
        break;
      case 'show units':
        units = command.units;
        changed = 'units';
        break;
      case 'hold':
        held = command.held;
        break;
      default:
        throw new RangeError(`The pane sent ${command.do}`);
    }
    state = makeState();
    for (const listener of listeners) listener(state, new Set([changed]));
  }

  return {
    get state() {
      return state;
    },
    commands,
    send,
    watch(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** The document with one dimension set; a limit or allowance that it leaves out is added as stated. */
function withDim(doc: BuildDocument, path: DimPath, text: string): BuildDocument {
  const set = (at: unknown, rest: DimPath): unknown => {
    const [key, ...further] = rest;
    if (key === undefined) return { from: 'stated', ...(at as object), value: text };
    const copy = Array.isArray(at) ? [...at] : { ...(at as object) };
    (copy as Record<string | number, unknown>)[key] = set(
      (at as Record<string | number, unknown> | undefined)?.[key],
      further,
    );
    return copy;
  };
  if (path[0] === 'limits' && !Object.hasOwn(DEFAULT_LIMITS, path[1]!)) throw new RangeError(`No limit ${path[1]}`);
  return set(doc, path) as BuildDocument;
}

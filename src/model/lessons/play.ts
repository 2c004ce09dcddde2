/** What a learner may move at the end of a lesson: dimensions in exact steps between two bounds, written as literals. */
import type { BuildDocument } from '../../build/document.ts';
import { isAnglePlace, type Lesson, readAmount } from '../../build/lesson/index.ts';
import { Exact, stepLiteral } from '../../build/literal.ts';
import { at } from '../edit.ts';
import type { DimPath } from '../state.ts';
import { keysOf, pathOf } from './setUp.ts';

export type MoveField = Lesson['play']['move'][number];

export interface PlayField {
  readonly label: string;
  readonly path: DimPath;
  /** Steps from the lower bound to the upper one. */
  readonly steps: number;
  /** The literal after so many steps from the lower bound. */
  readonly literal: (steps: number) => string;
  /** Where the document stands now, rounded to a step; null where it has no such dimension. */
  readonly now: (doc: BuildDocument) => number | null;
}

/** A slider of more steps than this could not be set by hand. */
const MOST_STEPS = 2000;

export function playField(field: MoveField): PlayField {
  const as = isAnglePlace(field.place) ? 'angle' : 'length';
  const read = (text: string): number => {
    const found = readAmount(text, as);
    if (!found.ok) throw new RangeError(`playField: ${text} is no ${as}`);
    return found.value;
  };
  const step = read(field.step);
  const from = read(field.from);
  const steps = Math.min(
    MOST_STEPS,
    Math.max(1, Math.floor(new Exact(read(field.to)).minus(from).div(step).toNumber() + 1e-9)),
  );
  const path = pathOf(field.place, 0);
  return {
    label: placeWords(field.place),
    path,
    steps,
    literal: (k) => stepLiteral(field.from, k, field.step),
    now: (doc) => {
      const dim = at(doc, path);
      if (typeof dim !== 'object' || dim === null || !('value' in dim)) return null;
      const found = readAmount(String(dim.value), as);
      return found.ok ? Math.min(steps, Math.max(0, Math.round((found.value - from) / step))) : null;
    },
  };
}

const WORDS: Readonly<Record<string, string>> = {
  'rod.length': 'Rod length',
  'crank.rodJournal': 'Rod journal',
  'crank.counterweight.radius': 'Counterweight radius',
  'crank.counterweight.halfAngle': 'Counterweight half angle',
  'crank.counterweight.cornerRadius': 'Counterweight corner',
  'piston.skirtBelowPin': 'Skirt below pin',
  'core.rodJournal': 'Rod journal of the core',
  'core.stroke': 'Stroke of the core',
  'block.camAxis.height': 'Cam axis height',
  'camshaft.baseCircle': 'Base circle',
};

/** "Compression height" for piston.compressionHeight: as the pane says it. */
export function placeWords(place: string): string {
  const last = keysOf(place).findLast((key) => typeof key === 'string') ?? place;
  const words = String(last).replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return WORDS[place] ?? words.charAt(0).toUpperCase() + words.slice(1);
}

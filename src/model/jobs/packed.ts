/**
 * A document with its steps, small enough to be written at every change: the document whole, each step as what it changes of the one
 * after it. Bounded twice: by the number of steps, and by what they take up; the oldest steps go first.
 */
import type { BuildDocument } from '../../build/document.ts';
import { deepFreeze } from '../../build/text.ts';
import { MOST_STEPS, type Steps } from '../history.ts';
import { difference, type Edit, edited } from './difference.ts';

export interface Packed {
  readonly doc: unknown;
  /** Newest first: the first turns `doc` into the document one step back, the next goes on from there. */
  readonly undo: readonly (readonly Edit[])[];
  /** Nearest first. */
  readonly redo: readonly (readonly Edit[])[];
}

/** All undo steps, and all redo steps, of a job written as text, characters each: a step of a dimension has about a hundred, a traced outline some thousands. */
export const LONGEST_STEPS = 500_000;

interface Measured {
  readonly edits: readonly Edit[];
  readonly length: number;
}

/** Differences by the document that they lead to, then by the one that they start from: a step is compared once, not at every save. */
const known = new WeakMap<object, WeakMap<object, Measured>>();

function measured(from: BuildDocument, to: BuildDocument): Measured {
  const before = known.get(to)?.get(from);
  if (before !== undefined) return before;
  const edits = difference(from, to);
  const made: Measured = { edits, length: JSON.stringify(edits).length };
  const byStart = known.get(to) ?? new WeakMap<object, Measured>();
  byStart.set(from, made);
  known.set(to, byStart);
  return made;
}

/** `steps` in their own order: nearest last. */
function chain(doc: BuildDocument, steps: readonly BuildDocument[], longest: number): (readonly Edit[])[] {
  const out: (readonly Edit[])[] = [];
  let from = doc;
  let length = 0;
  for (let k = steps.length - 1; k >= 0 && out.length < MOST_STEPS; k--) {
    const step = measured(from, steps[k]!);
    length += step.length;
    if (length > longest) break;
    out.push(step.edits);
    from = steps[k]!;
  }
  return out;
}

export function pack(doc: BuildDocument, steps: Steps, longest = LONGEST_STEPS): Packed {
  return { doc, undo: chain(doc, steps.undo, longest), redo: chain(doc, steps.redo, longest) };
}

export interface Unpacked {
  readonly doc: BuildDocument;
  readonly steps: Steps;
}

/**
 * Back to documents, frozen, sharing what they share. They are not judged here: a kept document may be one that is refused. Steps
 * that do not fit are left out with all beyond them.
 */
export function unpack(packed: Packed): Unpacked {
  const doc = deepFreeze(packed.doc) as BuildDocument;
  const back = (edits: readonly (readonly Edit[])[]): BuildDocument[] => {
    const out: BuildDocument[] = [];
    let at: unknown = doc;
    for (const step of edits) {
      try {
        at = edited(at, step);
      } catch (error) {
        if (error instanceof RangeError) break;
        throw error;
      }
      out.unshift(deepFreeze(at) as BuildDocument);
    }
    return out;
  };
  return { doc, steps: { undo: back(packed.undo), redo: back(packed.redo) } };
}

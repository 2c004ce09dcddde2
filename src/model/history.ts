/**
 * What can be undone and done again: documents as they stood, one a step. A gesture (typing, dragging, stepping one dimension) is one
 * step however many documents it passed through.
 */
import type { BuildDocument } from '../build/document.ts';

/** Steps that can be undone. */
export const MOST_STEPS = 200;

/** Documents share whatever did not change, so that a step costs what it changed. */
export interface Steps {
  /** Oldest first: the last one is what undo goes back to. */
  readonly undo: readonly BuildDocument[];
  /** The last one is what redo goes on to. */
  readonly redo: readonly BuildDocument[];
}

export interface History {
  readonly steps: Steps;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** The document before the gesture that is under way; null between gestures. */
  readonly gestureFrom: BuildDocument | null;
  /** A gesture begins, unless one is under way; returns the document before it. */
  readonly begin: (doc: BuildDocument) => BuildDocument;
  readonly end: () => void;
  /** `before` becomes a step; what could be done again is gone. */
  readonly remember: (before: BuildDocument) => void;
  /** The document one step back or on; undefined where there is none. `from` can then be gone back to. */
  readonly move: (way: 'undo' | 'redo', from: BuildDocument) => BuildDocument | undefined;
  /** Another document with steps of its own, or with none. */
  readonly reset: (steps?: Steps) => void;
}

export function createHistory(): History {
  let undo: BuildDocument[] = [];
  let redo: BuildDocument[] = [];
  let gestureFrom: BuildDocument | null = null;
  return {
    get steps() {
      return { undo: [...undo], redo: [...redo] };
    },
    get canUndo() {
      return undo.length > 0;
    },
    get canRedo() {
      return redo.length > 0;
    },
    get gestureFrom() {
      return gestureFrom;
    },
    begin: (doc) => {
      gestureFrom ??= doc;
      return gestureFrom;
    },
    end: () => {
      gestureFrom = null;
    },
    remember: (before) => {
      undo.push(before);
      if (undo.length > MOST_STEPS) undo.shift();
      redo = [];
    },
    move: (way, from) => {
      const [source, target] = way === 'undo' ? [undo, redo] : [redo, undo];
      const next = source.pop();
      if (next === undefined) return undefined;
      target.push(from);
      gestureFrom = null;
      return next;
    },
    reset: (steps) => {
      undo = [...(steps?.undo ?? [])].slice(-MOST_STEPS);
      redo = [...(steps?.redo ?? [])].slice(-MOST_STEPS);
      gestureFrom = null;
    },
  };
}

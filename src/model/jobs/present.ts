/** The build on show as it would be kept at this moment. */
import type { Steps } from '../history.ts';
import type { KeptStore } from '../state.ts';
import type { Work } from './library.ts';
import { placeOf } from './place.ts';

export function presentWork(store: KeptStore): Work {
  const { state, steps, gestureFrom, built } = store;
  const open = gestureFrom !== null && gestureFrom !== state.doc;
  // A gesture under way is kept as if it ended here.
  const all: Steps = open ? { undo: [...steps.undo, gestureFrom], redo: [] } : steps;
  const refused = built === state.doc ? {} : { built };
  return { doc: state.doc, steps: all, place: placeOf(state), ...refused };
}

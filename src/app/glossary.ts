/** The glossary of the whole page: fetched when the page has come to rest, so that the start does without it. */
import '../view/glossary/glossary.css';
import text from '../../assets/glossary.json?raw';
import { parseGlossary } from '../build/glossary.ts';
import { createFinder, type Finder } from '../model/glossary/finder.ts';
import type { Store } from '../model/index.ts';
import { watchGlossary } from '../view/glossary/watch.ts';

const read = parseGlossary(text);
if (!read.ok)
  throw new Error(`The glossary can't be used: ${read.problems.map((p) => `${p.place} ${p.rule}`).join('; ')}`);

export const FINDER: Finder = createFinder(read.glossary);

/** The store of the lesson that is open; null where none is. */
let lesson: () => Store | null = () => null;

/** Where a lesson is open, drawings are of its build. */
export function drawFromLesson(store: () => Store | null): void {
  lesson = store;
}

/** `all` leads to the whole glossary. */
export function useGlossary(store: Store, all: () => void): void {
  watchGlossary(() => lesson() ?? store, FINDER, all);
}

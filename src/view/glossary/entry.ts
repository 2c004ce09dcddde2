/** One term on the page: what it means, its drawing, and the terms beside it. */
import type { GlossaryTerm } from '../../build/glossary.ts';
import { type Said, say, type Values } from '../../model/lessons/index.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import { spoken, termButton } from '../lessons/spoken.ts';
import { createLive, type Live } from './live.ts';

const NO_FIGURES: Values = new Map();

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The explanation as plain pieces; the glossary holds no figures. */
export function meaning(term: GlossaryTerm): readonly Said[] {
  return say(term.means, NO_FIGURES, 'in');
}

export interface Entry {
  readonly parts: readonly HTMLElement[];
  readonly live: Live;
}

export function createEntry(term: GlossaryTerm, store: Store): Entry {
  const live = createLive(term.drawing, term.term, store);
  const related = html('p', { class: 'sw-g-related' }, 'See also ');
  term.related.forEach((other, k) => {
    if (k > 0) related.append(' ');
    related.append(termButton(other));
  });
  const means = html('p', { class: 'sw-g-means' }, ...spoken(meaning(term)));
  return { parts: [live.element, means, ...(term.related.length > 0 ? [related] : [])], live };
}

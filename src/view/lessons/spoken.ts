/** Texts of lessons and of the glossary on the page: computed figures set off, terms as buttons that lead to the glossary. */
import type { Said } from '../../model/lessons/index.ts';
import { html } from '../element.ts';

/** A term as a button; whoever watches the page for presses on `data-term` shows what it means. */
export function termButton(term: string, words = term): HTMLButtonElement {
  return html('button', { type: 'button', class: 'sw-term', 'data-term': term }, words);
}

export function spoken(said: readonly Said[]): Node[] {
  return said.map((piece) => {
    if (piece.kind === 'term') return termButton(piece.term, piece.text);
    return piece.kind === 'figure'
      ? html('span', { class: 'sw-lesson-figure' }, piece.text)
      : document.createTextNode(piece.text);
  });
}

/** The glossary as a list with a search: each term with what it means, leading to its drawing. */
import type { Finder } from '../../model/glossary/finder.ts';
import { plainly } from '../../model/lessons/index.ts';
import { html, setText } from '../element.ts';
import { capital, meaning } from './entry.ts';

export function createGlossaryList(finder: Finder): HTMLElement {
  const field = html('input', {
    type: 'search',
    id: 'glossary-search',
    class: 'sw-lesson-field',
    autocomplete: 'off',
    spellcheck: 'false',
  });
  const count = html('p', { class: 'sw-quiet', role: 'status' });
  const list = html('ul', { class: 'sw-g-list' });
  const show = (): void => {
    const found = finder.search(field.value);
    setText(count, found.length === 0 ? 'No term speaks of that.' : `${found.length} terms`);
    list.replaceChildren(
      ...found.map((term) => {
        const means = plainly(meaning(term));
        const button = html(
          'button',
          { type: 'button', class: 'sw-g-item', 'data-term': term.term },
          html('span', { class: 'sw-g-name' }, capital(term.term)),
          html('span', { class: 'sw-quiet' }, means),
        );
        return html('li', {}, button);
      }),
    );
  };
  field.addEventListener('input', show);
  show();
  return html(
    'section',
    { class: 'sw-g-all', 'aria-label': 'Glossary', id: 'glossary' },
    html('h3', {}, 'Glossary'),
    html(
      'p',
      { class: 'sw-quiet' },
      'Press a term for its drawing. Anywhere in the program: tap a dotted word, hold a label, or press F1 or ? on a field; with nothing in hand they list the terms in sight.',
    ),
    html('p', { class: 'sw-g-search' }, html('label', { for: 'glossary-search' }, 'Search'), field),
    count,
    list,
  );
}

/**
 * The labels of the page that stand for a term: marked once they are there, by their text, whoever made them. A look over the page is
 * taken after elements were added, at most once a second and when the browser has nothing else to do; changes of text alone,
 * which come with every frame while the crank turns, ask for none.
 */
import type { Finder } from '../../model/glossary/finder.ts';

/** What may be a label, anywhere. */
const LABELS =
  'label, legend, dt, th, caption, h3, h4, .tp-lblv_l, .tp-fldv_t, .sw-sums-name, .sw-gaps-go, .sw-scalars-head > span:first-child, .sw-mark, [data-label-of]';

/** Within these no label is marked: they are the glossary itself, or words that carry their own marks. */
const NOT_WITHIN = '.sw-glossary, .sw-g-all, .sw-lesson-words, .sw-paper';

/** What does something of its own when it is pressed: there a term is shown by holding, or by a key. */
const ACTS =
  'a, button, label, summary, input, select, textarea, tr, [role="button"], [role="tab"], [role="radio"], [role="slider"]';

const EVERY_MS = 1000;

/** The text of a label itself, without that of what else stands in it. */
export function labelText(element: Element): string {
  const own = [...element.childNodes]
    .filter((node) => node.nodeType === Node.TEXT_NODE)
    .map((node) => node.textContent ?? '');
  return own.join(' ').trim();
}

export function actsByItself(element: Element): boolean {
  return element.closest(ACTS) !== null;
}

export interface LabelMarks {
  /** Labels in sight that stand for a term, each term once, in the order of the page. */
  readonly inSight: () => readonly HTMLElement[];
  readonly stop: () => void;
}

export function markLabels(root: HTMLElement, finder: Finder): LabelMarks {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let last = Number.NEGATIVE_INFINITY;

  function look(): void {
    last = performance.now();
    for (const element of root.querySelectorAll<HTMLElement>(LABELS)) {
      const text = labelText(element);
      const term = text === '' || element.closest(NOT_WITHIN) !== null ? null : finder.whole(text);
      const before = element.dataset['term'];
      if (term !== null) {
        if (before !== term.term) element.dataset['term'] = term.term;
      } else if (before !== undefined && element.dataset['marked'] !== undefined) delete element.dataset['term'];
      if (term !== null) element.dataset['marked'] = '';
    }
  }

  function soon(): void {
    if (timer !== undefined) return;
    timer = setTimeout(
      () => {
        timer = undefined;
        if ('requestIdleCallback' in globalThis) requestIdleCallback(look, { timeout: EVERY_MS });
        else look();
      },
      Math.max(0, EVERY_MS - (performance.now() - last)),
    );
  }

  const observer = new MutationObserver((records) => {
    for (const { addedNodes } of records)
      for (const node of addedNodes)
        if (node.nodeType === Node.ELEMENT_NODE && !(node instanceof SVGElement)) {
          soon();
          return;
        }
  });
  observer.observe(root, { childList: true, subtree: true });
  look();
  return {
    inSight: () => {
      look();
      const seen = new Set<string>();
      return [...root.querySelectorAll<HTMLElement>('[data-term]')].filter((element) => {
        const term = element.dataset['term']!;
        if (seen.has(term) || !element.checkVisibility() || element.closest('.sw-glossary') !== null) return false;
        seen.add(term);
        return true;
      });
    },
    stop: () => {
      clearTimeout(timer);
      observer.disconnect();
    },
  };
}

/** The small window of the glossary: one term, or the terms in sight, beside what was pressed; at the foot of a narrow screen. */
import type { GlossaryTerm } from '../../build/glossary.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import { termButton } from '../lessons/spoken.ts';
import { capital, createEntry } from './entry.ts';
import type { Live } from './live.ts';

/** Between the window and what it belongs to, and the edge of the screen, px. */
const APART_PX = 8;
const NARROW = '(max-width: 43.6875em)';

export interface TermPopover {
  /** `others`: further terms of the same label. */
  readonly show: (term: GlossaryTerm, others: readonly GlossaryTerm[], anchor: Element | null) => void;
  readonly list: (terms: readonly string[]) => void;
  readonly isOpen: () => boolean;
  readonly hide: () => void;
  readonly element: HTMLElement;
}

/** `shown` is the store of the build that drawings are of; `all` leads to the whole glossary. */
export function createTermPopover(shown: () => Store, all: () => void): TermPopover {
  const title = html('h2', { tabindex: '-1', id: 'glossary-title' });
  const close = html('button', { type: 'button', class: 'sw-button' }, 'Close');
  const body = html('div', { class: 'sw-glossary-body' });
  const more = html('button', { type: 'button', class: 'sw-button' }, 'All terms');
  const element = html(
    'div',
    { class: 'sw-glossary', popover: 'auto', role: 'dialog', 'aria-labelledby': title.id },
    html('header', { class: 'sw-glossary-head' }, title, close),
    body,
    html('footer', {}, more),
  );
  document.body.append(element);
  let live: Live | null = null;
  /** What had the focus before, and what the window stands beside. */
  let before: HTMLElement | null = null;
  let beside: Element | null = null;

  const isOpen = (): boolean => element.matches(':popover-open');

  /** Focus that was in the window goes back to where it came from; focus that went elsewhere stays there. */
  function giveBack(): void {
    const { activeElement } = document;
    if (before?.isConnected && (activeElement === document.body || element.contains(activeElement)))
      before.focus({ preventScroll: true });
    before = null;
  }

  function hide(): void {
    if (!isOpen()) return;
    element.hidePopover();
    giveBack();
  }
  close.addEventListener('click', hide);
  more.addEventListener('click', () => {
    before = null;
    hide();
    all();
  });
  element.addEventListener('toggle', (event) => {
    if (!(event instanceof ToggleEvent) || event.newState === 'open') return;
    live?.stop();
    live = null;
    giveBack();
  });

  function open(anchor: Element | null): void {
    if (!isOpen()) {
      before = document.activeElement instanceof HTMLElement ? document.activeElement : null;
      beside = anchor;
      element.showPopover();
    }
    stand();
    element.scrollTop = 0;
    title.focus({ preventScroll: true });
  }

  function stand(): void {
    const { style } = element;
    if (matchMedia(NARROW).matches || beside === null || !beside.isConnected) {
      style.removeProperty('left');
      style.removeProperty('top');
      return;
    }
    const at = beside.getBoundingClientRect();
    const { offsetWidth: width, offsetHeight: height } = element;
    const below = at.bottom + APART_PX;
    const top = below + height + APART_PX <= innerHeight ? below : Math.max(APART_PX, at.top - APART_PX - height);
    const covers = top < at.bottom && top + height > at.top;
    const left = covers ? (at.left > innerWidth / 2 ? at.left - width - APART_PX : at.right + APART_PX) : at.left;
    style.left = `${Math.min(Math.max(left, APART_PX), innerWidth - width - APART_PX)}px`;
    style.top = `${Math.min(top, Math.max(APART_PX, innerHeight - height - APART_PX))}px`;
  }

  return {
    element,
    isOpen,
    hide,
    show: (term, others, anchor) => {
      live?.stop();
      const entry = createEntry(term, shown());
      live = entry.live;
      title.textContent = capital(term.term);
      const rest = others.filter((other) => other !== term);
      const here = html('p', { class: 'sw-g-related' }, 'In the same words: ');
      for (const other of rest) here.append(termButton(other.term), ' ');
      body.replaceChildren(...entry.parts, ...(rest.length > 0 ? [here] : []));
      open(anchor);
    },
    list: (terms) => {
      live?.stop();
      live = null;
      title.textContent = 'Terms in sight';
      const list = html('ul', { class: 'sw-g-sight' });
      for (const term of terms) list.append(html('li', {}, termButton(term, capital(term))));
      body.replaceChildren(terms.length === 0 ? html('p', {}, 'No label in sight is in the glossary.') : list);
      open(null);
    },
  };
}

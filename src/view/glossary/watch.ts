/**
 * The glossary everywhere, by one mechanism: presses, holds and keys are listened to on the document, and the term is found by the text of
 * the label. A dotted word or a plain label opens it by a tap; a label that does something of its own when pressed, by holding it; any
 * of them by F1 or ? while its control has the focus.
 */
import type { Finder } from '../../model/glossary/finder.ts';
import type { Store } from '../../model/state.ts';
import { actsByItself, labelText, markLabels } from './labels.ts';
import { createTermPopover } from './popover.ts';

/** A press that lasts so long is a hold, ms: as long as the system's own. */
const HOLD_MS = 500;
/** A finger that moves farther scrolls or drags, px. */
const STILL_PX = 10;

export function watchGlossary(shown: () => Store, finder: Finder, all: () => void): { readonly stop: () => void } {
  const popover = createTermPopover(shown, all);
  const marks = markLabels(document.body, finder);
  const listening = new AbortController();
  const { signal } = listening;

  /** Shows what a label speaks of; false when it speaks of nothing. */
  function showFor(labels: readonly string[], anchor: Element): boolean {
    const found = labels.flatMap((label) => finder.within(label));
    const [first] = found;
    if (first === undefined) return false;
    popover.show(first, found, anchor);
    return true;
  }

  function pressed(target: EventTarget | null): { element: HTMLElement; words: boolean } | null {
    if (!(target instanceof Element)) return null;
    const element = target.closest<HTMLElement>('[data-term]');
    return element === null ? null : { element, words: element.dataset['marked'] === undefined };
  }

  document.addEventListener(
    'click',
    (event) => {
      const at = pressed(event.target);
      if (at === null || (!at.words && actsByItself(at.element))) return;
      const term = finder.named(at.element.dataset['term']!);
      if (term === null) return;
      popover.show(term, [], at.element);
      event.preventDefault();
    },
    { signal },
  );

  let holding: ReturnType<typeof setTimeout> | undefined;
  let start = { x: 0, y: 0 };
  let held = false;
  const letGo = (): void => clearTimeout(holding);
  document.addEventListener(
    'pointerdown',
    (event) => {
      letGo();
      held = false;
      const label = holdable(event.target);
      if (label === null || event.button !== 0) return;
      start = { x: event.clientX, y: event.clientY };
      holding = setTimeout(() => {
        held = showFor([labelText(label) || (label.textContent ?? '')], label);
      }, HOLD_MS);
    },
    { signal, passive: true },
  );
  document.addEventListener(
    'pointermove',
    (event) => {
      if (Math.hypot(event.clientX - start.x, event.clientY - start.y) > STILL_PX) letGo();
    },
    { signal, passive: true },
  );
  for (const end of ['pointerup', 'pointercancel', 'scroll'] as const)
    document.addEventListener(end, letGo, { signal, passive: true, capture: true });
  // What a hold has shown is not also a press, and not a menu of the browser's.
  document.addEventListener(
    'click',
    (event) => {
      if (!held) return;
      held = false;
      event.preventDefault();
      event.stopPropagation();
    },
    { signal, capture: true },
  );
  document.addEventListener(
    'contextmenu',
    (event) => {
      if (held) event.preventDefault();
    },
    { signal },
  );

  document.addEventListener(
    'keydown',
    (event) => {
      if (event.key === 'Escape' && popover.isOpen()) {
        popover.hide();
        event.preventDefault();
        event.stopPropagation();
        return;
      }
      const asked = event.key === 'F1' || (event.key === '?' && !isText(event.target));
      if (!asked || event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopPropagation();
      const { activeElement } = document;
      if (
        activeElement !== null &&
        activeElement !== document.body &&
        !popover.element.contains(activeElement) &&
        showFor(labelsOf(activeElement), activeElement)
      )
        return;
      popover.list(marks.inSight().map((element) => element.dataset['term']!));
    },
    { signal, capture: true },
  );

  return {
    stop: () => {
      listening.abort();
      letGo();
      marks.stop();
      popover.element.remove();
    },
  };
}

/** A label that can be held: one that is marked, or one that acts by itself and speaks of terms. */
function holdable(target: EventTarget | null): HTMLElement | null {
  if (!(target instanceof Element)) return null;
  return target.closest<HTMLElement>('[data-term][data-marked], .sw-gaps-go, .sw-sums-name, .tp-lblv_l label');
}

/** A field in which a question mark may be part of what is typed: dimensions have none. */
function isText(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target.tagName === 'TEXTAREA') return true;
  if (!(target instanceof HTMLInputElement)) return false;
  const typed = ['text', 'search', 'url', 'email', 'password', 'tel'].includes(target.type);
  return typed && !/\d/.test(target.value);
}

/** The texts that name a control: what labels it, its own name, its own words, the heading of its row. */
function labelsOf(control: Element): string[] {
  const ids = (control.getAttribute('aria-labelledby') ?? '').split(/\s+/).filter((id) => id !== '');
  const named = ids.map((id) => document.getElementById(id)?.textContent ?? '');
  const labels =
    'labels' in control && control.labels instanceof NodeList
      ? [...control.labels].map((label) => labelText(label as Element))
      : [];
  const row = control.closest('.tp-lblv')?.querySelector('.tp-lblv_l');
  const own =
    !(control instanceof SVGElement) && control.matches('button, summary, a, [role="button"], [role="tab"], tr')
      ? [labelText(control) || (control.textContent ?? '')]
      : [];
  return [
    ...named,
    ...labels,
    control.getAttribute('aria-label') ?? '',
    row === null || row === undefined ? '' : labelText(row),
    ...own,
  ].filter((text) => text !== '');
}

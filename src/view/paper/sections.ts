/** Sections of a page, one on show at a time: chosen by tabs, made when first chosen, told when they come and go. */
import { html } from '../element.ts';

export interface Shown {
  readonly shown?: () => void;
  readonly hidden?: () => void;
  /** Escape: true when a step back inside was taken. */
  readonly back?: () => boolean;
}

export interface SectionEntry {
  readonly title: string;
  readonly create: (host: HTMLElement) => Shown;
}

export function createSections(host: HTMLElement, entries: readonly SectionEntry[], close: () => void): Shown {
  const back = html('button', { type: 'button', class: 'sw-button' }, 'Back to the section');
  back.addEventListener('click', close);
  const tabs = entries.map(({ title }, k) =>
    html('button', { type: 'button', role: 'tab', id: `hand-out-tab-${k}`, 'aria-controls': `hand-out-${k}` }, title),
  );
  const places = entries.map((_, k) =>
    html('section', {
      class: 'sw-hand-section',
      role: 'tabpanel',
      id: `hand-out-${k}`,
      'aria-labelledby': `hand-out-tab-${k}`,
    }),
  );
  const made = new Map<number, Shown>();
  let chosen = 0;
  let up = false;

  host.replaceChildren(
    html(
      'div',
      { class: 'sw-hand' },
      html('header', { class: 'sw-hand-head' }, html('h2', {}, 'Hand out'), back),
      html('div', { class: 'sw-hand-tabs', role: 'tablist', 'aria-label': 'What to hand out' }, ...tabs),
      ...places,
    ),
  );

  function mark(): void {
    tabs.forEach((tab, k) => {
      tab.setAttribute('aria-selected', String(k === chosen));
      tab.tabIndex = k === chosen ? 0 : -1;
    });
    places.forEach((place, k) => {
      place.hidden = k !== chosen;
    });
  }

  function choose(k: number): void {
    if (up) made.get(chosen)?.hidden?.();
    chosen = k;
    mark();
    if (!up) return;
    const section = made.get(k) ?? entries[k]!.create(places[k]!);
    made.set(k, section);
    section.shown?.();
  }

  tabs.forEach((tab, k) => {
    tab.addEventListener('click', () => {
      if (k !== chosen) choose(k);
    });
    tab.addEventListener('keydown', (event) => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
      if (step === undefined) return;
      event.preventDefault();
      const next = (k + step + tabs.length) % tabs.length;
      choose(next);
      tabs[next]!.focus();
    });
  });
  mark();

  return {
    shown: () => {
      up = true;
      choose(chosen);
    },
    hidden: () => {
      made.get(chosen)?.hidden?.();
      up = false;
    },
    back: () => made.get(chosen)?.back?.() ?? false,
  };
}

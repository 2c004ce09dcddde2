/** Which of what is compared is laid over one another: a box to tick for each, in its colour. */
import type { Compared } from '../../model/curves/compare.ts';
import { html } from '../element.ts';
import { readInk } from '../theme.ts';
import { borderOf, hexColours } from './strokes.ts';

export interface Choice {
  readonly element: HTMLElement;
  /** Offers these; returns those that are ticked. */
  show(list: readonly Compared[]): readonly Compared[];
}

/** Ticked to begin with; more would cover one another. */
const FIRST_TICKED = 6;

export function createChoice(changed: () => void): Choice {
  const boxes = html('div', { class: 'sw-curves-boxes' });
  const element = html('fieldset', { class: 'sw-curves-choice' }, html('legend', {}, 'Laid over one another'), boxes);
  /** What the hand has ticked or left out, by name; the rest is as it comes. */
  const set = new Map<string, boolean>();
  let shown: readonly Compared[] = [];
  let ink = '';

  const isTicked = ({ name }: Compared): boolean =>
    set.get(name) ?? shown.findIndex((each) => each.name === name) < FIRST_TICKED;

  function box(of: Compared): HTMLElement {
    const input = html('input', { type: 'checkbox' });
    input.checked = isTicked(of);
    input.addEventListener('change', () => {
      set.set(of.name, input.checked);
      changed();
    });
    const swatch = html('span', { class: 'sw-curves-swatch' });
    swatch.style.borderTop = borderOf(of, hexColours(readInk()));
    return html('label', {}, input, swatch, html('span', {}, of.name));
  }

  return {
    element,
    show(list) {
      const now = hexColours(readInk()).lines.join();
      const same = ink === now && list.length === shown.length && list.every((each, k) => each === shown[k]);
      shown = list;
      ink = now;
      // Left as they are where they are the same, so that the one in use keeps the focus.
      if (!same) boxes.replaceChildren(...list.map(box));
      return list.filter(isTicked);
    },
  };
}

/** The sheet that papers are printed on: chosen once for all of them; until then by the units on show. */
import type { State } from '../../model/state.ts';
import { html } from '../element.ts';
import type { PaperSize } from './sheets.ts';

const SIZES: readonly (readonly [PaperSize, string])[] = [
  ['a4', 'A4'],
  ['letter', 'US Letter'],
];

export interface SizeChoice {
  /** Who works in inches has Letter in the printer. */
  readonly of: (state: Pick<State, 'units'>) => PaperSize;
  /** A control of its own for each place where it is asked for. */
  readonly control: () => HTMLElement;
  readonly watch: (listener: () => void) => void;
  /** The units may be others. */
  readonly renew: () => void;
}

export function createSizeChoice(state: () => Pick<State, 'units'>): SizeChoice {
  let chosen: PaperSize | null = null;
  const listeners: (() => void)[] = [];
  const controls: (() => void)[] = [];
  const renew = (): void => {
    for (const show of controls) show();
  };
  const of = ({ units }: Pick<State, 'units'>): PaperSize => chosen ?? (units === 'in' ? 'letter' : 'a4');
  return {
    of,
    control: () => {
      const made = html('select', { 'aria-label': 'Sheet' });
      const show = (): void => {
        const now = of(state());
        made.replaceChildren(...SIZES.map(([size, name]) => new Option(name, size, false, size === now)));
      };
      show();
      made.addEventListener('change', () => {
        chosen = made.value as PaperSize;
        renew();
        for (const listener of listeners) listener();
      });
      controls.push(show);
      return html('label', { class: 'sw-desk-size' }, html('span', {}, 'Sheet'), made);
    },
    watch: (listener) => {
      listeners.push(listener);
    },
    renew,
  };
}

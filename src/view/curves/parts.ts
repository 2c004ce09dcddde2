/** What the page of curves is put together from: its controls, their places, and what they say. */
import type { Comparison } from '../../model/curves/compare.ts';
import type { Quantity } from '../../model/curves/lines.ts';
import type { Units } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { createChoice } from './choice.ts';
import { QUANTITIES, WHAT } from './curveWords.ts';
import { createKey } from './key.ts';
import { createMeasures } from './measures.ts';
import { createPlot } from './plot.ts';
import { createTogether } from './together.ts';

export interface PartsOptions {
  /** A control was changed: everything is drawn anew. */
  readonly draw: () => void;
  readonly turnTo: (deg: number) => void;
  readonly turn: () => void;
  readonly showCylinder: (number: number) => void;
  readonly close: () => void;
  readonly saveCsv: () => void;
  readonly saveSvg: () => void;
  readonly savePng: () => void;
}

export type Parts = ReturnType<typeof createParts>;

export function createParts(host: HTMLElement, options: PartsOptions) {
  const select = (label: string, entries: readonly (readonly [string, string])[]): HTMLSelectElement => {
    const made = html('select', { 'aria-label': label });
    made.append(...entries.map(([value, text]) => new Option(text, value)));
    made.addEventListener('change', options.draw);
    return made;
  };
  const button = (text: string, run: () => void, main = false): HTMLButtonElement => {
    const made = html('button', { type: 'button', class: `sw-button${main ? ' sw-button-main' : ''}` }, text);
    made.addEventListener('click', run);
    return made;
  };
  const what = select('Compared', WHAT);
  const by = html('input', { type: 'text', size: '9', 'aria-label': 'By how much' });
  by.addEventListener('change', options.draw);
  const byLabel = html('label', {}, 'by', by);
  const quantity = select('Curve', QUANTITIES);
  const pair = select('Pair', []);
  const pairLabel = html('label', {}, 'Pair', pair);
  const cylinder = html('select', { 'aria-label': 'Cylinder' });
  cylinder.addEventListener('change', () => options.showCylinder(Number(cylinder.value)));
  const turn = button('Turn', options.turn, true);
  const refused = html('p', { class: 'sw-curves-refused', role: 'status' });
  const missing = html('p', { class: 'sw-curves-missing', role: 'status' });
  const comparedNote = html('p', { class: 'sw-curves-note' });
  const note = html('p', { class: 'sw-curves-note' });
  const choice = createChoice(options.draw);
  const key = createKey();
  const bar = html('progress', { 'aria-label': 'Gaps worked out' });
  const barWords = html('span');
  const progress = html('p', { class: 'sw-curves-progress' }, bar, barWords);
  const plot = createPlot(options.turnTo);
  const handle = plot.area;
  handle.tabIndex = 0;
  handle.setAttribute('role', 'slider');
  handle.setAttribute('aria-label', 'Crank angle after top dead centre');
  handle.setAttribute('aria-valuemin', '0');
  const together = createTogether();
  const measures = createMeasures();
  const saves = [
    button('Save as CSV', options.saveCsv),
    button('Save as SVG', options.saveSvg),
    button('Save as PNG', options.savePng),
  ];
  progress.hidden = true;
  host.replaceChildren(
    html(
      'div',
      { class: 'sw-curves' },
      html(
        'header',
        { class: 'sw-curves-head' },
        html('h2', {}, 'Curves'),
        turn,
        button('Back to the section', options.close),
      ),
      html(
        'div',
        { class: 'sw-curves-row' },
        html('label', {}, 'Compared', what),
        byLabel,
        html('label', {}, 'Curve', quantity),
        pairLabel,
        html('label', {}, 'Cylinder', cylinder),
      ),
      comparedNote,
      choice.element,
      refused,
      html(
        'div',
        { class: 'sw-curves-main' },
        html('div', { class: 'sw-curves-chart' }, plot.element, progress, missing, note, key.element),
        together.element,
      ),
      html('div', { class: 'sw-curves-row' }, ...saves),
      measures.element,
    ),
  );

  return {
    what,
    by,
    quantity,
    pair,
    turn,
    refused,
    missing,
    comparedNote,
    note,
    choice,
    key,
    plot,
    handle,
    together,
    measures,
    /** Shows the fields that a comparison and a curve need; `by` gets a first value. */
    ask(kind: Comparison, of: Quantity, units: Units): void {
      byLabel.hidden = kind === 'assemblies';
      pairLabel.hidden = of !== 'gap';
      // A rod or stroke is changed by half an inch, a pin offset by a sixteenth, common practice, no published source.
      const first = kind === 'pin offset' ? ['.060 in', '1.5 mm'] : ['.500 in', '12 mm'];
      if (by.value === '' || by.value === by.dataset['first']) {
        by.value = units === 'in' ? first[0]! : first[1]!;
        by.dataset['first'] = by.value;
      }
    },
    refuse(why: string): void {
      setText(
        refused,
        `${by.value === '' ? 'Nothing' : by.value} is refused: ${why} Allowed: a length, as .500 in or 12 mm. The curves shown are those before.`,
      );
    },
    offerCylinders(numbers: readonly number[], chosen: number): void {
      if (cylinder.length !== numbers.length)
        cylinder.replaceChildren(...numbers.map((n) => new Option(String(n), String(n))));
      cylinder.value = String(chosen);
    },
    /** How far the gaps are worked out; null when there is nothing to wait for. Half a curve is not saved, and none is not either. */
    working(now: { readonly done: number; readonly of: number } | null, empty: boolean): void {
      progress.hidden = now === null;
      for (const save of saves) save.disabled = empty || now !== null;
      if (now === null) return;
      bar.max = now.of;
      bar.value = now.done;
      setText(barWords, `Working the gaps out: ${Math.floor((100 * now.done) / now.of)} %`);
    },
  };
}

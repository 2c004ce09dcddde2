/** What rod ratio does, measured: a table of the engines compared, and one figure against rod ratio as curves. */
import type { Compared } from '../../model/curves/compare.ts';
import { againstRatio, lengthOf, MEASURES, measuresOf, RATIOS } from '../../model/curves/measured.ts';
import type { Units } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { readInk } from '../theme.ts';
import { createPlot } from './plot.ts';
import { createRatioWork } from './ratioWork.ts';
import { said, scaleOf } from './scale.ts';
import { borderOf, hexColours } from './strokes.ts';

export interface MeasuresPart {
  readonly element: HTMLElement;
  show(list: readonly Compared[], cylinder: number, rpm: number, units: Units): void;
  /** Nothing goes on being worked out. */
  stop(): void;
}

export function createMeasures(): MeasuresPart {
  const within = html('input', {
    type: 'text',
    value: '',
    'aria-label': 'Near a dead centre means within',
    size: '10',
  });
  const refused = html('p', { class: 'sw-curves-refused', role: 'status' });
  const table = html('table', { class: 'sw-curves-measures' });
  const which = html('select', { 'aria-label': 'Figure against rod ratio' });
  which.append(
    ...MEASURES.slice(2).map(
      ({ name }, k) =>
        new Option(
          name.startsWith('at,')
            ? 'Angle of the greatest speed'
            : name.startsWith('the first')
              ? 'Acceleration at the top over that at the bottom'
              : name.startsWith('that as')
                ? 'Share of the travel done at 90°'
                : name,
          String(k + 2),
        ),
    ),
  );
  const plot = createPlot(null);
  const work = createRatioWork();
  let last: readonly [readonly Compared[], number, number, Units] | null = null;
  const again = (): void => {
    if (last !== null) show(...last);
  };
  within.addEventListener('change', again);
  which.addEventListener('change', again);
  const element = html(
    'section',
    { class: 'sw-curves-ratio', 'aria-label': 'What rod ratio does' },
    html('h3', {}, 'What rod ratio does'),
    html('div', { class: 'sw-curves-row' }, html('label', {}, 'Near a dead centre means within', within), refused),
    html('div', { class: 'sw-curves-scroll', tabindex: '0', role: 'region', 'aria-label': 'Figures' }, table),
    html(
      'div',
      { class: 'sw-curves-row' },
      html('label', {}, 'Against rod ratio, stroke and offset as they are', which),
    ),
    plot.element,
  );

  function show(list: readonly Compared[], cylinder: number, rpm: number, units: Units): void {
    last = [list, cylinder, rpm, units];
    if (within.value === '') within.value = units === 'in' ? '.100 in' : '2.50 mm';
    const sliders = list.flatMap(({ name, look, cylinders }) =>
      cylinders.filter((c) => c.number === cylinder).map(({ slider }) => ({ name, look, slider })),
    );
    let withinMm: number;
    try {
      withinMm = lengthOf(within.value);
      const measures = sliders.map(({ slider }) => measuresOf(slider, withinMm));
      refused.textContent = '';
      table.replaceChildren(
        html(
          'thead',
          {},
          html(
            'tr',
            {},
            html('th', { scope: 'col' }, 'Figure'),
            ...list.map((each) => {
              const head = html('th', { scope: 'col' }, each.name);
              head.style.borderBottom = borderOf(each, hexColours(readInk()));
              return head;
            }),
          ),
        ),
        html(
          'tbody',
          {},
          ...MEASURES.map(({ name, unit, of }) =>
            html(
              'tr',
              {},
              html('th', { scope: 'row' }, name),
              ...measures.map((m) => html('td', {}, said(of(m, rpm), scaleOf(unit, units)))),
            ),
          ),
        ),
      );
    } catch (error) {
      refused.textContent = `${within.value === '' ? 'Nothing' : within.value} is refused: ${error instanceof Error ? error.message : String(error)}. Allowed: a length above zero and below the piston’s travel, as .100 in or 2.5 mm. The figures shown are those before.`;
      return;
    }
    const measure = MEASURES[Number(which.value)]!;
    const yLabel = which.selectedOptions[0]?.text ?? measure.name;
    work.run(
      sliders.map(({ slider: { crankRadiusMm, offsetMm } }) => ({ crankRadiusMm, offsetMm, withinMm })),
      (over) =>
        plot.show({
          x: RATIOS,
          xLabel: 'Rod ratio: rod length over stroke',
          xStep: 0.2,
          lines: againstRatio(measure, sliders, withinMm, over, rpm),
          yLabel,
          scale: scaleOf(measure.unit, units),
          place: (ratio) => `${ratio.toFixed(2)}:`,
        }),
      (why) => setText(refused, why),
    );
  }

  return { element, show, stop: work.stop };
}

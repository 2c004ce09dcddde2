/** How a learner says what he expects: a marker put on a scale, one answer of several, or a number with its unit. */
import type { OpenLesson, Prediction } from '../../model/lessons/index.ts';
import { say } from '../../model/lessons/index.ts';
import type { Units } from '../../model/state.ts';
import { html } from '../element.ts';
import { formatFixed } from '../words.ts';
import { createMarker } from './marker.ts';
import { spoken } from './spoken.ts';

export interface PredictControl {
  readonly element: HTMLElement;
  readonly prediction: () => Prediction;
  /** The prediction is made: it stays to be seen, and takes no more. */
  readonly settle: () => void;
  readonly focus: () => void;
  /** Marks what was typed as not taken, for assistive technology. */
  readonly refuse: (describedBy: string | null) => void;
}

type Round = OpenLesson['lesson']['rounds'][number];

/** `id` sets names of radio buttons and fields apart; `go` is asked for when Enter is pressed in a field. */
export function predictControl(
  opened: OpenLesson,
  round: Round,
  units: Units,
  id: string,
  go: () => void,
): PredictControl {
  const { predict } = round;
  switch (predict.by) {
    case 'angle':
      return angleControl(opened, predict);
    case 'place':
      return placeControl(opened, predict);
    case 'choice':
      return choiceControl(opened, predict, units, id);
    case 'number':
      return numberControl(predict, id, go);
  }
}

type By<K extends Round['predict']['by']> = Extract<Round['predict'], { by: K }>;

function angleControl({ values }: OpenLesson, predict: By<'angle'>): PredictControl {
  const [from, to] = [Number.parseFloat(predict.from), Number.parseFloat(predict.to)];
  const every = (to - from) / 4;
  const marker = createMarker({
    label: 'Crank angle you expect, after top dead centre',
    from,
    to,
    step: 1,
    upright: false,
    ticks: [0, 1, 2, 3, 4].map((k) => ({ at: from + k * every, words: `${formatFixed(from + k * every, 0)}°` })),
    say: (v) => `${formatFixed(v, 1)}°`,
  });
  return {
    element: marker.element,
    prediction: () => ({ by: 'angle', value: marker.value() }),
    settle: () => marker.reveal(values.get(predict.answer)!.value),
    focus: marker.focus,
    refuse: () => {},
  };
}

function placeControl({ values }: OpenLesson, predict: By<'place'>): PredictControl {
  const marker = createMarker({
    label: 'Place of the crown you expect, share of the stroke below the top',
    from: 0,
    to: 1,
    step: 0.01,
    upright: true,
    ticks: [
      { at: 0, words: 'TDC' },
      { at: 0.5, words: 'half' },
      { at: 1, words: 'BDC' },
    ],
    say: (v) => `${formatFixed(v * 100, 1)} % down`,
  });
  return {
    element: marker.element,
    prediction: () => ({ by: 'place', value: marker.value() }),
    settle: () => marker.reveal(values.get(predict.answer)!.value),
    focus: marker.focus,
    refuse: () => {},
  };
}

function choiceControl({ values }: OpenLesson, predict: By<'choice'>, units: Units, id: string): PredictControl {
  const radios: HTMLInputElement[] = [];
  const options = predict.options.map((option, k) => {
    const radio = html('input', { type: 'radio', name: id, value: String(k) });
    radios.push(radio);
    return html(
      'label',
      { class: 'sw-lesson-option' },
      radio,
      html('span', {}, ...spoken(say(option.text, values, units))),
    );
  });
  const element = html(
    'fieldset',
    { class: 'sw-lesson-options' },
    html('legend', { class: 'sw-unseen' }, 'Your answer'),
    ...options,
  );
  return {
    element,
    prediction: () => {
      const chosen = radios.findIndex((radio) => radio.checked);
      return { by: 'choice', option: chosen < 0 ? null : chosen };
    },
    settle: () => {
      for (const radio of radios) radio.disabled = true;
    },
    focus: () => radios[0]?.focus(),
    refuse: () => {},
  };
}

/** As they are read aloud: “in in” is no help to anybody. */
const UNIT_WORDS: Readonly<Record<string, string>> = { in: 'inches', mm: 'millimetres', deg: 'degrees' };

function numberControl(predict: By<'number'>, id: string, go: () => void): PredictControl {
  const field = html('input', {
    type: 'text',
    id,
    class: 'sw-lesson-field',
    inputmode: 'text',
    autocomplete: 'off',
    spellcheck: 'false',
    maxlength: '80',
  });
  field.addEventListener('keydown', (event) => {
    if (event.key === 'Enter') go();
  });
  const unit = predict.unit === '' ? '' : `, in ${UNIT_WORDS[predict.unit] ?? predict.unit} or with a unit of your own`;
  const element = html('div', { class: 'sw-lesson-number' }, html('label', { for: id }, `Your number${unit}`), field);
  return {
    element,
    prediction: () => ({ by: 'number', text: field.value }),
    settle: () => {
      field.readOnly = true;
    },
    focus: () => field.focus(),
    refuse: (describedBy) => {
      field.toggleAttribute('aria-invalid', false);
      if (describedBy === null) {
        field.removeAttribute('aria-invalid');
        field.removeAttribute('aria-describedby');
        return;
      }
      field.setAttribute('aria-invalid', 'true');
      field.setAttribute('aria-describedby', describedBy);
    },
  };
}

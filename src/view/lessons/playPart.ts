/** The last part of a lesson: dimensions that may be moved, and the figures that follow, with the section beside them. */

import { problemSentence } from '../../model/index.ts';
import {
  type LessonAsker,
  madeFrom,
  type OpenLesson,
  playField,
  say,
  sayValue,
  type Values,
} from '../../model/lessons/index.ts';
import type { State, Store } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { isMoving } from '../inView.ts';
import { spoken } from './spoken.ts';

export interface PlayPart {
  readonly element: HTMLElement;
  readonly stop: () => void;
}

/** While a slider is held the figures are asked for at most so often, ms; those that need a gap proven wait for its release. */
const FOLLOW_MS = 60;

export function createPlayPart(opened: OpenLesson, store: Store, asker: LessonAsker): PlayPart {
  const { lesson } = opened;
  const { move, watch, hold, text } = lesson.play;
  store.send({ do: 'hold', held: hold });
  const wanted = madeFrom(lesson, watch);
  const slow = watch.some((name) =>
    [...madeFrom(lesson, [name])].some(
      (n) => lesson.figures[n]?.pair !== undefined || lesson.figures[n]?.kind !== undefined,
    ),
  );

  const sliders = move.map((one) => {
    const field = playField(one);
    const id = `play-${one.place.replace(/\W/g, '-')}`;
    const input = html('input', {
      type: 'range',
      id,
      min: '0',
      max: String(field.steps),
      step: '1',
      class: 'sw-play-slider',
    });
    const said = html('output', { for: id, class: 'sw-number' });
    const send = (last: boolean): void =>
      store.send({ do: 'set dimension', path: field.path, text: field.literal(Number(input.value)), last });
    input.addEventListener('input', () => send(false));
    input.addEventListener('change', () => send(true));
    const show = (state: State): void => {
      const now = field.now(state.doc);
      input.disabled = now === null;
      if (now === null) return;
      if (Number(input.value) !== now) input.value = String(now);
      setText(said, field.literal(now));
      input.setAttribute('aria-valuetext', field.literal(now));
    };
    return { row: html('div', { class: 'sw-play-row' }, html('label', { for: id }, field.label), said, input), show };
  });
  const cells = watch.map((name) => ({
    name,
    before: html('dd', { class: 'sw-quiet' }),
    now: html('dd', { class: 'sw-number' }),
  }));
  const figures = html('dl', { class: 'sw-play-figures' });
  for (const { name, now, before } of cells) {
    figures.append(html('div', {}, html('dt', {}, name.charAt(0).toUpperCase() + name.slice(1)), now, before));
  }
  const refused = html('p', { class: 'sw-lesson-refused', role: 'status' });
  const again = html('button', { type: 'button', class: 'sw-button' }, 'As it was');
  again.addEventListener('click', () => {
    while (store.state.canUndo) store.send({ do: 'undo' });
  });
  const element = html(
    'section',
    { class: 'sw-lesson-play', 'aria-label': 'Play on with it' },
    html('h3', { tabindex: '-1' }, 'Play on with it'),
    ...text.map((paragraph) => html('p', {}, ...spoken(say(paragraph, opened.values, store.state.units)))),
    ...sliders.map((one) => one.row),
    refused,
    figures,
    again,
  );

  function fill(values: Values | null, state: State): void {
    for (const { name, now, before } of cells) {
      const value = values?.get(name);
      const was = opened.values.get(name)!;
      const fine = was.as === 'length' || was.as === 'ratio' ? (['fine'] as const) : [];
      setText(now, value === undefined ? '–' : sayValue(value, state.units, fine));
      setText(before, `was ${sayValue(was, state.units, fine)}`);
    }
  }

  let waiting: ReturnType<typeof setTimeout> | undefined;
  function follow(state: State): void {
    for (const slider of sliders) slider.show(state);
    again.disabled = !state.canUndo;
    setText(refused, state.refused.map(problemSentence).join(' '));
    if (state.refused.length > 0) return;
    clearTimeout(waiting);
    const work = (): void => {
      const { doc } = store.state;
      asker.values(lesson, doc, wanted, (worked) => {
        if (store.state.doc === doc) fill(worked.ok ? worked.values : null, store.state);
      });
    };
    if (!isMoving(state)) work();
    else if (!slow) waiting = setTimeout(work, FOLLOW_MS);
  }
  follow(store.state);
  const stop = store.watch((state, changed) => {
    if (changed.has('document') || changed.has('engine') || changed.has('units')) follow(state);
  });
  return {
    element,
    stop: () => {
      clearTimeout(waiting);
      stop();
    },
  };
}

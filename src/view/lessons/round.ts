/**
 * One round of a lesson: what is asked, what the learner expects, the crank turning, and what comes of it. What stands there before stays
 * to be read again.
 */
import {
  type Chart,
  degreesOf,
  type Judged,
  judge,
  type LessonAsker,
  type OpenLesson,
  say,
} from '../../model/lessons/index.ts';
import type { Store } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { crankAngleAt } from '../words.ts';
import { createChart } from './chart.ts';
import { predictControl } from './predict.ts';
import { spoken } from './spoken.ts';
import { type Turning, turnThrough } from './turnThrough.ts';

export interface RoundPart {
  readonly element: HTMLElement;
  readonly focus: () => void;
  readonly stop: () => void;
}

export interface RoundOptions {
  readonly opened: OpenLesson;
  readonly store: Store;
  readonly asker: LessonAsker;
  /** From 0. */
  readonly number: number;
  /** What was said in this round before, as it is kept; then it is told at once. */
  readonly before: string | null;
  /** The prediction is made and shown: to be kept. */
  readonly said: (said: string) => void;
  /** On to what comes next. */
  readonly next: () => void;
  /** Brings the section into sight before the crank turns. */
  readonly look: () => void;
}

export function createRound({ opened, store, asker, number, before, said, next, look }: RoundOptions): RoundPart {
  const { lesson, values } = opened;
  const round = lesson.rounds[number]!;
  const units = store.state.units;
  const id = `lesson-${lesson.key}-${number}`;
  const spokenHere = (text: string): Node[] => spoken(say(text, values, units));

  const status = html('p', { class: 'sw-lesson-status', role: 'status', id: `${id}-status` });
  const go = html('button', { type: 'button', class: 'sw-button sw-button-main' }, 'Turn the crank and see');
  const told = html('div', { class: 'sw-lesson-told' });
  const title = html(
    'h3',
    { tabindex: '-1' },
    lesson.rounds.length === 1 ? 'Question' : `Question ${number + 1} of ${lesson.rounds.length}`,
  );
  const control = predictControl(opened, round, units, id, () => go.click());
  const element = html(
    'section',
    { class: 'sw-lesson-round', 'aria-label': title.textContent ?? '' },
    title,
    html('p', {}, ...spokenHere(round.question)),
  );
  if (round.hint !== undefined) element.append(html('p', { class: 'sw-quiet' }, ...spokenHere(round.hint)));

  let turning: Turning | null = null;
  let over = false;

  if (before === null) {
    element.append(control.element, status, go, told);
    go.addEventListener('click', () => (turning === null ? start() : turning.finish()));
  } else {
    over = true;
    element.append(html('p', { class: 'sw-lesson-held' }, `You said before: ${before}`), told);
    explain([]);
  }

  function start(): void {
    if (over) return;
    const judged = judge(opened, round, control.prediction(), units);
    control.refuse(judged.taken ? null : status.id);
    if (!judged.taken) {
      setText(status, judged.words);
      control.focus();
      return;
    }
    setText(status, '');
    said(judged.said);
    status.replaceChildren(...spokenHere(round.turn.words));
    setText(go, 'Show it at once');
    look();
    const { state } = store;
    const cylinder = state.engine.cylinders.find((c) => c.number === state.cylinder)!;
    const at = (deg: number): number => crankAngleAt((deg * Math.PI) / 180, cylinder, state.engine.cycleRad);
    turning = turnThrough(store, at, degreesOf(round.turn.from, values), degreesOf(round.turn.to, values), () =>
      tell(judged),
    );
  }

  function tell(judged: Extract<Judged, { taken: true }>): void {
    if (over) return;
    over = true;
    control.settle();
    go.remove();
    const held = html('p', { class: 'sw-lesson-held', tabindex: '-1' }, judged.words);
    explain([held, html('p', { class: 'sw-lesson-reply' }, ...spoken(judged.reply))]);
    held.focus({ preventScroll: true });
    held.scrollIntoView({ block: 'nearest' });
  }

  function explain(first: readonly HTMLElement[]): void {
    const { text, formula = [], figure } = round.explain;
    const on = html(
      'button',
      { type: 'button', class: 'sw-button sw-button-main' },
      number + 1 < lesson.rounds.length ? 'Next question' : 'Play on with it',
    );
    on.addEventListener('click', () => {
      on.remove();
      next();
    });
    told.append(
      ...first,
      html('h4', {}, 'Why'),
      ...text.map((paragraph) => html('p', {}, ...spokenHere(paragraph))),
      ...formula.map((line) => html('p', { class: 'sw-lesson-formula' }, ...spokenHere(line))),
    );
    if (figure !== undefined) {
      const asked = (drawn: (chart: Chart) => void): void => asker.chart(opened, figure, String(number), drawn);
      told.append(createChart(asked, units, spokenHere(figure.caption)));
    }
    if (before === null) told.append(on);
  }

  return {
    element,
    focus: () => title.focus(),
    stop: () => {
      over = true;
      turning?.stop();
    },
  };
}

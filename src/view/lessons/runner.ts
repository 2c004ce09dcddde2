/**
 * One lesson on the page: its words on one side, its own section, ruler and figures on the other. It has a store of its own; the job of
 * whoever learns is not touched by it.
 */
import { degreesOf, type KeptLesson, type LessonAsker, type OpenLesson } from '../../model/lessons/index.ts';
import { replacedOf } from '../../model/replaced.ts';
import type { Solver } from '../../model/solver.ts';
import type { Store } from '../../model/state.ts';
import { createStore } from '../../model/store.ts';
import { createAngleRuler } from '../angleRuler.ts';
import { html } from '../element.ts';
import { createReadout } from '../readout.ts';
import { createScene } from '../scene/scene.ts';
import { createTransport } from '../transport.ts';
import { crankAngleAt } from '../words.ts';
import { createPlayPart, type PlayPart } from './playPart.ts';
import { createRound, type RoundPart } from './round.ts';

export interface Runner {
  readonly element: HTMLElement;
  readonly store: Store;
  readonly stop: () => void;
}

export interface RunnerOptions {
  readonly opened: OpenLesson;
  readonly solver: Solver;
  readonly asker: LessonAsker;
  readonly kept: KeptLesson | null;
  readonly keep: (lesson: KeptLesson) => void;
  /** 'canvas' draws the section without WebGL though there is one. */
  readonly renderer: 'webgl' | 'canvas';
  /** Back to the list. */
  readonly leave: () => void;
  /** Starts the same lesson from its first question. */
  readonly anew: () => void;
  /** The store is made: what turns its crank with the clock is hung on it. */
  readonly made: (store: Store) => void;
}

export function createRunner(options: RunnerOptions): Runner {
  const { opened, solver, asker, kept, leave } = options;
  const { lesson, doc, values } = opened;
  const store = createStore(doc, { solver });
  options.made(store);
  store.send({ do: 'show cylinder', number: lesson.begin.cylinder ?? 1 });
  if (lesson.begin.pair !== undefined) store.send({ do: 'pick', id: lesson.begin.pair });
  const { engine, cylinder } = store.state;
  const chosen = engine.cylinders.find((c) => c.number === cylinder)!;
  const beginRad = (degreesOf(lesson.begin.at, values) * Math.PI) / 180;
  store.send({ do: 'turn to', crankAngleRad: crankAngleAt(beginRad, chosen, engine.cycleRad) });

  const back = html('button', { type: 'button', class: 'sw-button' }, 'All lessons');
  back.addEventListener('click', leave);
  const words = html('div', { class: 'sw-lesson-words' });
  const section = html('div', { class: 'sw-section sw-lesson-section' });
  const readout = html('div', { class: 'sw-now sw-lesson-now' });
  const ruler = html('div', { class: 'sw-ruler sw-lesson-ruler' });
  const transport = html('div', { class: 'sw-transport sw-lesson-transport' });
  const stage = html(
    'div',
    { class: 'sw-lesson-stage' },
    section,
    html('div', { class: 'sw-lesson-below' }, readout, ruler, transport),
  );
  const element = html('article', { class: 'sw-lesson', 'aria-label': lesson.title }, words, stage);
  words.append(
    html(
      'header',
      {},
      back,
      html('h2', { tabindex: '-1' }, lesson.title),
      html('p', { class: 'sw-lesson-about' }, lesson.about),
    ),
  );

  const said: string[] = [...(kept?.said ?? [])].slice(0, lesson.rounds.length);
  let finished = kept?.finished ?? false;
  const parts: RoundPart[] = [];
  let play: PlayPart | null = null;
  const keep = (): void => options.keep({ said: [...said], finished });
  if (said.length > 0) {
    const anew = html('button', { type: 'button', class: 'sw-button' }, 'Start this lesson anew');
    anew.addEventListener('click', options.anew);
    words.append(anew);
  }

  function round(number: number): RoundPart {
    const part = createRound({
      opened,
      store,
      asker,
      number,
      before: said[number] ?? null,
      said: (text) => {
        said[number] = text;
        keep();
      },
      next: () => {
        if (number + 1 < lesson.rounds.length) round(number + 1).focus();
        else playOn().querySelector('h3')?.focus();
      },
      look: () => section.scrollIntoView({ block: 'nearest' }),
    });
    parts.push(part);
    words.append(part.element);
    return part;
  }

  function playOn(): HTMLElement {
    play = createPlayPart(opened, store, asker);
    const done = html('button', { type: 'button', class: 'sw-button sw-button-main' }, 'Finish the lesson');
    done.addEventListener('click', () => {
      finished = true;
      keep();
      leave();
    });
    play.element.append(done);
    words.append(play.element);
    return play.element;
  }

  for (let k = 0; k <= said.length && k < lesson.rounds.length; k++) round(k);
  if (said.length === lesson.rounds.length) playOn();

  const scene = createScene(section, store, { ghost: replacedOf(store), renderer: options.renderer });
  void scene.ready.then(() => {
    if (lesson.begin.ghost === true) scene.showGhost(true);
  });
  const panels = [createReadout(readout, store), createAngleRuler(ruler, store), createTransport(transport, store)];
  return {
    element,
    store,
    stop: () => {
      store.send({ do: 'pause' });
      for (const part of parts) part.stop();
      play?.stop();
      asker.stop();
      for (const panel of panels) panel.destroy();
      scene.destroy();
    },
  };
}

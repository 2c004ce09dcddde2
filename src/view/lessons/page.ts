/** The page of the lessons: the list, one lesson at a time, and lessons out of files. */

import { problemSentence } from '../../model/index.ts';
import {
  type Bases,
  type OpenedLesson,
  type OpenLesson,
  openLesson,
  type Progress,
  progressIn,
  type Slot,
} from '../../model/lessons/index.ts';
import type { Solver } from '../../model/solver.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import { keptPart, lessonList } from './list.ts';
import { createRunner, type Runner } from './runner.ts';

export interface LessonsOptions {
  /** Texts of the lesson files that come with the program, by file name. */
  readonly files: ReadonlyMap<string, string>;
  readonly bases: Bases;
  readonly terms: ReadonlySet<string>;
  readonly solver: () => Solver;
  readonly slot: Slot;
  readonly close: () => void;
  /** What turns the crank of a store with the clock. */
  readonly turning: (store: Store) => void;
}

export interface LessonsPage {
  /** The store of the lesson that is open. */
  readonly store: () => Store | null;
  /** Back to the list; false when it is there already. */
  readonly back: () => boolean;
  readonly hide: () => void;
  readonly show: () => void;
}

/** `more` stands below the list: the glossary. */
export function createLessonsPage(host: HTMLElement, options: LessonsOptions, more: HTMLElement): LessonsPage {
  const progress: Progress = progressIn(options.slot);
  const lessons = new Map<string, OpenLesson>();
  const refused = new Map<string, OpenedLesson & { ok: false }>();
  for (const [name, text] of options.files) take(name, text);
  let runner: Runner | null = null;
  let shown: string | null = null;

  const closeButton = html('button', { type: 'button', class: 'sw-button' }, 'Back to the section');
  closeButton.addEventListener('click', options.close);
  const picker = html('input', {
    type: 'file',
    accept: '.json,application/json',
    hidden: '',
    'aria-label': 'Lesson file',
  });
  const openFile = html('button', { type: 'button', class: 'sw-button' }, 'Open a lesson file');
  openFile.addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    const file = picker.files?.[0];
    picker.value = '';
    if (file !== undefined) void file.text().then((text) => fromFile(file.name, text));
  });
  const notice = html('div', { class: 'sw-lesson-notice', role: 'status' });
  const place = html('div', { class: 'sw-lessons-place' });
  host.replaceChildren(place);

  /** Adds a lesson, or notes why it is refused; gives back its key. */
  function take(name: string, text: string): string | null {
    const opened = openLesson(text, options.bases, options.terms);
    if (!opened.ok) {
      refused.set(name, opened);
      return null;
    }
    const { key } = opened.lesson;
    refused.delete(name);
    lessons.set(key, opened);
    return key;
  }

  function fromFile(name: string, text: string): void {
    const key = take(name, text);
    if (key === null) list();
    else run(key);
  }

  const listed = () =>
    [...lessons.values()]
      .map(({ lesson }) => ({
        key: lesson.key,
        title: lesson.title,
        about: lesson.about,
        rounds: lesson.rounds.length,
        order: lesson.order,
      }))
      .sort((a, b) => a.order - b.order);

  function leaveRunner(): void {
    runner?.stop();
    runner = null;
  }

  function list(focusOn: string | null = null): void {
    leaveRunner();
    shown = null;
    const all = listed();
    notice.replaceChildren(
      ...[...refused].map(([name, { problems }]) =>
        html(
          'div',
          {},
          html('p', {}, `${name} is no lesson that can be opened:`),
          html('ul', {}, ...problems.slice(0, 12).map((p) => html('li', {}, problemSentence(p)))),
        ),
      ),
    );
    const head = html(
      'header',
      { class: 'sw-lessons-head' },
      html('h2', { tabindex: '-1' }, 'Lessons'),
      closeButton,
      html(
        'p',
        {},
        'Say what you expect, turn the crank, and see. Each lesson has a build of its own; your job stays as it is. A guess is good enough: nothing is graded.',
      ),
    );
    const kept = keptPart(all, progress.kept(), progress.lasting(), () => {
      progress.forget();
      list();
      host.querySelector<HTMLElement>('h2')?.focus();
    });
    place.replaceChildren(
      html(
        'div',
        { class: 'sw-lessons' },
        head,
        lessonList(all, progress.kept(), (key) => run(key)),
        notice,
        html('p', { class: 'sw-lessons-files' }, openFile, picker),
        kept,
        more,
      ),
    );
    if (focusOn !== null) place.querySelector<HTMLElement>(`[data-lesson="${CSS.escape(focusOn)}"]`)?.focus();
  }

  function run(key: string, anew = false): void {
    leaveRunner();
    refused.clear();
    shown = key;
    if (anew) progress.put(key, { said: [], finished: progress.kept()[key]?.finished ?? false });
    runner = createRunner({
      opened: lessons.get(key)!,
      solver: options.solver(),
      kept: progress.kept()[key] ?? null,
      keep: (lesson) => progress.put(key, lesson),
      leave: () => list(key),
      anew: () => run(key, true),
      made: options.turning,
    });
    place.replaceChildren(runner.element);
    host.scrollTop = 0;
    runner.element.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
  }

  return {
    store: () => runner?.store ?? null,
    back: () => {
      if (shown === null) return false;
      list(shown);
      return true;
    },
    hide: leaveRunner,
    // A lesson left by the bar is taken up where it was: its answers are kept.
    show: () => (shown === null ? list() : run(shown)),
  };
}

/** The page of the lessons: the list, one lesson at a time, and lessons out of files. */

import { type Problem, problemSentence } from '../../model/index.ts';
import type { Bases, Lesson, LessonAsker, OpenLesson, Progress, Slot } from '../../model/lessons/index.ts';
import { parseLesson, progressIn } from '../../model/lessons/index.ts';
import type { Solver } from '../../model/solver.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import { keptPart, type ListedLesson, lessonList } from './list.ts';
import { createRunner, type Runner } from './runner.ts';

/** Problems of a file shown at most: the first ones say what is the matter. */
const MOST_SHOWN = 12;

export interface LessonsOptions {
  /** Texts of the lesson files that come with the program, by file name. */
  readonly files: ReadonlyMap<string, string>;
  readonly bases: Bases;
  readonly terms: ReadonlySet<string>;
  readonly asker: LessonAsker;
  readonly solver: () => Solver;
  readonly slot: Slot;
  readonly renderer: 'webgl' | 'canvas';
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
  const { terms, bases, asker } = options;
  const progress: Progress = progressIn(options.slot);
  const lessons = new Map<string, Lesson>();
  const refused = new Map<string, readonly Problem[]>();
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
  const place = html('div', { class: 'sw-lessons-place' });
  host.replaceChildren(place);

  /** Adds a lesson, or notes why it is refused; gives back its key. */
  function take(name: string, text: string): string | null {
    const read = parseLesson(text, terms);
    if (!read.ok) {
      refused.set(name, read.problems);
      return null;
    }
    refused.delete(name);
    lessons.set(read.lesson.key, read.lesson);
    return read.lesson.key;
  }

  function fromFile(name: string, text: string): void {
    refused.clear();
    const key = take(name, text);
    if (key === null) list();
    else run(key);
  }

  const listed = (): ListedLesson[] =>
    [...lessons.values()]
      .sort((a, b) => a.order - b.order)
      .map(({ key, title, about, rounds }) => ({ key, title, about, rounds: rounds.length }));

  function leaveRunner(): void {
    asker.stop();
    runner?.stop();
    runner = null;
  }

  function list(focusOn: string | null = null): void {
    leaveRunner();
    shown = null;
    const all = listed();
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
    const files = html('p', { class: 'sw-lessons-files' }, openFile, picker);
    const lessonsHere = lessonList(all, progress.kept(), (key) => run(key));
    place.replaceChildren(
      html('div', { class: 'sw-lessons' }, head, refusedPart(refused), lessonsHere, files, kept, more),
    );
    if (focusOn !== null) place.querySelector<HTMLElement>(`[data-lesson="${CSS.escape(focusOn)}"]`)?.focus();
  }

  function run(key: string, anew = false): void {
    leaveRunner();
    const lesson = lessons.get(key)!;
    shown = key;
    if (anew) progress.put(key, { said: [], finished: progress.kept()[key]?.finished ?? false });
    place.replaceChildren(
      html('p', { class: 'sw-lessons-wait', role: 'status' }, `${lesson.title}: its build is being laid out …`),
    );
    asker.open(lesson, bases, (opened) => {
      if (shown !== key) return;
      if (!opened.ok) {
        refused.set(lesson.title, opened.problems);
        list();
        return;
      }
      start(opened, key);
    });
  }

  function start(opened: OpenLesson, key: string): void {
    runner = createRunner({
      opened,
      asker,
      solver: options.solver(),
      renderer: options.renderer,
      kept: progress.kept()[key] ?? null,
      keep: (lesson) => progress.put(key, lesson),
      leave: () => list(key),
      anew: () => run(key, true),
      made: options.turning,
    });
    place.replaceChildren(runner.element);
    host.parentElement?.scrollTo(0, 0);
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

function refusedPart(refused: ReadonlyMap<string, readonly Problem[]>): HTMLElement {
  const part = html('div', { class: 'sw-lesson-notice', role: 'status' });
  for (const [name, problems] of refused) {
    part.append(
      html('p', {}, `${name} can’t be opened:`),
      html('ul', {}, ...problems.slice(0, MOST_SHOWN).map((problem) => html('li', {}, problemSentence(problem)))),
    );
  }
  return part;
}

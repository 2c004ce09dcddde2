/** Lessons opened, figures followed and curves drawn by the workers of the page, so that no frame comes late. */
import type { BuildDocument } from '../../build/document.ts';
import type { Lesson, LessonDrawing } from '../../build/lesson/index.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import type { Chart } from './curve.ts';
import { type OpenedLesson, type OpenLesson, withValues } from './open.ts';
import { type Bases, setUp } from './setUp.ts';
import type { Worked } from './values.ts';
import type { LessonPiece, LessonResult, LessonTask } from './work.ts';

export interface LessonAsker {
  /** Tells once: the lesson with its figures, or why it can't be opened. What is asked for later makes an earlier question void. */
  readonly open: (lesson: Lesson, bases: Bases, told: (opened: OpenedLesson) => void) => void;
  /** Some figures of a lesson for a changed build. */
  readonly values: (
    lesson: Lesson,
    doc: BuildDocument,
    only: ReadonlySet<string>,
    told: (worked: Worked) => void,
  ) => void;
  /** `place` tells curves of one lesson apart. */
  readonly chart: (opened: OpenLesson, drawn: LessonDrawing, place: string, told: (chart: Chart) => void) => void;
  /** Nothing more is told. */
  readonly stop: () => void;
}

export function lessonAsker(pool: Pool<Work>): LessonAsker {
  const running = new Map<string, () => void>();
  const ask = (
    owner: string,
    task: LessonTask,
    piece: LessonPiece,
    told: (result: LessonResult) => void,
    failed: (why: string) => void,
  ): void => {
    const on = { piece: (_: number, result: LessonResult) => told(result), done: () => {}, failed };
    running.set(owner, pool.run(owner, 'lesson', task, [piece], on));
  };
  const fault = (why: string): OpenedLesson => ({
    ok: false,
    problems: [{ place: '', value: '', rule: 'figures of the lesson', allowed: `They can’t be worked out: ${why}.` }],
  });
  return {
    open: (lesson, bases, told) => {
      const built = setUp(lesson, bases);
      if (!built.ok) {
        told(built);
        return;
      }
      const { doc } = built;
      const take = (result: LessonResult): void => {
        if ('worked' in result) told(withValues(lesson, doc, result.worked));
      };
      ask('lesson', { lesson, doc }, { ask: 'values' }, take, (why) => told(fault(why)));
    },
    values: (lesson, doc, only, told) => {
      const take = (result: LessonResult): void => {
        if ('worked' in result) told(result.worked);
      };
      ask('lesson play', { lesson, doc }, { ask: 'values', only }, take, () => {});
    },
    chart: ({ lesson, doc, values }, drawn, place, told) => {
      const take = (result: LessonResult): void => {
        if ('chart' in result) told(result.chart);
      };
      ask(`lesson chart ${place}`, { lesson, doc }, { ask: 'chart', drawn, values }, take, () => {});
    },
    stop: () => {
      for (const cancel of running.values()) cancel();
      running.clear();
    },
  };
}

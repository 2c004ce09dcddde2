/** The figures and curves of a lesson as work in pieces: a figure, a point or a build at a step. */
import type { BuildDocument } from '../../build/document.ts';
import type { Lesson, LessonDrawing } from '../../build/lesson/index.ts';
import type { Steps } from '../pieces/kind.ts';
import { type Chart, chartSteps } from './curve.ts';
import { type Values, valueSteps, type Worked } from './values.ts';

export interface LessonTask {
  readonly lesson: Lesson;
  readonly doc: BuildDocument;
}

/** `only`: these figures and what they are made from; all of them where it is left out. */
export type LessonPiece =
  | { readonly ask: 'values'; readonly only?: ReadonlySet<string> }
  | { readonly ask: 'chart'; readonly drawn: LessonDrawing; readonly values: Values };

export type LessonResult = { readonly worked: Worked } | { readonly chart: Chart };

export function lessonKind({ lesson, doc }: LessonTask): (piece: LessonPiece) => Steps<LessonResult> {
  return function* (piece) {
    if (piece.ask === 'values') return { worked: yield* valueSteps(lesson, doc, piece.only) };
    return { chart: yield* chartSteps({ lesson, doc, values: piece.values }, piece.drawn) };
  };
}

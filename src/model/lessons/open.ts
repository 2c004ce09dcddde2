/**
 * A lesson opened: its file read and checked, its build set up, its figures worked out, its answers found. What goes wrong on the way
 * comes back as problems, each with place, value and rule; nothing is opened by half.
 */
import type { BuildDocument } from '../../build/document.ts';
import { amountOf, type Lesson, parseLesson, readAmount } from '../../build/lesson/index.ts';
import type { Problem } from '../../build/problem.ts';
import { NotThere } from './setting.ts';
import { type Bases, setUp } from './setUp.ts';
import { type Values, valuesOf, type Worked } from './values.ts';

export interface OpenLesson {
  readonly lesson: Lesson;
  readonly doc: BuildDocument;
  readonly values: Values;
}

export type OpenedLesson =
  | ({ readonly ok: true } & OpenLesson)
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function openLesson(text: string, bases: Bases, terms: ReadonlySet<string>): OpenedLesson {
  const read = parseLesson(text, terms);
  return read.ok ? prepareLesson(read.lesson, bases) : read;
}

/** A lesson already read. */
function prepareLesson(lesson: Lesson, bases: Bases): OpenedLesson {
  const built = setUp(lesson, bases);
  return built.ok ? withValues(lesson, built.doc, valuesOf(lesson, built.doc)) : built;
}

/** A lesson whose build is set up, with what its figures came to. */
export function withValues(lesson: Lesson, doc: BuildDocument, worked: Worked): OpenedLesson {
  if (!worked.ok) return worked;
  const problems = answerProblems(lesson, worked.values);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, lesson, doc, values: worked.values };
}

/** Of a choice exactly one option holds; an angle to be shown lies on its scale; a place lies within the stroke. */
function answerProblems(lesson: Lesson, values: Values): Problem[] {
  return lesson.rounds.flatMap(({ predict }, k): Problem[] => {
    const place = `rounds[${k}].predict`;
    if (predict.by === 'choice') {
      const holding = predict.options.filter((option) => holds(option.when, lesson, values));
      if (holding.length === 1) return [];
      const value = holding.map((option) => option.text).join(' | ');
      const allowed = `Allowed: options of which exactly one holds in the build of the lesson; here ${holding.length} do.`;
      return [{ place: `${place}.options`, value, rule: 'one option holds', allowed }];
    }
    const { value } = values.get(predict.answer)!;
    const [low, high] =
      predict.by === 'angle'
        ? ([degrees(predict.from), degrees(predict.to)] as const)
        : predict.by === 'place'
          ? ([0, 1] as const)
          : ([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const);
    if (value >= low && value <= high) return [];
    const allowed = 'Allowed: an answer that lies on the scale on which it is to be shown.';
    return [{ place: `${place}.answer`, value: String(value), rule: 'answer on the scale', allowed }];
  });
}

type When = Extract<Lesson['rounds'][number]['predict'], { by: 'choice' }>['options'][number]['when'];

/** Whether what an option says is so in the build. */
export function holds({ figure, is, to, within }: When, lesson: Lesson, values: Values): boolean {
  const as = amountOf(lesson.figures, figure);
  const found = values.get(figure);
  if (as === null || found === undefined) throw new NotThere(`there is no figure ${figure}`);
  const other = values.get(to)?.value ?? amount(to, as);
  const near = within === undefined ? 0 : amount(within, as);
  const difference = found.value - other;
  if (is === 'about') return Math.abs(difference) <= near;
  return is === 'more than' ? difference > near : difference < -near;
}

function amount(text: string, as: Parameters<typeof readAmount>[1]): number {
  const read = readAmount(text, as);
  if (!read.ok) throw new NotThere(`${text} is no ${as}`);
  return read.value;
}

function degrees(text: string): number {
  return amount(text, 'angle');
}

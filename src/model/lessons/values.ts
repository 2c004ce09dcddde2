/**
 * What the figures of a lesson come to, computed from its build by the core: lengths in mm, angles in degrees after the true top dead
 * centre of the cylinder, shares as fractions. Worked out once for a document, in the order of the file.
 */
import type { BuildDocument } from '../../build/document.ts';
import { type AmountOf, amountOf, type Lesson, type LessonFigure, readAmount } from '../../build/lesson/index.ts';
import type { Problem } from '../../build/problem.ts';
import { type Steps, toTheEnd } from '../pieces/kind.ts';
import { quantityOf } from './quantityOf.ts';
import { NotThere, type Settings, settingsOf } from './setting.ts';

export interface Value {
  readonly as: AmountOf;
  readonly value: number;
}

export type Values = ReadonlyMap<string, Value>;

export type Worked =
  | { readonly ok: true; readonly values: Values }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** All figures, or those named and what they are made from; a figure that the build can't give is a problem with its place. */
export function valuesOf(lesson: Lesson, doc: BuildDocument, wanted?: ReadonlySet<string>): Worked {
  return toTheEnd(valueSteps(lesson, doc, wanted));
}

/** The same, a figure at a step. */
export function* valueSteps(lesson: Lesson, doc: BuildDocument, wanted?: ReadonlySet<string>): Steps<Worked> {
  const settings = settingsOf(doc);
  const values = new Map<string, Value>();
  const problems: Problem[] = [];
  for (const [name, figure] of Object.entries(lesson.figures)) {
    if (wanted !== undefined && !wanted.has(name)) continue;
    yield;
    const as = amountOf(lesson.figures, name)!;
    try {
      const value = worth(figure, settings, values);
      if (!Number.isFinite(value)) throw new NotThere('it comes to no number in this build');
      values.set(name, { as, value });
    } catch (reason) {
      if (!(reason instanceof NotThere)) throw reason;
      problems.push({
        place: `figures.${name}`,
        value: figure.is,
        rule: 'figure of the build',
        allowed: `It can’t be given: ${reason.message}.`,
      });
    }
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, values };
}

/** The names of some figures and of all that they are made from. */
export function madeFrom(lesson: Lesson, names: readonly string[]): ReadonlySet<string> {
  const found = new Set<string>();
  const add = (name: string): void => {
    const figure = lesson.figures[name];
    if (figure === undefined || found.has(name)) return;
    found.add(name);
    for (const other of [...(figure.between ?? []), ...(figure.at === undefined ? [] : [figure.at])]) add(other);
  };
  for (const name of names) add(name);
  return found;
}

/** Degrees of a crank angle in a lesson: a literal, or a figure that is an angle. */
export function degreesOf(text: string, values: Values): number {
  const figure = values.get(text);
  if (figure !== undefined) return figure.value;
  const read = readAmount(text, 'angle');
  if (!read.ok) throw new NotThere(`${text} is no angle`);
  return read.value;
}

function worth(figure: LessonFigure, settings: Settings, values: Values): number {
  if (figure.between !== undefined) {
    const [a, b] = figure.between.map((name) => values.get(name));
    if (a === undefined || b === undefined) throw new NotThere('a figure it is made from can’t be given');
    if (figure.is === 'difference') return a.value - b.value;
    if (b.value === 0) throw new NotThere('the figure below the line is nothing');
    return a.value / b.value;
  }
  const setting = settings.of(figure.of, figure.cylinder);
  return quantityOf(figure, setting, figure.at === undefined ? 0 : degreesOf(figure.at, values));
}

/** Public face of lesson files: what they may contain, reading one, what is refused. */

import { problemsFrom } from '../issues.ts';
import { scanJson } from '../jsonScan.ts';
import type { Problem } from '../problem.ts';
import { deepFreeze } from '../text.ts';
import { z } from '../zod.ts';
import { checkLesson } from './rules.ts';
import { type Lesson, lessonSchema } from './schema.ts';

export { type ReadAmount, readAmount } from './amount.ts';
export { amountOf, isAnglePlace } from './amountOf.ts';
export * from './quantities.ts';
export type { Lesson, LessonDrawing, LessonFigure, LessonRound, Predict } from './schema.ts';
export { type Piece, readText, type Way } from './text.ts';

export type ParsedLesson =
  | { readonly ok: true; readonly lesson: Lesson }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads the text of a lesson file; `terms` are those of the glossary, in small letters. Never throws on bad text. */
export function parseLesson(text: string, terms: ReadonlySet<string>): ParsedLesson {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const inText = scanJson(plain);
  if (inText.length > 0) return { ok: false, problems: inText };
  const content: unknown = JSON.parse(plain);
  const fields = lessonSchema.safeParse(content);
  if (!fields.success) return { ok: false, problems: problemsFrom(fields.error.issues, content) };
  const problems = checkLesson(fields.data, terms);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, lesson: deepFreeze(fields.data) };
}

/** The schema of lesson files in JSON Schema, 2020-12. Ends with a line break. */
export function lessonJsonSchemaText(): string {
  return `${JSON.stringify(z.toJSONSchema(lessonSchema, { target: 'draft-2020-12', io: 'input' }), null, 2)}\n`;
}

/** Pieces of the schema that several of its parts use: strict objects, texts, lists, choices, outlines. */

import { lengthFromZero, provenance, signedLength } from './dimSchema.ts';
import { z } from './zod.ts';

/** Greatest counts and lengths of text: far above any real build, low enough that no file can stall the page. */
export const MOST = {
  name: 80,
  note: 4000,
  assemblies: 24,
  own: 200,
  outlinePoints: 400,
  liftPoints: 800,
  fixed: 40,
  weighted: 64,
  cylinders: 16,
  mockUp: 400,
} as const;

export function strict<S extends z.core.$ZodLooseShape>(shape: S) {
  const names = Object.keys(shape).join(', ');
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? `Names allowed here: ${names}.` : undefined),
  });
}

export function text(most: number) {
  return z
    .string()
    .max(most, { error: `Allowed: at most ${most} characters.` })
    .refine((s) => !/\p{Cc}/u.test(s.replaceAll('\n', '')), { error: 'Allowed: text without control characters.' });
}

export const name = text(MOST.name).refine((s) => s.trim() === s && s !== '', {
  error: 'Allowed: a name, without blanks before or after it.',
});
export const oneOf = <const T extends readonly string[]>(values: T) =>
  z.enum(values, { error: () => `Allowed: ${values.join(', ')}.` });
export const index = z
  .int({ error: 'Allowed: a whole number from 1.' })
  .min(1, { error: 'Allowed: a whole number from 1.' });
export const side = oneOf(['front', 'rear']);

const isDay = z.iso.date();

/** A day of the calendar. */
export const day = z
  .string()
  .superRefine((said, ctx) => {
    if (isDay.safeParse(said).success) return;
    ctx.addIssue({
      code: 'custom',
      message: 'Allowed: a day of the calendar as year-month-day, such as 2026-11-25.',
      params: { rule: 'date' },
    });
  })
  .meta({ format: 'date' });

export function list<T extends z.ZodType>(item: T, least: number, most: number) {
  const error = `Allowed: ${least} to ${most} entries.`;
  return z.array(item).min(least, { error }).max(most, { error });
}

export const outline = list(
  strict({
    x: signedLength,
    y: signedLength,
    bulge: z
      .number({ error: 'Allowed: a number from -1 to 1.' })
      .min(-1, { error: 'Allowed: -1 (a half circle) to 1; divide a longer arc.' })
      .max(1, { error: 'Allowed: -1 to 1 (a half circle); divide a longer arc.' })
      .exactOptional()
      .describe(
        'Tangent of a quarter of the arc’s included angle, positive when it turns counterclockwise; left out on a straight edge.',
      ),
  }),
  2,
  MOST.outlinePoints,
).describe('Points of a closed outline, counterclockwise; it closes by itself.');

export const outlineDeviation = lengthFromZero
  .exactOptional()
  .describe('How far the part may stand out of the outline at most; taken off every gap of it.');

/** A measured outline in place of the one drawn from dimensions. */
export const measuredShape = {
  outline: outline.exactOptional(),
  outlineFrom: provenance.exactOptional(),
  outlineDeviation,
};

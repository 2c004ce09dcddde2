/** What a build file may say of one body that differs from the rest. */

import { positiveAngle, positiveLength, signedAngle, signedLength } from './dimSchema.ts';
import { liftTable } from './schemaCamshaft.ts';
import { counterweightShape, pistonShape, rodShape } from './schemaParts.ts';
import { index, measuredShape, oneOf, side, strict } from './schemaPieces.ts';
import { z } from './zod.ts';

const optional = <S extends Record<string, z.ZodType>>(shape: S) =>
  Object.fromEntries(
    Object.entries(shape).map(([key, value]) => [
      key,
      value instanceof z.ZodExactOptional ? value : z.exactOptional(value),
    ]),
  ) as { [K in keyof S]: S[K] extends z.ZodExactOptional ? S[K] : z.ZodExactOptional<S[K]> };

export const own = z.discriminatedUnion(
  'body',
  [
    strict({
      body: z.literal('counterweight'),
      throw: index,
      side,
      set: strict(optional(counterweightShape)).exactOptional(),
      axialShift: signedLength.exactOptional(),
      phase: signedAngle.exactOptional(),
      ...measuredShape,
    }),
    strict({
      body: z.literal('rod'),
      cylinder: index,
      set: strict(optional(rodShape)).exactOptional(),
      axialShift: signedLength.exactOptional(),
      facing: side.exactOptional(),
      ...measuredShape,
    }),
    strict({
      body: z.literal('piston'),
      cylinder: index,
      set: strict(optional(pistonShape)).exactOptional(),
      ...measuredShape,
    }),
    strict({
      body: z.literal('lobe'),
      cylinder: index,
      valve: oneOf(['intake', 'exhaust']),
      lift: positiveLength.exactOptional(),
      duration: positiveAngle.exactOptional(),
      opening: positiveAngle.exactOptional(),
      table: liftTable.exactOptional(),
      axialShift: signedLength.exactOptional(),
    }),
  ],
  { error: 'Allowed in “body”: counterweight, rod, piston, lobe.' },
);

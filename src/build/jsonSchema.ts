/** The schema of build files in JSON Schema, 2020-12. It knows the fields; what several fields say together stands in rules.ts only. */

import { buildSchema } from './schema.ts';
import { z } from './zod.ts';

/** Ends with a line break; always the same for the same schema. */
export function jsonSchemaText(): string {
  const schema = z.toJSONSchema(buildSchema, { target: 'draft-2020-12', io: 'input' });
  return `${JSON.stringify(schema, null, 2)}\n`;
}

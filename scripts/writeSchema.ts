/** Writes the JSON schemas of build files, lessons and the glossary, for editors and for other programs: assets/strokewright-*.schema.json. */
import { writeFileSync } from 'node:fs';
import { glossaryJsonSchemaText } from '../src/build/glossary.ts';
import { jsonSchemaText } from '../src/build/jsonSchema.ts';
import { lessonJsonSchemaText } from '../src/build/lesson/index.ts';

const write = (name: string, text: string): void => {
  writeFileSync(new URL(`../assets/strokewright-${name}.schema.json`, import.meta.url), text);
};
write('build', jsonSchemaText());
write('lesson', lessonJsonSchemaText());
write('glossary', glossaryJsonSchemaText());

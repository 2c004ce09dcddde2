/** Writes the JSON schema of build files, for editors and for other programs: assets/strokewright-build.schema.json. */
import { writeFileSync } from 'node:fs';
import { jsonSchemaText } from '../src/build/jsonSchema.ts';

const file = new URL('../assets/strokewright-build.schema.json', import.meta.url);
writeFileSync(file, jsonSchemaText());

/** The tests of one area, run anew for each mutant. */
import { defineConfig } from 'vitest/config';
// @ts-expect-error plain script, shared with the runner
import { AREAS } from './areas.mjs';

const area = process.env['AREA'] ?? '';

export default defineConfig({
  test: { include: AREAS[area].tests, testTimeout: 60_000, reporters: ['dot'] },
});

/** How much is sent before the first picture stands, and in all; and that turning leaves nothing behind. Counts and sizes, no times. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { launch, openPage, settled } from '../support/browser.ts';
import { turnAndMeasure } from '../support/turning.ts';
import { builtFiles, FIRST_PICTURE_FILES, FIRST_PICTURE_KB, sentBytes, WHOLE_KB } from '../support/weight.ts';

const FOLDER = process.env['BUILT_PAGE'] ?? 'dist';

/** A frame that left a kilobyte behind would leave 200 kB. */
const LEFT_OVER_BYTES = 100 * 1024;

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

it('the budget of what is sent is kept, and the README names it', async () => {
  const files = builtFiles(FOLDER);
  const whole = files.reduce((sum, file) => sum + sentBytes(file), 0) / 1024;
  expect(whole).toBeLessThanOrEqual(WHOLE_KB);
  const readme = readFileSync('README.md', 'utf8');
  expect(readme).toContain(`${FIRST_PICTURE_KB} kB`);
  expect(readme).toContain(`${WHOLE_KB} kB`);
});

it('before the first picture few files are fetched, and none of a page that is not shown', async () => {
  const { page, close } = await openPage(browser, inject('baseUrl'));
  const asked = await page.evaluate(() => {
    const picture = performance.getEntriesByName('first picture')[0]!.startTime;
    return performance
      .getEntriesByType('resource')
      .filter((entry) => entry.startTime < picture && entry.name.startsWith(location.origin))
      .map((entry) => new URL(entry.name).pathname.slice(1));
  });
  await close();
  const files = [...new Set(asked)].filter((file) => existsSync(join(FOLDER, file)));
  expect(files.length).toBeGreaterThan(3);
  expect(files.length).toBeLessThanOrEqual(FIRST_PICTURE_FILES);
  const sent = ['index.html', ...files].reduce((sum, file) => sum + sentBytes(join(FOLDER, file)), 0) / 1024;
  console.log(`before the first picture: ${files.length} files, ${sent.toFixed(0)} kB`);
  expect(sent).toBeLessThanOrEqual(FIRST_PICTURE_KB);
  expect(files.filter((file) => /lessons|handOut|jobs|sums-.*css|gif\.worker|counter\.html/.test(file))).toEqual([]);
});

it('turning leaves nothing behind: no elements, no listeners, no memory', async () => {
  const { page, complaints, close } = await openPage(browser, inject('baseUrl'), {
    query: '?demo=bench-rig',
    viewport: { width: 390, height: 300 },
  });
  await settled(page);
  const { before, after } = await turnAndMeasure(page, 600, 200);
  expect(after.nodes).toBeLessThanOrEqual(before.nodes);
  expect(after.listeners).toBeLessThanOrEqual(before.listeners);
  // What is left over would grow with every frame.
  expect(after.heapBytes - before.heapBytes).toBeLessThan(LEFT_OVER_BYTES);
  expect(complaints).toEqual([]);
  await close();
});

/**
 * The section of each demo at a fixed angle against a picture kept from before, light paper. Where they differ, the
 * picture drawn and the difference are left in tests/output/.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import pixelmatch from 'pixelmatch';
import type { Browser } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { GOLDEN_PICTURES } from '../golden/pictures.ts';
import { frames, launch, openPage, type PageWindow, settled } from '../support/browser.ts';

/** Part of all pixels that may differ: another version of the browser or of a font smooths edges a little differently. */
const MOST_DIFFERENT = 0.0015;
/** Difference of colour, 0 to 1, above which a pixel counts as different. */
const COLOUR = 0.15;

let browser: Browser;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

it.each(GOLDEN_PICTURES.map((one) => [one.name, one] as const))('%s looks as it did', async (name, picture) => {
  const opened = await openPage(browser, inject('baseUrl'), { query: picture.query, reducedMotion: 'reduce' });
  await settled(opened.page);
  // A size of its own, whatever else stands on the page.
  await opened.page.evaluate(() => {
    const { style } = document.querySelector<HTMLElement>('#section')!;
    Object.assign(style, { position: 'fixed', inset: '0 auto auto 0', width: '1000px', height: '620px', zIndex: '9' });
  });
  await opened.page.waitForFunction(() => document.querySelector('#section canvas')?.clientWidth === 1000);
  await frames(opened.page);
  // Picture and state in one task, so that the drawing surface still holds it.
  const url = await opened.page.evaluate(
    (rad) => {
      const { store, scene } = (globalThis as unknown as PageWindow).strokewright;
      store.send({ do: 'turn to', crankAngleRad: rad });
      scene.showWhole();
      scene.renderNow();
      return scene.canvas()!.toDataURL('image/png');
    },
    (picture.crankAngleDeg * Math.PI) / 180,
  );
  await opened.close();
  expect(opened.complaints).toEqual([]);
  const drawn = Buffer.from(url.slice(url.indexOf(',') + 1), 'base64');
  const kept = `tests/golden/${name}.png`;
  if (process.env['UPDATE_GOLDEN'] === '1') {
    writeFileSync(kept, drawn);
    return;
  }
  if (!existsSync(kept)) {
    throw new Error(
      `There is no ${kept}. Look at the picture, then keep it with UPDATE_GOLDEN=1 (see tests/golden/pictures.ts).`,
    );
  }
  const now = PNG.sync.read(drawn);
  const before = PNG.sync.read(readFileSync(kept));
  expect([now.width, now.height]).toEqual([before.width, before.height]);
  const difference = new PNG({ width: now.width, height: now.height });
  const count = pixelmatch(before.data, now.data, difference.data, now.width, now.height, { threshold: COLOUR });
  const part = count / (now.width * now.height);
  if (part > MOST_DIFFERENT) {
    mkdirSync('tests/output', { recursive: true });
    writeFileSync(`tests/output/${name}.png`, drawn);
    writeFileSync(`tests/output/${name}-difference.png`, PNG.sync.write(difference));
  }
  expect(part, `${count} pixels differ; see tests/output/${name}-difference.png`).toBeLessThanOrEqual(MOST_DIFFERENT);
});

/** Browsers that can't draw as usual: without WebGL the canvas draws and says so; with nothing at all, words and figures remain. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, inject, it } from 'vitest';
import {
  field,
  frames,
  launch,
  type Opened,
  openPage,
  type PageWindow,
  settled,
  stateOf,
  text,
} from '../support/browser.ts';

let browser: Browser;
let opened: Opened;

beforeAll(async () => {
  browser = await launch(['--disable-3d-apis']);
});
afterAll(() => browser?.close());
afterEach(() => opened.close());

const drawnBy = () => opened.page.evaluate(() => (globalThis as unknown as PageWindow).strokewright.scene.drawnBy());

async function figuresWork(): Promise<void> {
  const { page } = opened;
  const before = await settled(page);
  expect(await text(page, '.sw-verdict-figure')).toContain('\u2212.025 in');
  expect(await page.locator('#gaps tbody tr').count()).toBe(before.gaps.length);
  // A shorter stroke by .060: the counterweight moves .030 away.
  await field(page, 'Stroke').fill('3.660 in');
  await page.keyboard.press('Enter');
  const after = await settled(page);
  const gap = (of: typeof before) => of.gaps.find((g) => g.id === 'counterweight 1 front · piston 1')!.gapMm;
  expect(gap(after) - gap(before)).toBeCloseTo(0.03 * 25.4, 3);
  const scale = page.locator('#ruler').getByRole('slider', { name: 'Crank angle' });
  await scale.focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('PageUp');
  expect(await text(page, '.sw-ruler-handle text')).toBe('30.0°');
  expect(await text(page, '#readout')).toMatch(/now, 30\.0° after TDC/);
}

it('without WebGL the picture is drawn on a plain canvas, and the page says so', async () => {
  opened = await openPage(browser, inject('baseUrl'), { withoutWebgl: true });
  expect(await drawnBy()).toBe('canvas');
  expect(await text(opened.page, '.sw-section-notice')).toContain('Drawn without WebGL');
  const canvas = opened.page.locator('#section canvas');
  const picture = await canvas.screenshot();
  await figuresWork();
  await frames(opened.page);
  expect((await canvas.screenshot()).equals(picture)).toBe(false);
  expect(opened.complaints).toEqual([]);
});

it('with no way to draw at all, the page says so in words and every figure works', async () => {
  opened = await openPage(browser, inject('baseUrl'), {
    withoutWebgl: true,
    before: () => {
      HTMLCanvasElement.prototype.getContext = () => null;
      if (typeof OffscreenCanvas !== 'undefined') OffscreenCanvas.prototype.getContext = () => null;
    },
  });
  expect(await drawnBy()).toBe('none');
  const notice = opened.page.locator('.sw-section-notice');
  expect(await notice.isVisible()).toBe(true);
  expect(await notice.textContent()).toMatch(
    /^The picture cannot be drawn here: .* The verdict, the angle ruler and the list of gaps hold every figure\.$/,
  );
  await figuresWork();
  // Turning goes on without a picture.
  await opened.page.locator('#transport').getByRole('button', { name: 'Turn the crank' }).click();
  const at = (await stateOf(opened.page)).crankAngleRad;
  await expect.poll(async () => (await stateOf(opened.page)).crankAngleRad).not.toBe(at);
  expect(opened.complaints).toEqual([]);
});

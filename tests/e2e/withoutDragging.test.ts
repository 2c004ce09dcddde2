/** Everything that is dragged can be had without dragging: by single taps or clicks, and by keys (WCAG 2.2, 2.5.7). */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { field, frames, launch, type Opened, openPage, openWhole, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig', reducedMotion: 'reduce' });
  page = opened.page;
  await settled(page);
});
afterAll(async () => {
  expect(opened.complaints).toEqual([]);
  await browser?.close();
});

const angle = async () => (await stateOf(page)).crankAngleRad;

/** Middle of the crank on the canvas, px of the page: where the hand would turn it, told by the pointer's look. */
async function crank(): Promise<{ x: number; y: number; radius: number }> {
  return page.locator('#section canvas').evaluate((canvas: HTMLCanvasElement) => {
    const own = canvas.getBoundingClientRect();
    const found: [number, number][] = [];
    for (let y = -own.height / 2; y < 1.5 * own.height; y += 14) {
      for (let x = -own.width / 2; x < 1.5 * own.width; x += 14) {
        const at = { clientX: own.left + x, clientY: own.top + y, pointerId: 99 };
        canvas.dispatchEvent(new PointerEvent('pointermove', at));
        if (canvas.style.cursor === 'grab') found.push([own.left + x, own.top + y]);
      }
    }
    const [xs, ys] = [found.map(([x]) => x), found.map(([, y]) => y)];
    const [left, right] = [Math.min(...xs), Math.max(...xs)];
    return { x: (left + right) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2, radius: (right - left) / 2 };
  });
}

it('the crank is turned by a button, by a click on the ruler, and by keys', async () => {
  const before = await angle();
  await page.locator('#transport').getByRole('button', { name: '+10°' }).click();
  expect((await angle()) - before).toBeCloseTo(Math.PI / 18, 9);
  const scale = (await page.locator('#ruler .sw-ruler-scale').boundingBox())!;
  await page.mouse.click(scale.x + scale.width / 4, scale.y + scale.height / 2);
  const clicked = await angle();
  await page.locator('#ruler .sw-ruler-scale').press('ArrowRight');
  expect((await angle()) - clicked).toBeCloseTo(Math.PI / 180, 9);
});

it('a dimension is typed, and stepped by keys', async () => {
  const stroke = field(page, 'Stroke');
  const was = await stroke.inputValue();
  await stroke.press('ArrowUp');
  expect(await stroke.inputValue()).not.toBe(was);
  await stroke.press('ArrowDown');
  expect(await stroke.inputValue()).toBe(was);
});

it('the drawing is enlarged by a button, a click brings a place to its middle, keys move it', async () => {
  const canvas = (await page.locator('#section canvas').boundingBox())!;
  const whole = await crank();
  // While all of it is seen a click moves nothing.
  await page.mouse.click(canvas.x + 30, canvas.y + 30);
  await frames(page);
  expect(await crank()).toEqual(whole);
  await page.getByRole('button', { name: '+ larger' }).click();
  await frames(page);
  const larger = await crank();
  expect(larger.radius).toBeGreaterThan(1.2 * whole.radius);
  await page.mouse.click(canvas.x + canvas.width / 2 + 90, canvas.y + canvas.height / 2 - 50);
  await frames(page);
  const moved = await crank();
  expect(Math.abs(moved.x - larger.x + 90)).toBeLessThanOrEqual(14);
  expect(Math.abs(moved.y - larger.y - 50)).toBeLessThanOrEqual(14);
  const before = await angle();
  await page.locator('#section canvas').press('Control+ArrowRight');
  await page.locator('#section canvas').press('Control+ArrowUp');
  await frames(page);
  const keyed = await crank();
  expect(keyed.x).toBeLessThan(moved.x - 40);
  expect(keyed.y).toBeGreaterThan(moved.y + 40);
  expect(await angle()).toBe(before);
  await page.getByRole('button', { name: 'Whole section' }).click();
  await frames(page);
  expect(await crank()).toEqual(whole);
});

it('the cursor of the curves goes where it is clicked, and by keys', async () => {
  await openWhole(page, { name: 'curves', label: 'Curves' });
  const plot = (await page.locator('.sw-curves-plot .u-over').first().boundingBox())!;
  const place = () =>
    page
      .locator('.sw-curves-cursor')
      .first()
      .evaluate((line) => line.getBoundingClientRect().left);
  await page.mouse.click(plot.x + plot.width / 3, plot.y + plot.height / 2);
  await frames(page);
  const clicked = await place();
  expect(Math.abs(clicked - plot.x - plot.width / 3)).toBeLessThan(4);
  await page.keyboard.press('>');
  await frames(page);
  expect(await place()).toBeGreaterThan(clicked);
});

it('a marker of a lesson is put by a click', async () => {
  await openWhole(page, { name: 'lessons', label: 'Lessons' });
  await page.locator('.sw-lesson-list button').first().click();
  const marker = page.locator('.sw-marker').first();
  await marker.waitFor();
  expect(await marker.getAttribute('aria-valuetext')).toBe('not put yet');
  const box = (await marker.boundingBox())!;
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  expect(await marker.getAttribute('aria-valuetext')).toMatch(/\d/);
});

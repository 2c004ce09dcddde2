/** Turning the crank: by clock, ruler, keys, buttons, mouse and fingers; zooming and going back to the whole. */
import type { Browser, BrowserContextOptions, CDPSession, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import {
  frames,
  launch,
  NARROW,
  type Opened,
  openPage,
  type PageWindow,
  type PlainState,
  settled,
  stateOf,
  text,
} from '../support/browser.ts';
import { numberIn } from '../support/figures.ts';

const DEG = Math.PI / 180;

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());
afterEach(async () => {
  await opened.close();
  expect(opened.complaints).toEqual([]);
});

async function open(options: BrowserContextOptions = {}): Promise<PlainState> {
  opened = await openPage(browser, inject('baseUrl'), options);
  page = opened.page;
  return settled(page);
}

const turnTo = (deg: number): Promise<void> =>
  page.evaluate((rad) => {
    const { store } = (globalThis as unknown as PageWindow).strokewright;
    store.send({ do: 'turn to', crankAngleRad: rad });
  }, deg * DEG);
const angleDeg = async (): Promise<number> => (await stateOf(page)).crankAngleRad / DEG;
const button = (name: string | RegExp) => page.locator('#transport').getByRole('button', { name });
const rulerScale = () => page.locator('#ruler').getByRole('slider', { name: 'Crank angle' });

/** Difference of two angles, -180 to 180 degrees, whatever turn they are in. */
const apart = (a: number, b: number): number => ((((a - b) % 360) + 540) % 360) - 180;

/** Degrees from true TDC of the cylinder in view, 0 to the cycle. */
function sinceTdc(state: PlainState): number {
  const cylinder = state.cylinders.find((c) => c.number === state.cylinder)!;
  const cycle = state.cycleRad / DEG;
  const zero = (cycle > 540 ? cylinder.firingTdcRad : cylinder.tdcRad) / DEG;
  return (((state.crankAngleRad / DEG - zero) % cycle) + cycle) % cycle;
}

describe('by the clock', () => {
  it.each([['no-preference'], ['reduce']] as const)('runs and stops, motion: %s', async (reducedMotion) => {
    await open({ reducedMotion });
    const from = await angleDeg();
    await button('Turn the crank').click();
    await expect.poll(async () => Math.abs(apart(await angleDeg(), from))).toBeGreaterThan(5);
    expect((await stateOf(page)).playing).toBe(true);
    await button('Stop the crank').click();
    const at = await angleDeg();
    await frames(page);
    await frames(page);
    expect(await angleDeg()).toBe(at);
    await page.locator('#section canvas').focus();
    await page.keyboard.press('Space');
    expect((await stateOf(page)).playing).toBe(true);
    await page.keyboard.press('Space');
    expect((await stateOf(page)).playing).toBe(false);
  });

  it('turns as fast as the picture speed says', async () => {
    const { cycleRad } = await open();
    await page.locator('#transport select').selectOption('40');
    // From here on the page's clock goes only as far as it is told.
    await page.clock.install();
    await page.clock.pauseAt(Date.now() + 60_000);
    const from = (await stateOf(page)).crankAngleRad;
    await button('Turn the crank').click();
    await page.clock.runFor(500);
    const turned = ((await stateOf(page)).crankAngleRad - from + cycleRad) % cycleRad;
    // 40 rpm is 240 degrees a second; the first frame only starts the count, and the last may still be to come.
    expect(turned / DEG).toBeGreaterThan(108);
    expect(turned / DEG).toBeLessThanOrEqual(120.1);
  });
});

describe('to a place', () => {
  it('TDC, BDC and the tightest place, by button and key', async () => {
    const state = await open();
    const cylinder = state.cylinders.find((c) => c.number === state.cylinder)!;
    await turnTo(33);
    await button(/^TDC/).click();
    expect(apart(await angleDeg(), cylinder.tdcRad / DEG)).toBeCloseTo(0, 6);
    expect((await stateOf(page)).now.motion.belowTdcMm).toBeCloseTo(0, 9);
    await button(/^BDC/).click();
    expect(apart(await angleDeg(), cylinder.bdcRad / DEG)).toBeCloseTo(0, 6);
    expect((await stateOf(page)).now.motion.belowTdcMm).toBeCloseTo(3.72 * 25.4, 9);
    await turnTo(33);
    await button(/^Tightest/).click();
    const at = await stateOf(page);
    expect(at.crankAngleRad).toBeCloseTo(at.gaps[0]!.atCrankRad, 9);
    expect(at.now.gaps.find((g) => g.id === at.gaps[0]!.id)!.gapMm).toBeCloseTo(at.gaps[0]!.gapMm, 6);
    await page.locator('#section canvas').focus();
    for (const [key, place] of [
      ['t', cylinder.tdcRad],
      ['b', cylinder.bdcRad],
    ] as const) {
      await page.keyboard.press(key);
      expect(apart(await angleDeg(), place / DEG)).toBeCloseTo(0, 6);
    }
    await page.keyboard.press('g');
    expect(apart(await angleDeg(), at.gaps[0]!.atCrankRad / DEG)).toBeCloseTo(0, 6);
  });

  it('a row of the gap table and a ribbon lead to their closest place', async () => {
    await open();
    await page.getByRole('tab', { name: 'All gaps' }).click();
    const row = page.locator('#gaps tbody tr').nth(4);
    await row.getByRole('button').click();
    const state = await stateOf(page);
    const gap = state.gaps[4]!;
    expect(state.picked).toBe(gap.id);
    expect(state.crankAngleRad).toBeCloseTo(gap.atCrankRad, 9);
    const ribbon = page.locator('#ruler [data-id]').first();
    const id = await ribbon.getAttribute('data-id');
    await ribbon.click();
    const after = await stateOf(page);
    expect(after.picked).toBe(id);
    expect(after.crankAngleRad).toBeCloseTo(after.gaps.find((g) => g.id === id)!.atCrankRad, 9);
  });

  it('ten degrees on and back, single degrees by key', async () => {
    await open();
    await turnTo(100);
    await button(/^\+10°/).click();
    expect(await angleDeg()).toBeCloseTo(110, 6);
    await button(/^−10°/).click();
    await button(/^−10°/).click();
    expect(await angleDeg()).toBeCloseTo(90, 6);
    await page.locator('#section canvas').focus();
    await page.keyboard.press('.');
    await page.keyboard.press('.');
    await page.keyboard.press(',');
    expect(await angleDeg()).toBeCloseTo(91, 6);
    await page.keyboard.press('ArrowLeft');
    expect(await angleDeg()).toBeCloseTo(90, 6);
  });
});

describe('by the angle ruler', () => {
  it('dragged with the mouse: handle, readout and picture follow', async () => {
    const state = await open();
    const box = (await rulerScale().boundingBox())!;
    const handle = async () => numberIn(await text(page, '.sw-ruler-handle text'));
    await page.mouse.move(box.x + box.width * 0.25, box.y + 40);
    await page.mouse.down();
    const first = sinceTdc(await stateOf(page));
    await page.mouse.move(box.x + box.width * 0.75, box.y + 40, { steps: 4 });
    await frames(page);
    const at = await stateOf(page);
    expect(sinceTdc(at) - first).toBeGreaterThan((state.cycleRad / DEG) * 0.45);
    expect(await handle()).toBeCloseTo(sinceTdc(at), 1);
    expect(Number(await rulerScale().getAttribute('aria-valuenow'))).toBeCloseTo(sinceTdc(at), 1);
    await page.mouse.up();
    await page.mouse.move(box.x + box.width * 0.5, box.y + 40);
    expect(sinceTdc(await stateOf(page))).toBe(sinceTdc(at));
  });

  it('by its keys', async () => {
    await open();
    await rulerScale().focus();
    await page.keyboard.press('Home');
    expect(sinceTdc(await stateOf(page))).toBeCloseTo(0, 6);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    expect(sinceTdc(await stateOf(page))).toBeCloseTo(11, 6);
    await page.keyboard.press('PageUp');
    expect(sinceTdc(await stateOf(page))).toBeCloseTo(41, 6);
    await page.keyboard.press('ArrowLeft');
    expect(sinceTdc(await stateOf(page))).toBeCloseTo(40, 6);
    expect(await rulerScale().getAttribute('aria-valuetext')).toContain('40.0°');
  });
});

/** A finger or two on the page. */
async function fingers(): Promise<
  (type: 'Start' | 'Move' | 'End', ...at: (readonly [number, number])[]) => Promise<void>
> {
  const cdp: CDPSession = await page.context().newCDPSession(page);
  return async (type, ...at) => {
    await cdp.send('Input.dispatchTouchEvent', {
      type: `touch${type}`,
      touchPoints: at.map(([x, y], id) => ({ x, y, id })),
    });
    // A tap is quick: the frame it asks for is not waited for.
    if (type === 'Move') await frames(page);
  };
}

/** Where the crank axis stands in the whole picture and how far out a point of the crank lies: found by the cursor. */
async function crankOnScreen(): Promise<{ x: number; y: number; radius: number }> {
  const canvas = page.locator('#section canvas');
  await canvas.scrollIntoViewIfNeeded();
  const box = (await canvas.boundingBox())!;
  const grabs = await canvas.evaluate((element: HTMLCanvasElement) => {
    const found: [number, number][] = [];
    const own = element.getBoundingClientRect();
    for (let y = 4; y < own.height; y += 8) {
      for (let x = 4; x < own.width; x += 8) {
        const event = { bubbles: false, clientX: own.left + x, clientY: own.top + y, pointerId: 99 };
        element.dispatchEvent(new PointerEvent('pointermove', event));
        if (element.style.cursor === 'grab') found.push([x, y]);
      }
    }
    return found;
  });
  const xs = grabs.map(([x]) => x);
  const ys = grabs.map(([, y]) => y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { x: box.x + (left + right) / 2, y: box.y + (top + bottom) / 2, radius: (right - left) / 2 };
}

describe('by hand on the section', () => {
  it('the crank dragged with the mouse turns with it, the ground beside it moves the drawing', async () => {
    await open();
    const crank = await crankOnScreen();
    const at = (deg: number) =>
      [crank.x + crank.radius * 0.6 * Math.sin(deg * DEG), crank.y - crank.radius * 0.6 * Math.cos(deg * DEG)] as const;
    const before = await angleDeg();
    await page.mouse.move(...at(20));
    await page.mouse.down();
    for (let deg = 30; deg <= 80; deg += 10) await page.mouse.move(...at(deg));
    await page.mouse.up();
    // A clockwise engine turns as the hand does, seen from the front; the axis is found to a few pixels.
    expect(apart(await angleDeg(), before)).toBeGreaterThan(55);
    expect(apart(await angleDeg(), before)).toBeLessThan(65);
    const turned = await angleDeg();
    const canvas = page.locator('#section canvas');
    const picture = await canvas.screenshot();
    const box = (await canvas.boundingBox())!;
    await page.mouse.move(box.x + 20, box.y + box.height - 20);
    await page.mouse.down();
    await page.mouse.move(box.x + 80, box.y + box.height - 60, { steps: 3 });
    await page.mouse.up();
    await frames(page);
    expect(await angleDeg()).toBe(turned);
    expect((await canvas.screenshot()).equals(picture)).toBe(false);
    const moved = await crankOnScreen();
    expect(moved.x - crank.x).toBeCloseTo(60, -1);
    expect(moved.y - crank.y).toBeCloseTo(-40, -1);
  });

  it.each([
    ['a tablet', { viewport: { width: 1200, height: 900 } }],
    ['a telephone', { viewport: NARROW, isMobile: true, deviceScaleFactor: 2 }],
  ] as const)('by touch on %s: one finger turns, two pinch, a double tap shows the whole', async (_name, options) => {
    await open({ ...options, hasTouch: true });
    const touch = await fingers();
    const crank = await crankOnScreen();
    const at = (deg: number) =>
      [crank.x + crank.radius * 0.6 * Math.sin(deg * DEG), crank.y - crank.radius * 0.6 * Math.cos(deg * DEG)] as const;
    const before = await angleDeg();
    await touch('Start', at(200));
    for (let deg = 190; deg >= 140; deg -= 10) await touch('Move', at(deg));
    await touch('End');
    expect(apart(await angleDeg(), before)).toBeLessThan(-52);
    expect(apart(await angleDeg(), before)).toBeGreaterThan(-68);
    const scrolled = await page.evaluate(() => [scrollX, scrollY, visualViewport!.scale]);

    // Two fingers, 60 px apart, drawn out to 120 px: twice as large, and the crank has not turned.
    const turned = await angleDeg();
    const y = crank.y;
    await touch('Start', [crank.x - 30, y]);
    await touch('Start', [crank.x - 30, y], [crank.x + 30, y]);
    for (let k = 1; k <= 6; k++) await touch('Move', [crank.x - 30 - 5 * k, y], [crank.x + 30 + 5 * k, y]);
    await touch('End', [crank.x - 60, y]);
    await touch('End');
    await frames(page);
    const larger = await crankOnScreen();
    expect(apart(await angleDeg(), turned)).toBeCloseTo(0, 6);
    expect(larger.radius / crank.radius).toBeGreaterThan(1.5);
    // The page itself neither scrolled nor zoomed.
    expect(await page.evaluate(() => [scrollX, scrollY, visualViewport!.scale])).toEqual(scrolled);

    for (let k = 0; k < 2; k++) {
      await touch('Start', [crank.x, crank.y]);
      await touch('End');
    }
    await frames(page);
    const whole = await crankOnScreen();
    expect(whole.radius).toBeCloseTo(crank.radius, -1);
    expect(apart(await angleDeg(), turned)).toBeCloseTo(0, 6);
  });

  it('wheel and buttons zoom, 0 and Whole show it whole again', async () => {
    await open();
    const crank = await crankOnScreen();
    await page.mouse.move(crank.x, crank.y);
    await page.mouse.wheel(0, -200);
    await page.waitForTimeout(250);
    expect((await crankOnScreen()).radius).toBeGreaterThan(crank.radius * 1.2);
    await page.locator('#section canvas').focus();
    await page.keyboard.press('0');
    await frames(page);
    expect((await crankOnScreen()).radius).toBeCloseTo(crank.radius, 0);
    await page.getByRole('button', { name: 'smaller' }).click();
    await frames(page);
    expect((await crankOnScreen()).radius).toBeLessThan(crank.radius * 0.85);
    await page.getByRole('button', { name: 'Whole section' }).click();
    await frames(page);
    expect((await crankOnScreen()).radius).toBeCloseTo(crank.radius, 0);
  });
});

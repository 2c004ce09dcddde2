/** Text set twice as large in the browser, and the page shown twice as large: on every screen nothing is cut off, runs out or lies over other words. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { cutOff, overlaid, sidewaysFinds, smallTargets, walkScreens } from '../support/access.ts';
import { launch, type Opened, openPage, settled } from '../support/browser.ts';

/** The usual size of text in a browser, px. */
const USUAL_PX = 16;
/** For hands in gloves, px of the usual size. */
const TARGET = 44;

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, inject('baseUrl'), {
    query: '?demo=bench-rig',
    // The note of the first start stands over every screen.
    firstStart: true,
    reducedMotion: 'reduce',
    hasTouch: true,
    isMobile: true,
  });
  page = opened.page;
});
afterAll(async () => {
  expect(opened.complaints).toEqual([]);
  await browser?.close();
});

const look = async () => [...(await sidewaysFinds(page)), ...(await cutOff(page)), ...(await overlaid(page))];

it('the page, shown twice as large, is one of half the size; that one holds', async () => {
  await settled(page);
  for (const [width, height] of [
    [720, 450],
    [180, 400],
  ] as const) {
    await page.setViewportSize({ width, height });
    expect(await walkScreens(page, look), `${2 * width} px wide`).toEqual({});
  }
});

it('text twice as large: words, controls and the drawing grow with it, and nothing is lost', async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  const letters = () =>
    page.evaluate(() => {
      const px = (of: string) => Number.parseFloat(getComputedStyle(document.querySelector(of)!).fontSize);
      const svg = document.querySelector<SVGSVGElement>('#ruler svg')!;
      const canvas = document.querySelector<HTMLCanvasElement>('#section canvas')!;
      return {
        verdict: px('.sw-verdict-sentence'),
        button: px('#side-toggle'),
        // Letters of a drawing: as they are shown, not as they are set.
        ruler: px('#ruler text') * (svg.getBoundingClientRect().width / svg.viewBox.baseVal.width),
        // And of the section: device px for one of the drawing.
        fills: canvas.getBoundingClientRect().width === canvas.parentElement!.clientWidth,
      };
    });
  const before = await letters();
  // As the setting of the browser does it: the root's size, and what em means to the media queries.
  const browserSettings = await page.context().newCDPSession(page);
  await browserSettings.send('Page.setFontSizes', { fontSizes: { standard: 2 * USUAL_PX, fixed: 2 * USUAL_PX } });
  await page.reload();
  await page.waitForFunction(() => 'strokewright' in globalThis);
  await settled(page);
  expect(await letters()).toEqual({
    verdict: 2 * before.verdict,
    button: 2 * before.button,
    ruler: expect.closeTo(2 * before.ruler, 1),
    fills: true,
  });
  for (const width of [1440, 768, 360]) {
    await page.setViewportSize({ width, height: 900 });
    const found = await walkScreens(page, async () => [...(await look()), ...(await smallTargets(page, TARGET))]);
    expect(found, `${width} px wide`).toEqual({});
  }

  // What comes up over the page, at the last of these widths: a term, and what is refused.
  await page.locator('#first-note').getByRole('button').click();
  await page.locator('#readout dt').first().click();
  await page.locator('.sw-glossary').waitFor();
  expect(await look()).toEqual([]);
  await page.keyboard.press('Escape');
  await page.evaluate(() => {
    const dropped = new DataTransfer();
    dropped.items.add(new File(['{"a very long name that nobody expects": [1, 2,'], 'cut short.json'));
    document.dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }));
  });
  await page.locator('.sw-notice').waitFor();
  expect(await look()).toEqual([]);
});

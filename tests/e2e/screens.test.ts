/** The page on wide, middle and narrow screens: the way to the dimensions and back, and accessibility judged by axe-core. */
import { readFileSync } from 'node:fs';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { field, launch, MIDDLE, NARROW, type Opened, openPage, settled, WIDE } from '../support/browser.ts';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');

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

async function open(options: BrowserContextOptions): Promise<void> {
  // Without movement the drawer stands where it will be at once.
  opened = await openPage(browser, inject('baseUrl'), { reducedMotion: 'reduce', ...options });
  page = opened.page;
  await settled(page);
}

const TELEPHONE = { viewport: NARROW, isMobile: true, hasTouch: true } as const;
const toggle = () => page.locator('#side-toggle');

interface Axe {
  readonly axe: {
    run(): Promise<{ violations: { id: string; nodes: { target: unknown[]; failureSummary: string }[] }[] }>;
  };
}

async function violations(): Promise<string[]> {
  // Not as a script of the page: its policy allows none but its own.
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const found = await (globalThis as unknown as Axe).axe.run();
    return found.violations.flatMap((one) =>
      one.nodes.map((node) => `${one.id} at ${node.target.join(' ')}: ${node.failureSummary}`),
    );
  });
}

describe.each(['light', 'dark'] as const)('axe-core finds nothing, %s', (colorScheme) => {
  it('wide, dimensions and then all gaps', async () => {
    await open({ viewport: WIDE, colorScheme });
    expect(await violations()).toEqual([]);
    await page.getByRole('tab', { name: 'All gaps' }).click();
    expect(await violations()).toEqual([]);
  });

  it('wide, with a refused value and all folders open', async () => {
    await open({ viewport: WIDE, colorScheme });
    for (const folder of ['Camshaft', 'Block', 'Limits']) await page.getByRole('button', { name: folder }).click();
    await field(page, 'Stroke').fill('12 in');
    await page.keyboard.press('Enter');
    await field(page, 'Hub radius').fill('large');
    await page.keyboard.press('Enter');
    expect(await violations()).toEqual([]);
  });

  it('middle, drawer shut and open', async () => {
    await open({ viewport: MIDDLE, colorScheme });
    expect(await violations()).toEqual([]);
    await toggle().click();
    expect(await violations()).toEqual([]);
  });

  it('narrow, sheet shut and open', async () => {
    await open({ ...TELEPHONE, colorScheme });
    expect(await violations()).toEqual([]);
    await toggle().click();
    expect(await violations()).toEqual([]);
  });
});

describe('one way back', () => {
  it.each([
    ['a middle screen', { viewport: MIDDLE }],
    ['a narrow screen', TELEPHONE],
  ] as const)('on %s: Escape from gaps to dimensions to the section', async (_name, options) => {
    await open(options);
    const pane = page.locator('#side');
    expect(await pane.isVisible()).toBe(false);
    await toggle().click();
    expect(await pane.isVisible()).toBe(true);
    expect(await toggle().getAttribute('aria-expanded')).toBe('true');
    await page.getByRole('tab', { name: 'All gaps' }).click();
    expect(await page.locator('#gaps').isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    expect(await page.locator('#gaps').isVisible()).toBe(false);
    expect(await page.locator('#dimensions').isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    expect(await pane.isVisible()).toBe(false);
    expect(await toggle().getAttribute('aria-expanded')).toBe('false');
    expect(await toggle().evaluate((element) => element === document.activeElement)).toBe(true);
    await toggle().click();
    await page.locator('#pages').getByRole('button', { name: 'Close' }).click();
    expect(await pane.isVisible()).toBe(false);
  });

  it('Escape in a field takes back what was typed and stays there', async () => {
    await open({ viewport: MIDDLE });
    await toggle().click();
    await field(page, 'Stroke').fill('nine');
    await page.keyboard.press('Escape');
    expect(await field(page, 'Stroke').inputValue()).toBe('3.720 in');
    expect(await page.locator('#side').isVisible()).toBe(true);
  });

  it('a wide screen folds the pane away and brings it back', async () => {
    await open({ viewport: WIDE });
    const width = async () => (await page.locator('#section').boundingBox())!.width;
    const before = await width();
    await toggle().click();
    expect(await page.locator('#side').isVisible()).toBe(false);
    expect(await width()).toBeGreaterThan(before + 300);
    await toggle().click();
    expect(await page.locator('#side').isVisible()).toBe(true);
  });
});

describe('room', () => {
  it.each([
    ['wide', { viewport: WIDE }],
    ['a low wide screen', { viewport: { width: 1366, height: 700 } }],
    ['middle', { viewport: MIDDLE }],
    ['narrow', TELEPHONE],
    ['the narrowest', { ...TELEPHONE, viewport: { width: 320, height: 640 } }],
  ] as const)(
    '%s: nothing runs out at the side, the section and the verdict are on the first screen',
    async (_name, options) => {
      await open(options);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
      const section = (await page.locator('#section').boundingBox())!;
      expect(section.height).toBeGreaterThanOrEqual(250);
      expect(section.y).toBeLessThan(options.viewport.height - 150);
      const verdict = (await page.locator('.sw-verdict-headline').boundingBox())!;
      expect(verdict.y + verdict.height).toBeLessThan(options.viewport.height);
    },
  );

  it('hands find what they look for: every control of a telephone is at least 44 px high', async () => {
    await open(TELEPHONE);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('button, select, [role="slider"], [role="radio"]')]
        .filter((element) => element.checkVisibility({ visibilityProperty: true }))
        .map((element) => ({
          name: element.getAttribute('aria-label') ?? element.textContent,
          box: element.getBoundingClientRect(),
        }))
        .filter(({ box }) => box.height > 0 && box.height < 44)
        .map(({ name, box }) => `${name}: ${box.height}`),
    );
    expect(small).toEqual([]);
  });
});

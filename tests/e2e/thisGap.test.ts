/** The page of one gap: what it tells of the gap that is picked, and the running gap that follows from what is stated below it. */
import { readFileSync } from 'node:fs';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { launch, NARROW, type Opened, openPage, settled, stateOf, text, WIDE } from '../support/browser.ts';

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

async function open(options: BrowserContextOptions & { readonly query?: string } = {}): Promise<void> {
  opened = await openPage(browser, inject('baseUrl'), { reducedMotion: 'reduce', ...options });
  page = opened.page;
  await settled(page);
  if (!(await page.locator('#side').isVisible())) await page.locator('#side-toggle').click();
  await page.getByRole('tab', { name: 'This gap' }).click();
  // The story has come: nothing is being worked out any more.
  await page.waitForFunction(() => !/worked out …/.test(document.querySelector('#this-gap')!.textContent!));
}

const fact = async (name: string): Promise<string> =>
  (await page
    .locator('#this-gap dl > div')
    .filter({ has: page.locator('dt', { hasText: new RegExp(`^${name}$`) }) })
    .locator('dd')
    .textContent())!;

const state = (name: string) => page.locator('#running').getByRole('textbox', { name, exact: true });

async function violations(): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { target: unknown[] }[] }[] }> };
    };
    return (await axe.run()).violations.flatMap((one) =>
      one.nodes.map((node) => `${one.id} at ${node.target.join(' ')}`),
    );
  });
}

describe('the gap spoken of', () => {
  it('is the worst one, with its intervals about bottom dead centre, and another one when it is picked', async () => {
    await open({ viewport: WIDE });
    const worst = (await stateOf(page)).gaps[0]!;
    expect(await text(page, '#this-gap .sw-mark')).toBe('contact');
    expect(await fact('Closest')).toBe('at bottom dead centre, cylinder 1');
    const [, from, to] = /^(\d+\.\d)° to (\d+\.\d)° after TDC 1; proven nowhere else$/.exec(
      await fact('Below the limit'),
    )!;
    expect(Number(from) + Number(to)).toBeCloseTo(360, 1);
    const [, low, high] = /^(\d+\.\d)° to (\d+\.\d)° after TDC 1$/.exec(await fact('In contact'))!;
    expect(Number(low)).toBeGreaterThan(Number(from));
    expect(Number(high)).toBeLessThan(Number(to));
    for (const name of worst.assumed) expect(await fact('Assumed')).toContain(name);

    await page.locator('#this-gap select').selectOption('rod 1 · bore 2');
    expect((await stateOf(page)).picked).toBe('rod 1 · bore 2');
    expect(await text(page, '#this-gap .sw-mark')).toBe('clears');
    expect(await page.locator('#this-gap dt', { hasText: 'Below the limit' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Go to the closest place' }).click();
    const now = await stateOf(page);
    expect(now.crankAngleRad).toBeCloseTo(now.gaps.find((g) => g.id === 'rod 1 · bore 2')!.atCrankRad, 9);
  });

  it('axe-core finds nothing, light and dark, wide and on a telephone', async () => {
    await open({ viewport: WIDE, colorScheme: 'dark' });
    expect(await violations()).toEqual([]);
    await opened.close();
    await open({ viewport: NARROW, isMobile: true, hasTouch: true, query: '?demo=bench-rig' });
    expect(await violations()).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  });
});

describe('the running gap', () => {
  it('follows what is stated, line by line, and is gone when that is emptied or undone', async () => {
    await open({ viewport: WIDE, query: '?demo=bench-rig' });
    await page.locator('#this-gap select').selectOption('piston 1 · deck');
    expect(await page.locator('.sw-this-ladder').isVisible()).toBe(false);
    await state('Rod bearing').fill('0.05 mm');
    await page.keyboard.press('Enter');
    const ladder = page.locator('.sw-this-ladder');
    await ladder.waitFor();
    // 0.30 mm of deck clearance less half of 0.05 mm, outward at the top.
    expect(await ladder.locator('tr').allTextContents()).toEqual([
      expect.stringMatching(/^static gap0\.30 mm/),
      expect.stringMatching(/^rod bearing clearance\u22120\.025 mm/),
      expect.stringMatching(/^running gap, about0\.2[78] mm/),
    ]);
    await state('Skirt in bore').fill('0.06 mm');
    await page.keyboard.press('Enter');
    await page.locator('#this-gap', { hasText: 'Left out: piston rock; still to be stated: guide length.' }).waitFor();
    await state('Rod bearing').fill('');
    await page.keyboard.press('Enter');
    await page.locator('#this-gap', { hasText: 'No allowance is switched on.' }).waitFor();
    for (let k = 0; k < 3; k++)
      await page.evaluate(() =>
        (globalThis as never as { strokewright: { store: { send(c: object): void } } }).strokewright.store.send({
          do: 'undo',
        }),
      );
    expect((await stateOf(page)).doc.assemblies.every((a) => a.running === undefined)).toBe(true);
  });
});

/** The view for the customer on a tablet: through the whole tour by touch alone and by keys alone; the job is as before afterwards. */
import axeCore from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { frames, launch, openPage, type PageWindow, pressInBar, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

const TABLET = { width: 1280, height: 800 } as const;

async function nothingCutOff(page: Page): Promise<void> {
  const cut = await page.evaluate(() => {
    const out: string[] = [];
    if (document.documentElement.scrollWidth > innerWidth) out.push('the page');
    for (const each of document.querySelectorAll<HTMLElement>('.sw-counter button, .sw-counter p, .sw-counter h2')) {
      if (each.offsetParent === null) continue;
      if (each.scrollWidth > each.clientWidth + 1 || each.getBoundingClientRect().right > innerWidth + 1)
        out.push(each.textContent ?? '');
    }
    return out;
  });
  expect(cut).toEqual([]);
}

async function tourBy(page: Page, onward: () => Promise<void>): Promise<string[]> {
  const titles: string[] = [];
  const title = page.locator('.sw-counter-title');
  for (;;) {
    titles.push((await title.textContent()) ?? '');
    await nothingCutOff(page);
    if (await page.getByRole('button', { name: 'Next', exact: true }).isDisabled()) return titles;
    await onward();
    await expect.poll(() => title.textContent()).not.toBe(titles.at(-1));
  }
}

describe('the view for the customer', () => {
  it('by touch alone on a tablet: every step, before, both, after, turn, and back to the job as it was', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), {
      viewport: TABLET,
      hasTouch: true,
      reducedMotion: 'reduce',
    });
    const job = await settled(page);
    await pressInBar(page, 'For the customer');
    const tap = (name: string) => page.locator('#page-customer').getByRole('button', { name, exact: true }).tap();
    await page.locator('.sw-counter canvas').waitFor();
    expect(await page.locator('#bar').isVisible()).toBe(false);
    const titles = await tourBy(page, () => tap('Next'));
    expect(titles.length).toBe(9);
    expect(new Set(titles).size).toBe(titles.length);
    await tap('Back');
    await tap('Before');
    expect((await stateOf(page)).assembly).toBe(job.doc.replaced);
    await tap('Side by side');
    expect((await stateOf(page)).assembly).toBe(job.assembly);
    const [was, now] = [page.locator('.sw-counter-drawing svg'), page.locator('.sw-counter-pane canvas')];
    const boxes = [(await was.boundingBox())!, (await now.boundingBox())!] as const;
    expect(boxes[1].x).toBeGreaterThanOrEqual(boxes[0].x + boxes[0].width);
    expect(boxes[1].height).toBe(boxes[0].height);
    // Both stand on the same crank angle: what is drawn of the one taken out goes with the crank and comes back with it.
    const drawnAt = async (crankAngleRad: number): Promise<string> => {
      await page.evaluate((to) => {
        const { store, scene } = (globalThis as unknown as PageWindow).strokewright;
        store.send({ do: 'turn to', crankAngleRad: to });
        scene.renderNow();
      }, crankAngleRad);
      await frames(page);
      return was.innerHTML();
    };
    const first = await drawnAt(1);
    expect(await drawnAt(2)).not.toBe(first);
    expect(await drawnAt(1)).toBe(first);
    await tap('After');
    expect(await was.isVisible()).toBe(false);
    expect((await stateOf(page)).assembly).toBe(job.assembly);
    await tap('Turn');
    expect((await stateOf(page)).playing).toBe(true);
    await tap('Stop');
    await tap('Back to the section');
    const after = await stateOf(page);
    expect([after.assembly, after.picked, after.playing]).toEqual([job.assembly, job.picked, false]);
    expect(after.crankAngleRad).toBeCloseTo(job.crankAngleRad, 9);
    expect(after.doc).toEqual(job.doc);
    await close();
    expect(complaints).toEqual([]);
  });

  it('by keys alone, upright and dark: arrows go through it, Escape leads back, axe-core finds nothing', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), {
      viewport: { width: 800, height: 1280 },
      colorScheme: 'dark',
      reducedMotion: 'reduce',
      query: '?demo=lake-launch-six',
    });
    await settled(page);
    await page.locator('#bar-menu').focus();
    await page.keyboard.press('Enter');
    await page.locator('#bar').getByRole('button', { name: 'For the customer' }).focus();
    await page.keyboard.press('Enter');
    await page.locator('.sw-counter canvas').waitFor();
    const titles = await tourBy(page, () => page.keyboard.press('ArrowRight'));
    expect(titles).toContain('A longer stroke');
    await page.evaluate(axeCore.source);
    const found = await page.evaluate(async () => {
      const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run({ include: ['#page-customer'] } as never);
      return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`);
    });
    expect(found).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.locator('#section').isVisible()).toBe(true);
    await close();
    expect(complaints).toEqual([]);
  });

  it('on a telephone nothing is cut off, and the pin’s circles are drawn to scale', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), {
      viewport: { width: 390, height: 844 },
      reducedMotion: 'reduce',
      query: '?demo=bench-rig',
    });
    await settled(page);
    await pressInBar(page, 'For the customer');
    await page.locator('.sw-counter canvas').waitFor();
    await page.locator('#page-customer').getByRole('button', { name: 'Next', exact: true }).click();
    await nothingCutOff(page);
    const [before, now] = await page.evaluate(() => {
      const shapes = [...document.querySelectorAll('.sw-counter-over > *')];
      const dashed = shapes.find((s) => s.tagName === 'circle')!;
      const path = shapes.find((s) => s.tagName === 'path' && s.getAttribute('d')!.includes('A'))!;
      return [Number(dashed.getAttribute('r')), Number(/A([\d.]+) /.exec(path.getAttribute('d')!)![1])];
    });
    // Strokes of 78 and 86 mm.
    expect(now! / before!).toBeCloseTo(86 / 78, 2);
    await close();
    expect(complaints).toEqual([]);
  });
});

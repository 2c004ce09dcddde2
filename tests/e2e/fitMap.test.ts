/** The page "Fit map" in the browser: worked out in workers, read by keyboard, gone to in one step. */
import AxeBuilder from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launch, NARROW, openPage, settled, stateOf, text } from '../support/browser.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

async function opened(options: Parameters<typeof openPage>[2] = {}) {
  const made = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig', ...options });
  await settled(made.page);
  if (options.viewport === NARROW) await made.page.locator('#side-toggle').click();
  await made.page.getByRole('tab', { name: 'Fit map' }).click();
  await made.page.getByLabel('Designs along each side').selectOption('16');
  await finished(made.page);
  return made;
}

async function finished(page: Page): Promise<void> {
  await page.waitForFunction(
    () => document.querySelector('.sw-map-state')?.textContent === '256 designs worked out.',
    null,
    { timeout: 60_000 },
  );
}

describe('the fit map', () => {
  it('says what stands under the cursor, goes there in one step and back in one, and stays', async () => {
    const { page, close, complaints } = await opened();
    const before = await stateOf(page);
    await page.locator('.sw-map-plot').focus();
    for (const key of ['ArrowLeft', 'ArrowLeft', 'ArrowUp']) await page.keyboard.press(key);
    const said = await text(page, '.sw-map-readout');
    expect(said).toMatch(/^Stroke 84\.0 mm, rod length 140\.0 mm: clears, .* above the limit\.$/);
    await page.keyboard.press('Enter');
    const after = await settled(page);
    const shown = after.doc.assemblies.find((a) => a.name === after.assembly)!;
    expect([shown.crank.stroke.value, shown.rod.length.value]).toEqual(['84.0 mm', '140.0 mm']);
    expect(after.figures.deckClearanceMm).toBeCloseTo(before.figures.deckClearanceMm, 6);
    // The build then has the gap that the map said.
    const gap = after.gaps.find((g) => g.kind !== 'deck')!;
    expect(said).toContain(`gap ${gap.gapMm.toFixed(2)} mm`);
    // Only its own two dimensions have changed: the map is still one of this build.
    expect(await text(page, '.sw-map-state')).toBe('256 designs worked out.');
    await page.keyboard.press('Control+z');
    expect((await stateOf(page)).doc).toEqual(before.doc);
    await close();
    expect(complaints).toEqual([]);
  });

  it('is worked out anew when anything else changes, and over other dimensions when asked', async () => {
    const { page, close, complaints } = await opened();
    await page.evaluate(() => {
      const { store } = (globalThis as unknown as { strokewright: { store: import('../../src/model/state.ts').Store } })
        .strokewright;
      const index = store.state.doc.assemblies.findIndex((a) => a.name === store.state.assembly);
      const path = ['assemblies', index, 'crank', 'counterweight', 'radius'];
      store.send({ do: 'set dimension', path, text: '60 mm', last: true });
    });
    await page.waitForFunction(() =>
      /before the last change|of 256/.test(document.querySelector('.sw-map-state')?.textContent ?? ''),
    );
    await finished(page);
    await page.getByLabel('Upward', { exact: true }).selectOption('crank.counterweight.radius');
    await finished(page);
    await page.getByLabel('Across, from').fill('nothing');
    await page.getByLabel('Across, from').blur();
    await page.waitForFunction(() => /refused/.test(document.querySelector('.sw-map-state')?.textContent ?? ''));
    expect(await text(page, '.sw-map-state')).toContain('stroke: nothing is refused');
    await close();
    expect(complaints).toEqual([]);
  });

  it('has no barrier that axe finds, wide and on a telephone', async () => {
    for (const viewport of [undefined, NARROW]) {
      const { page, close } = await opened(viewport === undefined ? {} : { viewport });
      await page.evaluate(AxeBuilder.source);
      const found = await page.evaluate(async () => {
        const { axe } = globalThis as unknown as {
          axe: { run: (at: string) => Promise<{ violations: { id: string }[] }> };
        };
        return (await axe.run('#fit-map')).violations.map((v) => v.id);
      });
      expect(found).toEqual([]);
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(wide).toBeLessThanOrEqual(0);
      await close();
    }
  });
});

/** The page of tolerances: what moves the gap, the sums, chance builds run, cancelled and repeated, what ± means kept in the build. */
import AxeBuilder from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { launch, type Opened, openPage, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, inject('baseUrl'), { query: '?demo=lake-launch-six' });
  page = opened.page;
  await settled(page);
  await page.getByRole('tab', { name: 'Tolerances' }).click();
});
afterAll(async () => {
  await opened.close();
  await browser.close();
  expect(opened.complaints).toEqual([]);
});

const tolerances = () => page.locator('.sw-tol');
const answer = () => tolerances().locator('.sw-tol_answer');

async function run(builds: string): Promise<string> {
  await tolerances().getByRole('textbox', { name: 'Builds' }).fill(builds);
  await tolerances().getByRole('button', { name: 'Run' }).click();
  await tolerances().getByRole('button', { name: 'Run', disabled: false }).waitFor();
  await answer().waitFor();
  return (await answer().textContent())!;
}

it('tells what moves the worst gap, a bar for each, and what its tolerances add up to', async () => {
  await tolerances().locator('.sw-tol_sums dd').nth(3).filter({ hasText: /mm/ }).waitFor();
  const { gaps } = await stateOf(page);
  expect(await tolerances().locator('.sw-tol_about').textContent()).toContain(gaps[0]!.id);
  const rows = tolerances().locator('.sw-tol_table tbody tr');
  expect(await rows.count()).toBeGreaterThan(3);
  expect(await rows.first().textContent()).toMatch(/±0\.\d\d mm[−+]0\.\d{3} mmfor 0\.1 mm0\.\d\d mm$/);
  expect(await tolerances().locator('.sw-tol_bar').count()).toBe(await rows.count());
  const figures = (await tolerances().locator('.sw-tol_sums dd').allTextContents()).map((t) => Number.parseFloat(t));
  const [needed, written, worst, laidOut] = figures;
  expect(needed).toBeCloseTo(gaps[0]!.limitMm, 2);
  expect(written).toBeCloseTo(gaps[0]!.gapMm, 2);
  expect(worst).toBeLessThan(written!);
  expect(laidOut).toBeLessThan(written!);
});

it('draws chance builds, the same again from the same seed, and refuses a number that is none', async () => {
  const first = await run('30');
  expect(first).toMatch(/builds .*with 95 % confidence/);
  expect(await tolerances().locator('.sw-tol_histogram rect').count()).toBeGreaterThan(2);
  const figures = () => tolerances().locator('.sw-tol_figure + .sw-tol_sums').textContent();
  const before = await figures();
  expect(await run('30')).toBe(first);
  expect(await figures()).toBe(before);
  await tolerances().getByRole('textbox', { name: 'Builds' }).fill('1e3');
  await tolerances().getByRole('button', { name: 'Run' }).click();
  expect(await tolerances().getByRole('alert').textContent()).toContain('a whole number from 1 to 20000');
  await tolerances().getByRole('textbox', { name: 'Builds' }).fill('20000');
  await tolerances().getByRole('button', { name: 'Run' }).click();
  await tolerances()
    .getByText(/of 20000 builds/)
    .waitFor();
  await tolerances().getByRole('button', { name: 'Cancel' }).click();
  await tolerances()
    .getByText(/of 20000 builds, stopped\./)
    .waitFor();
});

it('keeps in the build what ± means, as a step that can be undone; another meaning takes the old answer away', async () => {
  await tolerances().getByRole('radio', { name: 'Normal' }).check({ force: true });
  await tolerances().getByText('about 2.7 in 1000 of the parts lie outside').waitFor();
  expect((await stateOf(page)).doc.tolerances).toEqual({ as: 'normal', sigmas: 3 });
  expect(await answer().count()).toBe(0);
  // Out of the field: there the key is the field's own.
  await tolerances().locator('h2').click();
  await page.keyboard.press('Control+z');
  expect((await stateOf(page)).doc.tolerances).toBeUndefined();
});

it('holds nothing that axe finds', async () => {
  await page.evaluate(AxeBuilder.source);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof AxeBuilder }).axe.run('#side', {
      resultTypes: ['violations'],
    }),
  );
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([]);
});

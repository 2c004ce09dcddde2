/** The swept band on the page: drawn behind the section for the picked pair, with its limit, and saved as a drawing. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { frames, launch, type Opened, openPage, settled } from '../support/browser.ts';

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
  page = opened.page;
});
afterAll(async () => {
  await opened.close();
  await browser.close();
  expect(opened.complaints).toEqual([]);
});

const picture = async (): Promise<string> => {
  await frames(page);
  return (await page.locator('#section canvas').screenshot()).toString('base64');
};

it('is drawn for the picked pair, grows by the limit, is saved, and goes again', async () => {
  await settled(page);
  await page.getByRole('tab', { name: 'All gaps' }).click();
  await page
    .locator('#gaps')
    .getByRole('button', { name: /^counterweight 1 front · piston 1/ })
    .click();
  await page.getByRole('tab', { name: 'This gap' }).click();
  const panel = page.getByRole('region', { name: 'Swept band' });
  const without = await picture();
  await panel.getByLabel('Show').selectOption({ label: 'piston 1 seen from counterweight 1 front' });
  await panel.getByText('Contains all that piston 1 ever covers').waitFor();
  const shown = await picture();
  expect(shown).not.toBe(without);
  await panel.getByLabel('With its limit round it').check();
  await panel.getByText('with 1.52 mm').waitFor();
  expect(await picture()).not.toBe(shown);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    panel.getByRole('button', { name: 'Save as DXF' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('piston-1-seen-from-counterweight-1-front.dxf');
  const saved = readFileSync(await download.path(), 'utf8');
  for (const layer of ['COUNTERWEIGHT_1_FRONT', 'KEEP_OUT_PISTON_1']) expect(saved).toContain(layer);
  await panel.getByLabel('Show').selectOption('None');
  expect(await picture()).toBe(without);
  expect(await panel.getByRole('button', { name: 'Save as DXF' }).isVisible()).toBe(false);
});

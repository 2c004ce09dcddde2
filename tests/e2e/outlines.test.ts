/** The page of outlines: a file dropped, looked at, put into the build and taken back; what is refused; templates handed out. */
import { readFileSync } from 'node:fs';
import type { Browser, Download, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, inject, it } from 'vitest';
import { readOutlineDxf } from '../../src/exchange/index.ts';
import { shape, signedDistanceMm } from '../oracle/plane.ts';
import { launch, NARROW, type Opened, openPage, settled, stateOf, WIDE } from '../support/browser.ts';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');
const sample = (name: string): string => readFileSync(`assets/samples/${name}`, 'utf8');
const CHEEK = 'counterweight 2 rear';

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

async function open(options: Parameters<typeof openPage>[2]): Promise<void> {
  opened = await openPage(browser, inject('baseUrl'), {
    query: '?demo=quarry-v8',
    reducedMotion: 'reduce',
    ...options,
  });
  page = opened.page;
  await settled(page);
  if (options?.viewport === NARROW) await page.locator('#side-toggle').click();
  await page.getByRole('tab', { name: 'Outlines' }).click();
}

const pane = () => page.locator('#outlines');
const reasons = () => pane().locator('.sw-outlines_reasons');
const put = () => pane().getByRole('button', { name: 'Put it into the build' });

/** A file let fall on the place for it, as a hand does. */
async function drop(name: string, text: string): Promise<void> {
  await pane()
    .locator('.sw-outlines_drop')
    .evaluate(
      (element, file) => {
        const data = new DataTransfer();
        data.items.add(new File([file.text], file.name));
        element.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
      },
      { name, text },
    );
}

async function textOf(download: Download): Promise<string> {
  return readFileSync(await download.path(), 'utf8');
}

it('a table of points is dropped, seen, put in as one step, and taken back', async () => {
  await open({ viewport: WIDE });
  await pane().getByLabel('Body').selectOption(CHEEK);
  const before = await stateOf(page);
  await drop('counterweight.csv', sample('counterweight.csv'));
  await put().waitFor();
  // Dropped here it is no build: the one on show stands as it was, and nothing is changed before it is put in.
  expect((await stateOf(page)).doc).toEqual(before.doc);
  const said = (await pane().locator('.sw-mock_figures').textContent()) ?? '';
  expect(said).toMatch(/Points217/);
  expect(said).toMatch(/Fitted by\d+ lines, \d+ arcs/);
  expect(await pane().locator('svg path.fitted').count()).toBe(1);
  expect((await pane().locator('svg path.dots').getAttribute('d'))!.split('M')).toHaveLength(218);

  await put().click();
  const after = await settled(page);
  const gap = (state: typeof after, id: string) => state.gaps.find((g) => g.id === id)!;
  const id = `${CHEEK} · piston 4`;
  // The lug stands 1.7 mm out of the rim, and 0.0508 mm of deviation are owed.
  expect(gap(after, id).gapMm).toBeLessThan(gap(before, id).gapMm - 1);
  expect(gap(after, id).deviationMm).toBeCloseTo(0.0508, 9);
  expect(await pane().getByText('An outline of').textContent()).toMatch(/measured; deviation .002 in/);
  await page.getByRole('tab', { name: 'All gaps' }).click();
  expect(await page.locator('#gaps').getByText('taken off for the measured outline').count()).toBeGreaterThan(0);

  await page.keyboard.press('Control+z');
  const back = await settled(page);
  expect(back.doc).toEqual(before.doc);
  expect(gap(back, id).gapMm).toBeCloseTo(gap(before, id).gapMm, 9);
  await page.keyboard.press('Control+y');
  await settled(page);
  await page.getByRole('tab', { name: 'Outlines' }).click();
  await pane().getByRole('button', { name: 'Back to the dimensions' }).click();
  expect((await settled(page)).doc).toEqual(before.doc);
});

it('a drawing without unit, a part in the wrong place and a broken file are refused with their reasons; a new part goes in', async () => {
  await open({ viewport: WIDE });
  const before = await stateOf(page);
  await pane().getByLabel('Body').selectOption(CHEEK);
  await drop('rod.dxf', sample('rod.dxf'));
  await reasons().getByText('does not state its unit').waitFor();
  await pane().getByLabel('Unit').selectOption('in');
  await put().click();
  await reasons().getByText('outline around its shafts').waitFor();
  await drop('bad.csv', 'x mm,y mm\n1,2\nNaN,3\n4,5\n');
  await reasons().getByText('line 3: NaN').waitFor();
  expect(await put().isVisible()).toBe(false);
  expect((await stateOf(page)).doc).toEqual(before.doc);

  await pane().getByLabel('Body').selectOption('a new fixed part');
  await drop('oil-pump.dxf', sample('oil-pump.dxf'));
  await pane().getByLabel('Unit').selectOption('mm');
  await put().click();
  await reasons().getByText('needs a name').waitFor();
  await pane().getByLabel('Name of the part').fill('oil pump');
  await pane().getByLabel('Front face').fill('-20 mm');
  await pane().getByLabel('Rear face').fill('60');
  await pane().getByLabel('Rear face').press('Tab');
  await put().click();
  await reasons().getByText('A figure without a unit').or(reasons().getByText('block.fixed[0].rear')).first().waitFor();
  await pane().getByLabel('Rear face').fill('60 mm');
  await pane().getByLabel('Rear face').press('Tab');
  await put().click();
  const after = await settled(page);
  expect(after.doc.block.fixed).toMatchObject([{ name: 'oil pump', rear: { value: '60 mm', from: 'measured' } }]);
  expect(after.gaps.some((g) => g.id === 'rod 1 · oil pump')).toBe(true);
});

it('templates are handed out at full size, and can be read again', async () => {
  await open({ viewport: WIDE });
  await pane().getByLabel('Body').selectOption('rod 3');
  const [dxf] = await Promise.all([
    page.waitForEvent('download'),
    pane().getByRole('button', { name: 'DXF, in' }).click(),
  ]);
  expect(dxf.suggestedFilename()).toBe('rod-3.dxf');
  const read = readOutlineDxf(await textOf(dxf), 'in');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  // From the build: length 6.000 in, small end .740 in, big end 1.560 in about the crankpin.
  const edges = shape(read.outline.pieces);
  expect(Math.abs(signedDistanceMm(edges, 0, 6.74 * 25.4))).toBeLessThan(1e-6);
  expect(Math.abs(signedDistanceMm(edges, 0, -1.56 * 25.4))).toBeLessThan(1e-6);

  await pane().getByRole('radio', { name: 'the rear' }).check();
  const [svg] = await Promise.all([
    page.waitForEvent('download'),
    pane().getByRole('button', { name: 'SVG to print' }).click(),
  ]);
  const sheet = await textOf(svg);
  const problems = await page.evaluate((text) => {
    const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
    const root = parsed.documentElement;
    const [, , w, h] = root.getAttribute('viewBox')!.split(' ');
    return {
      wrong: parsed.querySelector('parsererror') !== null,
      fullSize: root.getAttribute('width') === `${w}mm` && root.getAttribute('height') === `${h}mm`,
      text: root.textContent ?? '',
    };
  }, sheet);
  expect(problems).toMatchObject({ wrong: false, fullSize: true });
  expect(problems.text).toContain('seen from the rear');
  expect(problems.text).toContain('100 mm');
});

it('on a telephone nothing is cut off, and axe-core finds nothing', async () => {
  await open({ viewport: NARROW, isMobile: true, hasTouch: true, colorScheme: 'dark' });
  await pane().getByLabel('Body').selectOption('pistons');
  await drop('pin-boss.csv', sample('pin-boss.csv'));
  await put().waitFor();
  await page.evaluate(AXE);
  const found = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    const side = document.querySelector('#outlines')!;
    const wide = [...side.querySelectorAll('*')].filter(
      (e) => e.getBoundingClientRect().width > 0 && e.getBoundingClientRect().right > innerWidth + 0.5,
    );
    return [
      ...violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.html}`)),
      ...wide.map((e) => `beyond the edge: ${e.outerHTML.slice(0, 80)}`),
    ];
  });
  expect(found).toEqual([]);
});

/** The page as it comes up: every demo, its verdict, its figures, and the choices at the head of the pane. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { choose, launch, type Opened, openPage, settled, stateOf, text } from '../support/browser.ts';
import { inInches, inMillimetres, numberIn } from '../support/figures.ts';

/** Last digits of doubles of a few hundred millimetres, after a subtraction. */
const ROUNDING_MM = 1e-9;

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

async function open(query = ''): Promise<void> {
  opened = await openPage(browser, inject('baseUrl'), { query });
  page = opened.page;
}

/** Rows of the gap table, looked up on its page: label, state, gap, limit, where, proven. */
async function tableRows(): Promise<string[][]> {
  await page.getByRole('tab', { name: 'All gaps' }).click();
  const rows = await page
    .locator('#gaps tbody tr')
    .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').trim())));
  await page.getByRole('tab', { name: 'Dimensions' }).click();
  return rows;
}

describe.each(['quarry-v8', 'lake-launch-six', 'bench-rig'])('demo %s', (key) => {
  it('comes up proven, with a verdict and a table that say what the state holds', async () => {
    await open(`?demo=${key}`);
    const state = await settled(page);
    const file = JSON.parse(readFileSync(`assets/demos/${key}.json`, 'utf8'));
    expect(state.doc.name).toBe(file.name);
    expect(state.assembly).toBe(file.proposed);
    expect(state.refused).toEqual([]);
    expect(state.gaps.length).toBeGreaterThan(3);
    for (const gap of state.gaps) {
      expect(Number.isFinite(gap.gapMm)).toBe(true);
      // The promise of the certificate: at most 1 micrometre between figure and proof.
      expect(gap.lowerBoundMm).toBeLessThanOrEqual(gap.gapMm);
      expect(gap.gapMm - gap.lowerBoundMm).toBeLessThanOrEqual(0.001 + ROUNDING_MM);
    }

    const worst = state.gaps[0]!;
    const count = (which: string) => state.gaps.filter((g) => g.state === which).length;
    const headline = await text(page, '.sw-verdict-headline');
    if (count('contact') > 0) expect(headline).toBe('Does not fit as drawn.');
    else if (count('unproven') === 0 && count('tight') === 0) expect(headline).toBe('Fits as drawn.');
    else expect(headline).toMatch(/tight|unproven/i);
    const sentence = await text(page, '.sw-verdict-sentence');
    expect(await text(page, '.sw-verdict-proof')).toBe('proven all round');
    for (const name of worst.between) {
      const number = /\d+/.exec(name)?.[0];
      if (number !== undefined) expect(sentence).toContain(number);
    }
    const shown = file.shownUnits as 'in' | 'mm' | 'both';
    expect(state.units).toBe(shown);
    const print = shown === 'in' ? inInches : inMillimetres;
    expect(await text(page, '.sw-verdict-figure')).toContain(print(worst.gapMm));
    expect(sentence).toContain(print(Math.abs(worst.gapMm)));
    expect(sentence).toContain(`Limit ${print(worst.limitMm)}`);

    const rows = await tableRows();
    expect(rows.length).toBe(state.gaps.length);
    rows.forEach((row, k) => {
      const gap = state.gaps[k]!;
      const perUnit = shown === 'in' ? 25.4 : 1;
      expect(row[1]).toBe(gap.state);
      expect(numberIn(row[2]!)).toBeCloseTo(gap.gapMm / perUnit, shown === 'in' ? 3 : 2);
      expect(numberIn(row[3]!)).toBeCloseTo(gap.limitMm / perUnit, shown === 'in' ? 3 : 2);
      // What is printed as proven may not exceed what is proven.
      expect(row[5]).toMatch(/^at least /);
      expect(numberIn(row[5]!) * perUnit).toBeLessThanOrEqual(gap.lowerBoundMm + ROUNDING_MM);
    });
    expect(await page.locator('main').textContent()).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  it('shows each of its assemblies with their own gaps', async () => {
    await open(`?demo=${key}`);
    const { doc } = await settled(page);
    for (const assembly of doc.assemblies) {
      const label = assembly.name === doc.replaced ? new RegExp(`^${assembly.name}`) : assembly.name;
      const radio = page
        .locator('#dimensions')
        .getByRole('group', { name: 'Assembly', exact: true })
        .getByRole('radio', { name: label });
      await radio.first().locator('xpath=..').click();
      const state = await settled(page);
      expect(state.assembly).toBe(assembly.name);
      expect((await tableRows()).length).toBe(state.gaps.length);
      expect(await text(page, '#dimensions')).toContain(assembly.route);
    }
  });
});

describe('V8 by hand', () => {
  it('the counterweight meets the pin boss by what plain addition gives', async () => {
    await open();
    const state = await settled(page);
    const gap = state.gaps.find((g) => g.id === 'counterweight 1 front · piston 1')!;
    // At bottom dead centre, no offset: rod 6.000 less crank radius 1.860 less boss .720 less rim 3.445 = -.025 in.
    expect(gap.gapMm).toBeCloseTo(-0.025 * 25.4, 3);
    expect(gap.parts).toContain('pin boss');
    expect(gap.state).toBe('contact');
    expect(await text(page, '.sw-verdict-figure')).toContain('\u2212.025 in');
  });
});

describe('choices', () => {
  it('units go everywhere: inches without a leading zero, millimetres with one, both', async () => {
    await open();
    const worst = (await settled(page)).gaps[0]!;
    await choose(page, 'Units', 'mm');
    expect(await text(page, '.sw-verdict-figure')).toContain(inMillimetres(worst.gapMm));
    expect(await text(page, '.sw-verdict-sentence')).not.toMatch(/\d in\b/);
    expect((await tableRows())[0]![2]).toBe(inMillimetres(worst.gapMm));
    expect(await text(page, '#readout')).not.toMatch(/\d in\b/);
    await choose(page, 'Units', 'both');
    const both = await text(page, '.sw-verdict-figure');
    expect(both).toContain(inMillimetres(worst.gapMm));
    expect(both).toContain(inInches(worst.gapMm));
    await choose(page, 'Units', 'in');
    expect(await text(page, '.sw-verdict-figure')).toContain(inInches(worst.gapMm));
    expect(await text(page, '.sw-verdict-sentence')).not.toContain('mm');
    expect((await stateOf(page)).units).toBe('in');
  });

  it('another cylinder comes into view from the pane and from the side strip', async () => {
    await open();
    await settled(page);
    await choose(page, 'Cylinder in view', '6');
    expect((await stateOf(page)).cylinder).toBe(6);
    expect(await text(page, '#readout')).toContain('Piston 6 now');
    await expect.poll(() => page.locator('#section canvas').getAttribute('aria-label')).toContain('cylinder 6');
    await page.locator('#strip').getByRole('radio', { name: /3/ }).click();
    expect((await stateOf(page)).cylinder).toBe(3);
    expect(await text(page, '#readout')).toContain('Piston 3 now');
    // The proof goes on holding: changing the view computes nothing anew.
    expect((await stateOf(page)).gaps.every((g) => g.certified)).toBe(true);
  });

  it('another demo is opened from the bar', async () => {
    await open();
    await page.locator('#bar select').selectOption('bench-rig');
    const state = await settled(page);
    expect(state.doc.name).toBe(JSON.parse(readFileSync('assets/demos/bench-rig.json', 'utf8')).name);
    expect(await text(page, '#dimensions h2')).toBe(state.doc.name);
    expect(state.canUndo).toBe(false);
    expect((await tableRows()).length).toBe(state.gaps.length);
  });
});

/** The page of the shop's sums in the browser: opened, followed to formula and inputs, fed, and left again. */
import axeCore from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launch, openPage, pressInBar, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

async function onSums(size = { width: 1440, height: 900 }, scheme: 'light' | 'dark' = 'light') {
  const opened = await openPage(browser, inject('baseUrl'), { viewport: size, colorScheme: scheme });
  await settled(opened.page);
  await pressInBar(opened.page, 'Shop sums');
  await opened.page.locator('#sums .sw-sums-row').first().waitFor();
  return opened;
}

function cells(page: Page, name: string): Promise<string[]> {
  const row = page.locator('.sw-sums-row').filter({ has: page.getByRole('button', { name, exact: true }) });
  return row.locator('td').allTextContents();
}

const figure = (page: Page, name: string) => page.locator('#sums-figures').getByRole('textbox', { name, exact: true });

describe('shop sums', () => {
  it('stand side by side, open to formula, inputs and source, and give the section back', async () => {
    const { page, complaints, close } = await onSums();
    // By hand: pi/4 x 4.18² x 3.50 x 8 and x 3.72 x 8 cubic inches.
    expect(await cells(page, 'Displacement')).toEqual(['384.2 in³', '408.4 in³', '+24.2 in³']);
    const name = page.getByRole('button', { name: 'Bobweight of a crankpin', exact: true });
    await name.focus();
    await page.keyboard.press('Enter');
    expect(await name.getAttribute('aria-expanded')).toBe('true');
    const told = await page.locator('.sw-sums-explained:visible').textContent();
    expect(told).toContain('factor × (small end + piston + pin + rings + locks)');
    expect(told).toContain('472.5 g, measured');
    expect(told).toContain('The Theory of Machines');
    expect(await page.locator('#section').isVisible()).toBe(false);
    await page.keyboard.press('Escape');
    expect(await page.locator('#section').isVisible()).toBe(true);
    expect(await page.locator('#sums').isVisible()).toBe(false);
    await close();
    expect(complaints).toEqual([]);
  });

  it('follow a weight typed, and a weight taken out; both can be undone', async () => {
    const { page, complaints, close } = await onSums();
    const piston = figure(page, 'Piston');
    await piston.fill('500');
    await piston.press('Enter');
    // 2 x (472.5 + 44) + 5 + (500 + 128.5 + 48 + 3 + 186) = 1903.5 g.
    await expect.poll(async () => (await cells(page, 'Bobweight of a crankpin'))[1]).toMatch(/^1903\.5 g/);
    await piston.fill('');
    await piston.press('Enter');
    await expect.poll(async () => (await cells(page, 'Bobweight of a crankpin'))[1]).toBe('needs piston');
    expect((await stateOf(page)).doc.assemblies[1]!.weights).not.toHaveProperty('piston');
    await page.locator('h2', { hasText: 'Shop sums' }).click();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await cells(page, 'Bobweight of a crankpin'))[1]).toMatch(/^1901\.5 g/);
    await piston.fill('12 in');
    await piston.press('Enter');
    expect(await page.locator('#sums-figures').textContent()).toContain('Allowed units of a mass: g, kg, oz or lb.');
    await close();
    expect(complaints).toEqual([]);
  });

  it('try the rods and pistons to be had, and take a pair in one step', async () => {
    const { page, complaints, close } = await onSums();
    const row = page.locator('.sw-sums-row').filter({ hasText: '6.125 in forged' }).filter({ hasText: '1.485 in' });
    // By hand: 9.480 − 1.860 − 6.125 − 1.485 = .010 in.
    await expect.poll(() => row.textContent()).toContain('.010 in');
    await expect.poll(() => row.locator('.sw-mark').textContent()).toBe('clears');
    await row.getByRole('button').click();
    const { doc } = await stateOf(page);
    const taken = doc.assemblies[1]!;
    expect([taken.rod.length.value, taken.piston.compressionHeight.value, taken.weights!.piston!.value]).toEqual([
      '6.125 in',
      '1.485 in',
      '461.0 g',
    ]);
    await page.locator('h2', { hasText: 'Shop sums' }).click();
    await page.keyboard.press('Control+z');
    expect((await stateOf(page)).doc.assemblies[1]!.rod.length.value).toBe('6.000 in');
    await close();
    expect(complaints).toEqual([]);
  });

  it('keep lists of what can be had: a rod added, changed, refused, taken out', async () => {
    const { page, complaints, close } = await onSums();
    const list = page.locator('.sw-entries').filter({ hasText: 'Rods that can be had' });
    await list.locator('> summary').click();
    await list.getByRole('button', { name: 'Add a rod' }).click();
    const rods = async () => (await stateOf(page)).doc.shelf!.rods!.map((r) => [r.name, r.length.value]);
    expect((await rods())[2]).toEqual(['rod 3', '6.000 in']);
    const card = list.locator('.sw-entry').nth(2);
    await card.getByLabel('Length').fill('6.2');
    await card.getByLabel('Length').press('Tab');
    expect((await rods())[2]).toEqual(['rod 3', '6.2 in']);
    await card.getByLabel('Length').fill('long');
    await card.getByLabel('Length').press('Tab');
    expect(await card.textContent()).toContain('long is refused');
    expect((await rods())[2]).toEqual(['rod 3', '6.2 in']);
    await card.getByRole('button', { name: 'Take out rod 3' }).click();
    expect(await rods()).toHaveLength(2);
    await close();
    expect(complaints).toEqual([]);
  });

  it.each([
    ['wide, light', { width: 1440, height: 900 }, 'light'],
    ['phone, dark', { width: 360, height: 780 }, 'dark'],
  ] as const)('axe-core finds nothing, nothing is wider than the page: %s', async (_, size, scheme) => {
    const { page, complaints, close } = await onSums(size, scheme);
    await page.evaluate(() => {
      for (const each of document.querySelectorAll('details')) each.open = true;
    });
    await page.getByRole('button', { name: 'Compression ratio', exact: true }).click();
    await page.evaluate(axeCore.source);
    const found = await page.evaluate(async () => {
      const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run({ include: ['#sums', '#sums-figures'] } as never);
      return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`);
    });
    expect(found).toEqual([]);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
    // On a wide screen the two columns scroll, the page itself does not.
    const below = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
    if (size.width >= 1100) expect(below).toBeLessThanOrEqual(0);
    await close();
    expect(complaints).toEqual([]);
  });
});

/** The page of curves: the cursor and the engine move one another, the plot agrees with the core, files come out, nothing bars the way. */
import { readFileSync } from 'node:fs';
import axeCore from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launch, openPage, pressInBar, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

async function onCurves(page: Page): Promise<void> {
  await settled(page);
  await pressInBar(page, 'Curves');
  await page.locator('#page-curves .uplot canvas').first().waitFor();
}

const choose = (page: Page, label: string, value: string) =>
  page.locator('#page-curves').getByLabel(label, { exact: true }).selectOption(value);

/** Degrees after TDC at which the cursor stands, read off the page: its place within the plot. */
function cursorDeg(page: Page): Promise<number> {
  return page.evaluate(() => {
    const line = document.querySelector<HTMLElement>('.sw-curves-cursor')!;
    const over = line.parentElement!.getBoundingClientRect();
    const box = line.getBoundingClientRect();
    return ((box.left + box.width / 2 - over.left) / over.width) * 360;
  });
}

describe('curves', () => {
  it('cursor and crank move one another, in the same frame, to a pixel; by hand and by keys', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
    await onCurves(page);
    const plot = page.locator('.sw-curves-chart .u-over');
    const box = (await plot.boundingBox())!;
    const degAPx = 360 / box.width;
    // Crank to cursor, without waiting for a frame.
    const at = await page.evaluate(() => {
      const { store } = (globalThis as never as { strokewright: { store: import('../../src/model/state.ts').Store } })
        .strokewright;
      const c = store.state.engine.cylinders[0]!;
      store.send({ do: 'turn to', crankAngleRad: (c.tdcRad + (137 * Math.PI) / 180) % (2 * Math.PI) });
      const line = document.querySelector<HTMLElement>('.sw-curves-cursor')!;
      const over = line.parentElement!.getBoundingClientRect();
      const own = line.getBoundingClientRect();
      return ((own.left + own.width / 2 - over.left) / over.width) * 360;
    });
    expect(Math.abs(at - 137)).toBeLessThan(degAPx);
    // Hand to crank.
    await page.mouse.move(box.x + box.width / 4, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    const fromTdcRad = (await stateOf(page)).now.motion.fromTdcRad;
    const deg = ((fromTdcRad * 180) / Math.PI + 360) % 360;
    expect(Math.abs(deg - 180)).toBeLessThan(2 * degAPx);
    expect(Math.abs((await cursorDeg(page)) - deg)).toBeLessThan(degAPx);
    // Keys to crank.
    const handle = page.getByRole('slider', { name: 'Crank angle after top dead centre' });
    await handle.focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('ArrowRight');
    expect(await handle.getAttribute('aria-valuenow')).toBe('11.0');
    expect(await handle.getAttribute('aria-valuetext')).toMatch(/^11\.0°: As it stands on the bench [\d.]+ mm/);
    // While it turns here, the section behind the page is not drawn; back at the section it is, at its own size.
    const drawn = () =>
      page.evaluate(() => {
        const { scene } = (globalThis as never as { strokewright: { scene: import('../../src/view/index.ts').Scene } })
          .strokewright;
        return { ms: scene.lastRenderMs, width: scene.canvas()!.clientWidth };
      });
    const before = await drawn();
    await page.locator('#page-curves').getByRole('button', { name: 'Turn' }).click();
    const from = await handle.getAttribute('aria-valuenow');
    await expect.poll(() => cursorDeg(page)).not.toBe(Number(from));
    expect((await drawn()).ms).toBe(before.ms);
    await page.locator('#page-curves').getByRole('button', { name: 'Back to the section' }).click();
    await expect.poll(async () => (await drawn()).ms).not.toBe(before.ms);
    expect((await drawn()).width).toBeGreaterThan(600);
    await close();
    expect(complaints).toEqual([]);
  });

  it('the drawn curve passes where the core says, and the files hold what is drawn', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
    await onCurves(page);
    const saved = async (name: string): Promise<Buffer> => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.locator('#page-curves').getByRole('button', { name, exact: true }).click(),
      ]);
      return readFileSync(await download.path());
    };
    const rows = (await saved('Save as CSV'))
      .toString()
      .trim()
      .split('\r\n')
      .map((row) => row.split(','));
    // By hand: 86 mm of stroke on a 138 mm rod, 43 + 138 - sqrt(138² - 43²) below the top at 90 degrees.
    const column = 1 + ['As it stands on the bench', 'Short rod', 'Longer stroke'].indexOf('Longer stroke');
    expect(Number(rows[181]![column])).toBeCloseTo(43 + 138 - Math.sqrt(138 ** 2 - 43 ** 2), 6);
    const svg = (await saved('Save as SVG')).toString();
    const wellFormed = await page.evaluate(
      (xml) => new DOMParser().parseFromString(xml, 'image/svg+xml').querySelectorAll('parsererror').length,
      svg,
    );
    expect(wellFormed).toBe(0);
    expect(svg).toContain('Longer stroke');
    const png = PNG.sync.read(await saved('Save as PNG'));
    expect([png.width, png.height]).toEqual([1920, 1200]);
    await close();
    expect(complaints).toEqual([]);
  });

  it('the line drawn is within a pixel of the core at any angle; boxes are ticked by keyboard, and none is no curve', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
    await onCurves(page);
    const box = (name: string) => page.locator('#page-curves').getByRole('checkbox', { name });
    await box('Short rod').focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    const key = page.locator('.sw-curves-key tbody tr');
    await expect.poll(() => key.count()).toBe(1);
    expect(await page.locator('.sw-curves-together figure').count()).toBe(1);
    // Columns clear of what is written at the dead centres; of each the middle of the line's own pixels.
    const seen = await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.sw-curves-chart .uplot canvas')!;
      const over = document.querySelector<HTMLElement>('.sw-curves-chart .u-over')!.getBoundingClientRect();
      const own = canvas.getBoundingClientRect();
      const ratio = canvas.width / own.width;
      const { data, width, height } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      return [40, 55, 70, 80, 85, 100, 115, 125, 235, 245, 260, 275, 290, 305, 320, 335].map((about) => {
        const column = Math.round((over.left - own.left + (about / 360) * over.width) * ratio - 0.5);
        const deg = (((column + 0.5) / ratio - (over.left - own.left)) / over.width) * 360;
        const rows: number[] = [];
        for (let y = 0; y < height; y++) {
          const k = 4 * (y * width + column);
          if (data[k]! < 40 && data[k + 2]! > 120 && data[k + 3]! > 160) rows.push(y + 0.5);
        }
        return { deg, px: rows.reduce((sum, y) => sum + y, 0) / rows.length };
      });
    });
    // By hand: 78 mm of stroke on a 138 mm rod. The axis is linear: two of the places fix it, the others must lie on it.
    const below = (deg: number): number => {
      const a = (deg * Math.PI) / 180;
      return 39 + 138 - (39 * Math.cos(a) + Math.sqrt(138 ** 2 - (39 * Math.sin(a)) ** 2));
    };
    const [low, high] = [seen[0]!, seen[7]!];
    const pxPerMm = (high.px - low.px) / (below(high.deg) - below(low.deg));
    expect(pxPerMm).toBeLessThan(-2);
    for (const { deg, px } of seen)
      expect(Math.abs(low.px + pxPerMm * (below(deg) - below(low.deg)) - px), `${deg}`).toBeLessThan(1);
    await box('As it stands on the bench').uncheck();
    await expect.poll(() => page.locator('#page-curves').textContent()).toContain('Nothing is ticked');
    expect(await page.getByRole('button', { name: 'Save as CSV' }).isDisabled()).toBe(true);
    await box('Longer stroke').check();
    await expect.poll(() => key.count()).toBe(1);
    expect(await key.textContent()).toMatch(/^Longer stroke[\d.]+ mm0.00 mm at 0.0°, 86.00 mm at 180.0°$/);
    await close();
    expect(complaints).toEqual([]);
  });

  it('the gap of a valve and its piston is worked out beside the page, over both turns, with cursor and camshaft right in each', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=quarry-v8' });
    await onCurves(page);
    await choose(page, 'Curve', 'gap');
    const pair = page.locator('#page-curves').getByLabel('Pair', { exact: true });
    await expect.poll(() => pair.locator('option').count()).toBeGreaterThan(5);
    await pair.selectOption('intake valve 1 · piston 1');
    const handle = page.getByRole('slider', { name: 'Crank angle after top dead centre' });
    await expect.poll(() => handle.getAttribute('aria-valuemax')).toBe('720');
    await expect
      .poll(() => page.getByRole('button', { name: 'Save as CSV' }).isDisabled(), { timeout: 20_000 })
      .toBe(false);
    /** Turned to so many degrees after firing TDC of cylinder 1: where the cursor stands, what is read there, how a lobe stands. */
    const at = async (deg: number) => {
      await page.evaluate((to) => {
        const { store } = (globalThis as never as { strokewright: { store: import('../../src/model/state.ts').Store } })
          .strokewright;
        const { firingTdcRad } = store.state.engine.cylinders[0]!;
        store.send({ do: 'turn to', crankAngleRad: (firingTdcRad + (to * Math.PI) / 180) % (4 * Math.PI) });
      }, deg);
      // Worked out for that very angle once the crank rests there.
      await expect.poll(() => handle.getAttribute('aria-valuetext')).not.toContain('about');
      return {
        cursor: 2 * (await cursorDeg(page)),
        text: await handle.getAttribute('aria-valuetext'),
        poses: await page
          .locator('.sw-curves-together g')
          .evaluateAll((gs) => gs.map((g) => g.getAttribute('transform')).join()),
      };
    };
    const [first, second] = [await at(10.3), await at(370.3)];
    expect(Math.abs(first.cursor - 10.3)).toBeLessThan(1.5);
    expect(Math.abs(second.cursor - 370.3)).toBeLessThan(1.5);
    expect(first.text).toMatch(/^10\.3°: As removed [\d.]+ in/);
    expect(second.text).toMatch(/^370\.3°: As removed [\d.]+ in/);
    expect(second.text!.slice(8)).not.toBe(first.text!.slice(7));
    expect(second.poses).not.toBe(first.poses);
    await handle.press('Home');
    await handle.press('ArrowLeft');
    expect(await handle.getAttribute('aria-valuenow')).toBe('719.0');
    await close();
    expect(complaints).toEqual([]);
  });

  it('three engines turn together; a bad length is refused and the curves stay', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
    await onCurves(page);
    await choose(page, 'Compared', 'rod length');
    const figures = page.locator('.sw-curves-together figure');
    await expect.poll(() => figures.count()).toBe(3);
    const poses = () =>
      page.locator('.sw-curves-together g').evaluateAll((gs) => gs.map((g) => g.getAttribute('transform')));
    const before = await poses();
    await page.getByRole('slider', { name: 'Crank angle after top dead centre' }).press('Shift+ArrowRight');
    const after = await poses();
    expect(after.filter((t, k) => t !== before[k]).length).toBeGreaterThan(8);
    const by = page.locator('#page-curves').getByLabel('By how much');
    await by.fill('12 parsecs');
    await by.press('Tab');
    await expect.poll(() => page.locator('#page-curves').textContent()).toContain('12 parsecs is refused');
    expect(await figures.count()).toBe(3);
    const within = page.locator('#page-curves').getByLabel('Near a dead centre means within').last();
    await within.fill('-5000 in');
    await within.press('Tab');
    await expect.poll(() => page.locator('#page-curves').textContent()).toContain('-5000 in is refused');
    await close();
    expect(complaints).toEqual([]);
  });

  it.each([
    ['wide, light', { width: 1440, height: 900 }, 'light'],
    ['phone, dark', { width: 360, height: 780 }, 'dark'],
  ] as const)('axe-core finds nothing, nothing is wider than the page: %s', async (_, size, scheme) => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), {
      query: size.width < 700 ? '?demo=lake-launch-six' : '',
      viewport: size,
      colorScheme: scheme,
      hasTouch: size.width < 700,
    });
    await onCurves(page);
    await choose(page, 'Curve', 'gap');
    if (size.width < 700) {
      // By touch: a box is left out, the cursor goes where the plot is tapped.
      const boxes = page.locator('#page-curves').getByRole('checkbox');
      await boxes.first().tap();
      await expect.poll(() => page.locator('.sw-curves-key tbody tr').count()).toBe((await boxes.count()) - 1);
      const plot = page.locator('.sw-curves-chart .u-over');
      await plot.scrollIntoViewIfNeeded();
      await expect
        .poll(() => page.getByRole('button', { name: 'Save as CSV' }).isDisabled(), { timeout: 20_000 })
        .toBe(false);
      // Nobody has turned the crank since, and the gaps that came in have made the plot another width.
      const handle = page.getByRole('slider', { name: 'Crank angle after top dead centre' });
      const stands = Number(await handle.getAttribute('aria-valuenow'));
      const whole = Number(await handle.getAttribute('aria-valuemax'));
      await expect.poll(async () => Math.abs(((await cursorDeg(page)) / 360) * whole - stands)).toBeLessThan(3);
      const box = (await plot.boundingBox())!;
      await page.touchscreen.tap(box.x + box.width * 0.75, box.y + box.height / 2);
      await expect.poll(() => cursorDeg(page)).toBeGreaterThan(265);
      expect(await cursorDeg(page)).toBeLessThan(275);
    }
    await page.evaluate(axeCore.source);
    const found = await page.evaluate(async () => {
      const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run({ include: ['#page-curves'] } as never);
      return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`);
    });
    expect(found).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    await close();
    expect(complaints).toEqual([]);
  });
});

/**
 * The control pane in a browser, by keyboard, mouse and finger, over its gallery page and a small store that records the
 * commands. Accessibility is judged by axe-core.
 */
import { type Browser, type BrowserContextOptions, chromium, type Locator, type Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Command, Store } from '../../src/model/state.ts';

interface GalleryWindow {
  readonly store: Store & { readonly commands: Command[] };
  readonly pane: { destroy(): void };
  readonly axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
}

let server: ViteDevServer;
let browser: Browser;
let address = '';
let page: Page;
let complaints: string[] = [];

beforeAll(async () => {
  server = await createServer({
    configFile: false,
    root: process.cwd(),
    cacheDir: 'node_modules/.vite-pane-gallery',
    logLevel: 'error',
    server: { port: 0, host: '127.0.0.1', hmr: false, watch: null },
    optimizeDeps: { entries: ['tests/pane/gallery/index.html'] },
  });
  await server.listen();
  address = `${server.resolvedUrls!.local[0]}tests/pane/gallery/index.html`;
  browser = await chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-sync'],
  });
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

async function open(query: string, options: BrowserContextOptions = { viewport: { width: 1000, height: 900 } }) {
  const context = await browser.newContext({ reducedMotion: 'reduce', ...options });
  page = await context.newPage();
  complaints = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  await page.goto(address + query);
  await page.locator('.sw-control').waitFor();
}

const field = (name: string): Locator => page.getByRole('textbox', { name, exact: true });
const row = (name: string): Locator => page.locator('.tp-lblv').filter({ has: field(name) });
const choice = (group: string, name: string): Locator =>
  page.getByRole('group', { name: group, exact: true }).getByRole('radio', { name, exact: true });

const commands = (): Promise<Command[]> =>
  page.evaluate(() => (window as unknown as GalleryWindow).store.commands.slice());
/** Commands as "text" or "text…" while the gesture goes on. */
const sent = async (): Promise<string[]> =>
  (await commands()).map((command) =>
    command.do === 'set dimension' ? `${command.text}${command.last ? '' : '…'}` : command.do,
  );

describe('typing', () => {
  it('takes a literal with Enter and gives a bare number the former unit', async () => {
    await open('');
    expect(await field('Stroke').inputValue()).toBe('3 7/8 in');
    await field('Stroke').fill('3.750');
    await page.keyboard.press('Enter');
    expect(await field('Stroke').inputValue()).toBe('3.750 in');
    await field('Compression height').fill('38');
    await page.keyboard.press('Tab');
    expect(await field('Compression height').inputValue()).toBe('38 mm');
    expect(await commands()).toEqual([
      { do: 'set dimension', path: ['assemblies', 1, 'crank', 'stroke'], text: '3.750 in', last: true },
      { do: 'set dimension', path: ['assemblies', 1, 'piston', 'compressionHeight'], text: '38 mm', last: true },
    ]);
  });

  it('keeps rubbish with the reason, sends nothing, and Escape restores', async () => {
    await open('');
    await field('Stroke').fill('three and a bit');
    await page.keyboard.press('Tab');
    expect(await field('Stroke').inputValue()).toBe('three and a bit');
    expect(await field('Stroke').getAttribute('aria-invalid')).toBe('true');
    const reason = await row('Stroke').locator('.sw-dim_reason').textContent();
    expect(reason).toContain('three and a bit is refused.');
    expect(reason).toContain('3 7/8 in is kept.');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-labelledby'))).not.toBeNull();
    await field('Stroke').focus();
    await page.keyboard.press('Escape');
    expect(await field('Stroke').inputValue()).toBe('3 7/8 in');
    expect(await field('Stroke').getAttribute('aria-invalid')).toBeNull();
    expect(await row('Stroke').locator('.sw-dim_reason').textContent()).toBe('');
    expect(await sent()).toEqual([]);
  });

  it('shows a long literal whole, unit included', async () => {
    await open('');
    await field('Stroke').fill('3.7500 +0.0010/-0.0005 in');
    await page.keyboard.press('Enter');
    expect(await field('Stroke').inputValue()).toBe('3.7500 +0.0010/-0.0005 in');
    expect(await field('Stroke').evaluate((input) => input.scrollWidth - input.clientWidth)).toBe(0);
  });

  it('sends nothing when nothing was changed', async () => {
    await open('');
    await field('Stroke').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    expect(await sent()).toEqual([]);
  });

  it('keeps what is being typed when the state changes under it', async () => {
    await open('');
    await field('Stroke').fill('3.7');
    await page.evaluate(() => (window as unknown as GalleryWindow).store.send({ do: 'show units', units: 'mm' }));
    expect(await field('Stroke').inputValue()).toBe('3.7');
    await page.keyboard.press('Enter');
    expect(await sent()).toEqual(['show units', '3.7 in']);
  });

  it('sets a limit that the document leaves out, starting from the default', async () => {
    await open('?open');
    expect(await field('Rod to block').inputValue()).toBe('.060 in');
    expect(await row('Rod to block').locator('.sw-dim_meta').textContent()).toBe('1.52 mm · default');
    await field('Rod to block').fill('70 thou');
    await page.keyboard.press('Enter');
    expect(await row('Rod to block').locator('.sw-dim_meta').textContent()).toBe('1.78 mm · stated');
    await field('Allowance for assumed').fill('.010');
    await page.keyboard.press('Enter');
    expect(await field('Allowance for assumed').inputValue()).toBe('.010 in');
    expect((await commands()).map((command) => command.do === 'set dimension' && command.path)).toEqual([
      ['limits', 'rod-block'],
      ['assumedAllowance'],
    ]);
  });
});

describe('stepping', () => {
  it('by a held key is one gesture and one step to undo', async () => {
    await open('');
    await field('Rod length').focus();
    for (let k = 0; k < 3; k++) await page.keyboard.down('ArrowUp');
    await page.keyboard.up('ArrowUp');
    expect(await sent()).toEqual(['6.010 in…', '6.020 in…', '6.030 in…', '6.030 in']);
    const undo = page.getByRole('button', { name: 'Undo' });
    await undo.focus();
    await page.keyboard.press('Enter');
    expect(await field('Rod length').inputValue()).toBe('6.000 in');
    expect(await undo.getAttribute('aria-disabled')).toBe('true');
    await page.getByRole('button', { name: 'Redo' }).press('Enter');
    expect(await field('Rod length').inputValue()).toBe('6.030 in');
  });

  it('is finer with Alt, coarser with Shift, ten steps by the Page keys', async () => {
    await open('');
    const length = field('Rod length');
    await length.focus();
    const seen: string[] = [];
    for (const keys of ['Alt+ArrowUp', 'Shift+ArrowUp', 'PageDown', 'Alt+PageDown']) {
      await page.keyboard.press(keys);
      seen.push(await length.inputValue());
    }
    expect(seen).toEqual(['6.001 in', '6.101 in', '6.001 in', '5.991 in']);
    await field('Counterweight half angle').press('Alt+ArrowDown');
    expect(await field('Counterweight half angle').inputValue()).toBe('65.9 deg');
  });

  it('is taken back by Escape while the key is down', async () => {
    await open('');
    await field('Rod length').focus();
    await page.keyboard.down('ArrowUp');
    await page.keyboard.press('Escape');
    await page.keyboard.up('ArrowUp');
    expect(await sent()).toEqual(['6.010 in…', '6.000 in…', '6.000 in']);
  });

  it('by the grip follows the mouse and ends once', async () => {
    await open('');
    const grip = await row('Rod length').locator('.sw-dim_handle').boundingBox();
    const [x, y] = [grip!.x + grip!.width / 2, grip!.y + grip!.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 40, y, { steps: 5 });
    await page.mouse.up();
    const all = await sent();
    expect(all.at(-1)).toBe('5.900 in');
    expect(all.slice(0, -1).every((one) => one.endsWith('…'))).toBe(true);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await field('Rod length').inputValue()).toBe('6.000 in');
  });

  it('by the grip and back again is the literal as it was written', async () => {
    await open('');
    const grip = await row('Stroke').locator('.sw-dim_handle').boundingBox();
    const [x, y] = [grip!.x + 10, grip!.y + 10];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 20, y, { steps: 3 });
    expect(await field('Stroke').inputValue()).toBe('3.925 in');
    await page.mouse.move(x, y, { steps: 3 });
    expect(await field('Stroke').inputValue()).toBe('3 7/8 in');
    await page.mouse.move(x + 20, y);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await field('Stroke').inputValue()).toBe('3 7/8 in');
    expect((await sent()).at(-1)).toBe('3 7/8 in');
    expect((await sent()).filter((one) => !one.endsWith('…'))).toHaveLength(1);
  });

  it('by the grip first takes what is being typed elsewhere', async () => {
    await open('');
    await field('Stroke').fill('3.8');
    const grip = (await row('Rod length').locator('.sw-dim_handle').boundingBox())!;
    await page.mouse.move(grip.x + 10, grip.y + 10);
    await page.mouse.down();
    await page.mouse.move(grip.x + 14, grip.y + 10);
    await page.mouse.up();
    expect(await sent()).toEqual(['3.8 in', '6.010 in…', '6.010 in']);
  });

  it('by the grip changes its size with Alt from where it is', async () => {
    await open('');
    const grip = (await row('Rod length').locator('.sw-dim_handle').boundingBox())!;
    const [x, y] = [grip.x + 10, grip.y + 10];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 8, y);
    await page.keyboard.down('Alt');
    await page.mouse.move(x + 9, y);
    await page.mouse.move(x + 21, y);
    await page.keyboard.up('Alt');
    await page.mouse.up();
    expect((await sent()).at(-1)).toBe('6.023 in');
  });

  it('by a finger works and the grip is 44 px', async () => {
    await open('?sheet', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    const handle = row('Rod length').locator('.sw-dim_handle');
    await handle.evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const grip = (await handle.boundingBox())!;
    expect(Math.min(grip.width, grip.height)).toBeGreaterThanOrEqual(44);
    const cdp = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number) =>
      cdp.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y: grip.y + grip.height / 2 }],
      });
    const x = grip.x + grip.width / 2;
    await touch('touchStart', x);
    for (const dx of [-8, -16, -24]) await touch('touchMove', x + dx);
    await touch('touchEnd', x - 24);
    await expect.poll(sent).toContain('5.940 in');
    expect((await sent()).filter((one) => !one.endsWith('…'))).toEqual(['5.940 in']);
  });
});

describe('what the state says', () => {
  it('stands at the refused field, its folder, and in the head for what has no field', async () => {
    await open('');
    await field('Stroke').fill('12');
    await page.keyboard.press('Enter');
    expect(await row('Stroke').locator('.sw-dim_reason').textContent()).toContain('12 in is refused.');
    expect(await field('Stroke').getAttribute('aria-invalid')).toBe('true');
    await page.getByRole('button', { name: 'Crank · 1 refused' }).waitFor();
    await page.getByRole('button', { name: 'Block' }).click();
    await field('Deck height').fill('1 in');
    await page.keyboard.press('Enter');
    expect(await page.locator('.sw-control_refused').textContent()).toContain('block.boreSpacing: 4.400 in is refused');
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await field('Stroke').getAttribute('aria-invalid')).toBeNull();
    expect(await page.locator('.sw-control_refused').isHidden()).toBe(true);
  });

  it('shows the other assembly, without what was typed at the first', async () => {
    await open('');
    // Hub radius is the same in both assemblies, stroke isn't.
    for (const name of ['Stroke', 'Hub radius']) {
      await field(name).fill('nothing');
      await page.keyboard.press('Tab');
    }
    await choice('Assembly', 'core ground off-centre').focus();
    await page.keyboard.press('ArrowRight');
    expect(await choice('Assembly', 'new crank').isChecked()).toBe(true);
    expect(await field('Stroke').inputValue()).toBe('3.750 in');
    expect(await field('Stroke').getAttribute('aria-invalid')).toBeNull();
    expect(await field('Hub radius').inputValue()).toBe('1.700 in');
    expect(await field('Hub radius').getAttribute('aria-invalid')).toBeNull();
    await field('Stroke').press('ArrowUp');
    expect((await commands()).at(-1)).toMatchObject({ path: ['assemblies', 2, 'crank', 'stroke'], text: '3.760 in' });
  });

  it('lets the compression height follow when the deck clearance is held', async () => {
    await open('');
    await choice('What is held', 'Deck clearance').focus();
    await page.keyboard.press('Space');
    // A stroke longer by 0.050 in moves the pin up by half of it: 39.62 mm - 0.635 mm.
    await field('Stroke').fill('3.925');
    await page.keyboard.press('Enter');
    expect(await field('Compression height').inputValue()).toBe('38.985 mm');
    expect(await page.locator('.sw-control_head').textContent()).toContain('Follows: compression height 38.99 mm');
  });

  it('shows units, provenance and bodies that differ', async () => {
    await open('');
    const meta = (name: string) => row(name).locator('.sw-dim_meta').textContent();
    expect([await meta('Stroke'), await meta('Compression height'), await meta('Counterweight half angle')]).toEqual([
      '98.43 mm · stated',
      '1.560 in · stated',
      'assumed',
    ]);
    await choice('Units', 'in').focus();
    await page.keyboard.press('Space');
    expect([await meta('Stroke'), await meta('Rod length')]).toEqual(['3.875 in · stated', 'stated']);
    expect(await row('Rod length').locator('.sw-dim_notes').textContent()).toBe('rod 3 has its own: 5.998 in');
    await choice('Cylinder in view', '4').focus();
    await page.keyboard.press('Space');
    expect((await commands()).at(-1)).toEqual({ do: 'show cylinder', number: 4 });
  });

  it('leaves out the camshaft of an engine without one', async () => {
    await open('?open&without=camshaft');
    expect(await page.getByRole('button', { name: 'Camshaft' }).count()).toBe(0);
    expect(await field('Base circle').count()).toBe(0);
  });

  it('is gone after destroy', async () => {
    await open('');
    await page.evaluate(() => {
      const { pane, store } = window as unknown as GalleryWindow;
      pane.destroy();
      store.send({ do: 'show units', units: 'mm' });
    });
    expect(await page.locator('#host').innerHTML()).toBe('');
  });
});

describe('finding the way', () => {
  it('Tab goes through every field of open folders, and folders say whether they are open', async () => {
    await open('');
    const block = page.getByRole('button', { name: 'Block' });
    expect(await block.getAttribute('aria-expanded')).toBe('false');
    await field('Pin boss radius').focus();
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Camshaft');
    await block.focus();
    await page.keyboard.press('Enter');
    expect(await block.getAttribute('aria-expanded')).toBe('true');
    await page.keyboard.press('Tab');
    expect(await field('Deck height').evaluate((input) => input === document.activeElement)).toBe(true);
    expect(await page.locator('.sw-control_foot').textContent()).toBe('Crank axis to deck, along the bore.');
    const ring = await page
      .locator('.sw-dim_box:focus-within')
      .evaluate((box) => `${getComputedStyle(box).outlineStyle} ${getComputedStyle(box).outlineWidth}`);
    expect(ring).toBe('solid 2px');
    await block.focus();
    await page.keyboard.press('Enter');
    expect(await block.getAttribute('aria-expanded')).toBe('false');
    await expect.poll(() => field('Deck height').count()).toBe(0);
  });

  it.each([
    ['light', '?open', undefined],
    ['dark', '?open&theme=dark', undefined],
    ['sheet', '?open&sheet', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }],
  ] as const)('axe-core finds nothing with all folders open: %s', async (_name, query, options) => {
    await open(query, options);
    await field('Stroke').fill('12');
    await page.keyboard.press('Enter');
    await field('Rod length').fill('nothing');
    await page.keyboard.press('Tab');
    await expect.poll(() => page.getByRole('textbox').count()).toBeGreaterThan(35);
    await page.addScriptTag({ path: 'node_modules/axe-core/axe.min.js' });
    const violations = await page.evaluate(async () => {
      const found = await (window as unknown as GalleryWindow).axe.run();
      return found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ')}`);
    });
    expect(violations).toEqual([]);
    const overflow = await page.evaluate(() => {
      const host = document.querySelector('#host')!;
      return host.scrollWidth - host.clientWidth;
    });
    expect(overflow).toBe(0);
  });
});

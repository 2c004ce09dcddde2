/**
 * The built page in a browser: how the browser is started, how a page is opened, what the console may say, and what
 * tests ask of the page. One browser for a file, one context for a test.
 */
import { type Browser, type BrowserContextOptions, chromium, type Locator, type Page } from 'playwright-core';
import type { State, Store } from '../../src/model/state.ts';
import type { Scene } from '../../src/view/index.ts';

/** What the page offers for measuring and for tests. */
export interface PageWindow {
  readonly strokewright: { readonly store: Store; readonly scene: Scene };
}

/** Software drawing says this where a picture is read back; a page without a graphics card can't avoid it. */
const READ_BACK = /GPU stall due to ReadPixels/;
/** Said by the browser itself where WebGL is switched off. */
const NO_ADAPTER = /^No available adapters\.$/;

/** Said by the driver where it keeps service workers out. */
const NO_OFFLINE = /^Service Worker registration blocked/;

/** A page that has not come round by then never will: proofs of a whole engine take a second or two. */
const LONGEST_WAIT_MS = 12_000;

export function launch(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...more,
    ],
  });
}

export interface OpenOptions extends BrowserContextOptions {
  /** Behind the address, as `?demo=bench-rig`. */
  readonly query?: string;
  /** Runs in the page before its own scripts. */
  readonly before?: () => void;
  /** As on a machine where it was never opened: the note of the first start comes. */
  readonly firstStart?: boolean;
  /** WebGL is missing on purpose: what the browser says about that is no complaint. */
  readonly withoutWebgl?: boolean;
}

export interface Opened {
  readonly page: Page;
  /** Everything the console said and every uncaught error, but for the noise named above. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

export const WIDE = { width: 1440, height: 900 } as const;
export const MIDDLE = { width: 900, height: 1000 } as const;
export const NARROW = { width: 390, height: 844 } as const;

/** Opens the page in a context of its own and waits until the picture stands, or can't. */
export async function openPage(browser: Browser, baseUrl: string, options: OpenOptions = {}): Promise<Opened> {
  const { query = '', before, withoutWebgl = false, firstStart = false, ...rest } = options;
  const context = await browser.newContext({
    viewport: WIDE,
    colorScheme: 'light',
    // Keeping the files for use without a network is looked at in tests of its own; elsewhere it only takes time.
    serviceWorkers: 'block',
    ...rest,
  });
  context.setDefaultTimeout(LONGEST_WAIT_MS);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(`uncaught: ${error.message}`));
  page.on('console', (message) => {
    const text = message.text();
    if (READ_BACK.test(text) || NO_OFFLINE.test(text) || (withoutWebgl && NO_ADAPTER.test(text))) return;
    complaints.push(`${message.type()}: ${text}`);
  });
  if (!firstStart) {
    await page.addInitScript(() => {
      try {
        localStorage.setItem('strokewright.noted', 'read');
      } catch {
        // A page without storage shows the note.
      }
    });
  }
  if (before !== undefined) await page.addInitScript(before);
  await page.goto(baseUrl + query);
  await page.waitForFunction(() => 'strokewright' in globalThis);
  await page.evaluate(() => (globalThis as unknown as PageWindow).strokewright.scene.ready);
  return { page, complaints, close: () => context.close() };
}

/** The state as it stands in the page, without what can't be sent over (engine, profiles) and what comes after the proof (cures). */
export type PlainState = Omit<State, 'engine' | 'profiles' | 'cures'> & {
  readonly cycleRad: number;
  readonly cylinders: State['engine']['cylinders'];
};

export function stateOf(page: Page): Promise<PlainState> {
  return page.evaluate(() => {
    const { engine, profiles, cures, ...rest } = (globalThis as unknown as PageWindow).strokewright.store.state;
    return JSON.parse(JSON.stringify({ ...rest, cycleRad: engine.cycleRad, cylinders: engine.cylinders }));
  });
}

/** Waits for the proofs, and for what comes after them: the ribbons, and what would help. Then nothing moves any more. */
export async function settled(page: Page): Promise<PlainState> {
  await page.waitForFunction(() => {
    const { state } = (globalThis as unknown as PageWindow).strokewright.store;
    return state.cures !== null && state.gaps.every((g) => g.certified);
  });
  await frames(page);
  return stateOf(page);
}

/** Two frames: what the last event asked for is drawn then. */
export function frames(page: Page): Promise<void> {
  return page.evaluate(
    () => new Promise<void>((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))),
  );
}

export function text(page: Page, selector: string): Promise<string> {
  return page.locator(selector).evaluate((element) => (element.textContent ?? '').trim());
}

/** The text field of a dimension in the pane, by its label. */
export function field(page: Page, name: string): Locator {
  return page.getByRole('textbox', { name, exact: true });
}

/** The whole row round that field. */
export function fieldRow(page: Page, name: string): Locator {
  return page.locator('#dimensions .tp-lblv').filter({ has: field(page, name) });
}

/** One choice of a group of the pane, such as Units: in. */
export async function choose(page: Page, group: string, name: string): Promise<void> {
  const radio = page
    .locator('#dimensions')
    .getByRole('group', { name: group, exact: true })
    .getByRole('radio', { name, exact: true });
  await radio.locator('xpath=..').click();
}

/** Presses a button of the bar, out of the menu where it waits there. */
export async function pressInBar(page: Page, name: string): Promise<void> {
  const button = page.locator('#bar').getByRole('button', { name, exact: true });
  if (!(await button.isVisible())) await page.locator('#bar-menu').click();
  await button.click();
}

/** Brings a whole page up from the section, and waits for it. */
export async function openWhole(
  page: Page,
  { name, label }: { readonly name: string; readonly label: string },
): Promise<void> {
  await leaveWhole(page);
  await pressInBar(page, label);
  await page.waitForFunction((of) => document.getElementById('page')?.dataset['view'] === of, name);
}

/** Back to the section, by Escape, as often as it takes. */
export async function leaveWhole(page: Page): Promise<void> {
  for (let presses = 0; (await page.locator('#page').getAttribute('data-view')) !== null; presses++) {
    if (presses === 5) throw new Error('Escape does not lead back to the section.');
    await page.keyboard.press('Escape');
  }
}

/** After the first visit the page opens without a network; a newer version waits until it is asked for; nothing is ever sent anywhere. */
import { readFileSync } from 'node:fs';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { PAGES } from '../../src/app/pages/table.ts';
import { field, launch, leaveWhole, openWhole, type PageWindow, settled, text } from '../support/browser.ts';
import { type Releases, serveReleases } from '../support/releases.ts';

let browser: Browser;
let context: BrowserContext;
let server: Releases;
let page: Page;
/** Every request of every page and worker of the context, from the first on. */
const requests: string[] = [];
const complaints: string[] = [];

async function open(): Promise<Page> {
  const made = await context.newPage();
  await made.addInitScript(() => {
    const stopped: string[] = [];
    document.addEventListener('securitypolicyviolation', (event) =>
      stopped.push(`${event.effectiveDirective} ${event.blockedURI} ${event.sourceFile}`),
    );
    Object.assign(globalThis, { stopped });
  });
  made.on('pageerror', (error) => complaints.push(`uncaught: ${error.message}`));
  made.on('console', (message) => {
    if (!/GPU stall due to ReadPixels/.test(message.text())) complaints.push(message.text());
  });
  await made.goto(server.baseUrl);
  await ready(made);
  return made;
}

async function ready(of: Page): Promise<void> {
  await of.waitForFunction(() => 'strokewright' in globalThis);
  await of.evaluate(() => (globalThis as unknown as PageWindow).strokewright.scene.ready);
}

const release = (of: Page) => of.evaluate(() => document.documentElement.dataset['release'] ?? '1');
const versionsKept = () => page.evaluate(() => caches.keys());

beforeAll(async () => {
  browser = await launch();
  server = await serveReleases();
  context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  context.setDefaultTimeout(20_000);
  context.on('request', (request) => requests.push(request.url()));
  page = await open();
});
afterAll(async () => {
  await browser?.close();
});

it('the first visit keeps every built file', async () => {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const listed = JSON.parse(/^const BUILT=(.*);$/m.exec(readFileSync('dist/offline.js', 'utf8'))![1]!) as {
    files: string[];
  };
  const kept = await page.evaluate(async () => {
    const cache = await caches.open((await caches.keys())[0]!);
    return (await cache.keys()).map((request) => new URL(request.url).pathname.slice(1));
  });
  expect(kept.sort()).toEqual(listed.files.sort());
  expect(kept).toContain('index.html');
});

it('no request leaves the machine, whatever page is opened; what the policy forbids is stopped', async () => {
  const tabs = page.locator('#pages').getByRole('tab');
  for (let k = 0; k < (await tabs.count()); k++) await tabs.nth(k).click();
  for (const entry of PAGES) await openWhole(page, entry);
  await leaveWhole(page);
  await tabs.first().click();
  const own = new URL(server.baseUrl).origin;
  expect(requests.length).toBeGreaterThan(30);
  // The service worker's own requests are among them.
  expect(requests).toContain(`${own}/icon-512.png`);
  expect(requests.filter((url) => !/^(data|blob):/.test(url) && new URL(url).origin !== own)).toEqual([]);

  // Nothing of the program's own was stopped by the policy, or only tried and caught.
  expect(await page.evaluate(() => (globalThis as unknown as { stopped: string[] }).stopped)).toEqual([]);

  // The same proved from the other side: a page that wanted to send something could not.
  const stopped = await page.evaluate(async () => {
    const said: string[] = [];
    document.addEventListener('securitypolicyviolation', (event) => said.push(event.effectiveDirective));
    await fetch('https://example.invalid/').catch(() => {});
    navigator.sendBeacon('https://example.invalid/', 'a');
    const picture = new Image();
    picture.src = 'https://example.invalid/a.png';
    const script = document.createElement('script');
    script.textContent = 'globalThis.ran = true';
    document.body.append(script);
    await new Promise((done) => setTimeout(done, 50));
    script.remove();
    return { said: [...new Set(said)].sort(), ran: 'ran' in globalThis };
  });
  expect(stopped).toEqual({ said: ['connect-src', 'img-src', 'script-src-elem'], ran: false });
  complaints.length = 0;
});

it('a newer version is told in one line, and comes only when it is asked for; what was done stands', async () => {
  await field(page, 'Stroke').fill('3.690 in');
  await page.keyboard.press('Enter');
  server.bringOut(2);
  const other = await open();
  await other.evaluate(() => navigator.serviceWorker.ready.then((one) => one.update()));
  // Fetched whole in the background; both pages go on as they were.
  const line = page.locator('#newer');
  await line.getByRole('button', { name: 'Load it' }).waitFor();
  expect(await text(page, '#newer p span')).toBe('A newer version of the program is ready. What is done here is kept.');
  expect(await line.getAttribute('role')).toBe('status');
  expect([await release(page), await release(other)]).toEqual(['1', '1']);
  expect(await field(page, 'Stroke').inputValue()).toBe('3.690 in');

  await line.getByRole('button', { name: 'Load it' }).click();
  await page.waitForFunction(() => document.documentElement.dataset['release'] === '2');
  await ready(page);
  expect(await field(page, 'Stroke').inputValue()).toBe('3.690 in');
  // The other page was not asked, and is not loaded anew under the hand; it is told.
  await other.locator('#newer').getByRole('button', { name: 'Load it here' }).waitFor();
  expect(await release(other)).toBe('1');
  await other.close();
  expect(await versionsKept()).toHaveLength(2);
});

it('without a network the page opens, computes, and fetches every page', async () => {
  await server.cut();
  await page.reload();
  await ready(page);
  expect(await release(page)).toBe('2');
  const before = await settled(page);
  expect(before.gaps.every((gap) => gap.certified)).toBe(true);
  expect(await field(page, 'Stroke').inputValue()).toBe('3.690 in');
  for (const entry of PAGES) {
    await openWhole(page, entry);
    expect(await text(page, `#page-${entry.name}`)).not.toContain('can’t be shown');
  }
  expect(complaints).toEqual([]);
});

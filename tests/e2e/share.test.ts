/** Pictures, clips and links, made in the browser and read by other readers: the muxing library's own, a small one for GIF, a fresh profile. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ALL_FORMATS, BufferSource, EncodedPacketSink, Input } from 'mediabunny';
import type { Browser, Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launch, openPage, type PageWindow, pressInBar, settled, stateOf } from '../support/browser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

async function onSection(page: Page, title: string): Promise<void> {
  await pressInBar(page, 'Hand out');
  await page.locator('#page-hand-out').getByRole('tab', { name: title, exact: true }).click();
}

async function saved(page: Page, press: () => Promise<void>): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

const button = (page: Page, name: string) => page.locator('#page-hand-out').getByRole('button', { name, exact: true });

/** Frames, delays and size of a GIF89a, by its blocks (CompuServe, Graphics Interchange Format 89a, sections 18 to 26). */
function readGif(bytes: Buffer): { width: number; height: number; frames: number; delays: number[]; loops: boolean } {
  expect(bytes.toString('latin1', 0, 6)).toBe('GIF89a');
  const table = (flags: number): number => (flags & 0x80 ? 3 * 2 ** ((flags & 7) + 1) : 0);
  let at = 13 + table(bytes[10]!);
  let frames = 0;
  let loops = false;
  const delays: number[] = [];
  const skip = (): void => {
    while (bytes[at] !== 0) at += bytes[at]! + 1;
    at++;
  };
  for (;;) {
    const block = bytes[at++];
    if (block === 0x3b) break;
    if (block === 0x21) {
      const label = bytes[at++];
      if (label === 0xf9) delays.push(bytes.readUInt16LE(at + 2));
      if (label === 0xff) loops ||= bytes.toString('latin1', at + 1, at + 12) === 'NETSCAPE2.0';
      skip();
    } else if (block === 0x2c) {
      frames++;
      at += 9 + table(bytes[at + 8]!) + 1;
      skip();
    } else throw new Error(`block ${block} at ${at}`);
  }
  return { width: bytes.readUInt16LE(6), height: bytes.readUInt16LE(8), frames, delays, loops };
}

async function choose(page: Page, label: string, value: string): Promise<void> {
  await page.locator('#page-hand-out').getByLabel(label, { exact: true }).selectOption(value);
}

describe('what is handed out', () => {
  it('a picture as drawing and as bitmap, of the moment on show', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'));
    await settled(page);
    await onSection(page, 'Picture');
    const drawn = await saved(page, () => button(page, 'Save as SVG').click());
    expect(drawn.name).toBe('quarry-hauler-v8-section.svg');
    const text = drawn.bytes.toString();
    // The browser's own reader finds it well formed.
    const root = await page.evaluate((xml) => {
      const read = new DOMParser().parseFromString(xml, 'image/svg+xml');
      return [read.documentElement.localName, read.querySelectorAll('parsererror').length];
    }, text);
    expect(root).toEqual(['svg', 0]);
    expect(text).toContain('stroke 3.720 in');
    await choose(page, 'Width of the PNG', '960');
    const { bytes, name } = await saved(page, () => button(page, 'Save as PNG').click());
    expect(name).toBe('quarry-hauler-v8-section.png');
    const png = PNG.sync.read(bytes);
    expect([png.width, png.height]).toEqual([960, 640]);
    const dark = png.data.filter((v, k) => k % 4 === 0 && v < 60).length;
    expect(dark).toBeGreaterThan(4000);
    // A stroke that the rod can't follow: the engine on show is another one than the build says.
    const send = (text: string): Promise<void> =>
      page.evaluate((literal) => {
        const { store } = (globalThis as unknown as PageWindow).strokewright;
        const at = store.state.doc.assemblies.findIndex((a) => a.name === store.state.assembly);
        store.send({ do: 'set dimension', path: ['assemblies', at, 'crank', 'stroke'], text: literal, last: true });
      }, text);
    await send('12 in');
    await expect.poll(() => button(page, 'Save as SVG').isDisabled()).toBe(true);
    expect(await button(page, 'Save as PNG').isDisabled()).toBe(true);
    expect(await page.locator('#page-hand-out').textContent()).toContain('The build as typed is refused');
    expect(await page.locator('#page-hand-out .sw-clip-preview').first().isVisible()).toBe(false);
    await send('3.720 in');
    await expect.poll(() => button(page, 'Save as SVG').isEnabled()).toBe(true);
    await close();
    expect(complaints).toEqual([]);
  });

  it('a video of one cycle: 100 pictures of 640 x 400 in 4 s, kept by the browser’s own encoder; the picture after the last is the first', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
    await settled(page);
    await onSection(page, 'Clip');
    await choose(page, 'Width', '640');
    const kind = page.locator('#page-hand-out').getByLabel('Kind of file', { exact: true });
    await expect.poll(() => kind.locator('option').allTextContents()).toContain('MP4 (H.264)');
    for (const [value, end] of [
      ['mp4', 'cycle.mp4'],
      ['webm', 'cycle.webm'],
    ] as const) {
      await kind.selectOption(value);
      await button(page, 'Make the clip').click();
      const save = button(page, 'Save the video');
      await save.waitFor({ timeout: 60_000 });
      const { bytes, name } = await saved(page, () => save.click());
      expect(name).toBe(`single-cylinder-bench-rig-${end}`);
      const input = new Input({ formats: ALL_FORMATS, source: new BufferSource(bytes) });
      const track = (await input.getPrimaryVideoTrack())!;
      expect([track.displayWidth, track.displayHeight]).toEqual([640, 400]);
      const stamps: number[] = [];
      for await (const packet of new EncodedPacketSink(track).packets()) stamps.push(packet.timestamp);
      stamps.sort((a, b) => a - b);
      expect(stamps).toHaveLength(100);
      for (const [k, stamp] of stamps.entries()) expect(stamp).toBeCloseTo(k / 25, 3);
      expect(await track.computeDuration()).toBeCloseTo(4, 2);
    }
    await close();
    expect(complaints).toEqual([]);
  });

  it('a GIF that runs round and round; stopped on the way it leaves nothing; without an encoder it is what is offered', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), {
      query: '?demo=bench-rig',
      before: () => {
        Object.defineProperty(globalThis, 'VideoEncoder', { value: undefined });
      },
    });
    await settled(page);
    await onSection(page, 'Clip');
    await choose(page, 'Width', '640');
    await choose(page, 'Pictures a second', '20');
    await expect.poll(() => page.locator('#page-hand-out').textContent()).toContain('has no encoder for video');
    await button(page, 'Make the clip').click();
    await expect
      .poll(() => page.locator('#page-hand-out progress').evaluate((p: HTMLProgressElement) => p.value))
      .toBeGreaterThan(0);
    await button(page, 'Stop').click();
    await expect.poll(() => page.locator('#page-hand-out').textContent()).toContain('Stopped. Nothing was kept.');
    await button(page, 'Make the clip').click();
    const save = button(page, 'Save the GIF');
    await save.waitFor({ timeout: 60_000 });
    const { bytes } = await saved(page, () => save.click());
    const gif = readGif(bytes);
    expect(gif).toMatchObject({ width: 640, height: 400, frames: 80, loops: true });
    expect(new Set(gif.delays)).toEqual(new Set([5]));
    await close();
    expect(complaints).toEqual([]);
  });

  it('a link opened in a fresh profile is the very build; a damaged one is refused and leaves the build on show', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=lake-launch-six' });
    const { doc } = await settled(page);
    await onSection(page, 'Link');
    const field = page.locator('#page-hand-out').getByLabel('Link of this build');
    await expect.poll(() => field.inputValue()).toContain('#build-1.');
    const link = await field.inputValue();
    await close();
    expect(complaints).toEqual([]);

    const fresh = await openPage(browser, inject('baseUrl'), { query: link.slice(link.indexOf('#')) });
    await expect.poll(async () => (await stateOf(fresh.page)).doc.name).toBe(doc.name);
    expect((await stateOf(fresh.page)).doc).toEqual(doc);
    expect(new URL(fresh.page.url()).hash).toBe('');
    await fresh.page.evaluate(() => {
      location.hash = '#build-1.AAAA.00000000';
    });
    await fresh.page.getByRole('dialog').waitFor();
    const refusal = (await fresh.page.getByRole('dialog').textContent())!;
    expect(refusal).toContain('The link is refused');
    expect(refusal).not.toContain('The file');
    expect((await stateOf(fresh.page)).doc).toEqual(doc);
    await fresh.close();
    expect(fresh.complaints).toEqual([]);
  });

  it('a file that opens from disk without a network: the tour of this build, in its own page, asking for nothing', async () => {
    const { page, complaints, close } = await openPage(browser, inject('baseUrl'), { query: '?demo=lake-launch-six' });
    await settled(page);
    await onSection(page, 'File');
    const file = await saved(page, () => button(page, 'Save the file').click());
    expect(file.name).toBe('lake-launch-six-for-the-customer.html');
    await close();
    expect(complaints).toEqual([]);

    const folder = mkdtempSync(join(tmpdir(), 'strokewright-'));
    const path = join(folder, file.name);
    writeFileSync(path, file.bytes);
    const context = await browser.newContext({
      offline: true,
      reducedMotion: 'reduce',
      viewport: { width: 1280, height: 800 },
    });
    const alone = await context.newPage();
    const said: string[] = [];
    alone.on('console', (m) => {
      if (!/ReadPixels/.test(m.text())) said.push(m.text());
    });
    alone.on('pageerror', (error) => said.push(error.message));
    const asked: string[] = [];
    alone.on('request', (request) => asked.push(request.url()));
    await alone.goto(pathToFileURL(path).href);
    await alone.locator('.sw-counter canvas').waitFor();
    const titles: string[] = [];
    for (const next = alone.getByRole('button', { name: 'Next', exact: true }); ; await next.click()) {
      titles.push((await alone.locator('.sw-counter-title').textContent()) ?? '');
      // The places that are too tight come in when they have been found.
      if (titles.length === 5)
        await expect.poll(() => alone.locator('.sw-counter-count').textContent(), { timeout: 12_000 }).toBe('5 of 7');
      if (await next.isDisabled()) break;
    }
    expect(titles).toContain('A longer stroke');
    expect(titles).toContain('Here it is too tight');
    expect(asked.filter((url) => !/^(file|blob|data):/.test(url))).toEqual([]);
    expect(asked.filter((url) => url.startsWith('file:'))).toHaveLength(1);
    expect(said).toEqual([]);
    await context.close();
    rmSync(folder, { recursive: true });
  });
});

/**
 * Faults that the program has to survive, each caused on purpose in the browser: what it says, and what is kept. One browser; a context for
 * each fault that spoils its storage.
 */
import { readFileSync } from 'node:fs';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import type { Keeper } from '../../src/model/jobs/kept.ts';
import type { KeptStore } from '../../src/model/state.ts';
import { HOSTILE } from '../spoil/spoilt.ts';
import { launch, settled, stateOf, WIDE } from '../support/browser.ts';

interface Kept {
  readonly strokewright: { readonly store: KeptStore; readonly keeper: Keeper };
  /** Set by markup that was executed, which none may be. */
  readonly executed?: number;
  readonly violations: string[];
  readonly workers: Worker[];
}

let browser: Browser;
/** Uncaught errors of all pages. */
const uncaught: string[] = [];

beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  expect(uncaught).toEqual([]);
});

const DEMO = '?demo=bench-rig';
const BLANK = 'blank-for-tests';

async function newContext(): Promise<BrowserContext> {
  // What is kept for use without a network takes up room of its own, when it likes: not where room is what is tested.
  const context = await browser.newContext({ viewport: WIDE, colorScheme: 'light', serviceWorkers: 'block' });
  context.setDefaultTimeout(12_000);
  // A page of the same origin on which the program does not run.
  await context.route(`**/${BLANK}`, (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html>' }));
  await context.addInitScript(() => {
    const workers: Worker[] = [];
    const violations: string[] = [];
    Object.assign(globalThis, { workers, violations });
    document.addEventListener('securitypolicyviolation', (event) =>
      violations.push(
        `${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber} ${event.sample}`,
      ),
    );
    globalThis.Worker = class extends Worker {
      constructor(...given: ConstructorParameters<typeof Worker>) {
        super(...given);
        workers.push(this);
      }
    };
  });
  return context;
}

async function open(context: BrowserContext, query = DEMO): Promise<Page> {
  const page = await context.newPage();
  page.on('pageerror', (error) => uncaught.push(error.stack ?? error.message));
  await page.goto(inject('baseUrl') + query);
  await page.waitForFunction(() => 'strokewright' in globalThis);
  return page;
}

const setStroke = (page: Page, text: string) =>
  page.evaluate(async (literal) => {
    const { store, keeper } = (globalThis as unknown as Kept).strokewright;
    store.send({ do: 'set dimension', path: ['assemblies', 0, 'crank', 'stroke'], text: literal, last: true });
    await keeper.flush();
  }, text);

const stroke = async (page: Page): Promise<string> => (await stateOf(page)).doc.assemblies[0]!.crank.stroke.value;
const strip = (page: Page) => page.locator('#keeping').textContent();
const inStrip = (page: Page, name: string) => page.locator('#keeping').getByRole('button', { name });
const jobsOf = (page: Page) =>
  page.evaluate(async () => (await (globalThis as unknown as Kept).strokewright.keeper.library.list()).jobs);

describe('the storage', () => {
  it('of a tab killed in the middle of saving holds the last whole save', async () => {
    const context = await newContext();
    const page = await open(context);
    await setStroke(page, '87 mm');
    // Changes without a pause, each written, until the tab is killed from outside.
    await page.evaluate(() => {
      const { store, keeper } = (globalThis as unknown as Kept).strokewright;
      let k = 0;
      const again = (): void => {
        k += 1;
        store.send({ do: 'put', path: ['name'], value: `State ${k}` });
        store.send({ do: 'put', path: ['note'], value: `Note ${k} ${'x'.repeat(3900)}` });
        void keeper.flush().then(again);
      };
      again();
    });
    await page.waitForFunction(
      () => ((globalThis as unknown as Kept).strokewright.keeper.state.job?.revision ?? 0) > 5,
    );
    const tools = await context.newCDPSession(page);
    const crashed = page.waitForEvent('crash');
    void tools.send('Page.crash').catch(() => {});
    await crashed;
    await page.close();
    const after = await open(context, '');
    const [job] = await jobsOf(after);
    const { doc, canUndo } = await stateOf(after);
    const k = /^State (\d+)$/.exec(doc.name)![1];
    expect(job!.name).toBe(doc.name);
    // One save may have come between the two steps of one turn: the note is that of the name, or of the one before.
    expect([k, String(Number(k) - 1)]).toContain(/^Note (\d+) /.exec(doc.note!)![1]);
    expect(canUndo).toBe(true);
    await after.evaluate(() => (globalThis as unknown as Kept).strokewright.store.send({ do: 'undo' }));
    expect((await stateOf(after)).refused).toEqual([]);
    await context.close();
  });

  it('that is full: what is on show stays, the user is told, and it is written once there is room', async () => {
    const context = await newContext();
    const page = await context.newPage();
    page.on('pageerror', (error) => uncaught.push(error.stack ?? error.message));
    await page.goto(inject('baseUrl') + BLANK);
    const tools = await context.newCDPSession(page);
    const origin = new URL(inject('baseUrl')).origin;
    // Before the browser grants the first room: enough for small saves.
    await tools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 400_000 });
    await page.goto(inject('baseUrl') + DEMO);
    await page.waitForFunction(() => 'strokewright' in globalThis);
    const [saved, last] = ['87.1 mm', '87.2 mm'];
    await setStroke(page, saved);
    // From now on each save is far larger than the room: the browser itself breaks its transaction off.
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      Object.assign(globalThis, { put });
      IDBObjectStore.prototype.put = function (value, key) {
        if (this.name === 'bodies') put.call(this, 'x'.repeat(20_000_000), 'filler');
        return put.call(this, value, key);
      };
    });
    await setStroke(page, last);
    await expect.poll(() => strip(page)).toContain('no room left');
    expect(await stroke(page)).toBe(last);
    const whole = await page.evaluate(async () => {
      const { keeper } = (globalThis as unknown as Kept).strokewright;
      const found = await keeper.library.open(keeper.state.job!.id);
      return 'why' in found ? found.why : found.doc.assemblies[0]!.crank.stroke.value;
    });
    expect(whole).toBe(saved);
    const [download] = await Promise.all([page.waitForEvent('download'), inStrip(page, 'Save file').click()]);
    expect(readFileSync(await download.path(), 'utf8')).toContain(`"${last}"`);
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = (globalThis as unknown as { put: IDBObjectStore['put'] }).put;
    });
    await tools.send('Storage.overrideQuotaForOrigin', { origin });
    await inStrip(page, 'Try again').click();
    await expect.poll(() => strip(page)).toBe('');
    const again = await open(context, '');
    expect(await stroke(again)).toBe(last);
    await context.close();
  });

  it('that can’t be used at all: the program works, says that nothing is kept, and offers the file', async () => {
    const context = await newContext();
    await context.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('forbidden', 'SecurityError');
      };
    });
    const page = await open(context);
    await expect.poll(() => strip(page)).toContain('keeps nothing for this page');
    const id = (await stateOf(page)).assembly;
    await setStroke(page, '3.7 in');
    expect((await stateOf(page)).canUndo).toBe(true);
    expect((await stateOf(page)).assembly).toBe(id);
    const [download] = await Promise.all([page.waitForEvent('download'), inStrip(page, 'Save file').click()]);
    expect(readFileSync(await download.path(), 'utf8')).toContain('"3.7 in"');
    await context.close();
  });

  it('of a later version of the program is left as it is', async () => {
    const context = await newContext();
    const blank = await context.newPage();
    await blank.goto(inject('baseUrl') + BLANK);
    const made = (version: number) =>
      blank.evaluate(
        (wanted) =>
          new Promise<string>((done) => {
            const request = indexedDB.open('strokewright', wanted);
            request.onupgradeneeded = () => {
              if (!request.result.objectStoreNames.contains('of later'))
                request.result.createObjectStore('of later').put('kept', 'there');
            };
            request.onsuccess = () => {
              request.result.close();
              done('made');
            };
            request.onerror = () => done(String(request.error));
          }),
        version,
      );
    await made(7);
    const page = await open(context);
    await expect.poll(() => strip(page)).toContain('later version of this program');
    await setStroke(page, '87 mm');
    expect(await stroke(page)).toBe('87 mm');
    expect(await made(7)).toBe('made');
    const kept = await blank.evaluate(
      () =>
        new Promise((done) => {
          const request = indexedDB.open('strokewright');
          request.onsuccess = () => {
            const read = request.result.transaction('of later').objectStore('of later').get('there');
            read.onsuccess = () => done([read.result, request.result.version]);
          };
        }),
    );
    expect(kept).toEqual(['kept', 7]);
    await context.close();
  });

  it('that a later version takes over under an open page, and one that was deleted under it', async () => {
    const context = await newContext();
    const page = await open(context);
    await setStroke(page, '87 mm');
    const blank = await context.newPage();
    await blank.goto(inject('baseUrl') + BLANK);
    // Deleted: the page opens it anew, and keeps what is on show there.
    await blank.evaluate(
      () =>
        new Promise<void>((done) => {
          indexedDB.deleteDatabase('strokewright').onsuccess = () => done();
        }),
    );
    await expect.poll(() => strip(page)).toContain('taken away');
    await setStroke(page, '88 mm');
    await inStrip(page, 'Try again').click();
    await expect.poll(() => strip(page)).not.toContain('taken away');
    expect((await jobsOf(page)).length).toBeGreaterThan(0);
    await blank.evaluate(
      () =>
        new Promise<void>((done) => {
          indexedDB.open('strokewright', 9).onsuccess = () => done();
        }),
    );
    await expect.poll(() => strip(page)).toContain('later version');
    await setStroke(page, '89 mm');
    expect(await stroke(page)).toBe('89 mm');
    await context.close();
  });

  it('that is blocked by another tab: the page comes up, says so, and keeps what was done once it is free', async () => {
    const context = await newContext();
    const blank = await context.newPage();
    await blank.goto(inject('baseUrl') + BLANK);
    await blank.evaluate(
      () =>
        new Promise<void>((done) => {
          const request = indexedDB.open('strokewright', 1);
          request.onsuccess = () => {
            // Held open, and to be deleted: everyone else has to wait.
            Object.assign(globalThis, { held: request.result });
            indexedDB.deleteDatabase('strokewright').onblocked = () => done();
          };
        }),
    );
    const page = await open(context);
    await setStroke(page, '87 mm');
    await expect.poll(() => strip(page), { timeout: 8000 }).toContain('holds the job library open');
    await blank.evaluate(() => (globalThis as unknown as { held: IDBDatabase }).held.close());
    await inStrip(page, 'Try again').click();
    await expect.poll(() => strip(page)).toBe('');
    expect((await jobsOf(page)).map((job) => job.name)).toEqual([(await stateOf(page)).doc.name]);
    await context.close();
  });

  it('that lacks its parts can’t be read; a new one is begun only when asked for', async () => {
    const context = await newContext();
    const blank = await context.newPage();
    await blank.goto(inject('baseUrl') + BLANK);
    await blank.evaluate(
      () =>
        new Promise<void>((done) => {
          const request = indexedDB.open('strokewright', 1);
          request.onsuccess = () => {
            request.result.close();
            done();
          };
        }),
    );
    const page = await open(context);
    await expect.poll(() => strip(page)).toContain('can’t be read');
    await setStroke(page, '87 mm');
    await inStrip(page, 'Begin a new library').click();
    await inStrip(page, 'Begin a new one: what can’t be read is deleted').click();
    await expect.poll(() => strip(page)).toBe('');
    const again = await open(context, '');
    expect(await stroke(again)).toBe('87 mm');
    // And a job whose record was spoilt: it says so at the start, and leaves it as it is.
    await again.evaluate(async () => {
      const { keeper } = (globalThis as unknown as Kept).strokewright;
      await keeper.storage.write([{ shelf: 'bodies', key: keeper.state.job!.id, put: { doc: 'rubbish' } }]);
    });
    const third = await open(context, '');
    await expect.poll(() => strip(third)).toContain('open last, can’t be read');
    const [job] = await jobsOf(third);
    const body = await third.evaluate(
      (id) => (globalThis as unknown as Kept).strokewright.keeper.storage.read('bodies', id),
      job!.id,
    );
    expect(body).toEqual({ doc: 'rubbish' });
    await context.close();
  });
});

describe('two tabs on one job', () => {
  it('the second is told; its change starts a copy; it may take the job over openly; nothing is overwritten', async () => {
    const context = await newContext();
    const one = await open(context);
    await setStroke(one, '87 mm');
    const two = await open(context, '');
    await expect.poll(() => strip(two)).toContain('is open in another tab');
    expect(await stroke(two)).toBe('87 mm');
    // The first works on; its last change comes with the job when it is taken over.
    await setStroke(one, '88 mm');
    await inStrip(two, 'Take it over').click();
    await expect.poll(() => stroke(two)).toBe('88 mm');
    await expect.poll(() => strip(two)).toBe('');
    await expect.poll(() => strip(one)).toContain('was taken over by another tab');
    await setStroke(two, '89 mm');
    await setStroke(one, '90 mm');
    await expect.poll(() => strip(one)).toContain('kept as a job of its own');
    const jobs = await jobsOf(one);
    const kept = await one.evaluate(
      async (ids) => {
        const { library } = (globalThis as unknown as Kept).strokewright.keeper;
        return Promise.all(
          ids.map(async (id) => {
            const found = await library.open(id);
            return 'why' in found ? found.why : found.doc.assemblies[0]!.crank.stroke.value;
          }),
        );
      },
      jobs.map((job) => job.id),
    );
    expect(kept.sort()).toEqual(['89 mm', '90 mm']);
    // A tab that is killed gives its seat up.
    await two.close();
    await context.close();
  });
});

describe('one page', () => {
  let context: BrowserContext;
  let page: Page;
  beforeAll(async () => {
    context = await newContext();
    page = await open(context);
    await settled(page);
  });
  afterAll(() => context?.close());

  it('whose solver breaks says so, and proves the gaps all the same; so often that the page has to do it by itself', async () => {
    for (const text of ['87 mm', '87.2 mm', '87.4 mm', '87.6 mm']) {
      await page.evaluate((literal) => {
        const { store } = (globalThis as unknown as Kept).strokewright;
        store.send({ do: 'set dimension', path: ['assemblies', 0, 'crank', 'stroke'], text: literal, last: true });
        // What is no task makes the worker's script fail for good.
        for (const worker of (globalThis as unknown as Kept).workers) worker.postMessage(null);
      }, text);
      await settled(page);
    }
    expect(await strip(page)).toContain('computes in the background stopped');
    expect(await stroke(page)).toBe('87.6 mm');
    const { gaps } = await stateOf(page);
    expect(gaps.every((gap) => gap.certified && Number.isFinite(gap.gapMm))).toBe(true);
    await inStrip(page, 'Put away').click();
    expect(await strip(page)).toBe('');
  });

  it('whose pool of workers breaks does the work in the page', async () => {
    const before = await page.evaluate(() => (globalThis as unknown as Kept).workers.length);
    await page.locator('#pages').getByRole('tab', { name: 'Mock-up' }).click();
    await page.locator('#pages').getByRole('tab', { name: 'Fit map' }).click();
    await page.waitForFunction((count) => (globalThis as unknown as Kept).workers.length > count, before);
    await page.evaluate(() => {
      for (const worker of (globalThis as unknown as Kept).workers) worker.postMessage(null);
    });
    await expect.poll(() => strip(page)).toContain('computes in the background stopped');
    await inStrip(page, 'Put away').click();
    await page.locator('#pages').getByRole('tab', { name: 'Dimensions' }).click();
    expect(await stroke(page)).toBe('87.6 mm');
  });

  it('whose workers are ended without a word finds it out, and proves the gaps all the same', async () => {
    const alone = await newContext();
    // A second goes by in two hundredths of one; no worker ever answers.
    await alone.addInitScript(() => {
      const { setInterval: slow } = globalThis;
      const sooner = (run: () => void, ms?: number, ...rest: unknown[]) => slow(run, (ms ?? 0) / 50, ...rest);
      Object.assign(globalThis, { setInterval: sooner });
      Worker.prototype.postMessage = () => {};
    });
    const mute = await open(alone);
    const { gaps } = await settled(mute);
    expect(gaps.length).toBeGreaterThan(0);
    expect(gaps.every((gap) => gap.certified && Number.isFinite(gap.gapMm))).toBe(true);
    await expect.poll(() => strip(mute)).toContain('computes in the background stopped');
    await alone.close();
  });

  it('that loses its drawing surface draws again when it has it back', async () => {
    const lost = await page.evaluate(async () => {
      const canvas = document.querySelector<HTMLCanvasElement>('#section canvas')!;
      const gl = canvas.getContext('webgl2') ?? canvas.getContext('webgl');
      const tool = gl?.getExtension('WEBGL_lose_context');
      if (!tool) return null;
      const restored = new Promise<void>((done) => {
        canvas.addEventListener('webglcontextrestored', () => done(), { once: true });
      });
      await new Promise<void>((done) => {
        canvas.addEventListener('webglcontextlost', () => done(), { once: true });
        tool.loseContext();
      });
      // Once the event is over: then the browser knows that the page wants it back.
      await new Promise((done) => setTimeout(done, 50));
      tool.restoreContext();
      await restored;
      return gl!.isContextLost();
    });
    expect(lost).toBe(false);
    await page.evaluate(() =>
      (globalThis as unknown as Kept).strokewright.store.send({ do: 'turn to', crankAngleRad: 1 }),
    );
    await settled(page);
    const shot = await page.locator('#section').screenshot();
    await page.evaluate(() =>
      (globalThis as unknown as Kept).strokewright.store.send({ do: 'turn to', crankAngleRad: 2 }),
    );
    await settled(page);
    expect((await page.locator('#section').screenshot()).equals(shot)).toBe(false);
  });

  const bench = readFileSync('assets/demos/bench-rig.json', 'utf8');
  const later = JSON.stringify({ ...JSON.parse(bench), version: 4 });
  it.each([
    ['of zero bytes', '', /line 1, column 1/],
    ['of another kind', '\u0089PNG\r\n\u001a\n\u0000\u0000\u0000\rIHDR', /JSON text/],
    ['of a later version', later, /version: 4 is refused \(later version\)/],
    ['cut short', bench.slice(0, 2000), /the end of the file/],
    ['with a name given twice', bench.replace('"name"', '"name": "first", "name"'), /name: .* \(names once\)/],
    [
      'with names that reach into prototypes',
      bench.replace('"name"', '"__proto__": {"name": "x"}, "constructor": 1, "name"'),
      /__proto__.*known names[\s\S]*constructor/,
    ],
    [
      'nested without end',
      bench.replace('"name"', `"deep": ${'['.repeat(100_000)}1${']'.repeat(100_000)}, "name"`),
      /levels of nesting/,
    ],
    ['that is a library of jobs', '{"format":"strokewright-library","version":1,"writtenMs":0}\n', /page Jobs/],
    ['of 200 MB', null, /200\.0 MB.*\(file size\)/],
  ] as const)('given a file %s refuses it in words, and stays as it is', async (_name, content, words) => {
    const before = await stateOf(page);
    await page.evaluate((text) => {
      const parts = text === null ? Array.from({ length: 20 }, () => new Uint8Array(10_000_000)) : [text];
      const transfer = new DataTransfer();
      transfer.items.add(new File(parts, 'given.json'));
      document
        .getElementById('section')!
        .dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    }, content);
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    const said = (await dialog.locator('li').allTextContents()).join('\n');
    expect(said).toMatch(words);
    expect(said.length).toBeLessThan(2000);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    expect(await stateOf(page)).toEqual(before);
    expect(await page.evaluate(() => ({}) as { name?: string })).toEqual({});
  });

  it('given rubbish by drag and drop or from the clipboard refuses it, and stays as it is', async () => {
    const before = await stateOf(page);
    await page.evaluate(() => {
      const transfer = new DataTransfer();
      transfer.setData('text/html', '<img src=x onerror="globalThis.executed=1">');
      transfer.setData('text/uri-list', 'javascript:globalThis.executed=1');
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    });
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    expect(await dialog.textContent()).toContain('Allowed: build files');
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    const field = page.getByRole('textbox', { name: 'Stroke', exact: true });
    await field.focus();
    for (const text of [`5${' '.repeat(300_000)}!`, '<img src=x onerror="globalThis.executed=1">', '\u0000\ud800 mm']) {
      await page.evaluate((rubbish) => {
        const transfer = new DataTransfer();
        transfer.setData('text/plain', rubbish);
        const input = document.activeElement as HTMLInputElement;
        input.select();
        input.dispatchEvent(new ClipboardEvent('paste', { clipboardData: transfer, bubbles: true, cancelable: true }));
        document.execCommand('insertText', false, rubbish);
      }, text);
      await page.keyboard.press('Enter');
      expect((await stateOf(page)).doc).toEqual(before.doc);
    }
    await page.keyboard.press('Escape');
    expect(await page.evaluate(() => (globalThis as unknown as Kept).executed)).toBeUndefined();
  });

  it('executes no markup from any name or note of a build, wherever it is shown', async () => {
    const doc = JSON.parse(readFileSync('assets/demos/quarry-v8.json', 'utf8'));
    const hostile = HOSTILE.filter((text) => /[<{]|javascript|__proto__|constructor/.test(text));
    doc.name = hostile[0];
    doc.note = hostile[1];
    const names = new Map<string, string>();
    doc.assemblies.forEach((assembly: { name: string; route: string }, k: number) => {
      names.set(assembly.name, `${k} ${hostile[(k + 2) % hostile.length]}`.slice(0, 80));
      assembly.name = names.get(assembly.name)!;
      assembly.route = hostile[k % hostile.length]!;
    });
    doc.replaced = names.get(doc.replaced);
    doc.proposed = names.get(doc.proposed);
    for (const entry of doc.mockUp ?? []) {
      entry.assembly = names.get(entry.assembly);
      entry.note = hostile[0];
      entry.with = hostile[1];
    }
    doc.block.fixed = (doc.block.fixed ?? []).map((part: object, k: number) => ({
      ...part,
      name: `${k}${hostile[0]}`,
    }));
    for (const list of Object.values(doc.shelf ?? {})) {
      (list as { name: string }[]).forEach((part, k) => {
        part.name = `${k}${hostile[0]}`;
      });
    }
    // The library that judges files asks once whether it may make functions; it may not, and does without.
    const before = await page.evaluate(() => [...(globalThis as unknown as Kept).violations]);
    expect(before.filter((one) => !one.startsWith('script-src eval'))).toEqual([]);
    await page.evaluate((text) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([text], 'hostile.json'));
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    }, JSON.stringify(doc));
    await expect.poll(async () => (await stateOf(page)).doc.name).toBe(doc.name);
    for (const tab of await page.locator('#pages [role="tab"]').all()) await tab.click();
    for (const button of await page.locator('#bar-pages button').all()) {
      // Where the bar is short it waits in a folded menu.
      const name = await button.getAttribute('aria-controls');
      await button.evaluate((element: HTMLElement) => element.click());
      await page.locator(`#${name}:not([hidden])`).waitFor();
    }
    await page
      .locator('#bar-pages button')
      .filter({ hasText: /^Jobs$/ })
      .evaluate((element: HTMLElement) => {
        if (element.getAttribute('aria-pressed') !== 'true') element.click();
      });
    await page.locator('.sw-jobs-row').first().click();
    await expect.poll(() => page.locator('.sw-jobs-details').count()).toBe(1);
    const found = await page.evaluate(() => {
      const { executed, violations } = globalThis as unknown as Kept;
      return {
        executed: executed ?? 0,
        violations,
        markup: document.querySelectorAll('img[onerror], svg[onload], a[href^="javascript"], script:not([src])').length,
      };
    });
    expect(found).toEqual({ executed: 0, violations: before, markup: 0 });
    expect(await page.title()).toContain('<img');
  });
});

/** Jobs on the page: kept by themselves, found, renamed, copied, deleted and fetched back, gone back to; a thousand of them; one file for all. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import type { Keeper } from '../../src/model/jobs/kept.ts';
import type { KeptStore } from '../../src/model/state.ts';
import { launch, type Opened, openPage, stateOf } from '../support/browser.ts';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');

interface Kept {
  readonly strokewright: { readonly store: KeptStore; readonly keeper: Keeper };
}

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig' });
  page = opened.page;
});
afterAll(async () => {
  await browser?.close();
  expect(opened.complaints).toEqual([]);
});

async function setStroke(text: string): Promise<void> {
  await page.evaluate(async (literal) => {
    const { store, keeper } = (globalThis as unknown as Kept).strokewright;
    store.send({ do: 'set dimension', path: ['assemblies', 0, 'crank', 'stroke'], text: literal, last: true });
    await keeper.flush();
  }, text);
}

const stroke = async (): Promise<string> => (await stateOf(page)).doc.assemblies[0]!.crank.stroke.value;

/** Once more from the address without a demonstration: what comes up is what was kept. */
async function anotherDay(): Promise<void> {
  await page.goto(inject('baseUrl'));
  await page.waitForFunction(() => 'strokewright' in globalThis);
}

const jobs = () => page.locator('#page-jobs');
const said = () => page.locator('.sw-jobs-word [role="status"]').textContent();

async function toJobs(): Promise<void> {
  await page.locator('#bar').getByRole('button', { name: 'Jobs', exact: true }).click();
  await jobs().getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
}

describe('the build on show', () => {
  it('is kept with its first change, and comes up on another day as it was left, with its steps', async () => {
    expect(await page.locator('#bar select').inputValue()).toBe('bench-rig');
    const before = await stroke();
    await setStroke('87.1 mm');
    expect(await page.locator('#bar select option:checked').textContent()).toBe((await stateOf(page)).doc.name);
    expect(await page.locator('#bar select').inputValue()).toBe('own');
    await page.evaluate(() => {
      const { store } = (globalThis as unknown as Kept).strokewright;
      store.send({ do: 'turn to', crankAngleRad: 2 });
      store.send({ do: 'show units', units: 'both' });
    });
    await anotherDay();
    expect(await stroke()).toBe('87.1 mm');
    expect(await stateOf(page)).toMatchObject({ crankAngleRad: 2, units: 'both', canUndo: true });
    await page.keyboard.press('Control+z');
    expect(await stroke()).toBe(before);
    await page.keyboard.press('Control+y');
    expect(await stroke()).toBe('87.1 mm');
  });
});

describe('the page of jobs', () => {
  it('renames, copies, puts away, deletes and fetches back', async () => {
    await toJobs();
    await jobs().locator('.sw-jobs-row').first().click();
    await jobs().getByLabel('Name', { exact: true }).fill('Quarry <b>pump</b>');
    await jobs().getByRole('button', { name: 'Rename' }).click();
    await expect.poll(async () => (await stateOf(page)).doc.name).toBe('Quarry <b>pump</b>');
    await jobs().getByRole('button', { name: 'Duplicate' }).click();
    const names = () => jobs().locator('.sw-jobs-name').allTextContents();
    await expect.poll(names).toEqual(['Quarry <b>pump</b>, copy', 'Quarry <b>pump</b>']);
    // The copy is chosen now.
    await jobs().getByRole('heading', { name: 'Quarry <b>pump</b>, copy' }).waitFor();
    await jobs().getByRole('button', { name: 'Delete', exact: true }).click();
    await expect.poll(names).toEqual(['Quarry <b>pump</b>']);
    await jobs().getByRole('button', { name: 'Undo' }).click();
    await expect.poll(names).toHaveLength(2);
    await jobs().locator('.sw-jobs-row').first().click();
    await jobs().getByRole('button', { name: 'Archive', exact: true }).click();
    await expect.poll(names).toEqual(['Quarry <b>pump</b>']);
    await jobs().getByRole('button', { name: 'Archive 1' }).click();
    await expect.poll(names).toEqual(['Quarry <b>pump</b>, copy']);
    await jobs().getByRole('button', { name: 'Jobs 1' }).click();
    expect(await page.locator('#page-jobs b').filter({ hasText: 'pump' }).count()).toBe(0);
  });

  it('keeps a snapshot under a name and goes back to it as one step', async () => {
    await jobs().locator('.sw-jobs-row').first().click();
    await jobs().getByLabel('As it is now').fill('before the cut');
    await jobs().getByRole('button', { name: 'Keep under this name' }).click();
    await expect.poll(said).toBe('Kept as “before the cut”.');
    await setStroke('87.9 mm');
    await jobs()
      .getByRole('button', { name: /^Go back to the snapshot of .*before the cut/ })
      .click();
    await expect.poll(stroke).toBe('87.1 mm');
    await expect.poll(said).toContain('Gone back');
    await page.evaluate(() => (globalThis as unknown as Kept).strokewright.store.send({ do: 'undo' }));
    expect(await stroke()).toBe('87.9 mm');
  });

  it('makes a new one from a template, all of it assumed, and nothing without being told', async () => {
    await jobs().getByRole('button', { name: 'New job…' }).click();
    const form = jobs().getByRole('form', { name: 'New job' });
    await form.getByLabel('Name').fill('Pump for the ferry');
    await form.getByRole('button', { name: 'Make the job' }).click();
    expect((await stateOf(page)).doc.name).not.toBe('Pump for the ferry');
    await form.getByLabel('Begin with').selectOption({ label: 'Demo six, mm' });
    await form.getByLabel('As a template').check();
    await form.getByRole('button', { name: 'Make the job' }).click();
    await expect.poll(async () => (await stateOf(page)).doc.name).toBe('Pump for the ferry');
    const { doc, gaps } = await stateOf(page);
    const from = [...JSON.stringify(doc).matchAll(/"from":"(\w+)"/g)].map((m) => m[1]);
    expect(new Set(from)).toEqual(new Set(['assumed']));
    expect(gaps.filter((gap) => gap.state === 'clears' && gap.kind !== 'deck')).toEqual([]);
  });

  it.each(['light', 'dark'] as const)('has no barrier that axe-core finds, %s', async (colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await toJobs();
    await jobs().locator('.sw-jobs-row').first().click();
    await jobs().getByRole('button', { name: 'Rename' }).waitFor();
    await jobs().locator('summary').click();
    await page.evaluate(AXE);
    const found = await page.evaluate(async () => {
      const { violations } = await (
        globalThis as unknown as {
          axe: { run: (at: string) => Promise<{ violations: { id: string; nodes: { target: string[] }[] }[] }> };
        }
      ).axe.run('#page-jobs');
      return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
    });
    expect(found).toEqual([]);
    await jobs().locator('summary').click();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    expect(await jobs().isVisible()).toBe(false);
  });
});

describe('a thousand jobs', () => {
  it('are listed with one read, forty rows at a time; one is found by its words', async () => {
    await page.evaluate(async () => {
      const { keeper } = (globalThis as unknown as Kept).strokewright;
      const found = await keeper.library.open(keeper.state.job!.id);
      if ('why' in found) throw new Error(found.why);
      const changes = Array.from({ length: 1000 }, (_, k) => {
        const id = `thousand-${String(k).padStart(4, '0')}`;
        const name = `Job ${k} for ${k === 777 ? 'Ångström' : 'someone'}`;
        return [
          { shelf: 'jobs' as const, key: id, put: { ...found.job, id, name, revision: 1 } },
          { shelf: 'bodies' as const, key: id, put: { doc: { ...found.doc, name }, undo: [], redo: [], print: 0 } },
        ];
      });
      await keeper.storage.write(changes.flat());
      // What the page asks of the database from now on.
      const asked: string[] = [];
      Object.assign(globalThis, { asked });
      for (const method of ['get', 'getAll', 'getAllKeys', 'openCursor'] as const) {
        const before = IDBObjectStore.prototype[method] as (...rest: unknown[]) => IDBRequest;
        Object.assign(IDBObjectStore.prototype, {
          [method](this: IDBObjectStore, ...rest: unknown[]) {
            asked.push(`${method} ${this.name}`);
            return before.apply(this, rest);
          },
        });
      }
    });
    await toJobs();
    await expect
      .poll(() =>
        jobs()
          .getByRole('button', { name: /^Jobs 100\d$/ })
          .count(),
      )
      .toBe(1);
    const asked = await page.evaluate(() => (globalThis as unknown as { asked: string[] }).asked);
    expect(new Set(asked)).toEqual(new Set(['getAll jobs', 'getAllKeys jobs']));
    const rows = await jobs().locator('.sw-jobs-row').count();
    expect(rows).toBeGreaterThan(5);
    expect(rows).toBeLessThanOrEqual(80);
    await jobs().getByRole('searchbox').fill('angstrom job');
    await expect.poll(() => jobs().locator('.sw-jobs-name').allTextContents()).toEqual(['Job 777 for Ångström']);
    await jobs().locator('.sw-jobs-row').dblclick();
    await expect.poll(async () => (await stateOf(page)).doc.name).toBe('Job 777 for Ångström');
  });

  it('go out in one file and come in again: the same ones are left alone, others are kept beside', async () => {
    await toJobs();
    await jobs().locator('summary').click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      jobs().getByRole('button', { name: 'Export the library' }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/^strokewright-jobs-\d{4}-\d\d-\d\d\.jsonl$/);
    const lines = readFileSync(await download.path(), 'utf8')
      .trimEnd()
      .split('\n');
    const jobLines = lines.filter((line) => line.startsWith('{"job"'));
    expect(jobLines.length).toBeGreaterThanOrEqual(1003);
    // A short library: one that is there, one that differs, one that is new, one that is spoilt, and no end.
    const [head, ...rest] = lines;
    const plain = rest.filter((line) => line.includes('"id":"thousand-') && line.includes('"snapshots":[]'));
    const short = [
      head!,
      plain[0]!,
      plain[1]!.replaceAll('for someone', 'as it was last year'),
      plain[2]!.replaceAll(/thousand-/g, 'newcomer-'),
      plain[3]!
        .replaceAll(/thousand-/g, 'spoilt-')
        .replace(/"rodJournal":\{"value":"[^"]*"/, '"rodJournal":{"value":"a big one"'),
      plain[4]!.slice(0, 300),
    ].join('\n');
    const before = await page.evaluate(() => (globalThis as unknown as Kept).strokewright.keeper.library.list());
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      jobs().getByRole('button', { name: 'Import a library…' }).click(),
    ]);
    await chooser.setFiles({ name: 'short.jsonl', mimeType: 'application/jsonl', buffer: Buffer.from(short) });
    const state = () => jobs().locator('.sw-jobs-transfer [role="status"]').textContent();
    await expect
      .poll(state)
      .toBe(
        'short.jsonl: 2 jobs taken in; 1 of them beside a job of the same origin that differs; 1 were here already, the same; 3 problems.',
      );
    const report = (await jobs().locator('.sw-jobs-report li').allTextContents()).join('\n');
    expect(report).toMatch(/line 5, assemblies\[0\]\.crank\.rodJournal: a big one is refused/);
    expect(report).toMatch(/line 6, column \d+: the end of the file is refused/);
    expect(report).toMatch(/whole file/);
    const after = await page.evaluate(() => (globalThis as unknown as Kept).strokewright.keeper.library.list());
    expect(after.jobs.length).toBe(before.jobs.length + 2);
    for (const job of before.jobs) expect(after.jobs.find((one) => one.id === job.id)).toEqual(job);
  });
});

/**
 * The page of lessons and the glossary in a browser: every lesson driven to its end by keys alone and by touch alone, what is said to empty
 * and absurd answers, what is kept, the job left as it was, terms reached from labels.
 */
import { readFileSync } from 'node:fs';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import type { Lesson } from '../../src/build/lesson/index.ts';
import { launch, NARROW, type Opened, type OpenOptions, openPage, settled, WIDE } from '../support/browser.ts';
import { LESSON_FILES, lessonText } from '../support/lessons.ts';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');
const LESSONS = LESSON_FILES.map((file) => JSON.parse(lessonText(file)) as Lesson).sort((a, b) => a.order - b.order);

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

async function open(options: OpenOptions = {}): Promise<void> {
  opened = await openPage(browser, inject('baseUrl'), {
    query: '?demo=bench-rig',
    reducedMotion: 'reduce',
    ...options,
  });
  page = opened.page;
}

/** The page of lessons, by the program's own button; where the bar is short it waits in a menu. */
async function toLessons(press: (button: Locator) => Promise<void> = (button) => button.click()): Promise<void> {
  const button = page.locator('#bar-pages').getByRole('button', { name: 'Lessons', exact: true });
  if (!(await button.isVisible())) await press(page.locator('#bar-menu'));
  await press(button);
  await page.locator('.sw-lesson-list').waitFor();
}

async function violations(): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { target: unknown[] }[] }[] }> };
    };
    return (await axe.run()).violations.flatMap((one) =>
      one.nodes.map((node) => `${one.id} at ${node.target.join(' ')}`),
    );
  });
}

/** A number that is no good guess but a possible one. */
const TYPED: Readonly<Record<string, string>> = { in: '.05 in', mm: '2 mm', deg: '45 deg', '': '1' };

const round = (number: number): Locator => page.locator('.sw-lesson-round').nth(number);

/** Keys from where the focus is until a control has it; all but the last two presses without a look in between. */
async function tabTo(control: Locator): Promise<void> {
  const away = (): Promise<number> =>
    control.evaluate((element) => {
      const all = [
        ...document.querySelectorAll<HTMLElement>('a[href], button, input, select, summary, [tabindex]'),
      ].filter((one) => one.tabIndex >= 0 && !one.hasAttribute('disabled') && one.checkVisibility());
      const { activeElement } = document;
      const from = all.findIndex(
        (one) => one === activeElement || (activeElement?.compareDocumentPosition(one) ?? 0) & 4,
      );
      return activeElement === element ? 0 : Math.max(1, all.indexOf(element as HTMLElement) - from - 1);
    });
  for (let k = 0; k < 40; k++) {
    const presses = await away();
    if (presses === 0) return;
    for (let n = 0; n < Math.max(1, presses - 2); n++) await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not lead to ${control}`);
}

async function byKeys(lesson: Lesson): Promise<void> {
  await tabTo(page.locator(`[data-lesson="${lesson.key}"]`));
  await page.keyboard.press('Enter');
  await page.locator('.sw-lesson h2').waitFor();
  for (const [k, { predict }] of lesson.rounds.entries()) {
    const here = round(k);
    if (predict.by === 'choice') {
      await tabTo(here.getByRole('radio').first());
      await page.keyboard.press('Space');
    } else if (predict.by === 'number') {
      await tabTo(here.getByRole('textbox'));
      await page.keyboard.type(TYPED[predict.unit]!);
    } else {
      await tabTo(here.getByRole('slider'));
      await page.keyboard.press('PageUp');
      await page.keyboard.press('PageDown');
      await page.keyboard.press('PageDown');
    }
    await tabTo(here.getByRole('button', { name: 'Turn the crank and see' }));
    await page.keyboard.press('Enter');
    await here.locator('.sw-lesson-held').waitFor();
    expect(await here.locator('.sw-lesson-held').evaluate((element) => document.activeElement === element)).toBe(true);
    await tabTo(here.getByRole('button', { name: /^(Next question|Play on with it)$/ }));
    await page.keyboard.press('Enter');
  }
  const slider = page.locator('.sw-play-slider').first();
  await tabTo(slider);
  const before = await slider.getAttribute('aria-valuetext');
  await page.keyboard.press('ArrowRight');
  await page.waitForFunction(
    (was) => document.querySelector('.sw-play-slider')!.getAttribute('aria-valuetext') !== was,
    before,
  );
  await tabTo(page.getByRole('button', { name: 'Finish the lesson' }));
  await page.keyboard.press('Enter');
}

async function byTouch(lesson: Lesson): Promise<void> {
  await page.locator(`[data-lesson="${lesson.key}"]`).tap();
  await page.locator('.sw-lesson h2').waitFor();
  for (const [k, { predict }] of lesson.rounds.entries()) {
    const here = round(k);
    if (predict.by === 'choice') await here.locator('.sw-lesson-option').first().tap();
    else if (predict.by === 'number') {
      await here.getByRole('textbox').tap();
      await page.keyboard.type(TYPED[predict.unit]!);
    } else {
      const { width, height } = (await here.getByRole('slider').boundingBox())!;
      await here.getByRole('slider').tap({ position: { x: width * 0.4, y: height * 0.4 } });
    }
    await here.getByRole('button', { name: 'Turn the crank and see' }).tap();
    await here.locator('.sw-lesson-held').waitFor();
    await here.getByRole('button', { name: /^(Next question|Play on with it)$/ }).tap();
  }
  const slider = page.locator('.sw-play-slider').first();
  const before = await slider.getAttribute('aria-valuetext');
  const { width } = (await slider.boundingBox())!;
  await slider.tap({ position: { x: width * 0.9, y: 22 } });
  await page.waitForFunction(
    (was) => document.querySelector('.sw-play-slider')!.getAttribute('aria-valuetext') !== was,
    before,
  );
  await page.getByRole('button', { name: 'Finish the lesson' }).tap();
}

describe('every lesson to its end', () => {
  it('by keys alone; the job is as before, and all that is kept is shown and can be forgotten', async () => {
    await open({ viewport: { width: 1120, height: 720 } });
    const before = await settled(page);
    await toLessons(async (button) => {
      await button.focus();
      await page.keyboard.press('Enter');
    });
    for (const lesson of LESSONS) await byKeys(lesson);
    // The list says so, and the focus is where one left it.
    expect(await page.locator('.sw-lesson-state').allTextContents()).toEqual(LESSONS.map(() => 'Finished'));
    const last = LESSONS.at(-1)!.key;
    expect(await page.locator(`[data-lesson="${last}"]`).evaluate((e) => document.activeElement === e)).toBe(true);
    await page.keyboard.press('Escape');
    expect(await page.locator('#page').getAttribute('data-view')).toBeNull();
    const after = await settled(page);
    expect(after.doc).toEqual(before.doc);
    expect([after.crankAngleRad, after.assembly, after.cylinder, after.picked, after.units, after.canUndo]).toEqual([
      before.crankAngleRad,
      before.assembly,
      before.cylinder,
      before.picked,
      before.units,
      before.canUndo,
    ]);

    await page.reload();
    await page.waitForFunction(() => 'strokewright' in globalThis);
    await toLessons();
    const kept = page.locator('.sw-lesson-kept');
    const stored = await page.evaluate(() => localStorage.getItem('strokewright-lessons'));
    const { lessons } = JSON.parse(stored!) as { lessons: Record<string, { said: string[] }> };
    expect(Object.keys(lessons).sort()).toEqual(LESSONS.map((l) => l.key).sort());
    const shown = (await kept.textContent())!;
    for (const { said } of Object.values(lessons)) for (const text of said) expect(shown).toContain(text);
    // Nothing else of the lessons is kept anywhere.
    expect(Object.keys(JSON.parse(stored!) as object).sort()).toEqual(['lessons', 'version']);
    await kept.getByRole('button', { name: 'Forget it all' }).click();
    expect(await page.evaluate(() => localStorage.getItem('strokewright-lessons'))).toBeNull();
    expect(await page.locator('.sw-lesson-state').count()).toBe(0);
    expect(await kept.textContent()).toContain('Nothing.');
  });

  it('by touch alone, on a telephone', async () => {
    await open({ viewport: NARROW, isMobile: true, hasTouch: true });
    await toLessons((button) => button.tap());
    for (const lesson of LESSONS) await byTouch(lesson);
    expect(await violations()).toEqual([]);
    expect(await page.locator('.sw-lesson-state').allTextContents()).toEqual(LESSONS.map(() => 'Finished'));
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  });
});

describe('a lesson', () => {
  const LEAN = 'pull-at-the-top';
  const answer = async (text: string): Promise<string> => {
    const field = round(0).getByRole('textbox');
    await field.fill(text);
    await round(0).getByRole('button', { name: 'Turn the crank and see' }).click();
    return (await round(0).locator('.sw-lesson-status').textContent())!;
  };

  it('says what is the matter with an empty or absurd answer, and takes a wrong one', async () => {
    await open({ viewport: WIDE, colorScheme: 'dark' });
    await toLessons();
    await page.locator('[data-lesson="what-bottom-does"]').click();
    await page.locator('.sw-lesson h2').waitFor();
    expect(await answer('')).toMatch(/^Write a number first/);
    expect(await round(0).getByRole('textbox').getAttribute('aria-invalid')).toBe('true');
    expect(await answer('abc')).toMatch(/holds no number/);
    expect(await answer('12 parsecs')).toMatch(/can’t be read/);
    expect(await answer('NaN')).toMatch(/not a number/);
    expect(await answer('-5000 in')).toMatch(/below nothing/);
    expect(await answer('90 deg')).toMatch(/is an angle; a length is asked for/);
    expect(await round(0).locator('.sw-lesson-held').count()).toBe(0);
    // A term is drawn from the build of the lesson, not from that of the job.
    await page.locator('.sw-lesson .sw-term', { hasText: 'stroke' }).first().click();
    expect(await page.locator('.sw-glossary figcaption').textContent()).toBe(
      'Drawn from What happens at the bottom, cylinder 1.',
    );
    expect(await page.locator('.sw-glossary svg').textContent()).toBe('3.480 in');
    await page.keyboard.press('Escape');
    expect(await violations()).toEqual([]);
    await answer('.270');
    const told = (await round(0).textContent())!;
    expect(told).toContain('You said .270 in. It is .135 in');
    expect(told).toContain('If you said all of .270 in');
    expect(await violations()).toEqual([]);

    // Left and opened again it goes on where it was.
    await page.getByRole('button', { name: 'All lessons' }).click();
    expect(await page.locator('[data-lesson="what-bottom-does"] .sw-lesson-state').textContent()).toBe(
      'Question 1 of 2 answered',
    );
    await page.locator('[data-lesson="what-bottom-does"]').click();
    await page.locator('.sw-lesson-held', { hasText: 'You said before: .270 in' }).waitFor();
    expect(await page.locator('.sw-lesson-round').count()).toBe(2);
    await page.keyboard.press('Escape');

    await page.locator(`[data-lesson="${LEAN}"]`).click();
    await page.locator('.sw-lesson h2').waitFor();
    await answer('2');
    await round(0).locator('.sw-lesson-held', { hasText: 'You said 2.00. It is 2.00, within .15.' }).waitFor();
  });

  it('turns the crank before the eyes, at once when asked; a file that is no lesson is refused; without storage it works', async () => {
    await open({
      viewport: WIDE,
      reducedMotion: 'no-preference',
      before: () => {
        Object.defineProperty(globalThis, 'localStorage', {
          get: () => {
            throw new Error('storage is off');
          },
        });
      },
    });
    await toLessons();
    expect(await page.locator('.sw-lesson-kept').textContent()).toContain('This browser keeps nothing');
    const picker = page.locator('.sw-lessons-files input');
    const bad = {
      ...JSON.parse(lessonText('fastest-piston.json')),
      figures: { fastest: { is: 'angle of greatest noise' } },
    } as object;
    const file = (content: unknown) => ({
      name: 'own.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(content)),
    });
    await picker.setInputFiles(file(bad));
    const notice = page.locator('.sw-lesson-notice', { hasText: 'own.json can’t be opened' });
    await notice.waitFor();
    expect(await notice.textContent()).toMatch(/figures\.fastest\.is: "angle of greatest noise" is refused/);
    // One of a master's own, never seen before.
    const own = { ...JSON.parse(lessonText('fastest-piston.json')), key: 'my-own', title: 'One of my own' } as object;
    await picker.setInputFiles(file(own));
    await page.locator('.sw-lesson h2', { hasText: 'One of my own' }).waitFor();
    await round(0).getByRole('slider').click();
    const angle = (): Promise<string | null> =>
      page.locator('.sw-lesson .sw-ruler-scale').getAttribute('aria-valuenow');
    // Within the page, so that the machine's load does not decide: after some frames it is on its way, after a second press it is there.
    const turned = await page.evaluate(async () => {
      const go = document.querySelector<HTMLButtonElement>('.sw-lesson-round .sw-button-main')!;
      const told = (): number => document.querySelectorAll('.sw-lesson-held').length;
      const at = (): number =>
        Number(document.querySelector('.sw-lesson .sw-ruler-scale')!.getAttribute('aria-valuenow'));
      go.click();
      while (at() === 0) await new Promise((done) => requestAnimationFrame(done));
      const before = { at: at(), told: told(), says: go.textContent };
      go.click();
      return { before, after: told() };
    });
    expect(turned.before).toMatchObject({ told: 0, says: 'Show it at once' });
    expect(turned.before.at).toBeLessThan(73.2);
    expect(turned.after).toBe(1);
    // K1, encyclopedia page "Piston motion equations": 73.2 degrees.
    expect(await angle()).toBe('73.2');
    // The keys turn the crank of the lesson and not that of the job.
    const job = (): Promise<number> =>
      page.evaluate(
        () =>
          (globalThis as unknown as { strokewright: { store: { state: { crankAngleRad: number } } } }).strokewright
            .store.state.crankAngleRad,
      );
    const before = await job();
    await page.keyboard.press('.');
    expect(Number(await angle())).toBeCloseTo(74.2, 1);
    await page.keyboard.press('t');
    expect(await job()).toBe(before);
    await page.keyboard.press('Escape');
    expect(await page.locator('.sw-lesson-kept').textContent()).toContain('One of my own');
  });
});

describe('the glossary', () => {
  const window = (): Locator => page.locator('.sw-glossary');
  const title = async (): Promise<string> => (await window().locator('h2').textContent())!;

  it('is reached by keys from a field, from a row of the gaps, from the sums, and lists what is in sight', async () => {
    await open({ viewport: WIDE });
    await settled(page);
    await page.locator('#dimensions [data-marked]').first().waitFor();
    const stroke = page.getByRole('textbox', { name: 'Stroke', exact: true });
    await stroke.focus();
    const value = await stroke.inputValue();
    await page.keyboard.press('?');
    expect(await title()).toBe('Stroke');
    expect(await violations()).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await stroke.evaluate((element) => document.activeElement === element)).toBe(true);
    expect(await stroke.inputValue()).toBe(value);
    await page.keyboard.press('F1');
    expect(await title()).toBe('Stroke');
    // A term leads to another, and the drawing is steadied by less motion: a step at a press.
    const drawing = (): Promise<string> => window().locator('svg').innerHTML();
    const still = await drawing();
    await page.getByRole('button', { name: 'Drawing of stroke: turn it' }).focus();
    await page.keyboard.press('Enter');
    expect(await drawing()).not.toBe(still);
    await window().locator('.sw-g-related .sw-term').first().focus();
    await page.keyboard.press('Enter');
    expect(await title()).toBe('Throw');
    await page.keyboard.press('Escape');

    const ribbon = page.locator('#ruler .sw-ruler-row').first();
    await ribbon.focus();
    await page.keyboard.press('F1');
    expect(await window().isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    await page.getByRole('tab', { name: 'All gaps' }).click();
    const row = page.locator('#gaps .sw-gaps-go').first();
    await row.focus();
    await page.keyboard.press('F1');
    expect(await window().isVisible()).toBe(true);
    expect(await window().textContent()).toContain('In the same words');
    await page.keyboard.press('Escape');
    await page.locator('#bar-pages').getByRole('button', { name: 'Shop sums' }).click();
    await page.locator('.sw-sums-name', { hasText: /^Rod ratio$/ }).focus();
    await page.keyboard.press('?');
    expect(await title()).toBe('Rod ratio');
    await page.keyboard.press('Escape');
    // Escape shut the window alone.
    expect(await page.locator('#page').getAttribute('data-view')).toBe('sums');
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.press('F1');
    expect(await title()).toBe('Terms in sight');
    expect(await window().locator('.sw-g-sight li').count()).toBeGreaterThan(5);
    await window().getByRole('button', { name: 'All terms' }).click();
    await page.locator('#glossary').waitFor();
    await page.getByRole('searchbox', { name: 'Search' }).fill('wrist');
    expect(await page.locator('.sw-g-name').allTextContents()).toEqual(['Piston pin']);
  });

  it('is reached by touch: a tap on a plain label, a hold on one that acts; the label still does what it did', async () => {
    await open({ viewport: NARROW, isMobile: true, hasTouch: true, colorScheme: 'dark' });
    await settled(page);
    await page.locator('dt[data-marked]').first().waitFor();
    await page.locator('dt', { hasText: /^Rod ratio$/ }).tap();
    expect(await title()).toBe('Rod ratio');
    expect(await violations()).toEqual([]);
    const small = await window()
      .locator('button')
      .evaluateAll(
        (buttons) => buttons.filter((b) => b.getBoundingClientRect().height < 44 && !b.closest('.sw-g-means')).length,
      );
    expect(small).toBe(0);
    await window().getByRole('button', { name: 'Close' }).tap();
    await page.locator('#side-toggle').tap();
    const label = page.locator('#dimensions label[data-marked]', { hasText: /^Stroke$/ });
    await label.tap();
    expect(await window().isVisible()).toBe(false);
    expect(
      await page.getByRole('textbox', { name: 'Stroke', exact: true }).evaluate((e) => document.activeElement === e),
    ).toBe(true);
    // A finger that stays: no touch of the driver holds, so its events are sent as the browser would.
    await label.dispatchEvent('pointerdown', {
      pointerType: 'touch',
      pointerId: 7,
      button: 0,
      clientX: 40,
      clientY: 300,
      bubbles: true,
      isPrimary: true,
    });
    await page.locator('.sw-glossary:popover-open').waitFor();
    expect(await title()).toBe('Stroke');
    await label.dispatchEvent('pointerup', { pointerType: 'touch', pointerId: 7, bubbles: true });
    await window().getByRole('button', { name: 'Close' }).tap();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  });

  it('looks over the page for labels when parts were added, not while the crank turns', async () => {
    await open({ viewport: WIDE });
    await settled(page);
    await page.locator('dt[data-marked]').first().waitFor();
    const looks = await page.evaluate(async () => {
      const element = Element.prototype.querySelectorAll;
      let count = 0;
      Element.prototype.querySelectorAll = function (this: Element, selector: string) {
        if (this === document.body && selector.startsWith('label, legend')) count += 1;
        return element.call(this, selector);
      } as typeof element;
      const { store } = (globalThis as unknown as { strokewright: { store: { send(c: object): void } } }).strokewright;
      for (let k = 0; k < 30; k++) {
        store.send({ do: 'turn to', crankAngleRad: k / 20 });
        await new Promise((done) => requestAnimationFrame(done));
      }
      Element.prototype.querySelectorAll = element;
      return count;
    });
    expect(looks).toBeLessThanOrEqual(1);
  });
});

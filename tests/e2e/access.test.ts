/**
 * Every screen, that is each page of the right-hand side and each whole page: by axe-core, by its size, by the size of what is hit, and by the keyboard.
 * New pages come in by the tables that the program itself reads.
 */
import type { Browser, Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { axeFinds, cutOff, sidewaysFinds, smallTargets, walkScreens } from '../support/access.ts';
import { frames, launch, type Opened, openPage, type PageWindow, settled, WIDE } from '../support/browser.ts';

/** For hands in gloves, px. */
const TARGET = 44;

let browser: Browser;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, inject('baseUrl'), {
    query: '?demo=bench-rig',
    reducedMotion: 'reduce',
    hasTouch: true,
    isMobile: true,
    viewport: WIDE,
  });
  page = opened.page;
  await settled(page);
});
afterAll(async () => {
  await browser?.close();
});

const walk = (look: () => Promise<string[]>) => walkScreens(page, look);

it('axe-core finds nothing, and everything is large enough for gloves, wide and light', async () => {
  expect(await walk(async () => [...(await axeFinds(page)), ...(await smallTargets(page, TARGET))])).toEqual({});
});

it('contrast holds in the dark; at 320 px nothing runs out at the side, is cut off or too small to hit', async () => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.setViewportSize({ width: 320, height: 640 });
  const look = async () => [
    ...(await axeFinds(page, ['color-contrast'])),
    ...(await sidewaysFinds(page)),
    ...(await cutOff(page)),
    ...(await smallTargets(page, TARGET)),
  ];
  expect(await walk(look)).toEqual({});
  await page.emulateMedia({ colorScheme: 'light' });
});

it('with lines, letters and words set wider nothing is cut off or runs out', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  // As the guideline 1.4.12 has it.
  await page.evaluate(() => {
    const wider = new CSSStyleSheet();
    wider.replaceSync(
      '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-bottom: 2em !important }',
    );
    document.adoptedStyleSheets = [wider];
  });
  expect(await walk(async () => [...(await sidewaysFinds(page)), ...(await cutOff(page))])).toEqual({});
  await page.evaluate(() => {
    document.adoptedStyleSheets = [];
  });
});

it.each([768, 1366, 2560])('at %i px nothing runs out at the side or is cut off', async (width) => {
  await page.setViewportSize({ width, height: 900 });
  expect(await walk(async () => [...(await sidewaysFinds(page)), ...(await cutOff(page))])).toEqual({});
});

it('the keyboard reaches all of the section, each place is marked and in sight', async () => {
  await page.setViewportSize(WIDE);
  await page.evaluate(() => {
    document.body.tabIndex = -1;
    document.body.focus();
  });
  const seen: string[] = [];
  const wrong: string[] = [];
  for (let k = 0; k < 200; k++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement;
      const box = element.getBoundingClientRect();
      const label = element.closest('label') ?? element;
      const over = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, 20));
      // What is marked differs from what it is without the focus: itself, what it is made of, or what it stands in.
      const around = [
        element,
        ...element.querySelectorAll('*'),
        label,
        ...label.querySelectorAll('*'),
        element.parentElement!,
      ];
      const look = () =>
        around
          .map((one) => getComputedStyle(one))
          .map((of) => [
            of.outlineStyle,
            of.outlineWidth,
            of.outlineColor,
            of.borderColor,
            of.boxShadow,
            of.stroke,
            of.strokeWidth,
          ])
          .join();
      const withFocus = look();
      element.blur();
      const without = look();
      element.focus();
      return {
        body: element === document.body,
        name: `${element.tagName} ${element.getAttribute('aria-label') ?? element.textContent?.trim().slice(0, 30) ?? ''} ${element.id}`,
        marked: withFocus !== without,
        inSight:
          over !== null && (label.contains(over) || over.contains(element) || element.parentElement!.contains(over)),
      };
    });
    if (at.body) break;
    if (!at.marked) wrong.push(`${at.name}: no mark`);
    if (!at.inSight) wrong.push(`${at.name}: hidden`);
    seen.push(at.name);
  }
  expect(wrong).toEqual([]);
  // Bar, cylinder, canvas, ruler, transport, tabs, pane: in that order, which is the order on the paper.
  const first = (what: RegExp) => seen.findIndex((name) => what.test(name));
  const order = [/^BUTTON Shop sums/, /^CANVAS/, /Crank angle/, /^BUTTON Turn the crank/, /side-tab-0/, /^INPUT/].map(
    first,
  );
  expect(order.every((at) => at >= 0)).toBe(true);
  expect([...order].sort((a, b) => a - b)).toEqual(order);
});

it('in the colours of the reader’s system what is pressed, chosen or drawn still shows', async () => {
  await page.setViewportSize(WIDE);
  await page.emulateMedia({ forcedColors: 'active' });
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await frames(page);
  const look = await page.evaluate(() => {
    const probe = document.createElement('span');
    const of = (name: string) => {
      probe.style.color = name;
      return getComputedStyle(probe).color;
    };
    document.body.append(probe);
    const system = Object.fromEntries(
      ['Canvas', 'CanvasText', 'Highlight', 'HighlightText'].map((name) => [name, of(name)]),
    );
    probe.remove();
    const styleOf = (selector: string) => getComputedStyle(document.querySelector(selector)!);
    return {
      system,
      pressed: styleOf('.sw-section-tools [aria-pressed="true"]').backgroundColor,
      letters: styleOf('.sw-section-tools [aria-pressed="true"]').color,
      chosen: styleOf('#pages [aria-selected="true"]').borderBottomColor,
      other: styleOf('#pages [aria-selected="false"]').borderBottomColor,
      segment: styleOf('.sw-seg input:checked + span').backgroundColor,
      witness: styleOf('.sw-ribbon-clears').fill,
    };
  });
  const { system } = look;
  expect(system['Canvas']).not.toBe(system['CanvasText']);
  expect(look).toEqual({
    system,
    pressed: system['Highlight'],
    letters: system['HighlightText'],
    chosen: look.chosen,
    other: system['Canvas'],
    segment: system['Highlight'],
    witness: system['CanvasText'],
  });
  expect(look.chosen).not.toBe(look.other);
  // The drawing has the system's paper too: a corner of the canvas.
  const canvas = (await page.locator('#section canvas').boundingBox())!;
  const corner = PNG.sync.read(
    await page.screenshot({ clip: { x: canvas.x + 2, y: canvas.y + 2, width: 2, height: 2 } }),
  );
  expect(system['Canvas']).toBe(`rgb(${[...corner.data.subarray(0, 3)].join(', ')})`);
  await page.emulateMedia({ forcedColors: 'none' });
});

it('with less motion asked for nothing slides', async () => {
  await page.setViewportSize({ width: 900, height: 1000 });
  await page.locator('#side-toggle').click();
  const sliding = await page.evaluate(() =>
    document.getAnimations().map((one) => Number(one.effect?.getComputedTiming().duration ?? 0)),
  );
  expect(sliding.filter((ms) => ms > 1)).toEqual([]);
  await page.keyboard.press('Escape');
  await page.setViewportSize(WIDE);
});

it('the verdict is read out once it has settled, not while a dimension is dragged', async () => {
  const changes = await page.evaluate(async () => {
    const { store } = (globalThis as unknown as PageWindow).strokewright;
    const spoken = document.querySelector('#verdict [aria-live="polite"]')!;
    let said = 0;
    new MutationObserver(() => {
      said += 1;
    }).observe(spoken, { childList: true, characterData: true, subtree: true });
    const stroke = store.state.doc.assemblies.findIndex((one) => one.name === store.state.assembly);
    const path = ['assemblies', stroke, 'crank', 'stroke'] as const;
    const was = store.state.doc.assemblies[stroke]!.crank.stroke.value;
    const number = Number.parseFloat(was);
    const unit = was.replace(/^[\d.]+\s*/, '');
    for (let k = 1; k <= 20; k++) {
      store.send({
        do: 'set dimension',
        path,
        text: `${(number - k * number * 0.001).toFixed(4)} ${unit}`,
        last: false,
      });
      await new Promise(requestAnimationFrame);
    }
    const whileDragged = said;
    store.send({ do: 'set dimension', path, text: `${(number * 0.98).toFixed(4)} ${unit}`, last: true });
    return { whileDragged, was };
  });
  expect(changes.whileDragged).toBe(0);
  await settled(page);
  expect(await page.locator('#verdict [aria-live="polite"]').textContent()).toContain(
    (await page.locator('.sw-verdict-headline').textContent()) ?? '?',
  );
  expect(opened.complaints).toEqual([]);
});

it('the note of the first start comes once, is put away by a key and stands in nobody’s way', async () => {
  await opened.close();
  opened = await openPage(browser, inject('baseUrl'), { query: '?demo=bench-rig', firstStart: true });
  page = opened.page;
  const note = page.locator('#first-note');
  expect(await note.textContent()).toMatch(
    /planning aid.*by hand.*part maker’s.*local safety rules.*qualified crankshaft grinder/,
  );
  // Everything else can be used meanwhile.
  await page.locator('#transport').getByRole('button', { name: '+10°' }).click();
  await note.getByRole('button').focus();
  await page.keyboard.press('Enter');
  expect(await note.count()).toBe(0);
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('side-toggle');
  await page.reload();
  await page.waitForFunction(() => 'strokewright' in globalThis);
  expect(await note.count()).toBe(0);
});

it('where the browser keeps nothing the note comes each time, and can be put away', async () => {
  await opened.close();
  opened = await openPage(browser, inject('baseUrl'), {
    query: '?demo=bench-rig',
    firstStart: true,
    before: () => {
      Object.defineProperty(globalThis, 'localStorage', {
        get: () => {
          throw new DOMException('switched off', 'SecurityError');
        },
      });
    },
  });
  page = opened.page;
  await page.locator('#first-note').getByRole('button').click();
  expect(await page.locator('#first-note').count()).toBe(0);
  expect(opened.complaints).toEqual([]);
});

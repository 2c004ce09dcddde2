/** What can be measured of a screen: what runs out at the side, what is too small to hit, what is cut off; and what axe-core finds. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');

interface Axe {
  readonly axe: {
    run(
      options: object,
    ): Promise<{ violations: { id: string; nodes: { target: unknown[]; failureSummary: string }[] }[] }>;
  };
}

/** Rules of the guidelines A and AA up to 2.2, with those that axe-core has as good practice; `only` names single rules. */
export async function axeFinds(page: Page, only?: readonly string[]): Promise<string[]> {
  // Not as a script of the page: its policy allows none but its own.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  return page.evaluate(async (rules) => {
    const runOnly = rules ?? ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await (globalThis as unknown as Axe).axe.run({ runOnly, resultTypes: ['violations'] });
    return found.violations.flatMap((one) =>
      one.nodes.map((node) => `${one.id} at ${node.target.join(' ')}: ${node.failureSummary.replaceAll('\n', ' ')}`),
    );
  }, only);
}

/**
 * How far the page can be pushed sideways, px, and what sticks out of the window where nothing can be scrolled to reach it.
 * Boxes that scroll by themselves (tables, drawings) may hold what is wider.
 */
export function sidewaysFinds(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const said: string[] = [];
    const more = document.documentElement.scrollWidth - document.documentElement.clientWidth;
    if (more > 0) said.push(`the page is ${more} px too wide`);
    for (const element of document.querySelectorAll<HTMLElement>('body *')) {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.sw-unseen, svg, canvas') !== null)
        continue;
      const box = element.getBoundingClientRect();
      if (box.width === 0 || box.height === 0 || (box.right <= innerWidth + 1 && box.left >= -1)) continue;
      let scrolls = false;
      for (let up = element.parentElement; up !== null; up = up.parentElement) {
        if (/auto|scroll/.test(getComputedStyle(up).overflowX) && up.scrollWidth > up.clientWidth) scrolls = true;
      }
      if (!scrolls)
        said.push(`${element.tagName} .${element.className} ${Math.round(box.left)}..${Math.round(box.right)}`);
    }
    return said.slice(0, 12);
  });
}

/** Controls whose place to hit is less than `px` high or wide. A tick box is hit by its label too; a link within a sentence is let be. */
export function smallTargets(page: Page, px: number): Promise<string[]> {
  return page.evaluate((least) => {
    const controls =
      'button, a[href], input, select, textarea, summary, [role="slider"], [role="radio"], [role="tab"], [role="button"]';
    const said: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>(controls)) {
      if (!element.checkVisibility({ visibilityProperty: true, opacityProperty: false })) continue;
      if (element.closest('.sw-unseen, [inert]') !== null) continue;
      const ticked = element.matches('input[type="checkbox"], input[type="radio"]');
      const hit = ticked ? (element.closest('label') ?? element.parentElement ?? element) : element;
      const box = hit.getBoundingClientRect();
      if (box.width <= 1 || box.height <= 1) continue;
      if (element.matches('a') && getComputedStyle(element).display === 'inline') continue;
      if (box.height < least - 0.5 || box.width < least - 0.5) {
        const name =
          element.getAttribute('aria-label') ?? (element.textContent?.trim() || element.className.toString());
        said.push(
          `${element.tagName} ${element.className.toString()} "${name.slice(0, 30)}" ${Math.round(box.width)}x${Math.round(box.height)}`,
        );
      }
    }
    return [...new Set(said)];
  }, px);
}

/** Words that are cut off: boxes that hide what does not fit in them, and hold words. */
export function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const said: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('body *')) {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.sw-unseen, svg') !== null)
        continue;
      const style = getComputedStyle(element);
      if (style.clipPath !== 'none') continue;
      if (!/hidden|clip/.test(style.overflowX + style.overflowY) || element.matches('input, select, textarea, canvas'))
        continue;
      if (![...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== ''))
        continue;
      const wide = element.scrollWidth - element.clientWidth;
      const high = element.scrollHeight - element.clientHeight;
      if (wide > 1 || high > 2)
        said.push(`${element.tagName} .${element.className} "${element.textContent?.slice(0, 40)}" by ${wide}x${high}`);
    }
    return [...new Set(said)];
  });
}

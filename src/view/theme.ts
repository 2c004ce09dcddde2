/**
 * The ink of the picture: light and dark, taken from the style sheet's custom properties so that page and drawing
 * share one set. The choice is the reader's system setting unless the page carries `data-theme`.
 */

export type ThemeChoice = 'system' | 'light' | 'dark';

/** Colours as numbers 0xRRGGBB, and how strong the hatching is (0 to 1). */
export interface Ink {
  readonly paper: number;
  readonly ink: number;
  readonly faint: number;
  readonly hatchAlpha: number;
  readonly clears: number;
  readonly tight: number;
  readonly contact: number;
  readonly unproven: number;
  readonly accent: number;
}

function colour(style: CSSStyleDeclaration, name: string): number {
  const text = style.getPropertyValue(name).trim();
  if (/^[a-z]+$/i.test(text)) return systemColour(text);
  if (!/^#[0-9a-f]{6}$/i.test(text)) throw new Error(`The style sheet gives no colour for ${name}: "${text}"`);
  return Number.parseInt(text.slice(1), 16);
}

/** A colour of the reader's system by its name, such as CanvasText: only a styled element tells what it is. */
function systemColour(name: string): number {
  const probe = document.createElement('span');
  probe.style.color = name;
  document.documentElement.append(probe);
  const parts = getComputedStyle(probe).color.match(/\d+/g) ?? [];
  probe.remove();
  const [red = 0, green = 0, blue = 0] = parts.map(Number);
  return (red << 16) | (green << 8) | blue;
}

/** Reads the ink now in force from the document's root; throws if the style sheet is not loaded. */
export function readInk(): Ink {
  const style = getComputedStyle(document.documentElement);
  return {
    paper: colour(style, '--sw-paper'),
    ink: colour(style, '--sw-ink'),
    faint: colour(style, '--sw-faint'),
    hatchAlpha: Number(style.getPropertyValue('--sw-hatch-strength')),
    clears: colour(style, '--sw-clears'),
    tight: colour(style, '--sw-tight'),
    contact: colour(style, '--sw-contact'),
    unproven: colour(style, '--sw-unproven'),
    accent: colour(style, '--sw-accent'),
  };
}

/** Puts the page into a theme; `system` follows the reader's own setting. */
export function setTheme(choice: ThemeChoice): void {
  const root = document.documentElement;
  if (choice === 'system') root.removeAttribute('data-theme');
  else root.setAttribute('data-theme', choice);
}

export function themeChoice(): ThemeChoice {
  const said = document.documentElement.getAttribute('data-theme');
  return said === 'light' || said === 'dark' ? said : 'system';
}

/** Calls back whenever the ink in force may have changed; returns the way to stop. */
export function watchTheme(changed: () => void): () => void {
  const media = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)'].map((asked) =>
    matchMedia(asked),
  );
  for (const one of media) one.addEventListener('change', changed);
  const observer = new MutationObserver(changed);
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  return () => {
    for (const one of media) one.removeEventListener('change', changed);
    observer.disconnect();
  };
}

/** Whether the reader asked for less motion. */
export function wantsLessMotion(): boolean {
  return matchMedia('(prefers-reduced-motion: reduce)').matches;
}

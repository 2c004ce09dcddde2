/**
 * The pages that take the place of the section: fetched when first asked for, shown by a mark on the page, left by the same
 * button of the bar, a way back of their own, or Escape.
 */
import type { Given, Page, PageEntry } from './page.ts';

export interface WholePages {
  /** For the bar: one button a page. */
  readonly buttons: readonly HTMLButtonElement[];
  /** Brings a page up by its name; a name that no page has is an error. */
  readonly open: (name: string) => void;
  /** One step back; false when no page was up. */
  readonly back: () => boolean;
}

export function createWholePages(
  page: HTMLElement,
  entries: readonly PageEntry[],
  given: Omit<Given, 'close' | 'open'>,
): WholePages {
  const made = new Map<string, Page>();
  /** What was asked for last, while it is being fetched and after. */
  let wanted: string | null = null;
  let up: string | null = null;

  const hosts = new Map<string, HTMLElement>();
  const buttons = entries.map((entry) => {
    const host = document.createElement('section');
    host.className = 'sw-whole';
    host.id = `page-${entry.name}`;
    host.setAttribute('aria-label', entry.label);
    host.hidden = true;
    page.append(host);
    hosts.set(entry.name, host);
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'sw-button';
    button.textContent = entry.label;
    button.setAttribute('aria-controls', host.id);
    button.setAttribute('aria-pressed', 'false');
    button.addEventListener('click', () => (up === entry.name ? close() : open(entry.name)));
    return button;
  });
  const buttonOf = (name: string): HTMLButtonElement => buttons[entries.findIndex((one) => one.name === name)]!;

  function leave(): void {
    if (up === null) return;
    made.get(up)?.hidden?.();
    hosts.get(up)!.hidden = true;
    buttonOf(up).setAttribute('aria-pressed', 'false');
    delete page.dataset['view'];
    up = null;
  }

  function close(): void {
    const left = up;
    wanted = null;
    leave();
    if (left === null) return;
    // Where its button waits in a folded menu, the menu's own button takes the focus.
    const button = buttonOf(left);
    if (button.checkVisibility()) button.focus();
    else document.getElementById('bar-menu')?.focus();
  }

  function open(name: string): void {
    const entry = entries.find((one) => one.name === name);
    if (entry === undefined) throw new Error(`there is no page ${name}`);
    wanted = name;
    const ready = made.get(name);
    if (ready !== undefined) {
      show(name, ready);
      return;
    }
    void entry.load().then(
      ({ createPage }) => {
        const host = hosts.get(name)!;
        const fresh = made.get(name) ?? createPage(host, { ...given, close, open });
        made.set(name, fresh);
        if (wanted === name) show(name, fresh);
      },
      (reason: unknown) => {
        if (wanted !== name) return;
        wanted = null;
        const said = reason instanceof Error ? reason.message : String(reason);
        hosts.get(name)!.textContent =
          `${entry.label} can’t be shown: ${said}. Load the program anew when it can be reached.`;
        show(name, {});
      },
    );
  }

  function show(name: string, shown: Page): void {
    if (up === name) return;
    leave();
    up = name;
    page.dataset['view'] = name;
    hosts.get(name)!.hidden = false;
    buttonOf(name).setAttribute('aria-pressed', 'true');
    shown.shown?.();
  }

  return {
    buttons,
    open,
    back: () => {
      if (up === null) return false;
      if (made.get(up)?.back?.()) return true;
      close();
      return true;
    },
  };
}

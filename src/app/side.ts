/** The right-hand side: one page of several at a time, chosen by tabs; on smaller screens a drawer or a sheet. */

/** A page is one entry of the list in main.ts, in the order of the tabs; its elements stand in index.html. */
export interface SidePage {
  readonly label: string;
  readonly parts: readonly HTMLElement[];
  /** Runs each time before the page appears. */
  readonly shown?: () => void;
}

export interface Side {
  readonly toggle: () => void;
  /** Brings a page up by its label, opening the side where it was shut. A label that no page has is an error. */
  readonly show: (label: string) => void;
  /** One step back: to the first page, then the drawer shut. False when there was nothing to go back from. */
  readonly back: () => boolean;
}

const WIDE = '(min-width: 68.75em)';

/** Most tabs in a row: four names of ten letters fit beside one another in 320 px. */
const MOST_IN_A_ROW = 4;

/** Tabs in a row, so that the rows come out as even as they can: 3, then 2 + 2, 3 + 2, 3 + 3, 4 + 3, 4 + 4. */
export function tabsInARow(count: number): number {
  return Math.ceil(count / Math.ceil(count / MOST_IN_A_ROW));
}

/** The tab that a key goes to, rows and columns as they are laid out; null for a key that goes nowhere. */
export function tabAfter(key: string, from: number, count: number): number | null {
  const row = tabsInARow(count);
  switch (key) {
    case 'ArrowLeft':
      return (from + count - 1) % count;
    case 'ArrowRight':
      return (from + 1) % count;
    case 'ArrowUp':
      return from - row >= 0 ? from - row : null;
    case 'ArrowDown':
      return from + row < count ? from + row : null;
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return null;
  }
}

export function createSide(page: HTMLElement, host: HTMLElement, pages: readonly SidePage[]): Side {
  let shown = 0;
  /** How far down each page was read when it was left. */
  const readTo = pages.map(() => 0);
  const scroller = host.parentElement!;
  const tabs = pages.map(({ label, parts }, k) => {
    const made = document.createElement('button');
    made.type = 'button';
    made.id = `side-tab-${k}`;
    made.setAttribute('role', 'tab');
    made.setAttribute('aria-controls', parts.map((part) => part.id).join(' '));
    made.textContent = label;
    made.dataset['label'] = label;
    made.addEventListener('click', () => show(k));
    for (const part of parts) {
      part.setAttribute('role', 'tabpanel');
      part.setAttribute('aria-labelledby', made.id);
    }
    return made;
  });
  const show = (wanted: number): void => {
    readTo[shown] = scroller.scrollTop;
    pages[wanted]!.shown?.();
    shown = wanted;
    pages.forEach(({ parts }, k) => {
      for (const part of parts) part.hidden = k !== wanted;
    });
    tabs.forEach((tab, k) => {
      tab.setAttribute('aria-selected', String(k === wanted));
      tab.tabIndex = k === wanted ? 0 : -1;
    });
    title.textContent = pages[wanted]!.label;
    scroller.scrollTop = readTo[wanted]!;
  };
  const list = document.createElement('div');
  list.setAttribute('role', 'tablist');
  list.setAttribute('aria-label', 'Right-hand side');
  list.style.setProperty('--sw-tabs-in-a-row', String(tabsInARow(pages.length)));
  list.addEventListener('keydown', (event) => {
    const next = tabAfter(event.key, shown, tabs.length);
    if (next === null) return;
    show(next);
    tabs[shown]!.focus();
    event.preventDefault();
  });
  list.append(...tabs);
  // Where the side lies over the section its name and the way back stay in sight while the tabs scroll away.
  const head = document.createElement('div');
  head.className = 'sw-pages-head';
  const title = document.createElement('span');
  title.setAttribute('aria-hidden', 'true');
  const close = document.createElement('button');
  close.type = 'button';
  close.textContent = 'Close';
  close.addEventListener('click', () => shut());
  head.append(title, close);
  host.replaceChildren(head, list);
  show(0);

  const isOpen = (): boolean => {
    const said = page.dataset['pane'];
    return matchMedia(WIDE).matches ? said !== 'folded' : said === 'open';
  };
  const set = (open: boolean): void => {
    page.dataset['pane'] = matchMedia(WIDE).matches ? (open ? 'shown' : 'folded') : open ? 'open' : 'shut';
    document.getElementById('side-toggle')?.setAttribute('aria-expanded', String(open));
  };
  const shut = (): void => {
    set(false);
    document.getElementById('side-toggle')?.focus();
  };
  return {
    toggle: () => {
      const open = !isOpen();
      set(open);
      if (open) tabs[shown]!.focus();
    },
    show: (label) => {
      const wanted = pages.findIndex((one) => one.label === label);
      if (wanted < 0) throw new Error(`the right-hand side has no page ${label}`);
      set(true);
      show(wanted);
      tabs[shown]!.focus();
    },
    back: () => {
      if (shown !== 0) {
        show(0);
        tabs[0]!.focus();
        return true;
      }
      if (!matchMedia(WIDE).matches && isOpen()) {
        shut();
        return true;
      }
      return false;
    },
  };
}

/** The right-hand side: one page of several at a time; on smaller screens a drawer or a sheet. */

export interface SidePage {
  readonly label: string;
  readonly parts: readonly HTMLElement[];
}

export interface Side {
  readonly toggle: () => void;
  /** One step back: to the first page, then the drawer shut. False when there was nothing to go back from. */
  readonly back: () => boolean;
}

const WIDE = '(min-width: 1100px)';

export function createSide(page: HTMLElement, host: HTMLElement, pages: readonly SidePage[]): Side {
  let shown = 0;
  const tabs = pages.map(({ label, parts }, k) => {
    const made = document.createElement('button');
    made.type = 'button';
    made.setAttribute('role', 'tab');
    made.setAttribute('aria-controls', parts.map((part) => part.id).join(' '));
    made.textContent = label;
    made.addEventListener('click', () => show(k));
    return made;
  });
  const show = (wanted: number): void => {
    shown = wanted;
    pages.forEach(({ parts }, k) => {
      for (const part of parts) part.hidden = k !== wanted;
    });
    tabs.forEach((tab, k) => {
      tab.setAttribute('aria-selected', String(k === wanted));
      tab.tabIndex = k === wanted ? 0 : -1;
    });
  };
  const list = document.createElement('div');
  list.setAttribute('role', 'tablist');
  list.setAttribute('aria-label', 'Right-hand side');
  list.addEventListener('keydown', (event) => {
    const way = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : 0;
    if (way === 0) return;
    show((shown + way + tabs.length) % tabs.length);
    tabs[shown]!.focus();
    event.preventDefault();
  });
  list.append(...tabs);
  const close = document.createElement('button');
  close.type = 'button';
  close.className = 'sw-pages-close';
  close.textContent = 'Close';
  close.addEventListener('click', () => shut());
  host.replaceChildren(list, close);
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

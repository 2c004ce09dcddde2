/** The right-hand side: dimensions or gaps, one at a time; on smaller screens a drawer or a sheet. */

export interface Side {
  readonly toggle: () => void;
  /** One step back: the gaps to the dimensions, then the drawer shut. False when there was nothing to go back from. */
  readonly back: () => boolean;
}

const WIDE = '(min-width: 1100px)';

export function createSide(
  page: HTMLElement,
  pages: HTMLElement,
  dimensions: readonly HTMLElement[],
  gaps: HTMLElement,
): Side {
  const tab = (text: string, run: () => void): HTMLButtonElement => {
    const made = document.createElement('button');
    made.type = 'button';
    made.setAttribute('role', 'tab');
    made.textContent = text;
    made.addEventListener('click', run);
    return made;
  };
  let showsGaps = false;
  const show = (wantGaps: boolean): void => {
    showsGaps = wantGaps;
    for (const each of dimensions) each.hidden = wantGaps;
    gaps.hidden = !wantGaps;
    first.setAttribute('aria-selected', String(!wantGaps));
    second.setAttribute('aria-selected', String(wantGaps));
    first.tabIndex = wantGaps ? -1 : 0;
    second.tabIndex = wantGaps ? 0 : -1;
  };
  const first = tab('Dimensions', () => show(false));
  const second = tab('All gaps', () => show(true));
  const list = document.createElement('div');
  list.setAttribute('role', 'tablist');
  list.setAttribute('aria-label', 'Right-hand side');
  list.addEventListener('keydown', (event) => {
    if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
    show(!showsGaps);
    (showsGaps ? second : first).focus();
    event.preventDefault();
  });
  list.append(first, second);
  const close = document.createElement('button');
  close.type = 'button';
  close.className = 'sw-pages-close';
  close.textContent = 'Back to the section';
  close.addEventListener('click', () => shut());
  pages.replaceChildren(list, close);
  show(false);

  const openState = (): 'open' | 'shut' => {
    const said = page.dataset['pane'];
    if (matchMedia(WIDE).matches) return said === 'folded' ? 'shut' : 'open';
    return said === 'open' ? 'open' : 'shut';
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
      const open = openState() === 'shut';
      set(open);
      if (open) (showsGaps ? second : first).focus();
    },
    back: () => {
      if (showsGaps) {
        show(false);
        first.focus();
        return true;
      }
      if (!matchMedia(WIDE).matches && openState() === 'open') {
        shut();
        return true;
      }
      return false;
    },
  };
}

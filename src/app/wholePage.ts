/** Pages that take the place of the section: shown by a mark on the page, left by the same button, a way back, or Escape. */

export interface WholePage {
  readonly toggle: () => void;
  readonly close: () => void;
  /** Closes it if it is open; false when there was nothing to close. */
  readonly back: () => boolean;
}

/** `parts` stand in index.html, hidden; `button` says whether they are shown. `opened` runs each time before they appear. */
export function createWholePage(
  page: HTMLElement,
  name: string,
  parts: readonly HTMLElement[],
  button: HTMLButtonElement,
  opened: () => void,
): WholePage {
  const isOpen = (): boolean => page.dataset['view'] === name;
  const set = (open: boolean): void => {
    if (open) {
      opened();
      page.dataset['view'] = name;
    } else delete page.dataset['view'];
    for (const part of parts) part.hidden = !open;
    button.setAttribute('aria-pressed', String(open));
    if (!open) button.focus();
  };
  button.setAttribute('aria-pressed', 'false');
  return {
    toggle: () => set(!isOpen()),
    close: () => set(false),
    back: () => {
      if (!isOpen()) return false;
      set(false);
      return true;
    },
  };
}

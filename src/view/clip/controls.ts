/** The few kinds of controls that the sections of what is handed out share. */
import { html } from '../element.ts';

export function button(text: string, run: () => void, main = false): HTMLButtonElement {
  const made = html('button', { type: 'button', class: `sw-button${main ? ' sw-button-main' : ''}` }, text);
  made.addEventListener('click', run);
  return made;
}

export function tick(
  label: string,
  on: boolean,
  changed: () => void,
): { readonly row: HTMLElement; readonly box: HTMLInputElement } {
  const box = html('input', { type: 'checkbox' });
  box.checked = on;
  box.addEventListener('change', changed);
  return { row: html('label', { class: 'sw-clip-tick' }, box, label), box };
}

/** A list to choose from; the first entry, or `chosen`, is chosen. */
export function choice<T extends string>(
  label: string,
  entries: readonly (readonly [T, string])[],
  changed: () => void,
  chosen?: T,
): {
  readonly row: HTMLElement;
  readonly value: () => T;
  /** Other entries; what was chosen by hand stays chosen while it is there, else it is the first. */
  readonly offer: (entries: readonly (readonly [T, string])[]) => void;
} {
  const select = html('select', { 'aria-label': label });
  let byHand = false;
  const offer = (list: readonly (readonly [T, string])[]): void => {
    const before = select.value;
    select.replaceChildren(...list.map(([value, text]) => new Option(text, value)));
    if (byHand && list.some(([value]) => value === before)) select.value = before;
  };
  offer(entries);
  if (chosen !== undefined) select.value = chosen;
  select.addEventListener('change', () => {
    byHand = true;
    changed();
  });
  return { row: html('label', { class: 'sw-clip-choice' }, label, select), value: () => select.value as T, offer };
}

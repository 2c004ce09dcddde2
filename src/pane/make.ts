/** Makes one element of the pane: tag, text and class; nothing is read as markup. */
export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  text = '',
  className = '',
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (text !== '') made.textContent = text;
  if (className !== '') made.className = className;
  return made;
}

export function button(text: string, run: () => void): HTMLButtonElement {
  const made = make('button', text, 'sw-button');
  made.type = 'button';
  made.addEventListener('click', run);
  return made;
}

let count = 0;

/** A field under its label; the label is tied to the field. */
export function labelled(text: string, field: HTMLElement, className = ''): HTMLDivElement {
  const made = make('div', '', `sw-mock_field ${className}`.trim());
  const label = make('label', text);
  count += 1;
  field.id = `sw-field-${count}`;
  label.htmlFor = field.id;
  made.append(label, field);
  return made;
}

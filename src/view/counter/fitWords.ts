/** Letters as large as the room for them allows; where even the smaller ones are too many they can be scrolled, by keys too. */
export function fitWords(said: HTMLElement): void {
  const tooHigh = (): boolean => said.scrollHeight > said.clientHeight + 1;
  said.dataset['letters'] = 'large';
  if (tooHigh()) said.dataset['letters'] = 'smaller';
  if (tooHigh()) said.tabIndex = 0;
  else said.removeAttribute('tabindex');
}

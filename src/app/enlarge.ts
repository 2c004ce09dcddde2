/** The button that gives the map most of the page, and gives it back. */
export function createEnlarge(page: HTMLElement): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'sw-button sw-map-enlarge';
  const show = (): void => {
    const large = page.dataset['map'] === 'large';
    button.textContent = large ? 'Smaller map' : 'Larger map';
    button.setAttribute('aria-pressed', String(large));
  };
  button.addEventListener('click', () => {
    if (page.dataset['map'] === 'large') delete page.dataset['map'];
    else page.dataset['map'] = 'large';
    show();
  });
  show();
  return button;
}

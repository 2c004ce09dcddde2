/** What to do first, in one line above the section until it is put away. */

const KEY = 'strokewright.hint';
const STEPS = [
  'Drag the crank to turn it.',
  'Type a dimension, or drag its grip.',
  'Click a ribbon to go to that tight place.',
] as const;

/** Adds the hint to the page unless it was put away before. */
export function createHint(page: HTMLElement): void {
  if (remembered()) return;
  const hint = document.createElement('aside');
  hint.className = 'sw-hint';
  hint.id = 'hint';
  hint.setAttribute('aria-label', 'How to begin');
  const list = document.createElement('ul');
  for (const step of STEPS) {
    const item = document.createElement('li');
    item.textContent = step;
    list.append(item);
  }
  const close = document.createElement('button');
  close.type = 'button';
  close.textContent = 'Put away';
  close.addEventListener('click', () => {
    hint.remove();
    remember();
  });
  hint.append(list, close);
  page.append(hint);
}

/** Where the browser keeps nothing for this page, the hint comes again each time. */
function remembered(): boolean {
  try {
    return localStorage.getItem(KEY) === 'away';
  } catch {
    return false;
  }
}

function remember(): void {
  try {
    localStorage.setItem(KEY, 'away');
  } catch {
    // Nothing is lost but that the hint comes again.
  }
}

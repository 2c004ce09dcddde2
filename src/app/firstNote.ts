/** What the program is and is not, said once at the first start, under the bar; it stands in nobody's way. */

const KEY = 'strokewright.noted';
const WORDS =
  'Before you rely on it: this is a planning aid. Verify every clearance on the real parts, by hand. Limits are the part maker’s. Follow ' +
  'the local safety rules. Whether a crank is strong enough is for a qualified crankshaft grinder to judge.';

/** Adds the note unless it was read before on this machine. */
export function createFirstNote(host: HTMLElement): void {
  if (wasRead()) return;
  const strip = document.createElement('div');
  strip.className = 'sw-keeping';
  strip.id = 'first-note';
  strip.setAttribute('role', 'note');
  const line = document.createElement('p');
  const said = document.createElement('span');
  said.textContent = WORDS;
  const read = document.createElement('button');
  read.type = 'button';
  read.className = 'sw-button';
  read.textContent = 'I have read this';
  read.addEventListener('click', () => {
    strip.remove();
    remember();
    // The focus stays where the note stood, not at the top of the page.
    document.getElementById('side-toggle')?.focus();
  });
  line.append(said, read);
  strip.append(line);
  host.append(strip);
}

/** Where the browser keeps nothing for this page, the note comes again each time. */
function wasRead(): boolean {
  try {
    return localStorage.getItem(KEY) === 'read';
  } catch {
    return false;
  }
}

function remember(): void {
  try {
    localStorage.setItem(KEY, 'read');
  } catch {
    // Nothing is lost but that the note comes again.
  }
}

/** The bar at the top: which build, open and save, paper light or dark, and the way to the dimensions on a narrow screen. */
import type { Store } from '../model/index.ts';
import { setTheme, themeChoice } from '../view/index.ts';
import { DEMOS } from './demos.ts';
import { saveFile } from './files.ts';

export interface BarActions {
  readonly openDemo: (key: string) => void;
  readonly openFile: (file: File) => void;
  readonly toggleSide: () => void;
  readonly toggleSums: () => void;
}

const NEXT_THEME = { system: 'dark', dark: 'light', light: 'system' } as const;
const THEME_WORDS = { system: 'Paper: system', dark: 'Paper: dark', light: 'Paper: light' } as const;

/** Gives back the button of the shop's sums, which belongs to the page that it opens. */
export function createBar(host: HTMLElement, store: Store, shownDemo: string, actions: BarActions): HTMLButtonElement {
  const title = document.createElement('h1');
  title.textContent = 'Strokewright';

  const choose = document.createElement('select');
  for (const demo of DEMOS) choose.append(new Option(demo.label, demo.key));
  const own = new Option('', 'own');
  choose.value = shownDemo;
  choose.addEventListener('change', () => {
    if (choose.value !== 'own') actions.openDemo(choose.value);
  });
  const label = document.createElement('label');
  label.append('Build', choose);

  const picker = document.createElement('input');
  picker.type = 'file';
  picker.accept = '.json,application/json';
  picker.hidden = true;
  picker.addEventListener('change', () => {
    const file = picker.files?.[0];
    if (file !== undefined) actions.openFile(file);
    picker.value = '';
  });
  const open = button('Open file', () => picker.click());
  const save = button('Save file', () => saveFile(store.state.doc));
  const theme = button(THEME_WORDS[themeChoice()], () => {
    setTheme(NEXT_THEME[themeChoice()]);
    theme.textContent = THEME_WORDS[themeChoice()];
  });
  const sums = button('Shop sums', actions.toggleSums);
  sums.setAttribute('aria-controls', 'sums');
  // On a narrow screen sums, files and paper wait behind one button.
  const more = document.createElement('span');
  more.className = 'sw-bar-more';
  more.id = 'bar-more';
  more.append(sums, open, save, theme);
  const menu = button('More', () => {
    const opened = host.toggleAttribute('data-more');
    menu.setAttribute('aria-expanded', String(opened));
  });
  menu.classList.add('sw-bar-menu');
  menu.setAttribute('aria-expanded', 'false');
  menu.setAttribute('aria-controls', more.id);
  const side = button('Dimensions and gaps', actions.toggleSide);
  side.id = 'side-toggle';
  side.setAttribute('aria-controls', 'side');
  host.replaceChildren(title, label, picker, more, side, menu);

  // A build opened from a file takes its own line in the list.
  store.watch((state, changed) => {
    if (!changed.has('document')) return;
    const demo = DEMOS.find((d) => d.key === choose.value);
    if (demo?.text.includes(JSON.stringify(state.doc.name))) return;
    own.text = state.doc.name;
    if (!own.isConnected) choose.append(own);
    choose.value = 'own';
  });
  return sums;
}

function button(text: string, run: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.className = 'sw-button';
  made.textContent = text;
  made.addEventListener('click', run);
  return made;
}

/** The bar at the top: which build, the pages that take the place of the section, open and save, paper light or dark, and the way to the dimensions. */
import type { Store } from '../model/index.ts';
import type { Keeper } from '../model/jobs/kept.ts';
import { setTheme, themeChoice } from '../view/index.ts';
import { DEMOS } from './demos.ts';
import { saveFile } from './files.ts';

export interface BarActions {
  readonly openDemo: (key: string) => void;
  readonly openFile: () => void;
  readonly toggleSide: () => void;
}

const NEXT_THEME = { system: 'dark', dark: 'light', light: 'system' } as const;
const THEME_WORDS = { system: 'Paper: system', dark: 'Paper: dark', light: 'Paper: light' } as const;

/** `pages` are the buttons of the pages, made by those that show them. */
export function createBar(
  host: HTMLElement,
  store: Store,
  keeper: Keeper,
  pages: readonly HTMLButtonElement[],
  actions: BarActions,
): void {
  const title = document.createElement('h1');
  title.textContent = 'Strokewright';

  const choose = document.createElement('select');
  for (const demo of DEMOS) choose.append(new Option(demo.label, demo.key));
  const own = new Option('', 'own');
  choose.addEventListener('change', () => {
    if (choose.value !== 'own') actions.openDemo(choose.value);
  });
  const label = document.createElement('label');
  label.append('Build', choose);

  const open = button('Open file', actions.openFile);
  const save = button('Save file', () => saveFile(store.state.doc));
  const theme = button(THEME_WORDS[themeChoice()], () => {
    setTheme(NEXT_THEME[themeChoice()]);
    theme.textContent = THEME_WORDS[themeChoice()];
  });
  // Where the bar is short, files and paper wait behind one button; on a narrow screen the pages too.
  const places = document.createElement('nav');
  places.className = 'sw-bar-pages';
  places.id = 'bar-pages';
  places.setAttribute('aria-label', 'Pages');
  places.append(...pages);
  const more = document.createElement('span');
  more.className = 'sw-bar-more';
  more.id = 'bar-more';
  more.append(open, save, theme);
  const menu = button('More', () => fold(!host.hasAttribute('data-more')));
  const fold = (open: boolean): void => {
    host.toggleAttribute('data-more', open);
    menu.setAttribute('aria-expanded', String(open));
  };
  menu.id = 'bar-menu';
  menu.classList.add('sw-bar-menu');
  menu.setAttribute('aria-expanded', 'false');
  menu.setAttribute('aria-controls', `${places.id} ${more.id}`);
  for (const page of pages) page.addEventListener('click', () => fold(false));
  const side = button('Dimensions and gaps', actions.toggleSide);
  side.id = 'side-toggle';
  side.setAttribute('aria-controls', 'side');
  host.replaceChildren(title, label, places, more, side, menu);

  // A job takes its own line in the list, under its name; a demonstration is one from its first change on.
  const show = (): void => {
    const { name } = store.state.doc;
    const demo = DEMOS.find((d) => d.text.includes(JSON.stringify(name)));
    document.title = `${name} · Strokewright`;
    if (keeper.state.seat === 'loose' && demo !== undefined) {
      choose.value = demo.key;
      own.remove();
      return;
    }
    own.text = name;
    if (!own.isConnected) choose.append(own);
    choose.value = 'own';
  };
  store.watch((_, changed) => {
    if (changed.has('document')) show();
  });
  keeper.watch(show);
  show();
}

function button(text: string, run: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.className = 'sw-button';
  made.textContent = text;
  made.addEventListener('click', run);
  return made;
}

/** The build as a link: shown, its length told, copied. */
import { linkOf } from '../../model/share/link.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import type { Shown } from '../paper/sections.ts';
import { button } from './controls.ts';

export function createLinkSection(host: HTMLElement, store: Store): Shown {
  const field = html('textarea', {
    class: 'sw-clip-link',
    readonly: '',
    rows: '5',
    'aria-label': 'Link of this build',
  });
  const said = html('p', { class: 'sw-clip-said', role: 'status' });
  const copy = button('Copy the link', () => void put(), true);
  host.replaceChildren(
    html(
      'p',
      {},
      'The whole build stands in the part of the link behind “#”, which a browser sends to nobody. Whoever has the link has the build: names and notes too.',
    ),
    html('div', { class: 'sw-clip-row' }, copy),
    said,
    field,
  );
  let wanted = 0;

  async function make(): Promise<void> {
    const mine = ++wanted;
    if (store.state.refused.length > 0) {
      copy.disabled = true;
      field.value = '';
      said.textContent = 'The build as typed is refused: put it right first.';
      return;
    }
    const link = await linkOf(store.state.doc).catch((error: unknown) => {
      said.textContent = `No link can be made: ${error instanceof Error ? error.message : String(error)}`;
      return null;
    });
    if (mine !== wanted || link === null) return;
    copy.disabled = false;
    field.value = `${location.href.replace(/[?#].*$/, '')}#${link}`;
    said.textContent = `${field.value.length} characters. Some messengers cut links that long: a file goes through everywhere.`;
  }

  async function put(): Promise<void> {
    try {
      await navigator.clipboard.writeText(field.value);
      said.textContent = 'Copied.';
    } catch {
      field.focus();
      field.select();
      said.textContent = 'The browser lets no page copy here. The link is marked: copy it by Ctrl+C or a long press.';
    }
  }

  return { shown: () => void make() };
}

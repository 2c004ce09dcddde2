/** The build as one file that opens from disk: the view for the customer with everything it needs inside. */
import { buildText, withBuild } from '../../model/share/oneFile.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import type { Shown } from '../paper/sections.ts';
import { button } from './controls.ts';

export function createFileSection(host: HTMLElement, store: Store, save: (blob: Blob, end: string) => void): Shown {
  const said = html('p', { class: 'sw-clip-said', role: 'status' });
  const make = button('Save the file', () => void write(), true);
  host.replaceChildren(
    html(
      'p',
      {},
      'One file that opens on any computer or tablet, from disk and without a network: the view for the customer, with this build. Nothing can be changed in it. Names and notes of the build are in it.',
    ),
    html('div', { class: 'sw-clip-row' }, make),
    said,
  );

  async function write(): Promise<void> {
    if (store.state.refused.length > 0) {
      said.textContent = 'The build as typed is refused: put it right first.';
      return;
    }
    let text: string;
    try {
      text = buildText(store.state.doc);
    } catch (error) {
      said.textContent = `No file can be made: ${error instanceof Error ? error.message : String(error)}`;
      return;
    }
    make.disabled = true;
    try {
      const answer = await fetch('./counter.html');
      const page = answer.ok ? withBuild(await answer.text(), text) : null;
      if (page === null) {
        said.textContent = 'The page that goes into the file is not there: this works in the built program only.';
        return;
      }
      const blob = new Blob([page], { type: 'text/html' });
      save(blob, 'for-the-customer.html');
      said.textContent = `Saved: ${(blob.size / 1e6).toFixed(1)} MB.`;
    } catch {
      said.textContent =
        'The page that goes into the file could not be fetched. Load the program once with a network, then it stays here.';
    } finally {
      make.disabled = false;
    }
  }

  return {
    shown: () => {
      said.textContent = '';
    },
  };
}

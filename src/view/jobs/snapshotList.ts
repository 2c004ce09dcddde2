/** The snapshots of one job, newest first, and the way back to each. */
import type { Snapshot } from '../../model/jobs/record.ts';
import { html } from '../element.ts';
import { snapshotWords, when } from './words.ts';

export interface SnapshotActions {
  readonly goBack: (snapshot: Snapshot) => void;
  readonly remove: (snapshot: Snapshot) => void;
}

export function snapshotList(list: readonly Snapshot[], { goBack, remove }: SnapshotActions): HTMLElement {
  const rule =
    'Taken when a job is opened and before going back; of the last day the newest 20 stay, one a day for 30 days, then one in each 30 days. Those with a name stay until they are deleted.';
  if (list.length === 0) return html('p', { class: 'sw-jobs-quiet' }, `None yet. ${rule}`);
  const items = list.map((snapshot) => {
    const said = `${when(snapshot.atMs, Date.now())}, ${snapshotWords(snapshot)}`;
    const back = html(
      'button',
      { type: 'button', class: 'sw-button', 'aria-label': `Go back to the snapshot of ${said}` },
      'Go back',
    );
    const away = html(
      'button',
      { type: 'button', class: 'sw-button', 'aria-label': `Delete the snapshot of ${said}` },
      'Delete',
    );
    back.addEventListener('click', () => goBack(snapshot));
    away.addEventListener('click', () => remove(snapshot));
    return html(
      'li',
      {},
      html('span', { class: 'sw-jobs-said' }, said, html('span', { class: 'sw-jobs-facts' }, snapshot.facts)),
      back,
      away,
    );
  });
  return html(
    'div',
    {},
    html('ul', { class: 'sw-jobs-snapshots' }, ...items),
    html('p', { class: 'sw-jobs-quiet' }, rule),
  );
}

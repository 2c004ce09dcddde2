/** A build that the address brings along: it becomes a job of its own, and the address is plain again. */
import type { Keeper } from '../model/jobs/kept.ts';
import { buildOfLink, isBuildLink } from '../model/share/link.ts';
import { showRefused } from './notice.ts';

export function listenToLinks(keeper: Keeper): void {
  const read = async (): Promise<void> => {
    const { hash } = location;
    if (!isBuildLink(hash)) return;
    history.replaceState(null, '', `${location.pathname}${location.search}`);
    const found = await buildOfLink(hash);
    if (found.ok) await keeper.openNew(found.doc);
    else showRefused('The link', found.problems);
  };
  addEventListener('hashchange', () => void read());
  void read();
}

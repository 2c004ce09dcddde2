/** How the page of jobs says times, what a snapshot is, and what was done. */
import type { Done } from '../../model/jobs/desk.ts';
import type { Snapshot } from '../../model/jobs/record.ts';
import type { Trouble } from '../../model/jobs/trouble.ts';

const clock = new Intl.DateTimeFormat(undefined, { hour: 'numeric', minute: '2-digit' });
const day = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', year: 'numeric' });

/** "today 14:32", "yesterday 08:05", "25 Nov 2026 14:32" */
export function when(atMs: number, nowMs: number): string {
  const at = day.format(atMs);
  const time = clock.format(atMs);
  if (at === day.format(nowMs)) return `today ${time}`;
  if (at === day.format(nowMs - 86_400_000)) return `yesterday ${time}`;
  return `${at} ${time}`;
}

export function snapshotWords(snapshot: Snapshot): string {
  if (snapshot.name !== null) return `“${snapshot.name}”`;
  return snapshot.why === 'opened' ? 'when it was opened' : 'before going back';
}

/** Why something was not done; '' when it was. */
export function doneWords(name: string, done: Done): string {
  if (done === 'open elsewhere') return `“${name}” is open in another tab, and is left alone here.`;
  if (done === 'changed elsewhere') return `“${name}” was changed in another tab meanwhile. Look again and repeat it.`;
  return '';
}

/** What is the matter with the storage, in one sentence or two. */
export function troubleWords(trouble: Trouble): string {
  switch (trouble) {
    case 'nothing is kept':
      return 'This browser keeps nothing for this page: a private window, or storage is switched off. What is done here is gone when the page is closed; save it as a file.';
    case 'full':
      return 'There is no room left to keep jobs in. The last change is not kept yet: save it as a file, delete old jobs for good, or make room on the disk.';
    case 'blocked':
      return 'Another tab holds the job library open, or the browser does not answer. Until it does nothing is kept: close the other tabs of this program and try again, or save a file.';
    case 'newer':
      return 'The job library was written by a later version of this program, and is left as it is. Load the page anew to get that version; until then nothing is kept.';
    case 'unreadable':
      return 'The job library can’t be read. It is left as it is, and nothing is kept while it can’t: save a file.';
    case 'gone':
      return 'The job library was taken away while the page was open. What is on show is still here: try again, or save a file.';
  }
}

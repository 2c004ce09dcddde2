/** The list of jobs: a light row each, so many at a time, more as the list is scrolled to its end or asked for. */
import type { Job } from '../../model/jobs/record.ts';
import { html, setText } from '../element.ts';
import { when } from './words.ts';

/** Rows made at a time: more than a tall window shows. */
export const ROWS_AT_A_TIME = 40;

export interface JobList {
  readonly host: HTMLElement;
  /** `chosen`: the row whose details are shown; `shown`: the job on show. */
  readonly show: (jobs: readonly Job[], chosen: string | null, shown: string | null) => void;
  /** The element of a row, to which details are added on a narrow screen. */
  readonly rowOf: (id: string) => HTMLElement | null;
  readonly focus: (id: string) => void;
}

export interface JobListActions {
  readonly choose: (id: string) => void;
  readonly open: (id: string) => void;
}

export function createJobList({ choose, open }: JobListActions): JobList {
  let jobs: readonly Job[] = [];
  let shownId: string | null = null;
  let chosenId: string | null = null;
  const rows = html('ul', { class: 'sw-jobs-rows' });
  const more = html('button', { type: 'button', class: 'sw-button sw-jobs-more' });
  const host = html('div', { class: 'sw-jobs-list' }, rows, more);
  more.addEventListener('click', () => {
    const first = rows.childElementCount;
    extend();
    rows.children[first]?.querySelector('button')?.focus();
  });
  new IntersectionObserver((entries) => {
    if (entries.some((entry) => entry.isIntersecting)) extend();
  }).observe(more);

  function row(job: Job): HTMLElement {
    const button = html(
      'button',
      { type: 'button', class: 'sw-jobs-row' },
      html('span', { class: 'sw-jobs-name' }, job.name || 'Without a name'),
      html('span', { class: 'sw-jobs-when' }, when(job.changedMs, Date.now())),
      html('span', { class: 'sw-jobs-facts' }, job.facts),
    );
    button.addEventListener('click', () => choose(job.id));
    button.addEventListener('dblclick', () => open(job.id));
    const item = html('li', { 'data-job': job.id }, button);
    mark(item);
    return item;
  }

  function mark(item: HTMLElement): void {
    const id = item.dataset['job'];
    const button = item.querySelector('button')!;
    button.setAttribute('aria-pressed', String(id === chosenId));
    if (id === shownId) button.setAttribute('aria-current', 'true');
    else button.removeAttribute('aria-current');
  }

  function extend(to = rows.childElementCount + ROWS_AT_A_TIME): void {
    rows.append(...jobs.slice(rows.childElementCount, to).map(row));
    const left = jobs.length - rows.childElementCount;
    more.hidden = left <= 0;
    setText(more, `Show more: ${left} of ${jobs.length} are further down`);
  }

  const rowOf = (id: string): HTMLElement | null => rows.querySelector(`[data-job="${CSS.escape(id)}"]`);
  return {
    host,
    show: (next, chosen, shown) => {
      const same = next.length === jobs.length && next.every((job, k) => job === jobs[k]);
      const made = rows.childElementCount;
      [jobs, chosenId, shownId] = [next, chosen, shown];
      if (same && made > 0) {
        for (const item of rows.children) mark(item as HTMLElement);
        return;
      }
      const focused = document.activeElement?.closest<HTMLElement>('[data-job]')?.dataset['job'];
      rows.replaceChildren();
      extend(Math.max(ROWS_AT_A_TIME, Math.min(made, next.length)));
      if (focused !== undefined) rowOf(focused)?.querySelector('button')?.focus();
    },
    rowOf,
    focus: (id) => rowOf(id)?.querySelector('button')?.focus(),
  };
}

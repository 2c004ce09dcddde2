/** The page of jobs: found, chosen, opened, made new; on the right what is known of the one chosen. */
import type { BuildDocument } from '../../build/document.ts';
import type { Keeper } from '../../model/jobs/kept.ts';
import type { Job } from '../../model/jobs/record.ts';
import { type Drawer, drawerOf, found, type Order } from '../../model/jobs/search.ts';
import { StorageError } from '../../model/jobs/storage.ts';
import { html, setText } from '../element.ts';
import { jobDetails, notOpenedNote } from './jobDetails.ts';
import { createJobList } from './jobList.ts';
import { createNewJob, type Start } from './newJob.ts';
import { createTransfer, type TransferActions } from './transfer.ts';
import { troubleWords } from './words.ts';

export interface JobsPageOptions extends Pick<TransferActions, 'send' | 'take'> {
  readonly keeper: Keeper;
  /** What a new job may begin with. */
  readonly starts: readonly Start[];
  readonly openFile: () => void;
  readonly saveFile: (doc: BuildDocument) => void;
  readonly saveRaw: (name: string, content: unknown) => void;
  /** Back to the section. */
  readonly close: () => void;
}

export interface JobsPage {
  readonly shown: () => void;
  readonly hidden: () => void;
  readonly back: () => boolean;
}

const DRAWERS: readonly (readonly [Drawer, string])[] = [
  ['jobs', 'Jobs'],
  ['archived', 'Archive'],
  ['deleted', 'Deleted'],
];
const WIDE = '(min-width: 900px)';

export function createJobsPage(host: HTMLElement, options: JobsPageOptions): JobsPage {
  const { keeper, starts, close } = options;
  let jobs: readonly Job[] = [];
  let unreadable = 0;
  let drawer: Drawer = 'jobs';
  let order: Order = 'changed last';
  let chosen: string | null = null;
  let making = false;
  let up = false;

  const search = html('input', {
    type: 'search',
    id: 'jobs-search',
    autocomplete: 'off',
    placeholder: 'Words of name, layout, bore or stroke',
  });
  const sort = html(
    'select',
    { 'aria-label': 'Order' },
    new Option('Changed last', 'changed last'),
    new Option('By name', 'name'),
  );
  const tabs = DRAWERS.map(([key, label]) => {
    const tab = html('button', { type: 'button', class: 'sw-button' }, label);
    tab.addEventListener('click', () => {
      drawer = key;
      chosen = null;
      show();
    });
    return tab;
  });
  const fresh = html('button', { type: 'button', class: 'sw-button sw-button-main' }, 'New job…');
  const file = html('button', { type: 'button', class: 'sw-button' }, 'Open file…');
  const back = html('button', { type: 'button', class: 'sw-button' }, 'Back to the section');
  const said = html('span', { role: 'status' });
  const undo = html('button', { type: 'button', class: 'sw-button' }, 'Undo');
  const count = html('p', { class: 'sw-jobs-quiet', role: 'status' });
  const trouble = html('p', { class: 'sw-jobs-fault' });
  const aside = html('div');
  const list = createJobList({ choose: (id) => choose(id === chosen && !matchMedia(WIDE).matches ? null : id), open });
  undo.hidden = true;

  const transfer = createTransfer({ send: options.send, take: options.take, tried });
  host.replaceChildren(
    html(
      'header',
      { class: 'sw-jobs-head' },
      html('h2', {}, 'Jobs'),
      fresh,
      file,
      html('p', { class: 'sw-jobs-word' }, said, undo),
      back,
    ),
    trouble,
    html(
      'div',
      { class: 'sw-jobs-body' },
      html(
        'div',
        { class: 'sw-jobs-main' },
        html(
          'div',
          { class: 'sw-jobs-find', role: 'search' },
          html('label', { for: search.id }, 'Find'),
          search,
          html('div', { class: 'sw-jobs-drawers', role: 'group', 'aria-label': 'Which jobs' }, ...tabs),
          sort,
        ),
        count,
        list.host,
      ),
      html('div', { class: 'sw-jobs-aside' }, aside, transfer),
    ),
  );

  fresh.addEventListener('click', () => {
    making = true;
    chosen = null;
    show();
    host.querySelector<HTMLElement>('#new-job-name')?.focus();
  });
  file.addEventListener('click', options.openFile);
  back.addEventListener('click', close);
  search.addEventListener('input', () => show());
  sort.addEventListener('change', () => {
    order = sort.value as Order;
    show();
  });

  function say(words: string, undone?: () => void): void {
    setText(said, words);
    undo.hidden = undone === undefined;
    undo.onclick = () => {
      undo.hidden = true;
      undone?.();
    };
    void look();
  }

  function tried(what: () => Promise<void>): void {
    what().catch((error: unknown) => {
      if (!(error instanceof StorageError)) throw error;
      say(troubleWords(error.trouble));
    });
  }

  function choose(id: string | null): void {
    chosen = id;
    making = false;
    void look();
  }

  function open(id: string): void {
    tried(async () => {
      const failed = await keeper.open(id);
      if (failed === null) {
        close();
        return;
      }
      chosen = id;
      await look();
      const job = jobs.find((one) => one.id === id);
      if (job !== undefined) aside.querySelector('.sw-jobs-details')?.prepend(notOpenedNote(job, failed, options));
    });
  }

  /** Reads the list anew: the small records alone. */
  async function look(): Promise<void> {
    try {
      const listed = await keeper.library.list();
      unreadable = listed.unreadable.length;
      // Rows of jobs that are as they were are left alone.
      const before = new Map(jobs.map((job) => [job.id, job]));
      jobs = listed.jobs.map((job) => (before.get(job.id)?.revision === job.revision ? before.get(job.id)! : job));
    } catch (error) {
      if (!(error instanceof StorageError)) throw error;
      setText(said, troubleWords(error.trouble));
    }
    show();
  }

  let drawn = '';
  function show(): void {
    if (!up) return;
    const { job, trouble: wrong } = keeper.state;
    const shown = found(jobs, drawer, search.value, order);
    tabs.forEach((tab, k) => {
      const [key, label] = DRAWERS[k]!;
      tab.setAttribute('aria-pressed', String(key === drawer));
      setText(tab, `${label} ${jobs.filter((one) => drawerOf(one) === key).length}`);
    });
    trouble.hidden = wrong === null && unreadable === 0;
    const lost = `${unreadable} ${unreadable === 1 ? 'entry' : 'entries'} of the library can’t be read; left as found.`;
    setText(trouble, [...(wrong === null ? [] : [troubleWords(wrong)]), ...(unreadable > 0 ? [lost] : [])].join(' '));
    setText(count, countWords(shown.length, search.value.trim() !== ''));
    list.show(shown, chosen, job?.id ?? null);
    const one = shown.find((each) => each.id === chosen);
    const mark = `${making} ${chosen} ${one?.revision} ${one?.deletedMs} ${job?.id === chosen} ${keeper.state.seat}`;
    if (mark !== drawn || (one !== undefined && !host.contains(details))) {
      drawn = mark;
      details.remove();
      details = making
        ? newForm()
        : one === undefined
          ? hint()
          : jobDetails(one, keeper, { ...options, open, say, tried, choose });
    }
    const place = !matchMedia(WIDE).matches && one !== undefined ? list.rowOf(one.id) : aside;
    if (details.parentElement !== place) (place ?? aside).append(details);
  }

  function countWords(shown: number, searched: boolean): string {
    if (shown > 0) return searched ? `${shown} found` : '';
    if (searched) return 'None has all of these words in its name or figures.';
    if (drawer === 'archived') return 'Nothing is put away.';
    if (drawer === 'deleted') return 'Nothing is deleted.';
    return 'No job is kept yet. Change anything on the build on show, open a file, or begin a new one.';
  }

  const hint = (): HTMLElement =>
    html('p', { class: 'sw-jobs-quiet' }, 'Choose a job to see more of it; a double click opens it.');
  const newForm = (): HTMLElement =>
    createNewJob(
      starts,
      (doc) =>
        tried(async () => {
          making = false;
          await keeper.openNew(doc);
          close();
        }),
      () => {
        making = false;
        show();
        fresh.focus();
      },
    );
  let details: HTMLElement = hint();

  keeper.watch(() => {
    if (up) void look();
  });
  matchMedia(WIDE).addEventListener('change', () => show());
  return {
    shown: () => {
      up = true;
      setText(said, '');
      undo.hidden = true;
      void look();
    },
    hidden: () => {
      up = false;
    },
    back: () => {
      if (!making && chosen === null) return false;
      making = false;
      const was = chosen;
      chosen = null;
      show();
      if (was !== null) list.focus(was);
      else fresh.focus();
      return true;
    },
  };
}

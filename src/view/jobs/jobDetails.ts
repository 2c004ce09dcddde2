/** One job of the list: opened, renamed, copied, put away, deleted and fetched back, saved as a file; and its snapshots. */
import type { BuildDocument } from '../../build/document.ts';
import type { Done } from '../../model/jobs/desk.ts';
import type { Keeper } from '../../model/jobs/kept.ts';
import type { NotOpened } from '../../model/jobs/library.ts';
import type { Job, Snapshot } from '../../model/jobs/record.ts';
import { isName } from '../../model/jobs/search.ts';
import { html } from '../element.ts';
import { snapshotList } from './snapshotList.ts';
import { doneWords, when } from './words.ts';

export interface DetailsActions {
  readonly open: (id: string) => void;
  readonly saveFile: (doc: BuildDocument) => void;
  /** Hands over what is kept of a job that can't be read, as it is. */
  readonly saveRaw: (name: string, content: unknown) => void;
  /** One sentence, shown and spoken; `undo` fetches back what was done. */
  readonly say: (words: string, undo?: () => void) => void;
  /** Runs what may fail for want of a storage, and says so. */
  readonly tried: (what: () => Promise<void>) => void;
  readonly choose: (id: string | null) => void;
}

export function jobDetails(job: Job, keeper: Keeper, actions: DetailsActions): HTMLElement {
  const { say, tried } = actions;
  const isShown = keeper.state.job?.id === job.id;
  const mine = isShown && keeper.state.seat === 'kept';
  const button = (label: string, run: () => void, main = false): HTMLButtonElement => {
    const made = html('button', { type: 'button', class: main ? 'sw-button sw-button-main' : 'sw-button' }, label);
    made.addEventListener('click', run);
    return made;
  };
  /** Something done to the job; said when it was, and why not when it wasn't. */
  const act = (what: () => Promise<Done>, words: string, undo?: () => void): void =>
    tried(async () => {
      const done = await what();
      if (done === 'done') say(words, undo);
      else say(doneWords(job.name, done));
    });

  const facts = html(
    'dl',
    { class: 'sw-jobs-dates' },
    html('dt', {}, 'Changed'),
    html('dd', {}, when(job.changedMs, Date.now())),
    html('dt', {}, 'Begun'),
    html('dd', {}, when(job.createdMs, Date.now())),
  );
  const title = html('h3', { tabindex: '-1' }, job.name || 'Without a name');
  const parts: Node[] = [title, html('p', { class: 'sw-jobs-facts' }, job.facts), facts];

  if (job.deletedMs !== null) {
    const forGood = button('Delete for good', () => {
      const sure = button('Delete for good: it can’t be fetched back', () =>
        act(() => keeper.remove(job.id), `“${job.name}” is deleted for good.`),
      );
      forGood.replaceWith(sure);
      sure.focus();
    });
    parts.push(
      html('p', {}, `Deleted ${when(job.deletedMs, Date.now())}. It goes for good 30 days after that.`),
      html(
        'p',
        { class: 'sw-jobs-do' },
        button('Fetch back', () => act(() => keeper.setDeleted(job.id, null), `“${job.name}” is back.`), true),
        forGood,
      ),
    );
    return html('section', { class: 'sw-jobs-details', 'aria-label': 'The job chosen' }, ...parts);
  }

  const name = html('input', { type: 'text', id: 'job-name', maxlength: '80', autocomplete: 'off' });
  name.value = job.name;
  const rename = html(
    'form',
    { class: 'sw-jobs-line' },
    html('label', { for: name.id }, 'Name'),
    name,
    html('button', { type: 'submit', class: 'sw-button' }, 'Rename'),
  );
  rename.addEventListener('submit', (event) => {
    event.preventDefault();
    const typed = name.value.trim();
    if (!isName(typed)) say('A job has a name of 1 to 80 characters, on one line.');
    else if (typed !== job.name) act(() => keeper.rename(job.id, typed), `Renamed to “${typed}”.`);
  });

  const remove = (): void =>
    act(
      () => keeper.setDeleted(job.id, Date.now()),
      `“${job.name}” is deleted. It stays among the deleted ones for 30 days.${mine ? ' Its build is still on show, and becomes a job of its own once it is changed.' : ''}`,
      () => act(() => keeper.setDeleted(job.id, null), `“${job.name}” is back.`),
    );
  const archive = (): void =>
    act(
      () => keeper.archive(job.id, !job.archived),
      job.archived ? `“${job.name}” is among the jobs again.` : `“${job.name}” is put away in the archive.`,
      () => act(() => keeper.archive(job.id, job.archived), `“${job.name}” is where it was.`),
    );
  const duplicate = (): void =>
    tried(async () => {
      const made = await keeper.duplicate(job.id);
      if (made === null) {
        say(`“${job.name}” can’t be read, and so not be copied.`);
        return;
      }
      say(`Copied as “${made.name}”.`);
      actions.choose(made.id);
    });
  const save = (): void =>
    tried(async () => {
      if (mine) await keeper.flush();
      const found = await keeper.library.open(job.id);
      if ('why' in found) sayNotOpened(found);
      else actions.saveFile(found.refused ?? found.doc);
    });
  const sayNotOpened = (found: NotOpened): void =>
    say(found.why === 'is not there' ? `“${job.name}” is not there any more.` : `“${job.name}” can’t be read.`);

  parts.push(
    html(
      'p',
      { class: 'sw-jobs-do' },
      button(isShown ? 'On show: back to it' : 'Open', () => actions.open(job.id), true),
      button('Save as file', save),
      button('Duplicate', duplicate),
      button(job.archived ? 'Take out of the archive' : 'Archive', archive),
      button('Delete', remove),
    ),
    rename,
  );
  const list = html('div', {}, html('p', { class: 'sw-jobs-quiet' }, 'Looking…'));
  parts.push(html('h4', {}, 'Snapshots'));
  if (mine) parts.push(nameForm());
  parts.push(list);

  function nameForm(): HTMLElement {
    const input = html('input', { type: 'text', id: 'snapshot-name', maxlength: '80', autocomplete: 'off' });
    const form = html(
      'form',
      { class: 'sw-jobs-line' },
      html('label', { for: input.id }, 'As it is now'),
      input,
      html('button', { type: 'submit', class: 'sw-button' }, 'Keep under this name'),
    );
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      const typed = input.value.trim();
      if (typed === '') {
        say('A snapshot kept by hand has a name, such as “before the second cut”.');
        return;
      }
      tried(async () => {
        const made = await keeper.nameSnapshot(typed);
        say(made === null ? 'The build as it is typed is refused; put it right first.' : `Kept as “${typed}”.`);
        await lookUp();
      });
    });
    return form;
  }

  async function goBack(snapshot: Snapshot): Promise<void> {
    if (!isShown) {
      const read = await keeper.snapshots.read(job.id, snapshot.number);
      const failed = read?.ok === true ? await keeper.open(job.id) : null;
      if (failed !== null && failed.why === 'can’t be read' && read?.ok === true) {
        await keeper.openNew(read.doc);
        say(`“${job.name}” can’t be read; the snapshot is on show as a job of its own.`);
        return;
      }
    }
    if (keeper.state.seat !== 'kept') {
      say(doneWords(job.name, 'open elsewhere'));
      return;
    }
    const failed = await keeper.goBack(snapshot.number);
    if (failed !== null) sayNotOpened(failed);
    else say('Gone back. The state before is a snapshot too, and undo leads there.');
  }

  async function lookUp(): Promise<void> {
    const all = await keeper.snapshots.list(job.id);
    list.replaceChildren(
      snapshotList(all, {
        goBack: (snapshot) => tried(() => goBack(snapshot)),
        remove: (snapshot) =>
          tried(async () => {
            await keeper.snapshots.remove(job.id, snapshot.number);
            say('The snapshot is deleted.');
            await lookUp();
          }),
      }),
    );
  }
  tried(lookUp);
  return html('section', { class: 'sw-jobs-details', 'aria-label': 'The job chosen' }, ...parts);
}

/** In the place of the details: why a job can't be opened, and what can still be had of it. */
export function notOpenedNote(job: Job, found: NotOpened, actions: Pick<DetailsActions, 'saveRaw'>): HTMLElement {
  if (found.why === 'is not there') {
    return html('p', { role: 'alert' }, `“${job.name}” is not there any more: another tab has deleted it for good.`);
  }
  const raw = html('button', { type: 'button', class: 'sw-button' }, 'Save what is there');
  raw.addEventListener('click', () => actions.saveRaw(job.name, found.content));
  return html(
    'div',
    { class: 'sw-jobs-fault', role: 'alert' },
    html('p', {}, `“${job.name}” can’t be read. It is left as it is; a snapshot below may still be gone back to.`),
    html(
      'ul',
      {},
      ...found.problems.slice(0, 12).map((p) => html('li', {}, `${p.place}: ${p.value} (${p.rule}). ${p.allowed}`)),
    ),
    raw,
  );
}

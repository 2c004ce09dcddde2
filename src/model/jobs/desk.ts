/** What is done with a job from the list, whether it is the one on show, lies closed, or is open in another tab: then it is left alone. */
import type { KeptStore } from '../state.ts';
import type { Library, NotOpened } from './library.ts';
import type { Job, Snapshot } from './record.ts';
import type { Seats } from './seats.ts';
import type { Snapshots } from './snapshots.ts';

export type Done =
  | 'done'
  /** Another tab works on it. */
  | 'open elsewhere'
  /** Another tab has written it, or taken it out, since the list was read. */
  | 'changed elsewhere';

/** Every one may throw a StorageError; then nothing was done. */
export interface Desk {
  readonly rename: (id: string, name: string) => Promise<Done>;
  readonly archive: (id: string, archived: boolean) => Promise<Done>;
  /** Deletes it so that it can be fetched back, at the time given, or fetches it back (null). The one on show stays there, and is kept anew once it is changed. */
  readonly setDeleted: (id: string, atMs: number | null) => Promise<Done>;
  /** Takes it out for good. */
  readonly remove: (id: string) => Promise<Done>;
  /** A copy; null when the job can't be read. */
  readonly duplicate: (id: string) => Promise<Job | null>;
  /** Goes back to a snapshot of the job on show, as one step; what was there before is a snapshot too. */
  readonly goBack: (snapshot: number) => Promise<NotOpened | null>;
  /** Keeps the job on show, as it is, under a name. Null while its build is refused. */
  readonly nameSnapshot: (name: string) => Promise<Snapshot | null>;
}

export interface DeskOptions {
  readonly library: Library;
  readonly snapshots: Snapshots;
  readonly seats: Seats;
  readonly store: KeptStore;
  readonly flush: () => Promise<void>;
  readonly inTurn: (what: () => Promise<void>) => Promise<void>;
  /** The job on show, if it is this tab that has it. */
  readonly shown: () => Job | null;
  /** The record of the job on show was written anew. */
  readonly rewritten: (job: Job) => void;
  readonly changed: () => void;
}

export function createDesk(options: DeskOptions): Desk {
  const { library, snapshots, seats, store, flush, inTurn, shown, rewritten, changed } = options;

  async function amend(id: string, change: (job: Job) => Promise<Job | null>): Promise<Done> {
    await flush();
    let outcome: Done = 'changed elsewhere';
    await inTurn(async () => {
      const mine = shown();
      if (mine?.id === id) {
        const next = await change(mine);
        if (next === null) return;
        outcome = 'done';
        rewritten(next);
        return;
      }
      const hold = await seats.sit(id, { asked: async () => {}, lost: () => {} });
      if (hold === null) {
        outcome = 'open elsewhere';
        return;
      }
      try {
        const job = await library.job(id);
        if (job !== null && (await change(job)) !== null) outcome = 'done';
      } finally {
        hold.leave();
      }
      changed();
    });
    return outcome;
  }

  return {
    rename: async (id, name) => {
      if (shown()?.id !== id) return amend(id, (job) => library.rename(job, name));
      store.send({ do: 'put', path: ['name'], value: name });
      await flush();
      return 'done';
    },
    archive: (id, archived) => amend(id, (job) => library.mark(job, { archived })),
    setDeleted: (id, atMs) => amend(id, (job) => library.mark(job, { deletedMs: atMs })),
    remove: (id) =>
      amend(id, async (job) => {
        await library.remove([id]);
        return { ...job, deletedMs: job.deletedMs ?? 0 };
      }),
    duplicate: async (id) => {
      await flush();
      const made = await library.duplicate(id);
      changed();
      return made;
    },
    goBack: async (number) => {
      await flush();
      const job = shown();
      const read = job === null ? null : await snapshots.read(job.id, number);
      if (job === null || read === null) return { why: 'is not there' };
      if (!read.ok) return { why: 'can’t be read', problems: read.problems, content: null };
      if (store.state.refused.length === 0) await snapshots.take(job.id, store.state.doc, 'before going back');
      store.send({ do: 'set document', doc: read.doc });
      await flush();
      changed();
      return null;
    },
    nameSnapshot: async (name) => {
      await flush();
      const job = shown();
      if (job === null || store.state.refused.length > 0) return null;
      const made = await snapshots.take(job.id, store.state.doc, 'named', name);
      changed();
      return made;
    },
  };
}

/**
 * A storage that is opened anew when it went away, and that memory stands in for while it can't be had: then the program works as
 * ever, and what is done meanwhile is carried over once the storage is there again.
 */
import { memoryStorage } from './memoryStorage.ts';
import { type Change, type JobStorage, SHELVES, StorageError } from './storage.ts';
import type { Trouble } from './trouble.ts';

export interface LastingStorage extends JobStorage {
  /** Why memory stands in; null while the real one answers. */
  readonly trouble: Trouble | null;
  /** Opens it, or tries again; true when it answers. What memory held meanwhile is written there first. */
  readonly connect: () => Promise<boolean>;
  /** It was taken away, and why: memory stands in from now on. */
  readonly lose: (why: Trouble) => void;
}

export function lastingStorage(open: () => Promise<JobStorage>): LastingStorage {
  let real: JobStorage | null = null;
  let memory: JobStorage = memoryStorage();
  let trouble: Trouble | null = null;
  /** While it is being opened everything waits: nothing may be written to memory behind the back of what is carried over. */
  let opening: Promise<boolean> | null = null;

  function connect(): Promise<boolean> {
    opening ??= connected().finally(() => {
      opening = null;
    });
    return opening;
  }

  async function connected(): Promise<boolean> {
    real?.close();
    real = null;
    try {
      const fresh = await open();
      await carryOver(memory, fresh);
      memory = memoryStorage();
      real = fresh;
      trouble = null;
      return true;
    } catch (error) {
      trouble = error instanceof StorageError ? error.trouble : 'nothing is kept';
      return false;
    }
  }

  /** Once more on a fresh connection where the old one went away: closed by the browser, or deleted under the page. */
  async function on<T>(work: (storage: JobStorage) => Promise<T>): Promise<T> {
    if (opening !== null) await opening;
    if (real === null) return work(memory);
    try {
      return await work(real);
    } catch (error) {
      if (!(error instanceof StorageError) || error.trouble !== 'gone') throw error;
      if (!(await connect())) throw new StorageError(trouble ?? 'gone', error.message);
      return work(real ?? memory);
    }
  }

  return {
    get trouble() {
      return trouble;
    },
    connect,
    lose: (why) => {
      real?.close();
      real = null;
      trouble = why;
    },
    read: (shelf, key) => on((storage) => storage.read(shelf, key)),
    readAll: (shelf, beginning) => on((storage) => storage.readAll(shelf, beginning)),
    write: (changes, guards) => on((storage) => storage.write(changes, guards)),
    close: () => real?.close(),
  };
}

/** Jobs that memory held have ids of their own, so that nothing is overwritten. */
async function carryOver(from: JobStorage, to: JobStorage): Promise<void> {
  const changes: Change[] = [];
  for (const shelf of SHELVES) {
    for (const { key, value } of await from.readAll(shelf)) changes.push({ shelf, key, put: value });
  }
  if (changes.length === 0) return;
  const jobs = changes.filter((change) => change.shelf === 'jobs');
  const done = await to.write(
    changes,
    jobs.map(({ key }) => ({ job: key, revision: null })),
  );
  if (!done) throw new StorageError('unreadable', 'a job that was kept in memory is there already');
}

/** The job library of this page: the browser's database, the seats of its tabs, and what it opens with. */
import type { KeptStore } from '../model/index.ts';
import { browserStorage, deleteDatabase } from '../model/jobs/browserStorage.ts';
import { createKeeper } from '../model/jobs/keeper.ts';
import type { Keeper } from '../model/jobs/kept.ts';
import { type LastingStorage, lastingStorage } from '../model/jobs/lasting.ts';
import { type Clock, createLibrary, type Opened } from '../model/jobs/library.ts';
import { browserSeats } from '../model/jobs/seats.ts';
import { StorageError } from '../model/jobs/storage.ts';

export const clock: Clock = {
  nowMs: () => Date.now(),
  // randomUUID is there in secure contexts alone.
  newId: () =>
    Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, '0')).join(''),
};

export interface Start {
  readonly storage: LastingStorage;
  /** The job that was open last; null where there is none, where another build is asked for, or where it can't be read. */
  readonly last: Opened | null;
  /** Its name, where it can't be read. */
  readonly unread: string | null;
}

let told: () => void = () => {};

/** `wanted`: the job that was open last is to be brought up, and is waited for; else the library is opened while the page goes on. */
export async function openLibrary(wanted: boolean): Promise<Start> {
  const storage = lastingStorage(() =>
    browserStorage({
      lost: (why) => {
        storage.lose(why);
        told();
      },
    }),
  );
  const none: Start = { storage, last: null, unread: null };
  const connected = storage.connect();
  if (!wanted || !(await connected)) return none;
  try {
    const library = createLibrary(storage, clock);
    const id = await library.last();
    if (id === null) return none;
    const found = await library.open(id);
    if ('why' in found) {
      return found.why === 'is not there' ? none : { ...none, unread: (await library.job(id))?.name ?? id };
    }
    return found.job.deletedMs === null ? { ...none, last: found } : none;
  } catch (error) {
    if (error instanceof StorageError) return none;
    throw error;
  }
}

/** Keeps the build on show, `start.last` or a loose one, and goes on keeping it when the page is left. */
export function keep(store: KeptStore, start: Start): Keeper {
  const keeper = createKeeper(store, {
    storage: start.storage,
    seats: browserSeats(),
    clock,
    later: (ms, work) => {
      const timer = setTimeout(work, ms);
      return () => clearTimeout(timer);
    },
  });
  told = keeper.changed;
  const leave = (): void => {
    if (document.visibilityState === 'hidden') void keeper.flush();
  };
  document.addEventListener('visibilitychange', leave);
  window.addEventListener('pagehide', () => void keeper.flush());
  void (async () => {
    if (start.last !== null) await keeper.adopt(start.last);
    // Whether or not there is a storage is known once it has been asked.
    await keeper.library.list().catch(() => {});
    keeper.changed();
    await keeper.library.clearOut().catch(() => {});
  })();
  return keeper;
}

/** Takes what can't be read out of the way; asked for by the user alone. */
export async function beginAnew(keeper: Keeper): Promise<void> {
  await deleteDatabase();
  await keeper.again();
}

/**
 * The library in the browser's own database (IndexedDB). A write is one transaction, so that a page that dies in the middle of it
 * leaves the last whole one behind; it counts as done when it is on the disk.
 */
import { type DBSchema, deleteDB, type IDBPDatabase, openDB } from 'idb';
import { type Guard, isMet, type JobStorage, SHELVES, type Shelf, StorageError } from './storage.ts';
import { troubleOf } from './trouble.ts';

/** Of the database's form; a later program that changes the form counts it up. */
export const DATABASE_VERSION = 1;
export const DATABASE = 'strokewright';

type Records = DBSchema & { [S in Shelf]: { key: string; value: unknown } };
type Database = IDBPDatabase<Records>;

export interface BrowserStorageOptions {
  readonly name?: string;
  /** The database was taken away while it was open: by a later version of the program in another tab, or by the user. */
  readonly lost?: (why: 'newer' | 'gone') => void;
  /** Another tab keeps the database from being opened for longer than this, ms. */
  readonly patienceMs?: number;
}

/** Someone who waits for the first picture waits no longer than that for the library, ms. */
const PATIENCE_MS = 3000;

/** A write takes some tens of milliseconds, an import of a batch a second on a slow disk, ms. */
const LONGEST_WRITE_MS = 20_000;

/** Throws StorageError where the database can't be opened. */
export async function browserStorage(options: BrowserStorageOptions = {}): Promise<JobStorage> {
  const database = await opened(options);
  if (SHELVES.some((shelf) => !database.objectStoreNames.contains(shelf))) {
    database.close();
    throw new StorageError('unreadable', 'the database lacks a part that it should have');
  }
  return {
    read: (shelf, key) => tried(() => database.get(shelf, key)),
    readAll: (shelf, beginning = '') =>
      tried(async () => {
        // The highest code unit stands after every key that begins so.
        const range = beginning === '' ? undefined : IDBKeyRange.bound(beginning, `${beginning}\uffff`);
        const transaction = database.transaction(shelf);
        const [keys, values] = await Promise.all([
          transaction.store.getAllKeys(range),
          transaction.store.getAll(range),
          transaction.done,
        ]);
        return keys.map((key, k) => ({ key, value: values[k] }));
      }),
    write: (changes, guards: readonly Guard[] = []) =>
      tried(async () => {
        const needed = new Set<Shelf>(['jobs', ...changes.map((change) => change.shelf)]);
        const transaction = database.transaction([...needed], 'readwrite', { durability: 'strict' });
        const jobs = transaction.objectStore('jobs');
        // Without guards everything is asked at once, within the call.
        const records = guards.length === 0 ? [] : await Promise.all(guards.map((guard) => jobs.get(guard.job)));
        if (!guards.every((guard, k) => isMet(guard, records[k]))) {
          await transaction.done;
          return false;
        }
        const ask = (): Promise<unknown>[] =>
          changes.map((change) => {
            const shelf = transaction.objectStore(change.shelf);
            return 'put' in change ? shelf.put(change.put, change.key) : shelf.delete(change.key);
          });
        // A place alone is what is written when the page is left.
        await whole(transaction, ask, changes.length === 1 && changes[0]!.shelf === 'places');
        return true;
      }),
    close: () => database.close(),
  };
}

/** Deletes the whole library, readable or not. Throws StorageError. */
export async function deleteDatabase(name = DATABASE): Promise<void> {
  await tried(() => deleteDB(name));
}

/** Waits for every request and for the end of their transaction; throws what the transaction failed for, rather than that its requests were given up. */
async function whole(
  transaction: { readonly done: Promise<void>; readonly abort: () => void; readonly commit: () => void },
  ask: () => readonly Promise<unknown>[],
  leaving: boolean,
): Promise<void> {
  let asked: readonly Promise<unknown>[] = [];
  let thrown: { readonly error: unknown } | null = null;
  try {
    asked = ask();
    // A page that is being left need not live on for the commit. Else the browser commits by itself: when it is asked to, Chromium
    // may leave a transaction for which there is no room without an answer.
    if (leaving) transaction.commit();
  } catch (error) {
    thrown = { error };
    transaction.abort();
  }
  const [end, ...each] = await answered(Promise.allSettled([transaction.done, ...asked]));
  if (thrown !== null) throw thrown.error;
  for (const one of [end, ...each]) if (one.status === 'rejected') throw one.reason;
}

/** A browser that does not answer is a trouble to be told like any other, not one to wait for without end. */
function answered<T>(work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(
      () => reject(new StorageError('blocked', 'the database does not answer')),
      LONGEST_WRITE_MS,
    );
    void work.then((value) => {
      clearTimeout(timer);
      resolve(value);
    }, reject);
  });
}

function opened({ name = DATABASE, lost, patienceMs = PATIENCE_MS }: BrowserStorageOptions): Promise<Database> {
  return new Promise((resolve, reject) => {
    let late = false;
    let blockedBy = false;
    const timer = setTimeout(() => {
      late = true;
      reject(new StorageError('blocked', blockedBy ? 'another tab holds it open' : 'the database does not answer'));
    }, patienceMs);
    const failed = (error: unknown): void => {
      clearTimeout(timer);
      reject(new StorageError(troubleOf(error), String(error)));
    };
    try {
      openDB<Records>(name, DATABASE_VERSION, {
        upgrade: (database) => {
          for (const shelf of SHELVES) database.createObjectStore(shelf);
        },
        blocked: () => {
          blockedBy = true;
        },
        // A later version of the program waits for this page to let go of the database: it does, and says so.
        blocking: (_now, wanted, event) => {
          (event.target as IDBDatabase).close();
          lost?.(wanted === null ? 'gone' : 'newer');
        },
        terminated: () => lost?.('gone'),
      }).then((database) => {
        clearTimeout(timer);
        if (late) database.close();
        else resolve(database);
      }, failed);
    } catch (error) {
      failed(error);
    }
  });
}

async function tried<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof StorageError) throw error;
    throw new StorageError(troubleOf(error), String(error));
  }
}

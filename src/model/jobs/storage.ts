/**
 * What the job library asks of whatever keeps it: six shelves of records by key, and writing several of them at once, all or
 * none. Everything else about jobs is worked out above it, so that the browser's database and a plain one in memory answer alike.
 */
import type { Trouble } from './trouble.ts';

export type Shelf =
  /** What the list shows of a job, by its id: small, read all together. */
  | 'jobs'
  /** A job's document with its steps, by its id. */
  | 'bodies'
  /** Where a job was left, by its id. */
  | 'places'
  /** What the list of a job's snapshots shows, by `id/number`. */
  | 'snapshots'
  /** The document of a snapshot, by the same key. */
  | 'snapshotBodies'
  /** Single values of the library, by name: `last`, the id of the job that was open last. */
  | 'settings';

export const SHELVES: readonly Shelf[] = ['jobs', 'bodies', 'places', 'snapshots', 'snapshotBodies', 'settings'];

export type Change =
  | { readonly shelf: Shelf; readonly key: string; readonly put: unknown }
  | { readonly shelf: Shelf; readonly key: string; readonly out: true };

/** The record of that job must stand at this revision, or not at all (null), else nothing is written. */
export interface Guard {
  readonly job: string;
  readonly revision: number | null;
}

/** Every call may throw a StorageError, which says what is the matter; then nothing was written. */
export interface JobStorage {
  /** The record, as it stands; undefined where there is none. */
  readonly read: (shelf: Shelf, key: string) => Promise<unknown>;
  /** All records of a shelf, or those whose keys begin so, by key in ascending order. */
  readonly readAll: (
    shelf: Shelf,
    beginning?: string,
  ) => Promise<readonly { readonly key: string; readonly value: unknown }[]>;
  /** All changes or none; when the promise is kept they are on the disk. False when a guard was not met: then none were made. */
  readonly write: (changes: readonly Change[], guards?: readonly Guard[]) => Promise<boolean>;
  readonly close: () => void;
}

/** A storage that failed, with what is the matter with it. */
export class StorageError extends Error {
  readonly trouble: Trouble;
  constructor(trouble: Trouble, detail: string) {
    super(detail);
    this.name = 'StorageError';
    this.trouble = trouble;
  }
}

/** Runs it; where the storage fails `failed` is told. Anything else that is thrown is a fault of the program, and goes on. */
export async function tried(what: () => Promise<void>, failed: (trouble: Trouble) => void): Promise<void> {
  try {
    await what();
  } catch (error) {
    if (!(error instanceof StorageError)) throw error;
    failed(error.trouble);
  }
}

/** Does a record stand at the revision that a guard asks for. */
export function isMet(guard: Guard, record: unknown): boolean {
  if (record === undefined) return guard.revision === null;
  return typeof record === 'object' && record !== null && 'revision' in record && record.revision === guard.revision;
}

/** What a keeper tells of the build on show, and what can be asked of it (keeper.ts). */
import type { BuildDocument } from '../../build/document.ts';
import type { Desk } from './desk.ts';
import type { LastingStorage } from './lasting.ts';
import type { Clock, Library, NotOpened, Opened } from './library.ts';
import type { Job } from './record.ts';
import type { Seats } from './seats.ts';
import type { Snapshots } from './snapshots.ts';
import type { Trouble } from './trouble.ts';

/** What the user should know, beside what is the matter with the storage. */
export type Word =
  /** Another tab works on this job: here it can be read. */
  | 'open elsewhere'
  /** Another tab has asked for it; what was done here was kept before. */
  | 'taken over'
  /** It had been changed elsewhere: what is here was kept as a job of its own. */
  | 'kept as a copy';

export interface KeeperState {
  /** `loose`: not kept until it is changed. `reading`: another tab has it. */
  readonly seat: 'loose' | 'kept' | 'reading';
  readonly job: Job | null;
  readonly saving: 'saved' | 'waiting' | 'failed';
  /** Of the storage; `full` when the last write had no room. */
  readonly trouble: Trouble | null;
  readonly word: Word | null;
}

export interface Keeper extends Desk {
  readonly state: KeeperState;
  readonly storage: LastingStorage;
  readonly library: Library;
  readonly snapshots: Snapshots;
  readonly seats: Seats;
  /** Called after every change of the state, and after every change of the library; returns the way to stop. */
  readonly watch: (listener: (state: KeeperState) => void) => () => void;
  /** Brings a job up; says why not where it can't. */
  readonly open: (id: string) => Promise<NotOpened | null>;
  /** Keeps the build on show as the job that it was brought up from. */
  readonly adopt: (found: Opened) => Promise<void>;
  /** Brings the job up that was open last; false where there is none. */
  readonly openLast: () => Promise<boolean>;
  /** Brings a build up that is kept as a job at once: one from a file, or a new one. */
  readonly openNew: (doc: BuildDocument) => Promise<void>;
  /** Brings a build up that is kept once it is changed. */
  readonly openLoose: (doc: BuildDocument) => Promise<void>;
  /** Writes what is not written yet. */
  readonly flush: () => Promise<void>;
  /** Takes the job that another tab has. */
  readonly takeOver: () => Promise<void>;
  /** Opens the storage again, and writes what is not written yet. */
  readonly again: () => Promise<void>;
  /** The library was changed from here: views and other tabs look again. */
  readonly changed: () => void;
  readonly readWord: () => void;
}

export interface KeeperOptions {
  readonly storage: LastingStorage;
  readonly seats: Seats;
  readonly clock: Clock;
  /** Calls back after some ms; returns the way not to. */
  readonly later: (ms: number, work: () => void) => () => void;
}

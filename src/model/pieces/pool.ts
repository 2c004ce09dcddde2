/**
 * Hands the pieces of jobs to workers. A worker that fails is given up and its pieces are done by the others; a piece
 * that fails in a worker, and all pieces when no worker is left, are done here, in short slices between frames.
 */
import type { Pool, Steps, Table } from './kind.ts';
import { beginning, reason } from './kind.ts';
import type { FromWorker, ToWorker } from './serve.ts';
import { type EverySecond, type Silence, watchSilence } from './silence.ts';

/** A worker as the pool sees it: of a page, or of node. */
export interface Hand {
  readonly post: (message: ToWorker) => void;
  readonly stop: () => void;
}

export interface PoolOptions {
  /** Workers at most; they are made when the first job comes. */
  readonly workers: number;
  /** Makes a worker; `failed` is called when it breaks as a whole. Throws where there are none. */
  readonly make: (answered: (message: FromWorker) => void, failed: () => void) => Hand;
  /** Calls back soon, after the page has had its turn. */
  readonly later: (step: () => void) => void;
  /** Milliseconds, for measuring a slice. */
  readonly clock: () => number;
  /** By it a worker that never answers is found out; without it such a worker is waited for. */
  readonly everySecond?: EverySecond;
  /** Told of each worker that is given up: what it held is done by the others, or here. */
  readonly lost?: () => void;
}

/** Work here goes on for so long before the page has its turn, ms: a quarter of a frame. */
const SLICE_MS = 4;

/** A piece takes a tenth of a second at most; a worker that says nothing for so long is given up, s. */
export const PIECE_SILENT_S = 20;

/** Pieces at a worker at a time: one under way and one that waits, so that it need not wait for the page. */
const AT_A_WORKER = 2;

interface Job {
  readonly number: number;
  readonly owner: string;
  readonly kind: string;
  readonly shared: unknown;
  readonly pieces: readonly unknown[];
  readonly piece: (index: number, result: unknown) => void;
  readonly done: () => void;
  readonly failed: (why: string) => void;
  /** Indices not yet given to anyone, in order. */
  readonly waiting: number[];
  /** Failed in a worker: to be tried here. */
  readonly here: number[];
  left: number;
  /** False once it is done, has failed or was cancelled: then nothing more is told. */
  live: boolean;
  /** What does pieces here, once it is needed. */
  work: ((piece: unknown) => Steps<unknown>) | null;
}

interface Station {
  readonly hand: Hand;
  readonly begun: Set<number>;
  readonly held: { readonly job: Job; readonly index: number }[];
  readonly silence: Silence | null;
}

/** `kinds`: the table, or where it is fetched from once work is to be done here. */
export function createPool<T extends Table>(kinds: T | (() => Promise<T>), options: PoolOptions): Pool<T> {
  let table = typeof kinds === 'function' ? null : kinds;
  /** In turns: the job that gave a piece last stands last. */
  const jobs: Job[] = [];
  let stations: Station[] | null = null;
  let number = 0;
  let slice = false;
  /** The piece under way here. */
  let open: { readonly job: Job; readonly index: number; readonly steps: Steps<unknown> } | null = null;

  function man(): Station[] {
    const made: Station[] = [];
    for (let k = 0; k < options.workers; k++) {
      try {
        const station: Station = {
          hand: options.make(
            (message) => answered(station, message),
            () => lost(station),
          ),
          begun: new Set(),
          held: [],
          silence:
            options.everySecond === undefined
              ? null
              : watchSilence(PIECE_SILENT_S, options.everySecond, () => lost(station)),
        };
        made.push(station);
      } catch {
        // No workers here: the pieces are done in the page.
        break;
      }
    }
    return made;
  }

  function nextOf(list: 'waiting' | 'here'): { readonly job: Job; readonly index: number } | null {
    const at = jobs.findIndex((job) => job[list].length > 0);
    if (at < 0) return null;
    const [job] = jobs.splice(at, 1);
    jobs.push(job!);
    return { job: job!, index: job![list].shift()! };
  }

  function handOut(): void {
    stations ??= man();
    // One each before anyone gets a second.
    for (let full = 1; full <= AT_A_WORKER; full++) {
      for (const station of [...stations]) {
        if (station.held.length >= full || !stations.includes(station)) continue;
        const next = nextOf('waiting');
        if (next === null) break;
        give(station, next);
      }
    }
    if (!slice && (open !== null || jobs.some(waitsForUs))) {
      slice = true;
      options.later(workHere);
    }
  }

  function give(station: Station, next: { readonly job: Job; readonly index: number }): void {
    const { job, index } = next;
    station.held.push(next);
    if (station.held.length === 1) station.silence?.due();
    try {
      if (!station.begun.has(job.number)) {
        station.hand.post({ do: 'begin', job: job.number, kind: job.kind, shared: job.shared });
        station.begun.add(job.number);
      }
      station.hand.post({ do: 'piece', job: job.number, index, piece: job.pieces[index] });
    } catch {
      lost(station);
    }
  }

  function answered(station: Station, message: FromWorker): void {
    const at = station.held.findIndex((held) => held.job.number === message.job && held.index === message.index);
    if (at < 0) return;
    const [{ job, index }] = station.held.splice(at, 1) as [Station['held'][number]];
    if (station.held.length > 0) station.silence?.due();
    else station.silence?.rest();
    if (job.live) {
      if (message.failed !== undefined) job.here.push(index);
      else told(job, index, message.result);
    }
    handOut();
  }

  /** A worker broke: what it held goes to the others, first in turn. */
  function lost(station: Station): void {
    if (stations === null || !stations.includes(station)) return;
    stations.splice(stations.indexOf(station), 1);
    station.silence?.rest();
    station.hand.stop();
    for (const { job, index } of station.held.splice(0).reverse()) if (job.live) job.waiting.unshift(index);
    options.lost?.();
    handOut();
  }

  function told(job: Job, index: number, result: unknown): void {
    job.left -= 1;
    job.piece(index, result);
    // Whoever was told may have cancelled, or begun anew.
    if (!job.live || job.left > 0) return;
    drop(job);
    job.done();
  }

  function drop(job: Job): void {
    if (!job.live) return;
    job.live = false;
    jobs.splice(jobs.indexOf(job), 1);
    if (open?.job === job) open = null;
    for (const station of stations ?? []) {
      if (!station.begun.delete(job.number)) continue;
      try {
        station.hand.post({ do: 'end', job: job.number });
      } catch {
        lost(station);
      }
    }
  }

  /** A piece of it is to be done by the page. */
  function waitsForUs(job: Job): boolean {
    const unmanned = stations === null || stations.length === 0;
    return job.here.length > 0 || (unmanned && job.waiting.length > 0);
  }

  /** Fetches the table; what is to be done here waits for it, and fails where it can't be had. */
  async function fetched(from: () => Promise<T>): Promise<void> {
    try {
      table = await from();
    } catch (error) {
      for (const job of jobs.filter(waitsForUs)) fail(job, error);
    }
    slice = false;
    handOut();
  }

  function workHere(): void {
    if (table === null && typeof kinds === 'function') {
      void fetched(kinds);
      return;
    }
    slice = false;
    const until = options.clock() + SLICE_MS;
    do {
      if (open === null) {
        const next = nextOf('here') ?? (stations?.length === 0 ? nextOf('waiting') : null);
        if (next === null) break;
        if (!began(next.job, next.index)) continue;
      }
      step();
    } while (options.clock() < until);
    handOut();
  }

  function began(job: Job, index: number): boolean {
    try {
      job.work ??= beginning(table ?? {}, job.kind, job.shared);
      open = { job, index, steps: job.work(job.pieces[index]) };
      return true;
    } catch (error) {
      fail(job, error);
      return false;
    }
  }

  function step(): void {
    if (open === null) return;
    const { job, index, steps } = open;
    let next: IteratorResult<undefined, unknown>;
    try {
      next = steps.next();
    } catch (error) {
      fail(job, error);
      return;
    }
    if (!next.done) return;
    open = null;
    told(job, index, next.value);
  }

  function fail(job: Job, error: unknown): void {
    drop(job);
    job.failed(reason(error));
  }

  return {
    run: (owner, kind, shared, pieces, on) => {
      for (const before of jobs.filter((job) => job.owner === owner)) drop(before);
      number += 1;
      const job: Job = {
        number,
        owner,
        kind,
        shared,
        pieces,
        piece: on.piece as (index: number, result: unknown) => void,
        done: on.done,
        failed: on.failed,
        waiting: pieces.map((_, index) => index),
        here: [],
        left: pieces.length,
        live: true,
        work: null,
      };
      if (pieces.length === 0) {
        on.done();
        return () => {};
      }
      jobs.unshift(job);
      handOut();
      return () => drop(job);
    },
  };
}

/**
 * Keeps the build on show. It watches the store: whatever changes the document is written a moment later, a gesture as one; the place
 * in it when the page is left or has rested. A build that has not been kept yet (a demonstration, or one that another tab works on)
 * becomes a job of its own with its first change, so that nothing is lost and nothing is overwritten.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Command, KeptStore } from '../state.ts';
import { createDesk } from './desk.ts';
import type { Keeper, KeeperOptions, KeeperState, Word } from './kept.ts';
import { createLibrary, keptOf, type NotOpened, type Opened, type Work } from './library.ts';
import { placeOf } from './place.ts';
import { presentWork } from './present.ts';
import type { Job } from './record.ts';
import { rest } from './rest.ts';
import { copyName } from './search.ts';
import type { Seat } from './seats.ts';
import { createSnapshots } from './snapshots.ts';
import { tried } from './storage.ts';
import type { Trouble } from './trouble.ts';

/** Steps that follow one another faster than this, ms, as of a key held down, are written together. */
const REST_MS = 30;
/** The place, which changes with every turn of the crank, is written when it has rested, ms. */
const PLACE_REST_MS = 1500;

/** What the build on show is kept as. A new one for each build that comes up, so that a write still under way speaks of the one it belongs to. */
interface Sitting {
  seat: KeeperState['seat'];
  job: Job | null;
  hold: Seat | null;
  /** As it was last written, or as it came up. */
  written: BuildDocument;
}

export function createKeeper(store: KeptStore, options: KeeperOptions): Keeper {
  const { storage, seats, clock, later } = options;
  const library = createLibrary(storage, clock);
  const snapshots = createSnapshots(storage, clock);
  const listeners = new Set<(state: KeeperState) => void>();
  let current: Sitting = { seat: 'loose', job: null, hold: null, written: store.state.doc };
  let state: KeeperState = { seat: 'loose', job: null, saving: 'saved', trouble: storage.trouble, word: null };
  /** What is on show, as it would be written: kept for the case that another build comes up before it was. */
  let work: Work = presentWork(store);
  /** Why the last write was not made, the storage being there. */
  let refusal: Trouble | null = null;
  /** The store is changed from here: its watcher below keeps out of it. */
  let own = false;
  const saveSoon = rest(later, REST_MS, () => void inTurn(() => write(work, current)));
  const placeSoon = rest(later, PLACE_REST_MS, () => writePlace());
  /** Writes one after another. */
  let queue: Promise<void> = Promise.resolve();

  function change(part: Partial<Pick<KeeperState, 'saving' | 'word'>>): void {
    state = { ...state, ...part, seat: current.seat, job: current.job, trouble: storage.trouble ?? refusal };
    for (const listener of [...listeners]) listener(state);
  }

  function inTurn(what: () => Promise<void>): Promise<void> {
    queue = queue.then(what, what);
    return queue;
  }

  store.watch((now, changed) => {
    if (own) return;
    if (changed.has('document') && changed.has('playing')) {
      // Another build was brought up without asking here: the one before is written as it was, this one is loose.
      const [before, owed, as] = [work, state.saving !== 'saved', current];
      void inTurn(async () => {
        if (owed) await write(before, as);
        as.hold?.leave();
      });
      sitDown('loose', null, null);
      return;
    }
    if (changed.has('document') && store.gestureFrom === null) {
      if (now.doc !== work.doc || now.doc !== current.written) owe();
    }
    const moved = changed.has('view') || changed.has('units') || changed.has('angle');
    if (moved && !now.playing && current.seat === 'kept') placeSoon.anew();
  });

  function owe(): void {
    work = presentWork(store);
    if (state.saving === 'saved') change({ saving: 'waiting' });
    saveSoon.ask();
  }

  function sitDown(seat: KeeperState['seat'], job: Job | null, hold: Seat | null, word: Word | null = null): void {
    saveSoon.stop();
    placeSoon.stop();
    work = presentWork(store);
    current = { seat, job, hold, written: work.doc };
    change({ saving: 'saved', word });
  }

  const sitter = {
    asked: () => flush(),
    lost: () => {
      current.hold = null;
      current.seat = 'reading';
      change({ word: 'taken over' });
    },
  };

  /** Writes one state of the work; as a job of its own where it has none, or where its job is another's. */
  async function write(what: Work, as: Sitting): Promise<void> {
    if (what.doc === as.written && as === current && state.saving === 'saved') return;
    await tried(
      async () => {
        const kept = as.seat === 'kept' && as.job !== null ? await library.save(as.job, what) : null;
        if (kept === null) await writeNew(what, as);
        else {
          as.job = kept;
          written(what, as);
        }
      },
      (trouble) => {
        refusal = trouble;
        change(as === current ? { saving: 'failed' } : {});
      },
    );
  }

  async function writeNew(what: Work, as: Sitting): Promise<void> {
    const isCopy = as.job !== null;
    let kept = what;
    if (isCopy) {
      const name = copyName(what.doc.name, new Set((await library.list()).jobs.map((job) => job.name)));
      kept = { ...what, doc: { ...what.doc, name } };
      if (as === current && store.gestureFrom === null) {
        onOurOwn({ do: 'put', path: ['name'], value: name });
        work = presentWork(store);
        kept = work;
      }
    }
    const job = await library.create(kept);
    as.hold?.leave();
    as.hold = await seats.sit(job.id, sitter);
    as.job = job;
    as.seat = 'kept';
    written(kept, as, isCopy ? 'kept as a copy' : null);
  }

  function written(what: Work, as: Sitting, word?: Word | null): void {
    as.written = what.doc;
    const owed = work.doc !== what.doc;
    refusal = null;
    change(as === current ? { saving: owed ? 'waiting' : 'saved', ...(word === undefined ? {} : { word }) } : {});
    seats.tell();
  }

  /** Out of turn, and not waited for: no other write depends on it. */
  function writePlace(): void {
    placeSoon.stop();
    const { seat, job } = current;
    if (seat !== 'kept' || job === null) return;
    const place = placeOf(store.state);
    // Where it was left is no loss worth a word; that the storage fails is told at the next change.
    const quiet = (): void => {};
    void tried(() => library.savePlace(job.id, place), quiet);
  }

  async function flush(): Promise<void> {
    saveSoon.stop();
    if (store.state.doc !== current.written) work = presentWork(store);
    if (work.doc !== current.written || state.saving !== 'saved') await inTurn(() => write(work, current));
    if (placeSoon.waits()) writePlace();
    await queue;
  }

  function onOurOwn(command: Command): void {
    own = true;
    try {
      store.send(command);
    } finally {
      own = false;
    }
  }

  function bringUp(found: Opened, hold: Seat | null): void {
    current.hold?.leave();
    onOurOwn({ do: 'open', doc: found.doc, kept: keptOf(found) });
    settle(found, hold);
  }

  function settle({ job, doc, refused }: Opened, hold: Seat | null): void {
    if (hold === null) {
      sitDown('reading', job, null, 'open elsewhere');
      return;
    }
    sitDown('kept', job, hold);
    void inTurn(() =>
      tried(
        async () => {
          await library.setLast(job.id);
          if (refused === undefined) await snapshots.take(job.id, doc, 'opened');
        },
        (trouble) => {
          refusal = trouble;
          change({});
        },
      ),
    );
  }

  async function open(id: string): Promise<NotOpened | null> {
    await flush();
    if (current.job?.id === id && current.seat === 'kept') return null;
    const hold = await seats.sit(id, sitter);
    // Read once the seat is had: nothing is written by another tab after that.
    const found = await library.open(id);
    if ('why' in found) {
      hold?.leave();
      return found;
    }
    bringUp(found, hold);
    return null;
  }

  const desk = createDesk({
    library,
    snapshots,
    seats,
    flush,
    inTurn,
    store,
    shown: () => (current.seat === 'kept' ? current.job : null),
    rewritten: (job) => {
      current.job = job;
      if (job.deletedMs !== null) {
        current.hold?.leave();
        sitDown('loose', null, null);
      } else change({});
      seats.tell();
    },
    changed: () => keeper.changed(),
  });
  const keeper: Keeper = {
    get state() {
      return state;
    },
    storage,
    library,
    snapshots,
    seats,
    watch: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    open,
    adopt: async (found) => settle(found, await seats.sit(found.job.id, sitter)),
    openLast: async () => {
      const id = await library.last();
      const job = id === null ? null : await library.job(id);
      return job !== null && job.deletedMs === null && (await open(job.id)) === null;
    },
    openNew: async (doc) => {
      await keeper.openLoose(doc);
      change({ saving: 'waiting' });
      await inTurn(() => write(work, current));
    },
    openLoose: async (doc) => {
      await flush();
      current.hold?.leave();
      onOurOwn({ do: 'open', doc });
      sitDown('loose', null, null);
    },
    flush,
    takeOver: async () => {
      const { job } = current;
      if (job === null || current.seat !== 'reading') return;
      const hold = await seats.take(job.id, sitter);
      const found = await library.open(job.id);
      if ('why' in found) hold.leave();
      else bringUp(found, hold);
    },
    again: async () => {
      if (storage.trouble !== null) await storage.connect();
      change({});
      await flush();
      seats.tell();
    },
    ...desk,
    changed: () => {
      change({});
      seats.tell();
    },
    readWord: () => change({ word: null }),
  };
  seats.told(() => change({}));
  return keeper;
}

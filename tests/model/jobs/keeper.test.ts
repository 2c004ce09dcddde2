/** The build on show is kept: when it is written, as what, and what happens where it can't be. Time is passed by hand. */
import { describe, expect, it } from 'vitest';
import { createStore } from '../../../src/model/index.ts';
import { createKeeper } from '../../../src/model/jobs/keeper.ts';
import { lastingStorage } from '../../../src/model/jobs/lasting.ts';
import { memoryStorage } from '../../../src/model/jobs/memoryStorage.ts';
import type { Seat, Seats, Sitter } from '../../../src/model/jobs/seats.ts';
import { type JobStorage, StorageError } from '../../../src/model/jobs/storage.ts';
import type { Trouble } from '../../../src/model/jobs/trouble.ts';
import { exampleSingle } from '../../support/exampleBuild.ts';

/** Seats as several tabs of one browser share them. */
function sharedSeats(): () => Seats {
  const held = new Map<string, { sitter: Sitter; leave: () => void }>();
  return () => ({
    sit: async (job, sitter) => (held.has(job) ? null : sat(job, sitter)),
    take: async (job, sitter) => {
      const other = held.get(job);
      if (other !== undefined) {
        await other.sitter.asked();
        other.leave();
        other.sitter.lost();
      }
      return sat(job, sitter);
    },
    taken: async () => new Set(held.keys()),
    tell: () => {},
    told: () => {},
  });
  function sat(job: string, sitter: Sitter): Seat {
    const leave = (): void => {
      if (held.get(job)?.sitter === sitter) held.delete(job);
    };
    held.set(job, { sitter, leave });
    return { leave };
  }
}

let id = 0;

function newId(): string {
  id += 1;
  return `job-of-test-${id}`;
}

/** One tab. `disk` is what several tabs share. */
async function tab(disk: JobStorage, seats: Seats = sharedSeats()()) {
  const faults: { next: Trouble | null; dead: Trouble | null } = { next: null, dead: null };
  let writes = 0;
  const storage = lastingStorage(async () => {
    if (faults.dead !== null) throw new StorageError(faults.dead, 'on purpose');
    return {
      ...disk,
      write: async (changes, guards) => {
        if (faults.next !== null) throw new StorageError(faults.next, 'on purpose');
        writes += 1;
        return disk.write(changes, guards);
      },
    };
  });
  const store = createStore(exampleSingle(), { solver: { start: () => {} } });
  const timers = new Set<() => void>();
  const keeper = createKeeper(store, {
    storage,
    seats,
    clock: { nowMs: () => 5_000, newId },
    later: (_ms, work) => {
      timers.add(work);
      return () => timers.delete(work);
    },
  });
  await storage.connect();
  return {
    store,
    keeper,
    storage,
    faults,
    get writes() {
      return writes;
    },
    set: (text: string, last = true) =>
      store.send({ do: 'set dimension', path: ['assemblies', 0, 'crank', 'stroke'], text, last }),
    stroke: () => store.state.doc.assemblies[0]!.crank.stroke.value,
    /** Lets all timers come due, and what they began come to its end. */
    pass: async () => {
      for (const work of [...timers]) {
        timers.delete(work);
        work();
      }
      await keeper.flush();
    },
  };
}

describe('a demonstration', () => {
  it('is not kept until it is changed, then as a job of its own, with its step', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    await one.pass();
    expect(await disk.readAll('jobs')).toEqual([]);
    expect(one.keeper.state.seat).toBe('loose');
    one.set('87 mm');
    expect(one.keeper.state.saving).toBe('waiting');
    await one.pass();
    expect(one.keeper.state).toMatchObject({ seat: 'kept', saving: 'saved', trouble: null });
    // Another day.
    const two = await tab(disk);
    expect(await two.keeper.openLast()).toBe(true);
    expect(two.stroke()).toBe('87 mm');
    two.store.send({ do: 'undo' });
    expect(two.stroke()).toBe(exampleSingle().assemblies[0]!.crank.stroke.value);
  });
});

describe('a gesture', () => {
  it('is written once, when it is over, and is one step, after reload too', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    for (const text of ['86.1 mm', '86.2 mm', '86.3 mm']) {
      one.set(text, false);
      await Promise.resolve();
    }
    expect(one.keeper.state.saving).toBe('saved');
    one.set('86.4 mm');
    await one.pass();
    expect(one.writes).toBe(1);
    const two = await tab(disk);
    await two.keeper.openLast();
    expect(two.stroke()).toBe('86.4 mm');
    two.store.send({ do: 'undo' });
    expect(two.store.state.canUndo).toBe(false);
    two.store.send({ do: 'redo' });
    expect(two.stroke()).toBe('86.4 mm');
  });

  it('under way when the page is left is kept as if it ended there', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('86.1 mm', false);
    one.set('86.2 mm', false);
    await one.keeper.flush();
    const two = await tab(disk);
    await two.keeper.openLast();
    expect(two.stroke()).toBe('86.2 mm');
    two.store.send({ do: 'undo' });
    expect(two.stroke()).toBe(exampleSingle().assemblies[0]!.crank.stroke.value);
  });

  it('is kept when it leaves a build that is refused, with the reason', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    one.set('900 mm');
    await one.pass();
    const two = await tab(disk);
    await two.keeper.openLast();
    expect(two.stroke()).toBe('900 mm');
    expect(two.store.state.refused.length).toBeGreaterThan(0);
    two.store.send({ do: 'undo' });
    expect([two.stroke(), two.store.state.refused.length]).toEqual(['87 mm', 0]);
  });
});

describe('a build left refused', () => {
  it('comes up on another day even where no step goes back to one that can be built', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    // More steps than are kept, each of them refused: the stroke is longer than the rod allows.
    for (let k = 0; k < 210; k++) one.set(`${900 + k} mm`);
    await one.pass();
    const two = await tab(disk);
    expect(await two.keeper.openLast()).toBe(true);
    expect(two.stroke()).toBe('1109 mm');
    expect(two.store.state.refused.length).toBeGreaterThan(0);
    two.set('88 mm');
    expect(two.store.state.refused).toEqual([]);
  });
});

describe('undo and redo', () => {
  it('are kept themselves: what was undone can be done again on another day', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    one.set('88 mm');
    one.store.send({ do: 'undo' });
    await one.pass();
    const two = await tab(disk);
    await two.keeper.openLast();
    expect([two.stroke(), two.store.state.canRedo]).toEqual(['87 mm', true]);
    two.store.send({ do: 'redo' });
    expect(two.stroke()).toBe('88 mm');
  });
});

describe('where a job was left', () => {
  it('is where it opens', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    one.store.send({ do: 'turn to', crankAngleRad: 1.25 });
    one.store.send({ do: 'show units', units: 'both' });
    one.store.send({ do: 'hold', held: 'deck clearance' });
    await one.pass();
    const two = await tab(disk);
    await two.keeper.openLast();
    expect(two.store.state).toMatchObject({ crankAngleRad: 1.25, units: 'both', held: 'deck clearance' });
  });
});

describe('another build brought up', () => {
  it('leaves the one before written as it was', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    const first = one.keeper.state.job!.id;
    one.set('88 mm');
    // Nobody has waited for the write, and nobody asked the keeper.
    one.store.send({ do: 'open', doc: { ...exampleSingle(), name: 'Another' } });
    await one.pass();
    expect(one.keeper.state).toMatchObject({ seat: 'loose', job: null });
    one.set('89 mm');
    await one.pass();
    expect((await one.keeper.library.list()).jobs.map((job) => job.name).sort()).toEqual(
      ['Another', exampleSingle().name].sort(),
    );
    await one.keeper.open(first);
    expect(one.stroke()).toBe('88 mm');
  });
});

describe('two tabs on one job', () => {
  it('the second is told; its change starts a copy; nothing is overwritten', async () => {
    const disk = memoryStorage();
    const seats = sharedSeats();
    const one = await tab(disk, seats());
    one.set('87 mm');
    await one.pass();
    const two = await tab(disk, seats());
    await two.keeper.openLast();
    expect(two.keeper.state).toMatchObject({ seat: 'reading', word: 'open elsewhere' });
    two.set('90 mm');
    await two.pass();
    expect(two.keeper.state).toMatchObject({ seat: 'kept', word: 'kept as a copy', saving: 'saved' });
    expect(two.store.state.doc.name).toBe(`${exampleSingle().name}, copy`);
    one.set('88 mm');
    await one.pass();
    const { jobs } = await one.keeper.library.list();
    const strokes: Record<string, string> = {};
    for (const job of jobs) {
      const opened = await one.keeper.library.open(job.id);
      if (!('why' in opened)) strokes[job.name] = opened.doc.assemblies[0]!.crank.stroke.value;
    }
    expect(strokes).toEqual({ [exampleSingle().name]: '88 mm', [`${exampleSingle().name}, copy`]: '90 mm' });
  });

  it('the second may take it over: what the first had not written yet comes with it', async () => {
    const disk = memoryStorage();
    const seats = sharedSeats();
    const one = await tab(disk, seats());
    one.set('87 mm');
    await one.pass();
    const two = await tab(disk, seats());
    await two.keeper.openLast();
    one.set('88 mm');
    await two.keeper.takeOver();
    expect([two.keeper.state.seat, two.stroke()]).toEqual(['kept', '88 mm']);
    expect(one.keeper.state).toMatchObject({ seat: 'reading', word: 'taken over' });
    two.set('89 mm');
    await two.pass();
    // And back again.
    await one.keeper.takeOver();
    expect([one.keeper.state.seat, one.stroke()]).toEqual(['kept', '89 mm']);
    expect((await one.keeper.library.list()).jobs).toHaveLength(1);
  });

  it('without seats the later write becomes a job of its own', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    const two = await tab(disk);
    await two.keeper.openLast();
    two.set('90 mm');
    await two.pass();
    one.set('88 mm');
    await one.pass();
    expect(one.keeper.state).toMatchObject({ word: 'kept as a copy', seat: 'kept' });
    expect((await one.keeper.library.list()).jobs).toHaveLength(2);
    await two.keeper.open(two.keeper.state.job!.id);
    expect([one.stroke(), two.stroke()]).toEqual(['88 mm', '90 mm']);
  });
});

describe('a storage that fails', () => {
  it('with no room: the last whole write stays, the change is owed and written when there is room', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    one.faults.next = 'full';
    one.set('88 mm');
    await one.pass();
    expect(one.keeper.state).toMatchObject({ saving: 'failed', trouble: 'full' });
    const two = await tab(disk);
    await two.keeper.openLast();
    expect(two.stroke()).toBe('87 mm');
    one.faults.next = null;
    await one.keeper.again();
    expect(one.keeper.state).toMatchObject({ saving: 'saved', trouble: null, seat: 'kept' });
    await two.keeper.openLoose(exampleSingle());
    await two.keeper.openLast();
    expect(two.stroke()).toBe('88 mm');
  });

  it.each(['nothing is kept', 'blocked', 'newer', 'unreadable'] as const)(
    'from the start (%s): the program works, says so, and carries over what was done once it answers',
    async (trouble) => {
      const disk = memoryStorage();
      const one = await tab(disk);
      one.faults.dead = trouble;
      expect(await one.storage.connect()).toBe(false);
      one.set('87 mm');
      await one.pass();
      expect(one.keeper.state.trouble).toBe(trouble);
      expect(one.stroke()).toBe('87 mm');
      expect(await disk.readAll('jobs')).toEqual([]);
      one.faults.dead = null;
      await one.keeper.again();
      expect(one.keeper.state).toMatchObject({ trouble: null, saving: 'saved' });
      expect((await disk.readAll('jobs')).map(({ value }) => (value as { name: string }).name)).toEqual([
        exampleSingle().name,
      ]);
    },
  );

  it('that goes away under the page is opened anew by itself', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    one.faults.next = 'gone';
    one.set('88 mm');
    const written = one.pass();
    one.faults.next = null;
    await written;
    expect(one.keeper.state).toMatchObject({ saving: 'saved', trouble: null });
  });

  it('where the job was deleted for good elsewhere: what is on show is kept anew', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    await one.keeper.library.remove([one.keeper.state.job!.id]);
    one.set('88 mm');
    await one.pass();
    expect(one.keeper.state).toMatchObject({ saving: 'saved', seat: 'kept' });
    const { jobs } = await one.keeper.library.list();
    const opened = await one.keeper.library.open(jobs[0]!.id);
    expect('why' in opened ? opened.why : opened.doc.assemblies[0]!.crank.stroke.value).toBe('88 mm');
  });
});

describe('a snapshot', () => {
  it('is taken when a job is opened, once while nothing changed, and gone back to as one step', async () => {
    const disk = memoryStorage();
    const one = await tab(disk);
    one.set('87 mm');
    await one.pass();
    const two = await tab(disk);
    await two.keeper.openLast();
    await two.pass();
    const job = two.keeper.state.job!.id;
    two.set('88 mm');
    await two.pass();
    await two.keeper.openLoose(exampleSingle());
    await two.keeper.open(job);
    await two.pass();
    await two.keeper.openLoose(exampleSingle());
    await two.keeper.open(job);
    await two.pass();
    const list = await two.keeper.snapshots.list(job);
    expect(list.map((s) => [s.number, s.why])).toEqual([
      [2, 'opened'],
      [1, 'opened'],
    ]);
    expect(await two.keeper.goBack(1)).toBeNull();
    await two.pass();
    expect(two.stroke()).toBe('87 mm');
    two.store.send({ do: 'undo' });
    expect(two.stroke()).toBe('88 mm');
    // The state before going back was snapshot 2 already.
    expect(await two.keeper.snapshots.list(job)).toHaveLength(2);
    two.set('91 mm');
    await two.pass();
    await two.keeper.goBack(1);
    expect((await two.keeper.snapshots.list(job))[0]).toMatchObject({ why: 'before going back', number: 3 });
  });
});

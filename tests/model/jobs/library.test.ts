/** Jobs kept, found again, copied, marked, renamed and taken out; what is read at each step; records that are none. */
import { describe, expect, it } from 'vitest';
import type { BuildDocument } from '../../../src/build/document.ts';
import { withLiteral } from '../../../src/model/edit.ts';
import { createLibrary, DELETED_KEPT_MS, type Work } from '../../../src/model/jobs/library.ts';
import { memoryStorage } from '../../../src/model/jobs/memoryStorage.ts';
import { copyName, drawerOf, found, isName } from '../../../src/model/jobs/search.ts';
import { createSnapshots } from '../../../src/model/jobs/snapshots.ts';
import type { JobStorage } from '../../../src/model/jobs/storage.ts';
import { exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';

const place = { assembly: 'x', cylinder: 1, crankAngleRad: 1, units: 'mm', held: 'piston', picked: null } as const;
const NONE = { undo: [], redo: [] };

/** Counts what is asked of a storage, by shelf: records read singly, shelves read whole, writes. */
function counted(inner: JobStorage): { storage: JobStorage; counts: Record<string, number> } {
  const counts: Record<string, number> = {};
  const count = (what: string): void => {
    counts[what] = (counts[what] ?? 0) + 1;
  };
  return {
    counts,
    storage: {
      ...inner,
      read: (shelf, key) => {
        count(`read ${shelf}`);
        return inner.read(shelf, key);
      },
      readAll: (shelf, beginning) => {
        count(`list ${shelf}`);
        return inner.readAll(shelf, beginning);
      },
      write: (changes, guards) => {
        count('write');
        return inner.write(changes, guards);
      },
    },
  };
}

function shop(storage: JobStorage = memoryStorage()) {
  let [now, id] = [1_000_000, 0];
  const clock = {
    nowMs: () => now,
    newId: () => {
      id += 1;
      return `job-${String(id).padStart(6, '0')}`;
    },
  };
  return {
    library: createLibrary(storage, clock),
    snapshots: createSnapshots(storage, clock),
    storage,
    pass: (ms: number) => {
      now += ms;
    },
  };
}

const stroke = ['assemblies', 0, 'crank', 'stroke'] as const;
const named = (name: string, doc: BuildDocument = exampleSingle()): Work => ({
  doc: { ...doc, name },
  steps: NONE,
  place,
});

describe('a job', () => {
  it('comes back with document, steps and place as they were', async () => {
    const { library } = shop();
    const first = exampleV8();
    const second = withLiteral(first, stroke, '3.570 in');
    const third = withLiteral(second, stroke, '3.580 in');
    const job = await library.create({ doc: second, steps: { undo: [first], redo: [third] }, place });
    const opened = await library.open(job.id);
    if ('why' in opened) throw new Error(opened.why);
    expect(opened.doc).toEqual(second);
    expect(opened.steps).toEqual({ undo: [first], redo: [third] });
    expect(opened.place).toEqual(place);
    expect(opened.refused).toBeUndefined();
    // What one step did not change is there once.
    expect(opened.steps.undo[0]!.block).toBe(opened.doc.block);
  });

  it('left refused opens as it was left, on the last one that can be built', async () => {
    const { library } = shop();
    const first = exampleSingle();
    const refused = withLiteral(first, stroke, '900 mm');
    const job = await library.create({ doc: refused, steps: { undo: [first], redo: [] }, place });
    const opened = await library.open(job.id);
    expect(opened).toMatchObject({ doc: first, refused });
  });

  it('is written only over the one that was read', async () => {
    const { library } = shop();
    const job = await library.create(named('Mine'));
    const mine = await library.save(job, named('Mine, changed here'));
    expect(mine).toMatchObject({ name: 'Mine, changed here', revision: 2 });
    // Another tab still holds the first.
    expect(await library.save(job, named('Mine, changed there'))).toBeNull();
    expect(await library.mark(job, { archived: true })).toBeNull();
    expect(await library.rename(job, 'Other')).toBeNull();
    const opened = await library.open(job.id);
    expect('why' in opened ? opened.why : opened.doc.name).toBe('Mine, changed here');
  });

  it('is copied with its steps under a name of its own', async () => {
    const { library } = shop();
    const first = exampleSingle();
    const job = await library.create({
      doc: withLiteral(first, stroke, '87 mm'),
      steps: { undo: [first], redo: [] },
      place,
    });
    const one = await library.duplicate(job.id);
    const two = await library.duplicate(one!.id);
    expect([one!.name, two!.name]).toEqual([`${first.name}, copy`, `${first.name}, copy 2`]);
    const opened = await library.open(two!.id);
    if ('why' in opened) throw new Error(opened.why);
    expect(opened.doc.name).toBe(two!.name);
    expect(opened.steps.undo).toEqual([first]);
  });

  it('that is renamed has that as one of its steps', async () => {
    const { library } = shop();
    const job = await library.create(named('Before'));
    await library.rename(job, 'After <b>it</b>');
    const opened = await library.open(job.id);
    if ('why' in opened) throw new Error(opened.why);
    expect([opened.job.name, opened.doc.name, opened.steps.undo[0]!.name]).toEqual([
      'After <b>it</b>',
      'After <b>it</b>',
      'Before',
    ]);
  });

  it('deleted goes to its drawer, comes back, and is gone for good after 30 days, with its snapshots', async () => {
    const { library, snapshots, storage, pass } = shop();
    let job = (await library.create(named('Old')))!;
    await snapshots.take(job.id, exampleSingle(), 'opened');
    job = (await library.mark(job, { deletedMs: 1_000_000 }))!;
    expect(drawerOf(job)).toBe('deleted');
    job = (await library.mark(job, { deletedMs: null }))!;
    expect(drawerOf(job)).toBe('jobs');
    await library.mark(job, { deletedMs: 1_000_000 });
    pass(DELETED_KEPT_MS);
    expect(await library.clearOut()).toBe(0);
    pass(1);
    expect(await library.clearOut()).toBe(1);
    for (const shelf of ['jobs', 'bodies', 'places', 'snapshots', 'snapshotBodies'] as const) {
      expect(await storage.readAll(shelf), shelf).toEqual([]);
    }
  });
});

describe('a name', () => {
  it('of a copy is one that a build may have, however long that of the job is', () => {
    const longest = 'n'.repeat(80);
    const taken = new Set([longest]);
    for (let k = 0; k < 12; k++) {
      const name = copyName(longest, taken);
      expect(isName(name), name).toBe(true);
      expect(taken.has(name)).toBe(false);
      taken.add(name);
    }
    for (const text of ['', ' a', 'n'.repeat(81), 'a\u0000b']) expect(isName(text), JSON.stringify(text)).toBe(false);
  });
});

describe('records that are none', () => {
  it('are named and left alone', async () => {
    const { library, storage } = shop();
    const job = await library.create(named('Sound'));
    await storage.write([
      { shelf: 'jobs', key: 'rubbish-1', put: 'rubbish' },
      { shelf: 'jobs', key: 'rubbish-2', put: { ...job, id: 'rubbish-3' } },
      { shelf: 'jobs', key: 'rubbish-4', put: { ...job, id: 'rubbish-4', revision: -1 } },
    ]);
    const listed = await library.list();
    expect(listed.jobs.map((one) => one.name)).toEqual(['Sound']);
    expect(listed.unreadable).toEqual(['rubbish-1', 'rubbish-2', 'rubbish-4']);
    expect(await storage.read('jobs', 'rubbish-1')).toBe('rubbish');
  });

  it.each([
    ['no body at all', undefined],
    ['text', 'rubbish'],
    ['a document that is none', { doc: { a: 1 }, undo: [], redo: [], print: 0 }],
  ])('a body that is %s says so and is not opened', async (_name, content) => {
    const { library, storage } = shop();
    const job = await library.create(named('Spoilt'));
    await storage.write([
      content === undefined
        ? { shelf: 'bodies', key: job.id, out: true }
        : { shelf: 'bodies', key: job.id, put: content },
    ]);
    expect(await library.open(job.id)).toMatchObject({ why: 'can’t be read', content });
    expect(await storage.read('bodies', job.id)).toEqual(content);
  });

  it('steps that were spoilt are left out, the document stays', async () => {
    const { library, storage } = shop();
    const first = exampleSingle();
    const doc = withLiteral(first, stroke, '87 mm');
    const job = await library.create({ doc, steps: { undo: [first], redo: [] }, place });
    const body = (await storage.read('bodies', job.id)) as { undo: { at: (string | number)[] }[][] };
    body.undo[0]![0]!.at[1] = 9;
    await storage.write([{ shelf: 'bodies', key: job.id, put: body }]);
    expect(await library.open(job.id)).toMatchObject({ doc, steps: NONE });
    // Spoilt beyond the form of a record: the document by itself is still sound.
    await storage.write([{ shelf: 'bodies', key: job.id, put: { doc, undo: 'gone' } }]);
    expect(await library.open(job.id)).toMatchObject({ doc, steps: NONE });
  });
});

describe('a thousand jobs', () => {
  it('are listed with one read, and none of their documents', async () => {
    const { counts, storage } = counted(memoryStorage());
    const { library } = shop(storage);
    const doc = exampleSingle();
    for (let k = 0; k < 1000; k++) await library.create(named(`Job ${k} of ${k % 7 === 0 ? 'Müller' : 'Smith'}`, doc));
    for (const key of Object.keys(counts)) delete counts[key];
    const { jobs } = await library.list();
    expect(jobs).toHaveLength(1000);
    expect(counts).toEqual({ 'list jobs': 1 });
    // 1000 numbers from 0: 143 of them are multiples of 7.
    expect(found(jobs, 'jobs', 'MULLER job', 'name')).toHaveLength(143);
    expect(found(jobs, 'jobs', 'muller nobody', 'name')).toHaveLength(0);
    expect(
      found(jobs, 'jobs', '', 'name')
        .slice(0, 3)
        .map((job) => job.name),
    ).toEqual(['Job 0 of Müller', 'Job 1 of Smith', 'Job 2 of Smith']);
    expect(counts).toEqual({ 'list jobs': 1 });
    await library.open(jobs[500]!.id);
    expect(counts).toEqual({ 'list jobs': 1, 'read jobs': 1, 'read bodies': 1, 'read places': 1 });
  });
});

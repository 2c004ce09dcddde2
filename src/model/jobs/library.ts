/**
 * The job library: what can be done with jobs as a whole, on whatever keeps them. Nothing here knows the page or the store. Every
 * change of a job is written against the revision that was read, so that no tab overwrites what another one has written since.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Problem } from '../../build/problem.ts';
import { deepFreeze, readContent } from '../../build/text.ts';
import type { Steps } from '../history.ts';
import type { Kept } from '../state.ts';
import { difference, type Edit, edited } from './difference.ts';
import { factsOf, nameOf } from './facts.ts';
import { pack, unpack } from './packed.ts';
import type { Place } from './place.ts';
import { type Body, bodySchema, type Job, jobSchema, placeSchema, printOf } from './record.ts';
import { copyName } from './search.ts';
import type { Change, JobStorage } from './storage.ts';

export interface Clock {
  /** Milliseconds since 1 January 1970, UTC. */
  readonly nowMs: () => number;
  /** A new id, never given before: letters, digits, dashes. */
  readonly newId: () => string;
}

/** What is to be kept of the build on show. */
export interface Work {
  readonly doc: BuildDocument;
  readonly steps: Steps;
  readonly place: Place;
  /** The last document that could be built, where `doc` can't be. */
  readonly built?: BuildDocument;
}

export interface Opened {
  readonly job: Job;
  /** Can be built. */
  readonly doc: BuildDocument;
  readonly steps: Steps;
  readonly place: Place | undefined;
  /** The document as it was left, where that one can't be built. */
  readonly refused: BuildDocument | undefined;
}

/** What the store needs of a job to show it as it was left. */
export function keptOf({ steps, place, refused }: Opened): Kept {
  return { steps, ...(place === undefined ? {} : { place }), ...(refused === undefined ? {} : { refused }) };
}

/** Why a job can't be opened. */
export type NotOpened =
  | { readonly why: 'is not there' }
  /** What is kept of it is no build (any more); `content` is what is there. */
  | { readonly why: 'can’t be read'; readonly problems: readonly Problem[]; readonly content: unknown };

export interface Listed {
  readonly jobs: readonly Job[];
  /** Keys of records that are none of a job; they are left as they are. */
  readonly unreadable: readonly string[];
}

/** Deleted jobs can be fetched back for so long. */
export const DELETED_KEPT_MS = 30 * 86_400_000;

export function createLibrary(storage: JobStorage, clock: Clock) {
  async function list(): Promise<Listed> {
    const jobs: Job[] = [];
    const unreadable: string[] = [];
    for (const { key, value } of await storage.readAll('jobs')) {
      const read = jobSchema.safeParse(value);
      if (read.success && read.data.id === key) jobs.push(read.data);
      else unreadable.push(key);
    }
    return { jobs, unreadable };
  }

  async function jobOf(id: string): Promise<Job | null> {
    const read = jobSchema.safeParse(await storage.read('jobs', id));
    return read.success ? read.data : null;
  }

  function written(job: Job, work: Work): readonly Change[] {
    return [
      { shelf: 'jobs', key: job.id, put: job },
      { shelf: 'bodies', key: job.id, put: bodyOf(work) },
      { shelf: 'places', key: job.id, put: work.place },
    ];
  }

  return {
    list,
    job: jobOf,

    /** A job of its own, kept at once; it becomes the one that was open last. */
    async create(work: Work): Promise<Job> {
      const now = clock.nowMs();
      const job: Job = {
        id: clock.newId(),
        name: nameOf(work.doc),
        facts: factsOf(work.doc),
        createdMs: now,
        changedMs: now,
        archived: false,
        deletedMs: null,
        revision: 1,
      };
      await storage.write([...written(job, work), lastIs(job.id)], [{ job: job.id, revision: null }]);
      return job;
    },

    /** Writes what was changed. Null when the job has been written by someone else since `job` was read: then nothing was written. */
    async save(job: Job, work: Work): Promise<Job | null> {
      const next: Job = {
        ...job,
        name: nameOf(work.doc),
        facts: factsOf(work.doc),
        changedMs: clock.nowMs(),
        revision: job.revision + 1,
      };
      return (await storage.write(written(next, work), [{ job: job.id, revision: job.revision }])) ? next : null;
    },

    /** Where it was left; the document stays as it is, and whoever wrote last doesn't matter. */
    async savePlace(id: string, place: Place): Promise<void> {
      await storage.write([{ shelf: 'places', key: id, put: place }]);
    },

    async open(id: string): Promise<Opened | NotOpened> {
      const [job, content, place] = await Promise.all([
        jobOf(id),
        storage.read('bodies', id),
        storage.read('places', id),
      ]);
      if (job === null && content === undefined) return { why: 'is not there' };
      const read = readBody(content);
      if ('why' in read || job === null) return 'why' in read ? read : { why: 'can’t be read', problems: [], content };
      const shown = placeSchema.safeParse(place);
      return { job, ...read, place: shown.success ? shown.data : undefined };
    },

    /** The job that was open last, by its id; null when there is none. */
    async last(): Promise<string | null> {
      const kept = await storage.read('settings', 'last');
      return typeof kept === 'string' ? kept : null;
    },

    async setLast(id: string | null): Promise<void> {
      await storage.write([id === null ? { shelf: 'settings', key: 'last', out: true } : lastIs(id)]);
    },

    /** A copy under a name of its own, with all its steps, without its snapshots. Null when it can't be read. */
    async duplicate(id: string): Promise<Job | null> {
      const { jobs } = await list();
      const body = bodySchema.safeParse(await storage.read('bodies', id));
      const job = jobs.find((one) => one.id === id);
      if (!body.success || job === undefined) return null;
      const now = clock.nowMs();
      const name = copyName(job.name, new Set(jobs.map((one) => one.name)));
      const copy: Job = {
        ...job,
        id: clock.newId(),
        name,
        createdMs: now,
        changedMs: now,
        archived: false,
        deletedMs: null,
        revision: 1,
      };
      const { doc, steps } = unpack(body.data);
      const [built] = builtOf(doc, body.data.built) as BuildDocument[];
      const named = bodyOf({ doc: { ...doc, name }, steps, ...(built && { built: { ...built, name } }) });
      const place = await storage.read('places', id);
      await storage.write(
        [
          { shelf: 'jobs', key: copy.id, put: copy },
          { shelf: 'bodies', key: copy.id, put: named },
          ...(place === undefined ? [] : [{ shelf: 'places', key: copy.id, put: place } as const]),
        ],
        [{ job: copy.id, revision: null }],
      );
      return copy;
    },

    /** Changes what the list shows of a job that is open nowhere. Null when someone else has written it since. */
    async mark(job: Job, change: Partial<Pick<Job, 'archived' | 'deletedMs'>>): Promise<Job | null> {
      const next: Job = { ...job, ...change, revision: job.revision + 1 };
      const put: Change = { shelf: 'jobs', key: job.id, put: next };
      return (await storage.write([put], [{ job: job.id, revision: job.revision }])) ? next : null;
    },

    /** A new name for a job that is open nowhere, as one of its steps. Null when someone else has written it since, or it can't be read. */
    async rename(job: Job, name: string): Promise<Job | null> {
      const body = bodySchema.safeParse(await storage.read('bodies', job.id));
      if (!body.success) return null;
      const { doc, steps } = unpack(body.data);
      const [built] = builtOf(doc, body.data.built) as BuildDocument[];
      const renamed = deepFreeze({ ...doc, name });
      const after = { doc: renamed, steps: { undo: [...steps.undo, doc], redo: [] }, ...(built && { built }) };
      const next: Job = { ...job, name, changedMs: clock.nowMs(), revision: job.revision + 1 };
      const changes: readonly Change[] = [
        { shelf: 'jobs', key: job.id, put: next },
        { shelf: 'bodies', key: job.id, put: bodyOf(after) },
      ];
      return (await storage.write(changes, [{ job: job.id, revision: job.revision }])) ? next : null;
    },

    /** Takes jobs out for good, with all that is kept of them. */
    async remove(ids: readonly string[]): Promise<void> {
      const changes: Change[] = [];
      for (const id of ids) {
        for (const shelf of ['jobs', 'bodies', 'places'] as const) changes.push({ shelf, key: id, out: true });
        for (const { key } of await storage.readAll('snapshots', `${id}/`)) {
          changes.push({ shelf: 'snapshots', key, out: true }, { shelf: 'snapshotBodies', key, out: true });
        }
      }
      if (changes.length > 0) await storage.write(changes);
    },

    /** Takes out for good what was deleted longer than 30 days ago; says how many that were. */
    async clearOut(): Promise<number> {
      const before = clock.nowMs() - DELETED_KEPT_MS;
      const old = (await list()).jobs.filter((job) => job.deletedMs !== null && job.deletedMs < before);
      await this.remove(old.map((job) => job.id));
      return old.length;
    },
  };
}

export type Library = ReturnType<typeof createLibrary>;

function lastIs(id: string): Change {
  return { shelf: 'settings', key: 'last', put: id };
}

/** The document, and the nearest one before it that can be built where it can't be itself. Steps that were spoilt are left out. */
function readBody(content: unknown): Omit<Opened, 'job' | 'place'> | NotOpened {
  const body = bodySchema.safeParse(content);
  if (!body.success) {
    const inside = typeof content === 'object' && content !== null && 'doc' in content ? content.doc : content;
    const alone = readContent(inside);
    // The document by itself may still be sound.
    if (alone.ok) return { doc: alone.doc, steps: { undo: [], redo: [] }, refused: undefined };
    return { why: 'can’t be read', problems: alone.problems, content };
  }
  const sound = body.data.print === printOf(body.data);
  const { doc, steps } = unpack(sound ? body.data : { doc: body.data.doc, undo: [], redo: [] });
  const now = readContent(doc);
  if (now.ok) return { doc, steps, refused: undefined };
  for (const before of [...builtOf(doc, body.data.built), ...[...steps.undo].reverse()]) {
    const built = readContent(before);
    if (built.ok) return { doc: built.doc, steps, refused: doc };
  }
  return { why: 'can’t be read', problems: now.problems, content };
}

function bodyOf({ doc, steps, built }: Omit<Work, 'place'>): Body {
  const packed = pack(doc, steps);
  return { ...packed, ...(built === undefined ? {} : { built: difference(doc, built) }), print: printOf(packed) };
}

/** The last document that could be built, from what it changes of the one that can't; none where that was not kept, or doesn't fit. */
function builtOf(doc: BuildDocument, edits: readonly Edit[] | undefined): readonly unknown[] {
  if (edits === undefined) return [];
  try {
    return [edited(doc, edits)];
  } catch (error) {
    if (error instanceof RangeError) return [];
    throw error;
  }
}

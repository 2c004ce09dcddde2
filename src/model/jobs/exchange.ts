/** The library to one file and back. Jobs that are there already under their id are never written over: both are kept. */
import type { Problem } from '../../build/problem.ts';
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import { same } from './difference.ts';
import { factsOf, nameOf } from './facts.ts';
import type { Clock, Library } from './library.ts';
import {
  endLine,
  headLine,
  type JobLine,
  jobLine,
  type Line,
  type Lines,
  type SnapshotLine,
  snapshotLine,
} from './libraryFile.ts';
import { pack } from './packed.ts';
import { type Job, printOf, type Snapshot, snapshotKey } from './record.ts';
import type { Snapshots } from './snapshots.ts';
import type { Change, JobStorage } from './storage.ts';

/** Larger files are not read, bytes: some thousands of jobs with their snapshots. */
export const LARGEST_LIBRARY_BYTES = 500_000_000;

/** Lines that a worker reads at a time, and lines that are written together. */
const LINES_A_PIECE = 4;
const LINES_A_BATCH = 64;

/** Lines of the file, each without its line break, as they are read; what can't be read is named at the end. Deleted jobs are left out. */
export async function* exported(
  library: Library,
  snapshots: Snapshots,
  clock: Pick<Clock, 'nowMs'>,
): AsyncGenerator<string, readonly string[]> {
  const { jobs, unreadable } = await library.list();
  const left = [...unreadable];
  const counts = { jobs: 0, snapshots: 0 };
  yield headLine(clock.nowMs());
  for (const { id, name } of jobs.filter((job) => job.deletedMs === null)) {
    const found = await library.open(id);
    if ('why' in found) {
      left.push(name);
      continue;
    }
    const { job, doc, refused } = found;
    const list = [...(await snapshots.list(id))].reverse();
    const lines: string[] = [];
    const there: Snapshot[] = [];
    for (const one of list) {
      const read = await snapshots.read(id, one.number);
      if (read?.ok !== true) continue;
      const { number, atMs, why, name: given } = one;
      lines.push(snapshotLine({ snapshot: { job: id, number, atMs, why, name: given }, doc: read.doc }));
      there.push(one);
    }
    const { createdMs, changedMs, archived } = job;
    const said = there.map(({ number, atMs }) => ({ number, atMs }));
    yield jobLine({ job: { id, createdMs, changedMs, archived }, snapshots: said, doc, left: refused });
    yield* lines;
    counts.jobs += 1;
    counts.snapshots += lines.length;
  }
  yield endLine(counts.jobs, counts.snapshots);
  return left;
}

export interface Imported {
  /** Jobs taken in, those of `beside` among them. */
  readonly taken: number;
  /** Names of those that were there already under their id, otherwise than in the file: kept beside. */
  readonly beside: readonly string[];
  /** There already, the same. */
  readonly already: number;
  readonly problems: readonly Problem[];
}

export interface ImportOptions {
  readonly storage: JobStorage;
  readonly library: Library;
  readonly snapshots: Snapshots;
  readonly pool: Pool<Work>;
  readonly clock: Clock;
  /** After each batch: lines read so far. False stops; what was taken in until then stays. */
  readonly progress: (lines: number) => boolean;
}

/** Takes in the lines of a library file as they come. Throws StorageError when there is no room: what was taken in until then stays. */
export async function importLines(lines: AsyncIterable<string>, options: ImportOptions): Promise<Imported> {
  const { storage, library, snapshots, pool, clock, progress } = options;
  const here = new Map((await library.list()).jobs.map((job) => [job.id, job]));
  /** Ids in the file, and under which the job was taken in; null where it was there already or refused. */
  const ids = new Map<string, string | null>();
  const problems: Problem[] = [];
  const beside: string[] = [];
  const counts = { lines: 0, taken: 0, already: 0, jobs: 0, snapshots: 0 };
  let sound = false;
  let ended: (Line & { kind: 'end' }) | null = null;

  async function isThere({ job, doc, left, snapshots: said }: JobLine): Promise<boolean> {
    const found = await library.open(job.id);
    if ('why' in found || found.job.deletedMs !== null) return false;
    if (!same(found.doc, doc) || !same(found.refused, left)) return false;
    const kept = new Map((await snapshots.list(job.id)).map((one) => [one.number, one.atMs]));
    return said.every(({ number, atMs }) => kept.get(number) === atMs);
  }

  async function takeJob(line: JobLine): Promise<readonly Change[]> {
    counts.jobs += 1;
    const { id, createdMs, changedMs, archived } = line.job;
    const taken = here.has(id) || ids.has(id);
    if (taken && (await isThere(line))) {
      counts.already += 1;
      ids.set(id, null);
      return [];
    }
    const doc = line.left ?? line.doc;
    const own = taken ? clock.newId() : id;
    const name = nameOf(doc);
    const job: Job = {
      id: own,
      name,
      facts: factsOf(line.doc),
      createdMs,
      changedMs,
      archived,
      deletedMs: null,
      revision: 1,
    };
    if (taken) beside.push(name);
    ids.set(id, own);
    here.set(own, job);
    counts.taken += 1;
    const packed = pack(doc, { undo: line.left === undefined ? [] : [line.doc], redo: [] });
    return [
      { shelf: 'jobs', key: own, put: job },
      { shelf: 'bodies', key: own, put: { ...packed, print: printOf(packed) } },
    ];
  }

  function takeSnapshot({ snapshot, doc }: SnapshotLine): readonly Change[] {
    counts.snapshots += 1;
    const own = ids.get(snapshot.job);
    if (own === undefined || own === null) return [];
    const key = snapshotKey(own, snapshot.number);
    const put: Snapshot = { ...snapshot, job: own, facts: factsOf(doc) };
    return [
      { shelf: 'snapshots', key, put },
      { shelf: 'snapshotBodies', key, put: doc },
    ];
  }

  async function takeBatch(batch: readonly string[]): Promise<boolean> {
    const numbered = batch.map((text, k) => ({ number: counts.lines + k + 1, text }));
    counts.lines += batch.length;
    const changes: Change[] = [];
    for (const line of await read(pool, numbered)) {
      if (line.kind === 'refused') problems.push(...line.problems);
      else if (line.kind === 'head') sound = true;
      else if (line.kind === 'end') ended = line;
      if (!sound) return false;
      if (line.kind === 'job') changes.push(...(await takeJob(line)));
      else if (line.kind === 'snapshot') changes.push(...takeSnapshot(line));
    }
    const fresh = changes.filter(({ shelf }) => shelf === 'jobs').map(({ key }) => ({ job: key, revision: null }));
    // A job that came to be under the same id since the list was read is not written over: the batch is taken in again beside it.
    if (changes.length > 0 && !(await storage.write(changes, fresh))) {
      throw new RangeError('A job of the file was made in another tab meanwhile. Import the file again.');
    }
    return progress(counts.lines);
  }

  let batch: string[] = [];
  let on = true;
  for await (const text of lines) {
    if (text.trim() === '') continue;
    batch.push(text);
    if (batch.length < LINES_A_BATCH) continue;
    on = await takeBatch(batch);
    batch = [];
    if (!on) break;
  }
  if (on && batch.length > 0) on = await takeBatch(batch);
  if (on || (sound && problems.length === 0)) problems.push(...whole(ended, counts, on));
  return { taken: counts.taken, beside, already: counts.already, problems };
}

function whole(
  ended: { readonly jobs: number; readonly snapshots: number } | null,
  counts: { readonly lines: number; readonly jobs: number; readonly snapshots: number },
  on: boolean,
): readonly Problem[] {
  const place = `line ${counts.lines}`;
  if (!on)
    return [
      { place, value: '', rule: 'whole file', allowed: 'Stopped by hand; the jobs before this line were taken in.' },
    ];
  if (counts.lines === 0) {
    return [
      {
        place: '',
        value: 'an empty file',
        rule: 'library file',
        allowed: 'A library of jobs begins with a line that says so.',
      },
    ];
  }
  if (ended === null) {
    const allowed =
      'A library of jobs ends with a line that counts them. This file was cut short; what stands before the cut was taken in.';
    return [{ place, value: 'the end of the file', rule: 'whole file', allowed }];
  }
  // Head and end are lines too.
  const inside = counts.lines - 2;
  if (ended.jobs + ended.snapshots !== inside) {
    const allowed = `The last line counts ${ended.jobs} jobs and ${ended.snapshots} snapshots; lines were taken out or put in.`;
    return [{ place, value: `${inside} lines`, rule: 'whole file', allowed }];
  }
  return [];
}

function read(pool: Pool<Work>, lines: readonly { number: number; text: string }[]): Promise<readonly Line[]> {
  const pieces: Lines[] = [];
  for (let k = 0; k < lines.length; k += LINES_A_PIECE) pieces.push({ lines: lines.slice(k, k + LINES_A_PIECE) });
  return new Promise((resolve, reject) => {
    const out: (readonly Line[])[] = [];
    pool.run('library file', 'library lines', null, pieces, {
      piece: (index, result) => {
        out[index] = result;
      },
      done: () => resolve(out.flat()),
      failed: (why) => reject(new Error(why)),
    });
  });
}

/** The lines of a file, as its bytes come in. Bytes that are no UTF-8 come as U+FFFD, which the reading of the line then judges. */
export async function* linesOf(file: Blob): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  const reader = file.stream().getReader();
  let rest = '';
  for (;;) {
    const { done, value } = await reader.read();
    rest += done ? decoder.decode() : decoder.decode(value, { stream: true });
    if (rest.includes('\n')) {
      const lines = rest.split('\n');
      rest = lines.pop()!;
      yield* lines.map((line) => line.replace(/\r$/, ''));
    }
    if (rest.length > LONGEST_LINE) {
      yield rest.slice(0, LONGEST_LINE + 1);
      await reader.cancel();
      return;
    }
    if (done) break;
  }
  if (rest !== '') yield rest;
}

/** Of a line, characters: no build reaches it (build/jsonScan.ts); a file without line breaks is not read into memory whole. */
const LONGEST_LINE = 4_000_000;

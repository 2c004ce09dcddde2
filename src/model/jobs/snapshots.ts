/** Snapshots of a job: documents as they stood at moments worth going back to. They are thinned out over time (thinning.ts). */
import type { BuildDocument } from '../../build/document.ts';
import { type ParsedBuild, readContent } from '../../build/text.ts';
import { same } from './difference.ts';
import { factsOf } from './facts.ts';
import type { Clock } from './library.ts';
import { type Snapshot, snapshotKey, snapshotSchema, type Why } from './record.ts';
import type { Change, JobStorage } from './storage.ts';
import { toThin } from './thinning.ts';

export function createSnapshots(storage: JobStorage, clock: Pick<Clock, 'nowMs'>) {
  /** Newest first. Records that are none of a snapshot are left out. */
  async function list(job: string): Promise<readonly Snapshot[]> {
    const records = await storage.readAll('snapshots', `${job}/`);
    return records
      .flatMap(({ value }) => {
        const read = snapshotSchema.safeParse(value);
        return read.success ? [read.data] : [];
      })
      .sort((a, b) => b.number - a.number);
  }

  return {
    list,

    /**
     * Takes one, unless it would be the same as the newest and has no name of its own; and drops those that are due. Returns the
     * snapshot that holds the document.
     */
    async take(job: string, doc: BuildDocument, why: Why, name: string | null = null): Promise<Snapshot> {
      const before = await list(job);
      const newest = before[0];
      if (newest !== undefined && name === null) {
        const content = await storage.read('snapshotBodies', snapshotKey(job, newest.number));
        if (same(content, doc)) return newest;
      }
      const made: Snapshot = {
        job,
        number: (newest?.number ?? 0) + 1,
        atMs: clock.nowMs(),
        why,
        name,
        facts: factsOf(doc),
      };
      const key = snapshotKey(job, made.number);
      const changes: Change[] = [
        { shelf: 'snapshots', key, put: made },
        { shelf: 'snapshotBodies', key, put: doc },
        ...toThin([made, ...before], made.atMs).flatMap((number) => out(job, number)),
      ];
      await storage.write(changes);
      return made;
    },

    async read(job: string, number: number): Promise<ParsedBuild | null> {
      const content = await storage.read('snapshotBodies', snapshotKey(job, number));
      return content === undefined ? null : readContent(content);
    },

    async remove(job: string, number: number): Promise<void> {
      await storage.write(out(job, number));
    },
  };
}

export type Snapshots = ReturnType<typeof createSnapshots>;

function out(job: string, number: number): Change[] {
  const key = snapshotKey(job, number);
  return [
    { shelf: 'snapshots', key, out: true },
    { shelf: 'snapshotBodies', key, out: true },
  ];
}

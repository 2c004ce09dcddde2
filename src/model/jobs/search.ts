/** Which jobs of the list are shown: of one drawer, with every word of what was typed somewhere in name or facts, in an order. */
import { MOST, name as nameSchema } from '../../build/schemaPieces.ts';
import type { Job } from './record.ts';

export type Drawer = 'jobs' | 'archived' | 'deleted';
export type Order = 'changed last' | 'name';

export function drawerOf(job: Job): Drawer {
  return job.deletedMs !== null ? 'deleted' : job.archived ? 'archived' : 'jobs';
}

/** Capital or small, with accents or without, is all the same. */
function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .replaceAll('\u00a0', ' ')
    .toLocaleLowerCase();
}

const byName = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });

export function found(jobs: readonly Job[], drawer: Drawer, typed: string, order: Order): readonly Job[] {
  const words = plain(typed).split(/\s+/).filter(Boolean);
  return jobs
    .filter((job) => drawerOf(job) === drawer)
    .filter((job) => {
      if (words.length === 0) return true;
      const text = plain(`${job.name} ${job.facts}`);
      return words.every((word) => text.includes(word));
    })
    .sort((a, b) => (order === 'name' ? byName.compare(a.name, b.name) : 0) || b.changedMs - a.changedMs);
}

/** "Quarry V8, copy", or "…, copy 2" where that is taken. */
export function copyName(name: string, taken: ReadonlySet<string>): string {
  const base = name.replace(/, copy(?: \d+)?$/, '').slice(0, MOST.name - ', copy 9999'.length);
  for (let k = 1; ; k++) {
    const tried = k === 1 ? `${base}, copy` : `${base}, copy ${k}`;
    if (!taken.has(tried)) return tried;
  }
}

/** Can a build be called so. */
export function isName(text: string): boolean {
  return nameSchema.safeParse(text).success;
}

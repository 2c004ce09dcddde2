/** The library kept in memory: where the browser keeps nothing the page still works with it, until it is closed; and for tests. */
import { type Change, type Guard, isMet, type JobStorage, SHELVES, type Shelf } from './storage.ts';

export function memoryStorage(): JobStorage {
  const shelves = new Map<Shelf, Map<string, unknown>>(SHELVES.map((shelf) => [shelf, new Map()]));
  const on = (shelf: Shelf): Map<string, unknown> => shelves.get(shelf)!;
  const made = (change: Change): void => {
    if ('put' in change) on(change.shelf).set(change.key, structuredClone(change.put));
    else on(change.shelf).delete(change.key);
  };
  return {
    read: async (shelf, key) => structuredClone(on(shelf).get(key)),
    readAll: async (shelf, beginning = '') =>
      [...on(shelf)]
        .filter(([key]) => key.startsWith(beginning))
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([key, value]) => ({ key, value: structuredClone(value) })),
    write: async (changes, guards: readonly Guard[] = []) => {
      if (!guards.every((guard) => isMet(guard, on('jobs').get(guard.job)))) return false;
      changes.forEach(made);
      return true;
    },
    close: () => {},
  };
}

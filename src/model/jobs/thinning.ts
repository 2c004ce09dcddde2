/**
 * Which snapshots are kept. Those with a name stay until they are deleted by hand. Of those made by themselves: the newest
 * 20 of the last 24 hours; then the newest of each day, for 30 days; then the newest of each 30 days. The newest of all stays.
 */
export interface Kept {
  readonly number: number;
  readonly atMs: number;
  readonly name: string | null;
}

const DAY_MS = 86_400_000;

/** Of the last day so many, whatever happened in it. */
export const MOST_OF_A_DAY = 20;
const DAYS_KEPT_SINGLY = 30;

/** Numbers of the snapshots that go. Days are counted from the first of January 1970, UTC, so that the same ones go whenever it is asked. */
export function toThin(snapshots: readonly Kept[], nowMs: number): readonly number[] {
  const gone: number[] = [];
  const taken = new Set<string>();
  let ofToday = 0;
  const newestFirst = snapshots
    .filter((one) => one.name === null)
    .sort((a, b) => b.atMs - a.atMs || b.number - a.number);
  for (const [k, one] of newestFirst.entries()) {
    const ageMs = nowMs - one.atMs;
    if (ageMs < DAY_MS) {
      ofToday += 1;
      if (ofToday > MOST_OF_A_DAY && k > 0) gone.push(one.number);
      continue;
    }
    const day = Math.floor(one.atMs / DAY_MS);
    const slot = ageMs < DAYS_KEPT_SINGLY * DAY_MS ? `day ${day}` : `month ${Math.floor(day / DAYS_KEPT_SINGLY)}`;
    if (taken.has(slot)) gone.push(one.number);
    taken.add(slot);
  }
  return gone;
}

/** The worker's end: takes jobs and pieces, does the pieces as they come, answers each. */
import type { Steps, Table } from './kind.ts';
import { beginning, reason, toTheEnd } from './kind.ts';

export type ToWorker =
  | { readonly do: 'begin'; readonly job: number; readonly kind: string; readonly shared: unknown }
  | { readonly do: 'piece'; readonly job: number; readonly index: number; readonly piece: unknown }
  | { readonly do: 'end'; readonly job: number };

export interface FromWorker {
  readonly job: number;
  readonly index: number;
  readonly result?: unknown;
  /** Why the piece could not be done. */
  readonly failed?: string;
}

/** Returns what is to be called with each message. */
export function serve(table: Table, answer: (message: FromWorker) => void): (message: ToWorker) => void {
  const jobs = new Map<number, (piece: unknown) => Steps<unknown>>();
  return (message) => {
    const { job } = message;
    if (message.do === 'end') {
      jobs.delete(job);
      return;
    }
    if (message.do === 'begin') {
      let work: ((piece: unknown) => Steps<unknown>) | undefined;
      // Begun with its first piece, so that a fault is answered as that of a piece.
      jobs.set(job, (piece) => {
        work ??= beginning(table, message.kind, message.shared);
        return work(piece);
      });
      return;
    }
    const { index, piece } = message;
    const work = jobs.get(job);
    if (work === undefined) return;
    try {
      answer({ job, index, result: toTheEnd(work(piece)) });
    } catch (error) {
      answer({ job, index, failed: reason(error) });
    }
  };
}

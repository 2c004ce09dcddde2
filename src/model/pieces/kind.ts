/**
 * Work too long for a frame, as data: what a kind of work is, and how it is run to its end.
 *
 * A job is one `shared` value, posted once to each worker that takes part, and a list of pieces. A kind makes of the shared
 * value, once for a job and worker, the function that does a piece. That function must be pure: its result depends on
 * shared value and piece alone, never on which pieces came before it or where it runs, so that the number of workers
 * changes nothing but the time. Shared values, pieces and results are plain data that can be posted.
 *
 * A piece is done in steps: the generator yields wherever it may be interrupted, every few milliseconds at most, since
 * without workers the page does the same steps between its frames. A piece as a whole should take 5 to 50 ms.
 */

export type Steps<Result> = Generator<undefined, Result>;

export type Kind<Shared, Piece, Result> = (shared: Shared) => (piece: Piece) => Steps<Result>;

/** Kinds by name; the program's own table is table.ts. */
export type Table = Readonly<Record<string, Kind<never, never, unknown>>>;

export type Name<T extends Table> = keyof T & string;
export type SharedOf<T extends Table, K extends Name<T>> = Parameters<T[K]>[0];
export type PieceOf<T extends Table, K extends Name<T>> = Parameters<ReturnType<T[K]>>[0];
export type ResultOf<T extends Table, K extends Name<T>> =
  ReturnType<ReturnType<T[K]>> extends Steps<infer Result> ? Result : never;

/** Who is told. Each piece is told once, in the order in which they come ready; then `done`, or `failed` alone. */
export interface On<Result> {
  /** `index` of the piece in the list given. */
  readonly piece: (index: number, result: Result) => void;
  readonly done: () => void;
  /** A piece can't be done, by a fault of the program; nothing more of this job is told. */
  readonly failed: (why: string) => void;
}

export interface Pool<T extends Table> {
  /**
   * Starts a job; pieces are begun in the order of the list. A new job of the same owner cancels the one before; jobs of
   * different owners take turns. Returns the way to cancel: after that nothing is told.
   */
  readonly run: <K extends Name<T>>(
    owner: string,
    kind: K,
    shared: SharedOf<T, K>,
    pieces: readonly PieceOf<T, K>[],
    on: On<ResultOf<T, K>>,
  ) => () => void;
}

/** The function for the pieces of a job; the table's own types are checked where the job is started. */
export function beginning(table: Table, kind: string, shared: unknown): (piece: unknown) => Steps<unknown> {
  const begin = table[kind];
  if (begin === undefined) throw new RangeError(`No kind of work is called "${kind}".`);
  return begin(shared as never) as (piece: unknown) => Steps<unknown>;
}

export function toTheEnd<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

export function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** Does every job here and at once, before `run` returns: for the command line and for tests. */
export function directPool<T extends Table>(table: T): Pool<T> {
  return {
    run: (_, kind, shared, pieces, on) => {
      try {
        const work = beginning(table, kind, shared);
        for (const [index, piece] of pieces.entries()) on.piece(index, toTheEnd(work(piece)) as never);
      } catch (error) {
        on.failed(reason(error));
        return () => {};
      }
      on.done();
      return () => {};
    },
  };
}

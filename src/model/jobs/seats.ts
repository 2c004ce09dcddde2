/**
 * Which tab works on a job: one at a time has its seat. Another tab may ask for it; the one that has it keeps what it has not kept yet and
 * gets up. A tab that does not answer, frozen or in the middle of dying, loses its seat. What keeps tabs from overwriting one another all the same is the
 * revision of the record (storage.ts); seats are there so that people are told.
 */

export interface Seat {
  readonly leave: () => void;
}

export interface Sitter {
  /** Another tab asks for the seat: it goes to that tab when the promise is kept. */
  readonly asked: () => Promise<void>;
  /** The seat is gone, whether it was asked for or taken. */
  readonly lost: () => void;
}

export interface Seats {
  /** Null when another tab has it. */
  readonly sit: (job: string, sitter: Sitter) => Promise<Seat | null>;
  /** Asks the tab that has it, and takes it where nobody answers. */
  readonly take: (job: string, sitter: Sitter) => Promise<Seat>;
  /** Jobs that are open in some tab, this one included. */
  readonly taken: () => Promise<ReadonlySet<string>>;
  /** Tells other tabs that something of the library was written. */
  readonly tell: () => void;
  /** Called when another tab has told so. */
  readonly told: (listener: () => void) => void;
}

/** A tab that keeps a last change takes some tens of milliseconds; one that has not answered by then is frozen, ms. */
const PATIENCE_MS = 2000;
const PREFIX = 'strokewright job ';
const CHANNEL = 'strokewright jobs';

type Message = { readonly asksFor: string } | { readonly changed: true };

/** With Web Locks (W3C) and a BroadcastChannel (HTML standard). Where the browser has none of them everyone may sit; revisions still guard. */
export function browserSeats(): Seats {
  const locks = typeof navigator === 'object' ? navigator.locks : undefined;
  const channel = typeof BroadcastChannel === 'function' ? new BroadcastChannel(CHANNEL) : undefined;
  if (locks === undefined || channel === undefined) return openSeats();
  const mine = new Map<string, { readonly sitter: Sitter; readonly leave: () => void }>();
  const listeners = new Set<() => void>();
  channel.onmessage = (event: MessageEvent<Message>): void => {
    if ('changed' in event.data) {
      for (const listener of listeners) listener();
      return;
    }
    const held = mine.get(event.data.asksFor);
    if (held === undefined) return;
    void held.sitter.asked().finally(() => {
      held.leave();
      held.sitter.lost();
    });
  };

  function request(job: string, sitter: Sitter, options: LockOptions): Promise<Seat | null> {
    return new Promise((resolve, reject) => {
      locks!
        .request(PREFIX + job, options, (lock) => {
          if (lock === null) {
            resolve(null);
            return undefined;
          }
          return new Promise<void>((done) => {
            const leave = (): void => {
              if (mine.get(job)?.sitter === sitter) mine.delete(job);
              done();
            };
            mine.set(job, { sitter, leave });
            resolve({ leave });
          });
        })
        .catch((error: unknown) => {
          // Broken after it was had: another tab took it. Before that: it was never had.
          if (mine.get(job)?.sitter === sitter) {
            mine.delete(job);
            sitter.lost();
          } else reject(error);
        });
    });
  }

  return {
    sit: (job, sitter) => request(job, sitter, { ifAvailable: true }),
    take: async (job, sitter) => {
      channel.postMessage({ asksFor: job } satisfies Message);
      try {
        const seat = await request(job, sitter, { signal: AbortSignal.timeout(PATIENCE_MS) });
        if (seat !== null) return seat;
      } catch {
        // Nobody answered in time.
      }
      return (await request(job, sitter, { steal: true }))!;
    },
    taken: async () => {
      const { held = [] } = await locks.query();
      return new Set(held.flatMap(({ name }) => (name?.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : [])));
    },
    tell: () => channel.postMessage({ changed: true } satisfies Message),
    told: (listener) => listeners.add(listener),
  };
}

/** Everyone may sit: for one page by itself. */
export function openSeats(): Seats {
  const seat: Seat = { leave: () => {} };
  return {
    sit: async () => seat,
    take: async () => seat,
    taken: async () => new Set(),
    tell: () => {},
    told: () => {},
  };
}

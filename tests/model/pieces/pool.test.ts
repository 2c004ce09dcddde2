/** The pool of workers: order, turns, cancelling, and what happens when workers fail. Workers are stepped by hand, so nothing depends on the clock. */
import { describe, expect, it } from 'vitest';
import type { Pool, Steps, Table } from '../../../src/model/pieces/kind.ts';
import { directPool } from '../../../src/model/pieces/kind.ts';
import type { Hand } from '../../../src/model/pieces/pool.ts';
import { createPool, PIECE_SILENT_S } from '../../../src/model/pieces/pool.ts';
import type { FromWorker, ToWorker } from '../../../src/model/pieces/serve.ts';
import { serve } from '../../../src/model/pieces/serve.ts';
import { workersFor } from '../../../src/model/pieces/workerPool.ts';

let begun = 0;
let steps = 0;

/** A multiple, in three steps. */
const KINDS = {
  times: (shared: { readonly factor: number }) => {
    begun += 1;
    if (Number.isNaN(shared.factor)) throw new Error('no factor');
    return function* (piece: number): Steps<number> {
      for (let k = 0; k < 3; k++) {
        steps += 1;
        yield;
      }
      if (piece < 0) throw new Error('below zero');
      return piece * shared.factor;
    };
  },
  words: (shared: string) =>
    // biome-ignore lint/correctness/useYield: a piece of one step
    function* (piece: string): Steps<string> {
      return `${shared} ${piece}`;
    },
} satisfies Table;

interface Bench {
  readonly pool: Pool<typeof KINDS>;
  /** Messages to each worker not yet taken. */
  readonly mail: ToWorker[][];
  readonly posted: ToWorker[][];
  readonly stopped: number[];
  /** Worker `k` takes its next message. */
  readonly take: (k: number) => void;
  readonly fail: (k: number) => void;
  readonly later: (() => void)[];
  /** Seconds go by. */
  readonly seconds: (count: number) => void;
  /** How many watch the seconds. */
  readonly watching: () => number;
  readonly runAll: (order?: readonly number[]) => void;
}

/** Each reading of the clock is a millisecond later. */
function bench(workers: number, breaking: { make?: number; post?: number } = {}): Bench {
  const mail: ToWorker[][] = [];
  const posted: ToWorker[][] = [];
  const stopped: number[] = [];
  const takes: ((message: ToWorker) => void)[] = [];
  const fails: (() => void)[] = [];
  const later: (() => void)[] = [];
  const ticks = new Set<() => void>();
  let clock = 0;
  const pool = createPool(KINDS, {
    workers,
    make: (answered: (message: FromWorker) => void, failed: () => void): Hand => {
      const k = mail.length;
      if (k === breaking.make) throw new Error('no workers here');
      mail.push([]);
      posted.push([]);
      fails.push(failed);
      takes.push(serve(KINDS, answered));
      return {
        post: (message) => {
          if (k === breaking.post) throw new Error('can’t be posted');
          mail[k]!.push(message);
          posted[k]!.push(message);
        },
        stop: () => {
          stopped.push(k);
          mail[k]!.length = 0;
        },
      };
    },
    later: (step) => later.push(step),
    clock: () => clock++,
    everySecond: (tick) => {
      ticks.add(tick);
      return () => ticks.delete(tick);
    },
  });
  const take = (k: number): void => {
    const message = mail[k]!.shift();
    if (message !== undefined) takes[k]!(message);
  };
  const runAll = (order: readonly number[] = []): void => {
    for (const k of order) take(k);
    for (let guard = 0; guard < 10_000; guard++) {
      const k = mail.findIndex((m) => m.length > 0);
      if (k >= 0) take(k);
      else if (later.length > 0) later.shift()!();
      else return;
    }
    throw new Error('no end');
  };
  const seconds = (count: number): void => {
    for (let k = 0; k < count; k++) for (const tick of [...ticks]) tick();
  };
  const watching = (): number => ticks.size;
  return { pool, mail, posted, stopped, take, fail: (k) => fails[k]!(), later, seconds, watching, runAll };
}

interface Told {
  readonly results: [number, unknown][];
  ends: string[];
}

function told(): Told & {
  on: { piece: (i: number, r: unknown) => void; done: () => void; failed: (w: string) => void };
} {
  const results: [number, unknown][] = [];
  const ends: string[] = [];
  return {
    results,
    ends,
    on: {
      piece: (index, result) => results.push([index, result]),
      done: () => ends.push('done'),
      failed: (why) => ends.push(why),
    },
  };
}

const PIECES = [1, 2, 3, 4, 5, 6, 7];
const WANTED = PIECES.map((p, k) => [k, p * 10]);

function sorted(list: readonly [number, unknown][]): [number, unknown][] {
  return [...list].sort((p, q) => p[0] - q[0]);
}

describe('a table that is fetched', () => {
  const none = (make: () => Promise<typeof KINDS>) => {
    const later: (() => void)[] = [];
    const pool = createPool(make, {
      workers: 0,
      make: () => ({ post: () => {}, stop: () => {} }),
      later: (step) => later.push(step),
      clock: () => 0,
    });
    const t = told();
    pool.run('test', 'times', { factor: 10 }, [1], t.on);
    return { later, t };
  };

  it('is asked for once the page has to do a piece, and the piece waits for it', async () => {
    let asked = 0;
    const { later, t } = none(() => {
      asked += 1;
      return Promise.resolve(KINDS);
    });
    expect(asked).toBe(0);
    later.shift()!();
    expect([asked, t.results]).toEqual([1, []]);
    await Promise.resolve();
    await Promise.resolve();
    later.shift()!();
    expect([t.results, t.ends, asked, later.length]).toEqual([[[0, 10]], ['done'], 1, 0]);
  });

  it('that can’t be had fails the job, with the reason', async () => {
    const { later, t } = none(() => Promise.reject(new Error('no network')));
    later.shift()!();
    await Promise.resolve();
    await Promise.resolve();
    await Promise.resolve();
    expect([t.results, t.ends, later.length]).toEqual([[], ['no network'], 0]);
  });
});

describe('a job', () => {
  it('is done piece by piece, with the same results at any number of workers and in any order of theirs', () => {
    for (const workers of [0, 1, 2, 4]) {
      for (const order of [[], [0, 0, 1, 1, 1, 1, 1, 0], [3, 3, 3, 3, 2, 1, 2]]) {
        const { pool, runAll } = bench(workers);
        const t = told();
        pool.run('test', 'times', { factor: 10 }, PIECES, t.on);
        runAll(order.filter((k) => k < workers));
        expect(sorted(t.results)).toEqual(WANTED);
        expect(t.ends).toEqual(['done']);
      }
    }
    const t = told();
    directPool(KINDS).run('test', 'times', { factor: 10 }, PIECES, t.on);
    expect(t.results).toEqual(WANTED);
    expect(t.ends).toEqual(['done']);
  });

  it('begins its pieces in the order of the list, and posts what is shared once to each worker', () => {
    const { pool, posted, runAll } = bench(2);
    begun = 0;
    pool.run('test', 'times', { factor: 10 }, PIECES, told().on);
    // Two pieces each at most, the first ones spread over both.
    expect(posted.map((m) => m.flatMap((x) => (x.do === 'piece' ? [x.index] : [])))).toEqual([
      [0, 2],
      [1, 3],
    ]);
    runAll();
    expect(posted.map((m) => m.filter((x) => x.do === 'begin').length)).toEqual([1, 1]);
    expect(posted.map((m) => m.filter((x) => x.do === 'end').length)).toEqual([1, 1]);
    expect(begun).toBe(2);
  });

  it('without pieces is done at once', () => {
    for (const pool of [bench(1).pool, directPool(KINDS)]) {
      const t = told();
      pool.run('test', 'times', { factor: 1 }, [], t.on);
      expect(t.ends).toEqual(['done']);
    }
  });
});

describe('several jobs', () => {
  it('of one owner: the new one cancels the old, of which nothing is told any more', () => {
    const { pool, runAll } = bench(1);
    const old = told();
    const young = told();
    pool.run('map', 'times', { factor: 1 }, PIECES, old.on);
    pool.run('map', 'times', { factor: 10 }, PIECES, young.on);
    runAll();
    expect(old.results).toEqual([]);
    expect(old.ends).toEqual([]);
    expect(sorted(young.results)).toEqual(WANTED);
  });

  it('of different owners take turns', () => {
    const { pool, posted, runAll } = bench(1);
    pool.run('long', 'times', { factor: 1 }, PIECES, told().on);
    const short = told();
    pool.run('short', 'words', 'to', ['a', 'b'], short.on);
    runAll();
    const order = posted[0]!.flatMap((m) => (m.do === 'piece' ? [typeof m.piece] : []));
    expect(order.indexOf('string')).toBe(2);
    expect(order.lastIndexOf('string')).toBeLessThan(6);
    expect(short.results).toEqual([
      [0, 'to a'],
      [1, 'to b'],
    ]);
  });

  it('cancelled, by hand or from within what is told, is silent from then on', () => {
    const { pool, runAll, posted } = bench(2);
    const t = told();
    const cancel = pool.run('test', 'times', { factor: 10 }, PIECES, {
      ...t.on,
      piece: (index, result) => {
        t.on.piece(index, result);
        if (t.results.length === 3) cancel();
      },
    });
    runAll();
    expect(t.results).toHaveLength(3);
    expect(t.ends).toEqual([]);
    // What had not been given out stays undone.
    expect(posted.flat().filter((m) => m.do === 'piece').length).toBeLessThan(PIECES.length);
    cancel();
  });
});

describe('a failing worker', () => {
  it('is given up; what it held is done by the others', () => {
    const { pool, fail, take, runAll, stopped } = bench(2);
    const t = told();
    pool.run('test', 'times', { factor: 10 }, PIECES, t.on);
    take(1);
    fail(1);
    fail(1);
    runAll();
    expect(stopped).toEqual([1]);
    expect(sorted(t.results)).toEqual(WANTED);
    expect(t.ends).toEqual(['done']);
  });

  it('being the last one, or none to be had, has the pieces done here, in slices, nothing before the first', () => {
    for (const breaking of [{ make: 0 }, { post: 0 }, {}]) {
      const { pool, fail, later, runAll } = bench(1, breaking);
      const t = told();
      pool.run('test', 'times', { factor: 10 }, PIECES, t.on);
      if (Object.keys(breaking).length === 0) fail(0);
      expect(t.results).toEqual([]);
      steps = 0;
      later.shift()!();
      // The clock moves a millisecond at each reading: a slice is some steps long, not the whole job.
      expect(steps).toBeGreaterThan(0);
      expect(steps).toBeLessThan(8);
      runAll();
      expect(t.results).toEqual(WANTED);
      expect(t.ends).toEqual(['done']);
    }
  });
});

describe('a silent worker', () => {
  it('is given up once it has said nothing for the time allowed, not before; its pieces are done by the others', () => {
    const { pool, take, seconds, mail, stopped, runAll, watching } = bench(2);
    const t = told();
    pool.run('test', 'times', { factor: 10 }, PIECES, t.on);
    // Worker 0 never takes its mail; worker 1 answers now and then.
    take(1);
    seconds(PIECE_SILENT_S - 1);
    take(1);
    take(1);
    expect(stopped).toEqual([]);
    seconds(1);
    expect(stopped).toEqual([0]);
    mail[0]!.length = 0;
    runAll();
    expect(sorted(t.results)).toEqual(WANTED);
    expect(t.ends).toEqual(['done']);
    expect(watching()).toBe(0);
  });

  it('each answer begins the count anew; nothing is counted while nothing is due', () => {
    const { pool, take, seconds, stopped, runAll, watching } = bench(1);
    const t = told();
    pool.run('test', 'times', { factor: 10 }, PIECES, t.on);
    take(0);
    for (let k = 0; k < PIECES.length; k++) {
      seconds(PIECE_SILENT_S - 1);
      take(0);
    }
    expect(stopped).toEqual([]);
    runAll();
    expect(sorted(t.results)).toEqual(WANTED);
    expect(watching()).toBe(0);
    seconds(3 * PIECE_SILENT_S);
    expect(stopped).toEqual([]);
  });

  it('being the only one, leaves the work to the page', () => {
    const { pool, seconds, mail, later, runAll, stopped } = bench(1);
    const t = told();
    pool.run('test', 'times', { factor: 10 }, PIECES, t.on);
    mail[0]!.length = 0;
    seconds(PIECE_SILENT_S);
    expect(stopped).toEqual([0]);
    expect(later.length).toBe(1);
    runAll();
    expect(t.results).toEqual(WANTED);
    expect(t.ends).toEqual(['done']);
  });
});

describe('a piece that can’t be done', () => {
  it('is tried here, and fails the job with its reason if it fails again', () => {
    for (const workers of [0, 1, 2]) {
      const { pool, runAll } = bench(workers);
      const t = told();
      const other = told();
      pool.run('test', 'times', { factor: 10 }, [1, -1, 2], t.on);
      pool.run('other', 'words', 'to', ['a'], other.on);
      runAll();
      expect(t.ends).toEqual(['below zero']);
      expect(other.ends).toEqual(['done']);
    }
    const t = told();
    directPool(KINDS).run('test', 'times', { factor: 10 }, [1, -1, 2], t.on);
    expect(t.ends).toEqual(['below zero']);
  });

  it('so does a job that can’t be begun', () => {
    for (const pool of [bench(2), bench(0)]) {
      const t = told();
      pool.pool.run('test', 'times', { factor: Number.NaN }, [1, 2], t.on);
      pool.runAll();
      expect(t.results).toEqual([]);
      expect(t.ends).toEqual(['no factor']);
    }
  });
});

it('a core is left to the page where there are more than two, and four workers are the most', () => {
  expect([1, 2, 3, 4, 5, 8, 64].map(workersFor)).toEqual([1, 2, 2, 3, 4, 4, 4]);
});

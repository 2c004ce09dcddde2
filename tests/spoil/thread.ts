/** The thread in which spoilt files and literals are judged, one after another; each is told as it is done. */
import { parentPort, workerData } from 'node:worker_threads';
import { judgeFile, judgeLiteral, judgeWhole } from './judge.ts';
import { spoiltFile, spoiltLiteral } from './spoilt.ts';

export type Told =
  | { readonly done: true }
  | {
      readonly seed: number;
      readonly faults: readonly string[];
      readonly taken: boolean;
      readonly rule: string | null;
      readonly swept: number;
      readonly whole: number;
      /** How many this message speaks of: literals go in lots. */
      readonly count: number;
      readonly ms: number;
    };

/** Every so many files taken, one is certified in full. */
const WHOLE_EVERY = 200;
const LITERALS_TOGETHER = 50;

const { kind, from, to } = workerData as { kind: 'file' | 'literal'; from: number; to: number };
const tell = (told: Told): void => parentPort!.postMessage(told);
const none = { taken: false, rule: null, swept: 0, whole: 0 };

function thrown(work: () => readonly string[]): readonly string[] {
  try {
    return work();
  } catch (error) {
    return [`throws ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`];
  }
}

if (kind === 'literal') {
  for (let lot = from; lot < to; lot += LITERALS_TOGETHER) {
    const end = Math.min(to, lot + LITERALS_TOGETHER);
    const faults: string[] = [];
    for (let seed = lot; seed < end; seed++) {
      const text = spoiltLiteral(seed);
      const shown = JSON.stringify(text.slice(0, 60));
      faults.push(...thrown(() => judgeLiteral(text)).map((what) => `seed ${seed}, ${shown} ${what}`));
    }
    tell({ ...none, seed: end - 1, faults, count: end - lot, ms: 0 });
  }
} else {
  let taken = 0;
  for (let seed = from; seed < to; seed++) {
    const began = performance.now();
    const text = spoiltFile(seed);
    let judged: Pick<Extract<Told, { seed: number }>, 'taken' | 'rule' | 'swept'> = none;
    const faults = [
      ...thrown(() => {
        const found = judgeFile(text, seed);
        judged = found;
        return found.faults;
      }),
    ];
    let whole = 0;
    if (judged.taken) {
      taken += 1;
      if (taken % WHOLE_EVERY === 0) {
        faults.push(...thrown(() => judgeWhole(text)));
        whole = 1;
      }
    }
    tell({ ...judged, seed, faults, whole, count: 1, ms: performance.now() - began });
  }
}
tell({ done: true });

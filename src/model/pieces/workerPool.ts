/** The pool of a page: its workers are files of their own, which the first picture does not wait for. */
import type { Pool } from './kind.ts';
import { createPool } from './pool.ts';
import type { FromWorker } from './serve.ts';
import { everySecond } from './silence.ts';
import type { Work } from './table.ts';
import PoolWorker from './work.worker.ts?worker';

/** More would not be kept fed by one page. */
const MOST_WORKERS = 4;

/** One for each core but the page's own, where there are more than two; at least 1. */
export function workersFor(cores: number): number {
  return Math.max(1, Math.min(MOST_WORKERS, cores > 2 ? cores - 1 : cores));
}

/** `broke` is told when a worker breaks: what it held is done by the others, or by the page. */
export function workerPool(broke: () => void = () => {}): Pool<Work> {
  // What the workers can do the page fetches only if it has to do it itself.
  return createPool(async () => (await import('./table.ts')).WORK, {
    workers: workersFor(navigator.hardwareConcurrency || 1),
    make: (answered, failed) => {
      const worker = new PoolWorker();
      worker.onmessage = (event: MessageEvent<FromWorker>): void => answered(event.data);
      worker.onerror = (event): void => {
        event.preventDefault();
        failed();
      };
      worker.onmessageerror = failed;
      return { post: (message) => worker.postMessage(message), stop: () => worker.terminate() };
    },
    later: (step) => setTimeout(step, 0),
    clock: () => performance.now(),
    everySecond,
    lost: broke,
  });
}

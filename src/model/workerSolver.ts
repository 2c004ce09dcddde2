/** The solver in a worker. While one task runs only the newest of those that come is kept. A worker that breaks is replaced, twice; then the page solves by itself. */

import SolveWorker from './solve.worker.ts?worker';
import type { SolveAnswer, Solver, SolveTask } from './solver.ts';
import { directSolver } from './solver.ts';

interface Message {
  readonly number: number;
  readonly answer?: SolveAnswer;
  readonly done?: boolean;
  readonly failed?: string;
}

interface Running {
  readonly number: number;
  readonly task: SolveTask;
  readonly answer: (answer: SolveAnswer) => void;
}

/** A worker that breaks is replaced so often; after that the page solves by itself, which makes its frames late but its figures no worse. */
const MOST_BROKEN = 2;

/** `stop` ends the worker; what is asked for afterwards is not answered. `broke` is told each time a worker breaks: what it was doing is begun anew. */
export function workerSolver(broke: () => void = () => {}): Solver & { readonly stop: () => void } {
  let worker: Worker | null = null;
  let broken = 0;
  let stopped = false;
  let number = 0;
  let running: Running | null = null;
  let waiting: Running | null = null;

  function man(): void {
    try {
      worker = new SolveWorker();
    } catch {
      worker = null;
      return;
    }
    worker.onmessage = (event: MessageEvent<Message>): void => {
      const { answer, done, failed } = event.data;
      if (running === null || event.data.number !== running.number) return;
      if (failed !== undefined) {
        giveUp();
        return;
      }
      // An answer overtaken by a newer task is void.
      if (waiting === null && answer !== undefined) running.answer(answer);
      if (done) next();
    };
    worker.onerror = (event): void => {
      event.preventDefault();
      giveUp();
    };
  }

  function next(): void {
    running = waiting;
    waiting = null;
    if (running === null) return;
    if (worker === null) {
      const { task, answer } = running;
      running = null;
      directSolver().start(task, answer);
    } else worker.postMessage({ number: running.number, task: running.task });
  }

  function giveUp(): void {
    worker?.terminate();
    worker = null;
    broken += 1;
    waiting ??= running;
    running = null;
    if (broken <= MOST_BROKEN) man();
    broke();
    next();
  }

  man();
  return {
    start: (task, answer) => {
      if (stopped) return;
      number += 1;
      waiting = { number, task, answer };
      if (running === null) next();
    },
    stop: () => {
      running = null;
      waiting = null;
      stopped = true;
      worker?.terminate();
    },
  };
}

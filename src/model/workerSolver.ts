/** The solver in a worker. While one task runs only the newest of those that come is kept. A worker that breaks, or never answers, is replaced, twice; then the page solves by itself. */

import { everySecond, watchSilence } from './pieces/silence.ts';
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

/** The longest task of all, the cures of a whole engine on a slow machine, says something within this, s. */
const TASK_SILENT_S = 60;

/** `stop` ends the worker; what is asked for afterwards is not answered. `broke` is told each time a worker breaks: what it was doing is begun anew. */
export function workerSolver(broke: () => void = () => {}): Solver & { readonly stop: () => void } {
  let worker: Worker | null = null;
  let broken = 0;
  let stopped = false;
  let number = 0;
  let running: Running | null = null;
  let waiting: Running | null = null;
  const silence = watchSilence(TASK_SILENT_S, everySecond, giveUp);

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
      silence.due();
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
    silence.rest();
    if (running === null) return;
    if (worker === null) {
      const { task, answer } = running;
      running = null;
      directSolver().start(task, answer);
    } else {
      worker.postMessage({ number: running.number, task: running.task });
      silence.due();
    }
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
      silence.rest();
      worker?.terminate();
    },
  };
}

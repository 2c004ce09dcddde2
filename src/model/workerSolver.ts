/** The solver in a worker. While one task runs only the newest of those that come is kept. If the worker fails, the page solves by itself. */

import SolveWorker from './solve.worker.ts?worker&inline';
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

/** `stop` ends the worker; what is asked for afterwards is not answered. */
export function workerSolver(): Solver & { readonly stop: () => void } {
  let worker: Worker;
  try {
    worker = new SolveWorker();
  } catch {
    return { ...directSolver(), stop: () => {} };
  }
  let broken = false;
  let stopped = false;
  let number = 0;
  let running: Running | null = null;
  let waiting: Running | null = null;

  const next = (): void => {
    running = waiting;
    waiting = null;
    if (running !== null) worker.postMessage({ number: running.number, task: running.task });
  };
  const giveUp = (): void => {
    broken = true;
    worker.terminate();
    const task: Running | null = waiting ?? running;
    running = null;
    waiting = null;
    if (task !== null) directSolver().start(task.task, task.answer);
  };
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
  worker.onerror = giveUp;
  return {
    start: (task, answer) => {
      if (stopped) return;
      if (broken) {
        directSolver().start(task, answer);
        return;
      }
      number += 1;
      waiting = { number, task, answer };
      if (running === null) next();
    },
    stop: () => {
      running = null;
      waiting = null;
      stopped = true;
      worker.terminate();
    },
  };
}

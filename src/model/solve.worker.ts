/** The solver's worker: tasks in, answers out, each with the number of its task. */
import type { SolveTask } from './solver.ts';
import { runTask } from './solver.ts';

self.onmessage = (event: MessageEvent<{ readonly number: number; readonly task: SolveTask }>): void => {
  const { number, task } = event.data;
  try {
    runTask(task, (answer) => self.postMessage({ number, answer }));
    self.postMessage({ number, done: true });
  } catch (error) {
    self.postMessage({ number, failed: error instanceof Error ? error.message : String(error) });
  }
};

/** Reads and fits outlines in a worker, made when the first file comes; if it fails, the page reads by itself. */
import OutlineWorker from './outline.worker.ts?worker';
import { directReader, type OutlineReader, type ReadOutline } from './outlineReader.ts';

interface Answer {
  readonly number: number;
  readonly read?: ReadOutline;
}

export function workerReader(): OutlineReader {
  let worker: Worker | null = null;
  let broken = false;
  let number = 0;
  return (file, options, answer) => {
    number += 1;
    const mine = number;
    const here = (): void => {
      broken = true;
      worker?.terminate();
      if (mine === number) directReader(file, options, answer);
    };
    if (broken) return here();
    try {
      worker ??= new OutlineWorker();
    } catch {
      return here();
    }
    worker.onmessage = (event: MessageEvent<Answer>): void => {
      const { read } = event.data;
      if (event.data.number !== number) return;
      if (read === undefined) here();
      else answer(read);
    };
    worker.onerror = here;
    worker.postMessage({ number: mine, file, options });
  };
}

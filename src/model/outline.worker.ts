/** The worker that reads and fits outlines: files in, outlines out, each with its number. */
import type { ImportOptions } from '../exchange/index.ts';
import { type OutlineFile, readFileOutline } from './outlineReader.ts';

self.onmessage = (
  event: MessageEvent<{ readonly number: number; readonly file: OutlineFile; readonly options: ImportOptions }>,
): void => {
  const { number, file, options } = event.data;
  try {
    self.postMessage({ number, read: readFileOutline(file, options) });
  } catch (error) {
    self.postMessage({ number, failed: error instanceof Error ? error.message : String(error) });
  }
};

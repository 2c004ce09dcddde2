/** Who reads and fits a file of an outline: a worker in the page, or the same code at once where there is none. Five thousand points take a second. */
import { type ImportedOutline, type ImportOptions, importOutline, type Refused } from '../exchange/index.ts';

export interface OutlineFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type ReadOutline = ImportedOutline | Refused;

/** Answers once; a later file makes an earlier one's answer void. */
export type OutlineReader = (file: OutlineFile, options: ImportOptions, answer: (read: ReadOutline) => void) => void;

export function readFileOutline(file: OutlineFile, options: ImportOptions): ReadOutline {
  return importOutline(file.bytes, file.name, options);
}

export const directReader: OutlineReader = (file, options, answer) => answer(readFileOutline(file, options));

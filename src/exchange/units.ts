/** Units of the files exchanged, and the form of what is refused in them. */

/** International inch, 1959; exact. */
export const MM_PER_INCH = 25.4;

export type FileUnit = 'in' | 'mm';

export const UNIT_MM: Readonly<Record<FileUnit, number>> = { in: MM_PER_INCH, mm: 1 };

/** One reason why a file is refused, with its place. */
export interface FileProblem {
  /** Counted from 1; 0 for the file as a whole. */
  readonly line: number;
  /** What stands there, shortened; empty for the file as a whole. */
  readonly text: string;
  /** What is wrong and what is allowed, as a sentence. */
  readonly says: string;
}

export interface Refused {
  readonly ok: false;
  readonly problems: readonly FileProblem[];
}

/** Characters of an offending text that are shown. */
const SHOWN = 60;

export function fileProblem(line: number, text: string, says: string): FileProblem {
  const shown = text.trim();
  return { line, text: shown.length > SHOWN ? `${shown.slice(0, SHOWN - 1)}…` : shown, says };
}

export function refused(line: number, text: string, says: string): Refused {
  return { ok: false, problems: [fileProblem(line, text, says)] };
}

/** "line 12: 3,5: …" */
export function fileProblemSentence(p: FileProblem): string {
  if (p.line === 0) return p.says;
  return p.text === '' ? `line ${p.line}: ${p.says}` : `line ${p.line}: ${p.text}: ${p.says}`;
}

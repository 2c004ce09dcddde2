/** Files written only where nothing stands, unless told otherwise: all of them or none. */
import { existsSync, writeFileSync } from 'node:fs';

export interface NewFile {
  readonly path: string;
  readonly text: string;
}

/** Null when all are written, else why not, as a sentence. A file that can't be written leaves those before it in place, and says so. */
export function writeNew(files: readonly NewFile[], replace: boolean): string | null {
  const there = replace ? undefined : files.find((f) => existsSync(f.path));
  if (there !== undefined) return `${there.path} is there already; --replace writes over it.`;
  const written: string[] = [];
  for (const { path, text } of files) {
    try {
      writeFileSync(path, text, { flag: replace ? 'w' : 'wx' });
      written.push(path);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
      const said = SAID[code] ?? `it can't be written (${code})`;
      return `${path} is not written: ${said}.${written.length === 0 ? '' : ` Written before it: ${written.join(', ')}.`}`;
    }
  }
  return null;
}

const SAID: Readonly<Record<string, string>> = {
  EEXIST: 'it is there already; --replace writes over it',
  ENOENT: 'there is no such folder',
  ENOTDIR: 'there is no such folder',
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  EROFS: 'nothing can be written there',
  EISDIR: 'it is a directory',
  ENOSPC: 'there is no room left',
};

/** A build file's text from the disk, and the build in it; or every reason why not, one sentence each. */
import { readFileSync, statSync } from 'node:fs';
import { type BuildDocument, parseBuild, problemSentence } from '../build/index.ts';

export type ReadBuild =
  | { readonly ok: true; readonly doc: BuildDocument }
  | { readonly ok: false; readonly sentences: readonly string[] };

/** Larger files are not read, bytes: no build file comes near it, and its rules refuse a text of this length anyway. */
const LARGEST_BYTES = 16_000_000;

const SAID: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'it may not be read by this user',
  EPERM: 'it may not be read by this user',
  EISDIR: 'it is a directory',
  ELOOP: 'its links go round in a circle',
  ENAMETOOLONG: 'the name is too long',
};

/** Never throws. */
export function readBuild(file: string): ReadBuild {
  const refused = (reason: string): ReadBuild => ({ ok: false, sentences: [`${file} can't be used: ${reason}.`] });
  let bytes: Uint8Array;
  try {
    const stat = statSync(file);
    if (stat.isDirectory()) return refused('it is a directory');
    if (!stat.isFile()) return refused('it is not a regular file');
    if (stat.size > LARGEST_BYTES) return refused(`it has more than ${LARGEST_BYTES / 1e6} MB`);
    bytes = readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return refused(SAID[code] ?? `it can't be read (${code})`);
  }
  let text: string;
  try {
    // The mark at the beginning is left for parseBuild, which allows it.
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return refused('it is not UTF-8 text');
  }
  const parsed = parseBuild(text);
  return parsed.ok ? parsed : { ok: false, sentences: parsed.problems.map(problemSentence) };
}

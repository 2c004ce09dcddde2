/** Opening and saving build files: what a file holds is build's business, where its bytes come from and go to is here. */

import type { BuildDocument } from '../build/document.ts';
import { formatBuild, type ParsedBuild, type Problem, parseBuild, readContent } from '../build/index.ts';
import { showRefused } from './notice.ts';

/** Larger files are not read, bytes: a build with a hundred measured outlines is a few hundred kilobytes. */
const LARGEST_BYTES = 8_000_000;

/** A library of jobs (model/jobs/libraryFile.ts) says so in its first characters. */
const LIBRARY = /^\s*\{"format":"strokewright-library"/;
const LIBRARY_HEAD_BYTES = 200;

export async function readFile(file: File): Promise<ParsedBuild> {
  try {
    if (LIBRARY.test(await file.slice(0, LIBRARY_HEAD_BYTES).text())) {
      const allowed = 'This is a library of jobs: take it in on the page Jobs.';
      return refused({ place: '', value: file.name, rule: 'build file', allowed });
    }
    if (file.size > LARGEST_BYTES) {
      const allowed = `A build file has at most ${LARGEST_BYTES / 1e6} MB.`;
      return refused({
        place: '',
        value: `${file.name}, ${(file.size / 1e6).toFixed(1)} MB,`,
        rule: 'file size',
        allowed,
      });
    }
    return parseBuild(await file.text());
  } catch (error) {
    // A folder, a file that was moved or deleted meanwhile, a medium that was pulled out.
    const value = error instanceof DOMException ? error.name : String(error);
    return refused({
      place: '',
      value,
      rule: 'readable file',
      allowed: 'The browser can’t read it: it may be a folder, or gone.',
    });
  }
}

function refused(problem: Problem): ParsedBuild {
  return { ok: false, problems: [problem] };
}

/** Hands the build to the browser as a download, named after the build. One that couldn't be opened again is not written: the reasons are shown. */
export function saveFile(doc: BuildDocument): void {
  const read = readContent(doc);
  if (!read.ok) {
    const title = `${doc.name} can’t be saved as a file: it couldn’t be opened again. Put right what is refused, or undo it. The job itself keeps what is typed.`;
    showRefused(doc.name, read.problems, title);
    return;
  }
  download(new Blob([formatBuild(doc)], { type: 'application/json' }), `${fileName(doc.name, 'build')}.json`);
}

/** "Quarry hauler V8" is quarry-hauler-v8; `otherwise` where no letter is left of it. */
export function fileName(name: string, otherwise: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 80)
    .replace(/^-|-$/g, '');
  return plain || otherwise;
}

export function download(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

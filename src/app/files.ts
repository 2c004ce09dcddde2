/** Opening and saving build files: what a file holds is build's business, where its bytes come from and go to is here. */

import type { BuildDocument } from '../build/document.ts';
import { formatBuild, type ParsedBuild, parseBuild } from '../build/index.ts';

/** Larger files are not read, bytes: a build with a hundred measured outlines is a few hundred kilobytes. */
const LARGEST_BYTES = 8_000_000;

export async function readFile(file: File): Promise<ParsedBuild> {
  if (file.size > LARGEST_BYTES) {
    const allowed = `A build file has at most ${LARGEST_BYTES / 1e6} MB.`;
    return {
      ok: false,
      problems: [{ place: '', value: `${file.name}, ${(file.size / 1e6).toFixed(1)} MB,`, rule: 'file size', allowed }],
    };
  }
  return parseBuild(await file.text());
}

/** Hands the build to the browser as a download, named after the build. */
export function saveFile(doc: BuildDocument): void {
  const url = URL.createObjectURL(new Blob([formatBuild(doc)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${
    doc.name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'build'
  }.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** What the built page weighs as it is sent, gzip, and what stands between the address and the first picture. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** The budget, kB of 1024 bytes as gzip sends them; the README names it. */
export const FIRST_PICTURE_KB = 440;
export const WHOLE_KB = 1700;
/** Files asked for before the first picture stands. */
export const FIRST_PICTURE_FILES = 12;

export function sentBytes(file: string): number {
  return gzipSync(readFileSync(file), { level: 6 }).length;
}

/** All files of a built page. */
export function builtFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}

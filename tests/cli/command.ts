/** Runs the real command in a process of its own, as `npm run check` does, and keeps build files for it in a folder of their own. */
import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

const ROOT = join(import.meta.dirname, '../..');

/** Runs `check` with arguments, in the project's folder. */
export function check(...args: readonly string[]): Promise<Ran> {
  return command('check', args);
}

/** Runs `outline` likewise. */
export function outline(...args: readonly string[]): Promise<Ran> {
  return command('outline', args);
}

function command(name: string, args: readonly string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = execFile(
      process.execPath,
      ['--import', 'tsx', `src/cli/${name}.ts`, ...args],
      { cwd: ROOT, maxBuffer: 64_000_000 },
      (error, out, err) => {
        if (child.exitCode === null) reject(error);
        else resolve({ status: child.exitCode, out, err });
      },
    );
  });
}

export function demo(name: string): string {
  return `assets/demos/${name}.json`;
}

export function demoContent(name: string): unknown {
  return JSON.parse(readFileSync(join(ROOT, demo(name)), 'utf8'));
}

export interface Folder {
  /** Writes a file and gives its path. */
  readonly file: (name: string, content: string | Uint8Array) => string;
  readonly path: string;
  readonly remove: () => void;
}

export function folder(): Folder {
  const path = mkdtempSync(join(tmpdir(), 'strokewright-check-'));
  return {
    path,
    file: (name, content) => {
      const full = join(path, name);
      writeFileSync(full, content);
      return full;
    },
    remove: () => rmSync(path, { recursive: true }),
  };
}

/** The lines of a text, the last line break left off. */
export function lines(text: string): string[] {
  return text === '' ? [] : text.replace(/\n$/, '').split('\n');
}

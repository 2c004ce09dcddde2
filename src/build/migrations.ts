/**
 * Files of earlier versions brought up to the present one in named steps, each from one version to the next; files of later
 * versions refused. Version 1 is the first, so the list of steps is empty.
 */
import type { Problem } from './problem.ts';

export const PRESENT_VERSION = 1;

/** Turns the parsed content of a file of version `from` into that of version `from + 1`. Must not change its argument. */
export interface Migration {
  readonly name: string;
  readonly from: number;
  readonly change: (content: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/** In order, one for each version below the present one. */
export const MIGRATIONS: readonly Migration[] = [];

export type Migrated =
  | { readonly ok: true; readonly content: unknown }
  | { readonly ok: false; readonly problem: Problem };

/** Brings parsed content to `present`; content without a usable version is handed on for the schema to judge. */
export function migrate(
  content: unknown,
  steps: readonly Migration[] = MIGRATIONS,
  present: number = PRESENT_VERSION,
): Migrated {
  const version = versionOf(content);
  if (version === null) return { ok: true, content };
  if (version > present) {
    return {
      ok: false,
      problem: {
        place: 'version',
        value: String(version),
        rule: 'later version',
        allowed: `This file was written by a later version of the program; this one reads version ${present}.`,
      },
    };
  }
  let now = content as Record<string, unknown>;
  for (const step of steps) if (step.from === now['version']) now = { ...step.change(now), version: step.from + 1 };
  return { ok: true, content: now };
}

function versionOf(content: unknown): number | null {
  if (typeof content !== 'object' || content === null || Array.isArray(content)) return null;
  const version = (content as Record<string, unknown>)['version'];
  return typeof version === 'number' ? version : null;
}

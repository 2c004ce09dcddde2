/** The demo builds, read as the program reads them, and changed for a test. */
import { readFileSync } from 'node:fs';
import type { BuildDocument } from '../../src/build/document.ts';
import { readContent } from '../../src/build/index.ts';
import { changed } from './changed.ts';

export const DEMO_NAMES = ['quarry-v8', 'lake-launch-six', 'bench-rig'] as const;

export function demo(name: (typeof DEMO_NAMES)[number], changes: Record<string, unknown> = {}): BuildDocument {
  const text = readFileSync(new URL(`../../assets/demos/${name}.json`, import.meta.url), 'utf8');
  const read = readContent(changed(JSON.parse(text), changes));
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.place}: ${p.rule} ${p.allowed}`).join('; '));
  return read.doc;
}

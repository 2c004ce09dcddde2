/**
 * The whole library as one file: lines of JSON, so that it can be written and read in pieces however long it is, and a file that was
 * cut short still gives every job before the cut. The first line says what it is, then each job and each of its snapshots has a line, the
 * last line counts them. What a line holds is judged like a build file.
 */

import type { BuildDocument } from '../../build/document.ts';
import { problemsFrom } from '../../build/issues.ts';
import { scanJson } from '../../build/jsonScan.ts';
import type { Problem } from '../../build/problem.ts';
import { deepFreeze, readContent } from '../../build/text.ts';
import { z } from '../../build/zod.ts';

export const LIBRARY_FORMAT = 'strokewright-library';
export const LIBRARY_VERSION = 1;

const id = z.string().regex(/^[\w-]{8,64}$/, 'Allowed: 8 to 64 letters, digits and dashes.');
const ms = z.number().nonnegative();
const count = z.int().nonnegative();

const headSchema = z.strictObject({
  format: z.literal(LIBRARY_FORMAT),
  version: z.literal(LIBRARY_VERSION),
  writtenMs: ms,
});
const endSchema = z.strictObject({ end: z.strictObject({ jobs: count, snapshots: count }) });
const jobSchema = z.strictObject({
  job: z.strictObject({ id, createdMs: ms, changedMs: ms, archived: z.boolean() }),
  snapshots: z.array(z.strictObject({ number: count, atMs: ms })),
  doc: z.unknown(),
  /** The document as it was left, where that one can't be built: then `doc` is the last one before it that could. */
  left: z.looseObject({}).optional(),
});
const snapshotSchema = z.strictObject({
  snapshot: z.strictObject({
    job: id,
    number: count,
    atMs: ms,
    why: z.enum(['opened', 'named', 'before going back']),
    name: z.string().nullable(),
  }),
  doc: z.unknown(),
});

export interface JobLine {
  readonly kind: 'job';
  readonly job: z.infer<typeof jobSchema>['job'];
  readonly snapshots: z.infer<typeof jobSchema>['snapshots'];
  readonly doc: BuildDocument;
  readonly left: BuildDocument | undefined;
}
export interface SnapshotLine {
  readonly kind: 'snapshot';
  readonly snapshot: z.infer<typeof snapshotSchema>['snapshot'];
  readonly doc: BuildDocument;
}
export type Line =
  | { readonly kind: 'head' }
  | JobLine
  | SnapshotLine
  | { readonly kind: 'end'; readonly jobs: number; readonly snapshots: number }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] };

export function headLine(writtenMs: number): string {
  return JSON.stringify({ format: LIBRARY_FORMAT, version: LIBRARY_VERSION, writtenMs });
}

export function jobLine({ job, snapshots, doc, left }: Omit<JobLine, 'kind'>): string {
  return JSON.stringify({ job, snapshots, doc, ...(left === undefined ? {} : { left }) });
}

export function snapshotLine({ snapshot, doc }: Omit<SnapshotLine, 'kind'>): string {
  return JSON.stringify({ snapshot, doc });
}

export function endLine(jobs: number, snapshots: number): string {
  return JSON.stringify({ end: { jobs, snapshots } });
}

/** Reads a line, counted from 1. Every problem has the line as its place. Never throws on bad text. */
export function readLine(text: string, line: number): Line {
  const refused = (problems: readonly Problem[]): Line => ({
    kind: 'refused',
    problems: problems.map((p) => ({ ...p, place: placeIn(line, p.place) })),
  });
  const inText = scanJson(text);
  if (inText.length > 0) return refused(inText);
  const content: unknown = JSON.parse(text);
  if (line === 1) return readHead(content, refused);
  const has = (name: string): boolean =>
    typeof content === 'object' && content !== null && Object.hasOwn(content, name);
  if (has('end')) {
    const end = endSchema.safeParse(content);
    return end.success ? { kind: 'end', ...end.data.end } : refused(problemsFrom(end.error.issues, content));
  }
  if (has('snapshot')) {
    const read = snapshotSchema.safeParse(content);
    if (!read.success) return refused(problemsFrom(read.error.issues, content));
    const doc = readContent(read.data.doc);
    return doc.ok ? { kind: 'snapshot', snapshot: read.data.snapshot, doc: doc.doc } : refused(doc.problems);
  }
  const read = jobSchema.safeParse(content);
  if (!read.success) return refused(problemsFrom(read.error.issues, content));
  const doc = readContent(read.data.doc);
  if (!doc.ok) return refused(doc.problems);
  const { job, snapshots, left } = read.data;
  return { kind: 'job', job, snapshots, doc: doc.doc, left: left && (deepFreeze(left) as unknown as BuildDocument) };
}

function readHead(content: unknown, refused: (problems: readonly Problem[]) => Line): Line {
  const version = typeof content === 'object' && content !== null && 'version' in content ? content.version : undefined;
  const head = headSchema.safeParse(content);
  if (head.success) return { kind: 'head' };
  if (typeof version === 'number' && version > LIBRARY_VERSION) {
    const allowed = `This library was written by a later version of the program; this one reads version ${LIBRARY_VERSION}.`;
    return refused([{ place: 'version', value: String(version), rule: 'later version', allowed }]);
  }
  const isBuild = typeof content === 'object' && content !== null && 'assemblies' in content;
  const allowed = isBuild
    ? 'This is the file of one build: open it with Open file.'
    : 'A library of jobs begins with a line that says so. This is another kind of file.';
  return refused([{ place: '', value: '', rule: 'library file', allowed }]);
}

/** "line 12, assemblies[0].crank.stroke"; a place within the text of the line keeps its column. */
function placeIn(line: number, place: string): string {
  const inText = /^line \d+, (column \d+)$/.exec(place);
  return [`line ${line}`, inText === null ? place : inText[1]!].filter((part) => part !== '').join(', ');
}

/** A piece of work for workers: lines, each with its number. */
export interface Lines {
  readonly lines: readonly { readonly number: number; readonly text: string }[];
}

/** Kind of work: the lines of a library file, read. */
export const libraryLines = (_shared: null) => (piece: Lines) =>
  (function* (): Generator<undefined, readonly Line[]> {
    const out: Line[] = [];
    for (const { text, number } of piece.lines) {
      out.push(readLine(text, number));
      yield;
    }
    return out;
  })();

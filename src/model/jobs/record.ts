/**
 * What is kept of a job, and what a record must look like to be believed: the database lies on a disk that other programs and other
 * versions of this one write to, so whatever comes from it is looked at like a file.
 */
import { z } from '../../build/zod.ts';
import type { Edit } from './difference.ts';
import type { Packed } from './packed.ts';
import type { Place } from './place.ts';

/** What the list shows. All times in milliseconds since 1 January 1970, UTC. */
export interface Job {
  readonly id: string;
  /** The name of its build. */
  readonly name: string;
  /** In one line: layout, bore, strokes. */
  readonly facts: string;
  readonly createdMs: number;
  /** Of the last change to the document. */
  readonly changedMs: number;
  readonly archived: boolean;
  /** When it was deleted; null for one that is not. A deleted job can be fetched back for 30 days. */
  readonly deletedMs: number | null;
  /** Counts everything that is written of the job: whoever writes says which one it knows. */
  readonly revision: number;
}

export interface Body extends Packed {
  /** Of the steps as text: tells steps that were spoilt from sound ones. */
  readonly print: number;
  /** Where the document can't be built: what turns it into the last one that could. */
  readonly built?: readonly Edit[];
}

export type Why = 'opened' | 'named' | 'before going back';

export interface Snapshot {
  readonly job: string;
  /** Counted up within its job. */
  readonly number: number;
  readonly atMs: number;
  readonly why: Why;
  /** Given by the user; null for those made by themselves. */
  readonly name: string | null;
  readonly facts: string;
}

const ms = z.number().nonnegative();
const id = z.string().regex(/^[\w-]{8,64}$/);
const count = z.int().nonnegative();

export const jobSchema = z.strictObject({
  id,
  name: z.string(),
  facts: z.string(),
  createdMs: ms,
  changedMs: ms,
  archived: z.boolean(),
  deletedMs: ms.nullable(),
  revision: count,
});

const path = z.array(z.union([z.string(), count]));
const editSchema: z.ZodType<Edit> = z.union([
  z.strictObject({ at: path, put: z.unknown() }),
  z.strictObject({ at: path, out: z.literal(true) }),
  z.strictObject({ at: path, from: count, drop: count, add: z.array(z.unknown()) }),
]) as z.ZodType<Edit>;

export const bodySchema: z.ZodType<Body> = z.strictObject({
  doc: z.unknown(),
  undo: z.array(z.array(editSchema)),
  redo: z.array(z.array(editSchema)),
  print: z.number(),
  built: z.array(editSchema).optional(),
}) as z.ZodType<Body>;

export const placeSchema: z.ZodType<Place> = z.strictObject({
  assembly: z.string(),
  cylinder: z.int(),
  crankAngleRad: z.number(),
  units: z.enum(['in', 'mm', 'both']),
  held: z.enum(['piston', 'deck clearance']),
  picked: z.string().nullable(),
});

export const snapshotSchema: z.ZodType<Snapshot> = z.strictObject({
  job: id,
  number: count,
  atMs: ms,
  why: z.enum(['opened', 'named', 'before going back']),
  name: z.string().nullable(),
  facts: z.string(),
});

export function snapshotKey(job: string, number: number): string {
  return `${job}/${String(number).padStart(8, '0')}`;
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv) of the steps as text. */
export function printOf(steps: Pick<Packed, 'undo' | 'redo'>): number {
  const text = JSON.stringify([steps.undo, steps.redo]);
  let hash = 0x811c9dc5;
  for (let k = 0; k < text.length; k++) hash = Math.imul(hash ^ text.charCodeAt(k), 0x01000193);
  return hash >>> 0;
}

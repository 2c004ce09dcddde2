/**
 * What a build file may contain, field by field. The types stand in document.ts; `SchemaMatchesTypes` at the end does not compile when
 * the two differ. Objects are strict: a name that is not listed is refused. What several fields say together is judged
 * in rules.ts.
 */

import { lengthFromZero, positiveSpeed } from './dimSchema.ts';
import type { BuildDocument } from './document.ts';
import { block } from './schemaBlock.ts';
import { camshaft } from './schemaCamshaft.ts';
import { job } from './schemaJob.ts';
import { mockUpEntry } from './schemaMockUp.ts';
import { own } from './schemaOwn.ts';
import { crank, pistonShape, rodShape } from './schemaParts.ts';
import { list, MOST, measuredShape, name, oneOf, strict, text } from './schemaPieces.ts';
import { running } from './schemaRunning.ts';
import { balance, bearings, core, guides, intoBlock, pistonTop, shelf, wanted, weights } from './schemaShop.ts';
import { tolerances } from './schemaTolerances.ts';
import { valvetrain } from './schemaValvetrain.ts';
import { z } from './zod.ts';

const assembly = strict({
  name,
  route: text(MOST.note).describe('How this assembly comes about, in the shop’s words.'),
  crank,
  rod: strict({ ...rodShape, ...measuredShape }),
  piston: strict({ ...pistonShape, ...measuredShape }),
  weights: weights.exactOptional(),
  pistonTop: pistonTop.exactOptional(),
  core: core.exactOptional(),
  intoBlock: intoBlock.exactOptional(),
  bearings: bearings.exactOptional(),
  balance: balance.exactOptional(),
  wanted: wanted.exactOptional(),
  running: running.exactOptional(),
  camshaft: camshaft.exactOptional(),
  valvetrain: valvetrain.exactOptional(),
  own: list(own, 0, MOST.own).exactOptional().describe('Where one body differs from the rest.'),
});

const limit = lengthFromZero.exactOptional();

export const buildSchema = strict({
  $schema: text(400).exactOptional(),
  format: z.literal('strokewright-build', { error: 'Allowed: strokewright-build.' }),
  version: z.literal(1, { error: 'Allowed: 1.' }),
  name,
  note: text(MOST.note).exactOptional(),
  job: job.exactOptional().describe('What the papers of the job carry beside the build.'),
  replaced: name.describe('Name of the assembly being replaced.'),
  proposed: name.describe('Name of the assembly proposed.'),
  shownUnits: oneOf(['in', 'mm', 'both']),
  speed: positiveSpeed,
  block,
  limits: strict({
    'counterweight-piston': limit,
    'counterweight-block': limit,
    'counterweight-camshaft': limit,
    'rod-camshaft': limit,
    'rod-block': limit,
    'rod-piston': limit,
    'rod-opposite-piston': limit,
    'piston-piston': limit,
    'piston-intake-valve': limit,
    'piston-exhaust-valve': limit,
    deck: limit,
  })
    .exactOptional()
    .describe('Smallest acceptable static gap by kind; a kind left out takes the default with its source.'),
  assumedAllowance: lengthFromZero.exactOptional(),
  shelf: shelf.exactOptional(),
  guides: guides.exactOptional(),
  tolerances: tolerances.exactOptional(),
  assemblies: list(assembly, 1, MOST.assemblies),
  mockUp: list(mockUpEntry, 0, MOST.mockUp).exactOptional().describe('What was measured on the mock-up.'),
}).meta({
  title: 'Strokewright build',
  description:
    'An engine block and the rotating assemblies considered for it. Lengths, angles and speeds keep the unit in which they were measured.',
});

/** Readonly taken off all the way down, so that the two declarations can be compared. */
type Plain<T> = T extends string | number | boolean | undefined
  ? T
  : T extends readonly (infer E)[]
    ? Plain<E>[]
    : { -readonly [K in keyof T]: Plain<T[K]> };
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;

/** Compiles only while schema and types agree, both ways. */
export type SchemaMatchesTypes = Assert<Same<Plain<z.output<typeof buildSchema>>, Plain<BuildDocument>>>;
type Assert<T extends true> = T;

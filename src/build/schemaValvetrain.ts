/** What a build file may say of the valves, and of their pockets in the piston. */

import { lengthFromZero, positiveLength, signedAngle, signedLength } from './dimSchema.ts';
import { strict } from './schemaPieces.ts';
import { z } from './zod.ts';

const pocket = strict({
  depth: positiveLength.describe('Crown to the deepest place of the floor, along the bore.'),
  diameter: positiveLength,
  across: signedLength.describe('Where its axis meets the crown, from the bore axis, counted as that of the valve.'),
  axial: signedLength,
}).describe('Round about an axis that leans as the valve does, its floor square to it.');

const valve = strict({
  headDiameter: positiveLength,
  margin: positiveLength.describe('Thickness of the head’s rim below its seat.'),
  angle: signedAngle.describe('Lean of the stem from the bore axis; positive: going up it leans as “across” counts.'),
  across: signedLength.describe(
    'Where the valve’s axis meets the face of the head, from the bore axis, positive toward the other bank; with one bank toward the side the crankpin moves to just after TDC.',
  ),
  axial: signedLength.describe('The same along the shaft, positive toward the flywheel.'),
  recession: signedLength.describe('Middle of the shut valve’s face above the face of the head, along the bore.'),
  lash: lengthFromZero.describe('Clearance at the valve; 0 with hydraulic followers.'),
  pocket: pocket.exactOptional(),
});

/** Rockers and tappets of any engine; beyond it another figure was meant. */
const LEAST_RATIO = 0.5;
const MOST_RATIO = 3;
const RATIO = { error: `Allowed: a number from ${LEAST_RATIO} to ${MOST_RATIO}.` };

export const valvetrain = strict({
  rockerRatio: z.number(RATIO).min(LEAST_RATIO, RATIO).max(MOST_RATIO, RATIO).describe('Valve lift over lobe lift.'),
  intake: valve,
  exhaust: valve,
}).describe('What the camshaft drives, alike in every cylinder.');

/** What a build file may say of the camshaft. */

import {
  lengthFromZero,
  measuredAngle,
  measuredLength,
  positiveAngle,
  positiveLength,
  provenance,
  signedAngle,
  signedLength,
} from './dimSchema.ts';
import { list, MOST, oneOf, strict } from './schemaPieces.ts';
import { z } from './zod.ts';

export const liftTable = strict({
  from: provenance,
  within: positiveLength.describe('Every lift is right within this; the curve passes each of them no farther off.'),
  points: list(
    strict({
      at: measuredAngle.describe('Cam degrees from the nose, negative on the opening flank.'),
      lift: measuredLength.describe('Above the base circle.'),
    }),
    3,
    MOST.liftPoints,
  ).describe('From the base circle over the nose to the base circle again, angles rising.'),
}).describe('Lifts of one lobe as measured on a follower of the camshaft’s kind, in the place of the law.');

const opening = positiveAngle
  .exactOptional()
  .describe(
    'Unlike flanks: crank degrees from the opening point at durationAtLift to the nose; the rest of the duration is the closing flank. Left out: half.',
  );

export const camshaft = strict({
  baseCircle: positiveLength.describe('Diameter.'),
  intakeLift: positiveLength,
  exhaustLift: positiveLength,
  intakeDuration: positiveAngle.describe('Crank degrees at the lift durationAtLift.'),
  exhaustDuration: positiveAngle.describe('Crank degrees at the lift durationAtLift.'),
  durationAtLift: lengthFromZero,
  intakeOpening: opening,
  exhaustOpening: opening,
  intakeTable: liftTable.exactOptional(),
  exhaustTable: liftTable.exactOptional(),
  lobeSeparation: positiveAngle.describe('Cam degrees between the noses of a cylinder’s lobes.'),
  intakeCentreline: positiveAngle.describe('Crank degrees after the gas-exchange TDC.'),
  advance: signedAngle
    .exactOptional()
    .describe(
      'Crank degrees by which the camshaft is set ahead: the greatest intake lift comes at intakeCentreline - advance.',
    ),
  sense: oneOf(['same', 'opposite']),
  law: oneOf(['3-4-5', 'cycloidal']),
  follower: z.discriminatedUnion(
    'kind',
    [strict({ kind: z.literal('flat') }), strict({ kind: z.literal('roller'), radius: positiveLength })],
    { error: 'Allowed: { "kind": "flat" } or { "kind": "roller", "radius": … }.' },
  ),
  followerAngles: list(signedAngle, 1, 2).describe('Direction of follower travel, one a bank, from up.'),
  coreDiameter: positiveLength,
  lobeWidth: positiveLength,
  intakeAxial: signedLength,
  exhaustAxial: signedLength,
});

/** What a build file may say of the camshaft. */
import { z } from 'zod';
import { lengthFromZero, positiveAngle, positiveLength, signedAngle, signedLength } from './dimSchema.ts';
import { list, oneOf, strict } from './schemaPieces.ts';

export const camshaft = strict({
  baseCircle: positiveLength.describe('Diameter.'),
  intakeLift: positiveLength,
  exhaustLift: positiveLength,
  intakeDuration: positiveAngle.describe('Crank degrees at the lift durationAtLift.'),
  exhaustDuration: positiveAngle.describe('Crank degrees at the lift durationAtLift.'),
  durationAtLift: lengthFromZero,
  lobeSeparation: positiveAngle.describe('Cam degrees between the noses of a cylinder’s lobes.'),
  intakeCentreline: positiveAngle.describe('Crank degrees after the gas-exchange TDC.'),
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

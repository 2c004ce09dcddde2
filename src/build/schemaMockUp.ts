/** What a build file may say of one measurement on the mock-up. */

import { measuredAngle, measuredLength } from './dimSchema.ts';
import { day, index, MOST, name, strict, text } from './schemaPieces.ts';
import { z } from './zod.ts';

const TWO_NAMES =
  'Allowed: the names of two bodies, such as ["counterweight 2 rear", "piston 3"], or of a piston and "deck".';

export const mockUpEntry = strict({
  assembly: name.describe('Name of the assembly that was put together.'),
  between: z
    .tuple([name, name], { error: TWO_NAMES })
    .describe('The two bodies by their names, in either order; or a piston and "deck".'),
  at: strict({
    cylinder: index,
    afterTdc: measuredAngle.describe(
      'Crank angle after the true TDC of the cylinder, "176 deg", with its uncertainty as tolerance; after the firing one where a lobe or a valve is involved.',
    ),
  })
    .exactOptional()
    .describe('Where the crank stood. Left out: the smallest gap found while turning.'),
  measured: measuredLength.describe('The gap with its uncertainty as tolerance, ".055 ±.002 in".'),
  with: name.describe('Clay, feeler gauge, dial indicator, plastic gauge strip, or something else.'),
  date: day,
  note: text(MOST.note).exactOptional(),
});

/** What a build file may say of its tolerances taken together: how the parts lie within them. */

import { strict } from './schemaPieces.ts';
import { z } from './zod.ts';

/** From one standard deviation, where a third of the parts lies outside the band, to six. */
export const FEWEST_SIGMAS = 1;
export const MOST_SIGMAS = 6;

const error = `Allowed: a number from ${FEWEST_SIGMAS} to ${MOST_SIGMAS}.`;

export const tolerances = z
  .discriminatedUnion(
    'as',
    [
      strict({ as: z.literal('uniform') }),
      strict({
        as: z.literal('normal'),
        sigmas: z
          .number({ error })
          .min(FEWEST_SIGMAS, { error })
          .max(MOST_SIGMAS, { error })
          .describe('Standard deviations from the middle of a tolerance band to its ends.'),
      }),
    ],
    { error: 'Allowed in “as”: uniform, normal.' },
  )
  .describe(
    'How parts lie within their tolerances, for chance builds: uniform (any value of the band alike) or normal (about the band’s middle). Left out: uniform.',
  );

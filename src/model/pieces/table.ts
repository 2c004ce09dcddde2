/** Every kind of work that workers do, by name. Imported by the worker: nothing here may ask for a page. */

import { gapCurveKind } from '../curves/gapCurve.ts';
import { bandKind, joinKind } from '../envelope/band.ts';
import { gapStoryWork } from '../gapStory/story.ts';
import { libraryLines } from '../jobs/libraryFile.ts';
import { lessonKind } from '../lessons/work.ts';
import { mapCells } from '../map/cells.ts';
import { mapCrossings } from '../map/crossings.ts';
import { compareKind, explainKind } from '../mockUp/work.ts';
import { paperCureKind, roomKind } from '../paper/work.ts';
import { shelfKind } from '../shelf/work.ts';
import { monteCarloWork } from '../tolerances/monteCarlo.ts';
import { sensitivityWork } from '../tolerances/sensitivity.ts';
import { worstCaseWork } from '../tolerances/stack.ts';
import type { Table } from './kind.ts';

export const WORK = {
  band: bandKind,
  'band joined': joinKind,
  'chance builds': monteCarloWork,
  'gap curve': gapCurveKind,
  'gap story': gapStoryWork,
  'library lines': libraryLines,
  lesson: lessonKind,
  'map cells': mapCells,
  'map crossings': mapCrossings,
  'mock-up comparison': compareKind,
  'mock-up explanation': explainKind,
  'paper cures': paperCureKind,
  'paper room': roomKind,
  sensitivities: sensitivityWork,
  shelf: shelfKind,
  'worst case': worstCaseWork,
} satisfies Table;

export type Work = typeof WORK;

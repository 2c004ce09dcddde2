/** All drawings of the glossary by name; the compiler holds the list to be whole. */
import type { DrawingName } from '../../build/glossary.ts';
import type { Drawing } from './drawing.ts';
import { ENGINE } from './engineDrawings.ts';
import { GAPS } from './gapDrawings.ts';
import { GRIND } from './grindDrawings.ts';
import { LOBES } from './lobeDrawings.ts';
import { MOTION } from './motionDrawings.ts';
import { SIDE } from './sideDrawings.ts';
import { SIZES } from './sizeDrawings.ts';

const ALL = { ...MOTION, ...SIZES, ...ENGINE, ...SIDE, ...GRIND, ...LOBES, ...GAPS } satisfies Readonly<
  Record<DrawingName, Drawing>
>;

export function drawingOf(name: DrawingName): Drawing {
  return ALL[name];
}

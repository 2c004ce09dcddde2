/** Whether an engine goes together, and what its closest places are like, in sentences that need no trade. */
import type { Room, Standing } from '../../model/paper/rooms.ts';
import type { Units } from '../../model/state.ts';
import { formatGap, formatLength } from '../words.ts';
import { partsOfKind } from './plainParts.ts';

export const HEADLINES: Readonly<Record<Standing, string>> = {
  contact: 'Not ready to build: as drawn, parts hit each other.',
  tight: 'It goes together, but in places there is less room than the shop wants.',
  'not proven': 'Not yet sure: in places the room is not proven.',
  clears: 'It goes together: everywhere there is the room that the shop wants.',
};

/** What two kinds of part do at their closest place; `cylinders` of the engine. */
export function roomSentence(
  { kind, after, state, wantedMm }: Pick<Room, 'kind' | 'after' | 'state' | 'wantedMm'>,
  cylinders: number,
  units: Units,
): string {
  const [one, other] = partsOfKind(kind, cylinders > 1);
  const wanted = formatLength(wantedMm, units);
  const size = formatGap({ ...after, gapMm: Math.abs(after.gapMm) }, units);
  const capital = one.charAt(0).toUpperCase() + one.slice(1);
  const plural = one.endsWith('s');
  if (state === 'contact') {
    if (kind === 'deck')
      return `${capital} ${plural ? 'come' : 'comes'} up too far and ${plural ? 'meet' : 'meets'} ${other}.`;
    return `${capital} ${plural ? 'hit' : 'hits'} ${other}, at the deepest by ${size}. The shop wants ${wanted} of room there.`;
  }
  if (kind === 'deck' && after.gapMm < 0)
    return `${capital} ${plural ? 'rise' : 'rises'} ${size} above the top of the block. The shop wants ${wanted} below it.`;
  if (state === 'unproven') return `Between ${one} and ${other} there is ${size}, if what was assumed is right.`;
  return `Between ${one} and ${other} there is only ${size}. The shop wants ${wanted}.`;
}

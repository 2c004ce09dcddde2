/** Work for the papers that takes longer than a frame: the gaps of the assembly being replaced, and what would cure a gap. */
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import { allowanceMm } from '../certified.ts';
import { type Cure, cureSteps } from '../cures.ts';
import type { Steps } from '../pieces/kind.ts';
import type { Gap } from '../results.ts';
import { solveGaps } from '../solve.ts';

export interface RoomTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
}

/** A piece is the key of pairs that go through the same motion; the result their gaps, certified. */
export function roomKind({ doc, assembly }: RoomTask): (key: string) => Steps<readonly Gap[]> {
  const engine = layOut(doc, assembly);
  const assumedAllowanceMm = allowanceMm(doc);
  return function* (key) {
    return solveGaps(engine, { assumedAllowanceMm, wanted: (pair) => pair.key === key });
  };
}

export interface CureTask extends RoomTask {
  /** All gaps of the assembly, certified. */
  readonly gaps: readonly Gap[];
}

export interface CuresOf {
  readonly gapId: string;
  readonly list: readonly Cure[];
}

/** A piece is the id of a gap. */
export function paperCureKind({ doc, assembly, gaps }: CureTask): (gapId: string) => Steps<CuresOf> {
  return function* (gapId) {
    return { gapId, list: yield* cureSteps(doc, assembly, gaps, gapId) };
  };
}

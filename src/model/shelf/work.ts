/** The shelf's combinations as work in pieces: each laid out and every gap of it certified. */
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import { checkBuild } from '../../build/rules.ts';
import { certifiedGaps } from '../certified.ts';
import { aloneWith } from '../edit.ts';
import type { Steps } from '../pieces/kind.ts';
import type { Gap } from '../results.ts';
import { type Change, withChanges } from './combinations.ts';

export interface ShelfTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
}

/** What became of a combination: why it can't be built, or its worst gap. */
export interface Judged {
  readonly refused: string | null;
  readonly worst: Pick<Gap, 'id' | 'between' | 'gapMm' | 'limitMm' | 'state'> | null;
}

export function shelfKind({ doc, assembly }: ShelfTask): (piece: readonly Change[]) => Steps<Judged> {
  return function* (changes) {
    const next = aloneWith(withChanges(doc, changes), assembly);
    const [problem] = checkBuild(next);
    if (problem !== undefined) return { refused: `${problem.value}: ${problem.allowed}`, worst: null };
    yield;
    const [worst] = certifiedGaps(next, layOut(next, assembly), new Map());
    if (worst === undefined) return { refused: null, worst: null };
    const { id, between, gapMm, limitMm, state } = worst;
    return { refused: null, worst: { id, between, gapMm, limitMm, state } };
  };
}

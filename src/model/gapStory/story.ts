/** What is told of one gap beyond its figure: when in the turn it is below its limit, and what the running engine takes of it. */
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import { type Intervals, intervalsOf } from '../intervals.ts';
import type { Steps } from '../pieces/kind.ts';
import type { Gap } from '../results.ts';
import type { RunningEngine } from '../running/allowances.ts';
import { type RunningGap, runningSteps } from '../running/runningGap.ts';

export interface StoryTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
}

export interface GapStory {
  readonly gapId: string;
  /** Null where it is nowhere below its limit. */
  readonly intervals: Intervals | null;
  /** What the build switches on of the running engine. */
  readonly engine: RunningEngine;
  /** Null where nothing is switched on. */
  readonly running: RunningGap | null;
}

/** As work in pieces: a piece is a certified gap of the assembly. */
export function gapStoryWork({ doc, assembly }: StoryTask): (gap: Gap) => Steps<GapStory> {
  const engine = layOut(doc, assembly);
  return function* (gap) {
    const intervals = intervalsOf(doc, engine, [gap]).get(gap.id) ?? null;
    yield;
    const running = yield* runningSteps(doc, engine, [gap]);
    return { gapId: gap.id, intervals, engine: running.engine, running: running.gaps.get(gap.id) ?? null };
  };
}

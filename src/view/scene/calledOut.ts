/**
 * Which gaps the section speaks of: those that are not clear at some place in the turn, and the picked one; where all
 * clear, the closest to its limit alone. Each is shown only while it is small, so that the picture stays quiet.
 */
import type { Gap, GapNow } from '../../model/results.ts';
import type { State } from '../../model/state.ts';
import { leadingGaps } from '../inView.ts';

/** A gap is shown while it is smaller than this many limits, or than the plain figure. */
const SHOWN_IN_LIMITS = 2;
const SHOWN_MM = 1;
/** The only one spoken of where all clear: shown from farther off. */
const ALONE_IN_LIMITS = 4;
const MOST = 5;

export interface SpokenOf {
  readonly gap: Gap;
  /** Shown while the gap is smaller than this, mm; Infinity: always. */
  readonly belowMm: number;
}

/** Gaps to be given a place on the drawing, the picked one first, then worst margin first. `ids`: pairs in view. */
export function gapsSpokenOf(state: State, ids: ReadonlySet<string>): readonly SpokenOf[] {
  const leading = leadingGaps(state, ids, ids.size + 1).filter((g) => g.kind !== 'deck' || g.id === state.picked);
  const bad = leading.filter((g) => g.state !== 'clears' || g.id === state.picked).slice(0, MOST);
  const some = bad.length > 0 ? bad : leading.slice(0, 1);
  const limits = bad.length > 0 ? SHOWN_IN_LIMITS : ALONE_IN_LIMITS;
  return some.map((gap) => ({
    gap,
    belowMm: gap.id === state.picked ? Infinity : Math.max(gap.limitMm * limits, SHOWN_MM),
  }));
}

/** Of the gaps spoken of, those small enough now. */
export function gapsShownNow(spoken: readonly SpokenOf[], now: readonly GapNow[]): readonly GapNow[] {
  return spoken.flatMap(({ gap, belowMm }) => now.find((n) => n.id === gap.id && n.gapMm < belowMm) ?? []);
}

/** The picked gap, else the one now smallest against its limit. */
export function tightestNow(
  spoken: readonly SpokenOf[],
  shown: readonly GapNow[],
  picked: string | null,
): GapNow | null {
  const limits = new Map(spoken.map(({ gap }) => [gap.id, gap.limitMm]));
  const margin = (g: GapNow) => (g.id === picked ? -Infinity : g.gapMm - (limits.get(g.id) ?? 0));
  let best: GapNow | null = null;
  for (const gap of shown) if (best === null || margin(gap) < margin(best)) best = gap;
  return best;
}

/** A gap this near to its smallest is taken to be decided by the same layers, mm. */
const SAME_PLACE_MM = 0.05;

/** Of the gaps shown, those that lie along the crank now: such a gap has no place in a section square to it. */
export function gapsAlongCrank(spoken: readonly SpokenOf[], shown: readonly GapNow[]): ReadonlySet<string> {
  const along = spoken.filter(
    ({ gap }) => gap.direction === 'axial' && shown.some((n) => n.id === gap.id && n.gapMm < gap.gapMm + SAME_PLACE_MM),
  );
  return new Set(along.map(({ gap }) => gap.id));
}

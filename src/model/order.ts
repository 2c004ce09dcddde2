/** In which order gaps are told. */
import type { Gap } from './results.ts';

const RANK = { contact: 0, tight: 1, unproven: 2, clears: 3 } as const;

/**
 * Worst first: by state, then by margin to the limit. A deck clearance that clears comes after the moving gaps: it is
 * meant to be small.
 */
export function inOrder(gaps: readonly Gap[]): Gap[] {
  return [...gaps].sort(
    (a, b) => RANK[a.state] - RANK[b.state] || restful(a) - restful(b) || a.gapMm - a.limitMm - (b.gapMm - b.limitMm),
  );
}

function restful(gap: Gap): number {
  return gap.kind === 'deck' && gap.state === 'clears' ? 1 : 0;
}

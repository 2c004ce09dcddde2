/** In which order gaps are told. */
import type { Gap } from './results.ts';

const RANK = { contact: 0, tight: 1, unproven: 2, clears: 3 } as const;

/**
 * Worst first: by state, then by margin to the limit. A deck clearance that clears comes after the moving gaps: it is
 * meant to be small.
 */
export function inOrder(gaps: readonly Gap[]): Gap[] {
  return [...gaps].sort((a, b) => RANK[a.state] - RANK[b.state] || restful(a) - restful(b) || told(a) - told(b));
}

function restful(gap: Gap): number {
  return gap.kind === 'deck' && gap.state === 'clears' ? 1 : 0;
}

/** Margin over the limit, in whole nanometres: pairs that are alike but for the last digits of doubles keep the engine's order. */
function told(gap: Gap): number {
  return Math.round((gap.gapMm - gap.limitMm) * 1e6);
}

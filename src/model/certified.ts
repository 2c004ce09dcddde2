/** Every gap of an assembly with its certificate, deck clearances included, worst margin first. */
import { mm } from '../assembly/dims.ts';
import type { Engine } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/document.ts';
import { DEFAULT_LIMITS } from '../build/limits.ts';
import { deckGaps } from './figures.ts';
import type { Gap } from './results.ts';
import { solveGaps } from './solve.ts';

export function allowanceMm(doc: BuildDocument): number | null {
  return doc.assumedAllowance === undefined ? null : mm(doc.assumedAllowance);
}

/** All gaps of an assembly, certified, deck clearances included; worst margin first. */
export function certifiedGaps(doc: BuildDocument, engine: Engine, hints: ReadonlyMap<string, number>): Gap[] {
  const found = solveGaps(engine, { hints: new Map(hints), assumedAllowanceMm: allowanceMm(doc) });
  return inOrder([...found, ...deckGapsOf(doc, engine)]);
}

export function deckGapsOf(doc: BuildDocument, engine: Engine): Gap[] {
  return deckGaps(doc, engine, mm(doc.limits?.deck ?? { value: DEFAULT_LIMITS.deck.value, from: 'stated' }));
}

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

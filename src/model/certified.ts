/** Every gap of an assembly with its certificate, deck clearances included, worst margin first. */
import { mm } from '../assembly/dims.ts';
import type { Engine } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/document.ts';
import { DEFAULT_LIMITS } from '../build/limits.ts';
import { deckGaps } from './figures.ts';
import { inOrder } from './order.ts';
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

/** Gaps of the pairs that were not there before, certified: few, where one part came into reach or was added. */
export function newGaps(doc: BuildDocument, engine: Engine, before: ReadonlyMap<string, unknown>): Gap[] {
  return solveGaps(engine, { assumedAllowanceMm: allowanceMm(doc), wanted: (pair) => !before.has(pair.id) });
}

export function deckGapsOf(doc: BuildDocument, engine: Engine): Gap[] {
  const limitMm = mm(doc.limits?.deck ?? { value: DEFAULT_LIMITS.deck.value, from: 'stated' });
  return deckGaps(doc, engine, limitMm, allowanceMm(doc));
}

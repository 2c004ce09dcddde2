/** Gaps that are one and the same situation, met by several cylinders, told once. */
import type { Engine } from '../assembly/engine.ts';
import type { Gap } from './results.ts';

export interface Told {
  readonly gap: Gap;
  /** Gaps of other pairs that go through the same motion, and so are the same; empty when every pair is told by itself. */
  readonly alike: readonly Gap[];
}

/** Deck clearances are alike when they are equal to this many decimals of a millimetre: a hundredth of a micrometre. */
const DECK_DECIMALS = 5;

/** Every gap by itself. */
export function eachAlone(gaps: readonly Gap[]): Told[] {
  return gaps.map((gap) => ({ gap, alike: [] }));
}

/** Each situation once, by the first of its gaps, in their order. Pairs are alike when they share a key (assembly/pairs.ts). */
export function distinct(engine: Engine, gaps: readonly Gap[]): Told[] {
  const keys = new Map(engine.pairs.map((pair) => [pair.id, pair.key]));
  const told = new Map<string, { gap: Gap; alike: Gap[] }>();
  for (const gap of gaps) {
    const key = keys.get(gap.id) ?? `${gap.kind} ${gap.gapMm.toFixed(DECK_DECIMALS)} ${gap.state}`;
    const first = told.get(key);
    if (first === undefined) told.set(key, { gap, alike: [] });
    else first.alike.push(gap);
  }
  return [...told.values()];
}

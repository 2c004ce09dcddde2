/** A balance moment as a balancer reads it. */
import type { Units } from '../../model/state.ts';
import { written } from '../../model/sums/index.ts';
import { amount } from '../../model/sums/sum.ts';

const GRAMS_PER_KG = 1000;

export function momentText(kgMm: number, units: Units): string {
  return written(amount('unbalance', kgMm * GRAMS_PER_KG), units);
}

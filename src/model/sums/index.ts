/** Every sum of an assembly, group by group. */
import type { BuildDocument } from '../../build/document.ts';
import { type Steps, toTheEnd } from '../pieces/kind.ts';
import { axialSums } from './axial.ts';
import { balanceSums } from './balance.ts';
import { compressionSums, deckSums, displacementSums } from './displacement.ts';
import { grindSums, intoBlockSums } from './grind.ts';
import { frictionSums, loadSums } from './loads.ts';
import { shakingSums } from './shaking.ts';
import { type Shop, shopOf } from './shop.ts';
import type { SumGroup } from './sum.ts';
import { togetherSums } from './together.ts';
import { weightSums } from './weights.ts';

export { type Compared, compared } from './compare.ts';
export { type GroundThrow, groundThrows } from './grind.ts';
export { type Guide, type GuideName, USUAL } from './guides.ts';
export { type Route, routeOf } from './operations.ts';
export type { Amount, Input, Sum, SumGroup } from './sum.ts';
export { inBase } from './sum.ts';
export { written } from './written.ts';

const GROUPS: readonly ((shop: Shop) => SumGroup)[] = [
  displacementSums,
  deckSums,
  compressionSums,
  grindSums,
  intoBlockSums,
  axialSums,
  togetherSums,
  weightSums,
  loadSums,
  frictionSums,
  balanceSums,
  shakingSums,
];

/** Groups without a sum are left out. The build must have passed its rules. */
export function sumsOf(doc: BuildDocument, assembly: string): SumGroup[] {
  return toTheEnd(sumSteps(doc, assembly));
}

/** The same, a group a step. */
export function* sumSteps(doc: BuildDocument, assembly: string): Steps<SumGroup[]> {
  const shop = shopOf(doc, assembly);
  const out: SumGroup[] = [];
  for (const group of GROUPS) {
    const made = group(shop);
    if (made.sums.length > 0) out.push(made);
    yield;
  }
  return out;
}

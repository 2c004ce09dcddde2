/** Every sum of an assembly, group by group. */
import type { BuildDocument } from '../../build/document.ts';
import { axialSums } from './axial.ts';
import { balanceSums } from './balance.ts';
import { compressionSums, deckSums, displacementSums } from './displacement.ts';
import { grindSums, intoBlockSums } from './grind.ts';
import { frictionSums, loadSums } from './loads.ts';
import { shakingSums } from './shaking.ts';
import { shopOf } from './shop.ts';
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

/** Groups without a sum are left out. The build must have passed its rules. */
export function sumsOf(doc: BuildDocument, assembly: string): SumGroup[] {
  const shop = shopOf(doc, assembly);
  return [
    displacementSums(shop),
    deckSums(shop),
    compressionSums(shop),
    grindSums(shop),
    intoBlockSums(shop),
    axialSums(shop),
    togetherSums(shop),
    weightSums(shop),
    loadSums(shop),
    frictionSums(shop),
    balanceSums(shop),
    shakingSums(shop),
  ].filter((group) => group.sums.length > 0);
}

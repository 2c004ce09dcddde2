/**
 * A single whose gap between counterweight and skirt is known in closed form: the skirt goes all the way round and the cheeks
 * reach under its solid rim, so that at bottom dead centre the round rim of the counterweight stands straight below the skirt's flat
 * lower edge. There the pin stands at l - s/2, the skirt's edge at l - s/2 - b, the rim at R:
 *
 *   gap = l - s/2 - b - R      l rod length, s stroke, b skirt below pin, R counterweight radius.
 *
 * Both rise from there on either side, the rim not at all, so it is the smallest of the turn. Linear in all four.
 */
import type { BuildDocument } from '../../../src/build/document.ts';
import { dim, exampleSingle } from '../../support/exampleBuild.ts';

export interface Literals {
  readonly rod?: string;
  readonly stroke?: string;
  readonly skirt?: string;
  readonly radius?: string;
}

/** 152.4 - 46 - 28 - 75 = 3.4 mm. */
export const FLAT_GAP_MM = 3.4;
export const FLAT_GAP_ID = 'counterweight 1 front · piston 1';

export function flatSkirt(literals: Literals = {}, limit = '1 mm'): BuildDocument {
  const doc = exampleSingle();
  const base = doc.assemblies[1]!;
  const { crank, rod, piston } = base;
  const made = {
    ...base,
    crank: {
      ...crank,
      stroke: dim(literals.stroke ?? '92 mm'),
      cheekThickness: dim('31.0 mm'),
      counterweight: { ...crank.counterweight, radius: dim(literals.radius ?? '75.0 mm') },
    },
    rod: { ...rod, length: dim(literals.rod ?? '152.4 mm') },
    piston: { ...piston, skirtBelowPin: dim(literals.skirt ?? '28 mm'), skirtHalfAngle: dim('90 deg') },
  };
  return {
    ...doc,
    replaced: made.name,
    proposed: made.name,
    limits: { 'counterweight-piston': dim(limit) },
    assumedAllowance: dim('0 mm'),
    assemblies: [made],
  };
}

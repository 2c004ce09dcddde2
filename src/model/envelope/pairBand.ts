/**
 * What one body of a pair sweeps, as the other one or the block sees it: the layers that share an axial range with the other, or come so
 * near to it along the shaft that the limit is not kept.
 */
import type { Body, Engine, Pair } from '../../assembly/engine.ts';
import { joined } from '../../assembly/pairs.ts';
import { cellsOf, type Slab } from '../../core/clearance/cells.ts';
import type { Outline } from '../../core/outline/outline.ts';
import type { Sweeping } from './sweep.ts';

/** Which band: of the first or the second body of a pair, seen from where, and by how much it is to be kept clear of. */
export interface BandAsked {
  readonly pairId: string;
  readonly of: 'a' | 'b';
  /** The block stands still; seen from the partner the band turns with it: what the partner may be cut to. */
  readonly from: 'block' | 'partner';
  /** With the pair's limit round it, or as it is. */
  readonly withLimit: boolean;
}

/** Outlines that are grown by the same, and how they move. */
export interface BandGroup {
  readonly growMm: number;
  readonly sweeping: Sweeping;
}

/** Can the band be asked for: what does not move against its frame sweeps nothing but itself. */
export function hasBand(pair: Pair, of: 'a' | 'b', from: 'block' | 'partner'): boolean {
  // A valve meets the crown in space: its section in the plane is for the picture.
  if (pair.head !== undefined) return false;
  const [body, partner] = of === 'a' ? [pair.a, pair.b] : [pair.b, pair.a];
  if (from === 'block') return body.move.kind !== 'fixed';
  return partner.move.kind !== 'fixed';
}

/** The groups of outlines of a band; empty when the two share no axial range. */
export function bandGroups(engine: Engine, asked: BandAsked): BandGroup[] {
  const pair = engine.pairs.find((p) => p.id === asked.pairId);
  if (pair === undefined) return [];
  const [body, partner] = asked.of === 'a' ? [pair.a, pair.b] : [pair.b, pair.a];
  const limitMm = asked.withLimit ? pair.limitMm : 0;
  const byGrowth = new Map<number, Map<string, Outline>>();
  for (const cell of cellsOf(pair.a, pair.b, (partA, partB) => joined(pair.kind, partA, partB))) {
    const slab = asked.of === 'a' ? cell.a : cell.b;
    if (cell.overlapMm === 0 && cell.axialMm >= limitMm) continue;
    const keepMm = cell.overlapMm > 0 ? limitMm : Math.sqrt((limitMm - cell.axialMm) * (limitMm + cell.axialMm));
    const growMm = Math.round((keepMm + slab.deviationMm) * 1e6) / 1e6;
    const outline = outlineOf(body, slab);
    if (outline === null) continue;
    // The two pin bosses, and slices on both sides of the middle, are one outline in the plane.
    const alike = byGrowth.get(growMm) ?? new Map<string, Outline>();
    byGrowth.set(growMm, alike.set(JSON.stringify(outline), outline));
  }
  return [...byGrowth].map(([growMm, outlines]) => ({
    growMm,
    sweeping: {
      outlines: [...outlines.values()],
      motion: body.motion,
      from: asked.from === 'block' ? null : partner.motion,
      periodRad: pair.periodRad,
    },
  }));
}

function outlineOf(body: Body, slab: Slab): Outline | null {
  return slab.round === null ? body.layers[slab.source]!.outline : slab.round.slice(slab.z0Mm, slab.z1Mm);
}

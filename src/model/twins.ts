/**
 * What was solved for a pair, told of one that is its mirror image (assembly/pairKeys.ts): the same gap and bound, at the mirrored angle,
 * between the layers that are the images of those that decide.
 */
import type { Pair } from '../assembly/engine.ts';
import type { Cell, LayeredBody, Slab } from '../core/clearance/cells.ts';
import { cellGapMm, makeCell, slabAt } from '../core/clearance/cells.ts';
import type { GapAt } from '../core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../core/clearance/gapAt.ts';
import type { LayeredGap } from '../core/clearance/layered.ts';
import { headTwin } from './headPair.ts';

const here: GapAt = newGapAt();

/** Images are the same but for rounding, mm: places to a thousandth of this, angles to 1e-9 rad, depths to a hundredth of a micrometre. */
const SAME_MM = 2e-5;
const SAME_PLACE_MM = 1e-6;

/** `solved` is of `like`, whose key is the one of `pair`'s mirror image. Null where the image of its deciding layers is not found: it is to be solved by itself. */
export function mirroredGap(like: Pair, solved: LayeredGap, pair: Pair): LayeredGap | null {
  const { twin } = pair;
  if (twin === undefined || twin.key !== like.key || solved.budgetSpent) return null;
  const after = solved.atCrankRad - like.keyShiftRad;
  const atCrankRad = wrap(pair.keyShiftRad + (twin.reversed ? -after : after), pair.periodRad);
  if (pair.head !== undefined) return { ...solved, atCrankRad, cell: headTwin(pair, solved.cell) };
  const cell = imageOf(like, solved, pair, atCrankRad);
  return cell === null ? null : { ...solved, atCrankRad, cell };
}

function imageOf(like: Pair, solved: LayeredGap, pair: Pair, atCrankRad: number): Cell | null {
  const { a, b } = pair.relative ?? pair;
  for (const sa of slabs(a, solved.cell.a, axialImage(like, pair, 'a'))) {
    for (const sb of slabs(b, solved.cell.b, axialImage(like, pair, 'b'))) {
      const cell = makeCell(sa, sb);
      if (cell.exact !== solved.cell.exact) continue;
      const { axialMm, overlapMm } = solved.cell;
      if (Math.abs(cell.axialMm - axialMm) + Math.abs(cell.overlapMm - overlapMm) > SAME_PLACE_MM) continue;
      gapAt(
        { flat: sa.flat, motion: a.motion },
        { flat: sb.flat, motion: b.motion },
        atCrankRad,
        Number.POSITIVE_INFINITY,
        false,
        here,
        cell.overlapMm > 0,
      );
      if (Math.abs(cellGapMm(cell, here.gapMm) - solved.gapMm) <= SAME_MM) return cell;
    }
  }
  return null;
}

/** Carries an axial place of one pair to its image in the other; null where bodies have no base to count from: their layers are even, and wholes. */
function axialImage(like: Pair, pair: Pair, which: 'a' | 'b'): ((zMm: number) => number) | null {
  const base = pair[which].mirror?.baseMm;
  if (base === undefined) return null;
  return (zMm) => like[which].baseMm - base - zMm;
}

/** Slabs of a body that may be the image of one: of the same part, an even layer as a whole, of a round one the same stretch. */
function slabs(body: LayeredBody, of: Slab, image: ((zMm: number) => number) | null): Slab[] {
  const out: Slab[] = [];
  if (of.round === null) {
    for (const [source, layer] of body.layers.entries()) {
      if (layer.part !== of.part) continue;
      const apart = image === null ? 0 : Math.abs(image(of.z1Mm) - layer.z0Mm);
      if (apart <= SAME_PLACE_MM) out.push(slabAt(body, source, layer.z0Mm, layer.z1Mm)!);
    }
    return out;
  }
  if (image === null) return out;
  const [z0, z1] = [image(of.z1Mm), image(of.z0Mm)];
  for (const [index, round] of body.round.entries()) {
    if (round.part !== of.part || z0 < round.z0Mm - SAME_PLACE_MM || z1 > round.z1Mm + SAME_PLACE_MM) continue;
    const slab = slabAt(body, body.layers.length + index, z0, z1);
    if (slab !== null) out.push(slab);
  }
  return out;
}

function wrap(rad: number, period: number): number {
  return ((rad % period) + period) % period;
}

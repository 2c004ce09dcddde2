/** What the enlarged place shows of two bodies, and how much of it. */
import type { Body, DrawnShape } from '../../assembly/engine.ts';
import type { Gap } from '../../model/results.ts';

/** Gaps smaller than this are enlarged, in limits of the pair, and than the plain figure where there is none. */
const SHOWN_BELOW_LIMITS = 2.5;
const LEAST_RANGE_MM = 2.5;
const MOST_RANGE_MM = 8;
/** How many limits lie between the middle and the rim of the enlarged place. */
const RANGE_IN_LIMITS = 2.5;

export function worthEnlarging(gapMm: number, limitMm: number): boolean {
  return gapMm <= (limitMm > 0 ? limitMm * SHOWN_BELOW_LIMITS : LEAST_RANGE_MM);
}

/** From the middle to the rim, mm. */
export function rangeMm(limitMm: number): number {
  return Math.min(Math.max(limitMm * RANGE_IN_LIMITS, LEAST_RANGE_MM), MOST_RANGE_MM);
}

/**
 * The outlines that meet: of each body the layer that decides the gap, which for a round part is its slice beside the
 * other part and lies elsewhere than its middle section; all it shows where that is not known.
 */
export function meeting(body: Body, gap: Gap | undefined): readonly DrawnShape[] {
  const ref = gap?.deciding[gap.between[0] === body.name ? 0 : 1];
  if (ref === undefined || ref.source < 0) return body.drawn;
  const round = body.round[ref.source - body.layers.length];
  const outline = body.layers[ref.source]?.outline ?? round?.slice(ref.z0Mm, ref.z1Mm);
  if (outline === undefined || outline === null) return body.drawn;
  const hatch = body.drawn.find((shape) => shape.hatch !== undefined)?.hatch;
  return [{ style: 'cut', outline, ...(hatch === undefined ? {} : { hatch }) }];
}

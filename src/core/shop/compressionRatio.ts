/**
 * Compression ratio: the volume above the piston at the bottom of its stroke over that at the top,
 * (swept + clearance) / clearance. Volumes of one cylinder in cubic centimetres.
 *
 * Source: any textbook of engines, e.g. Mathur & Sharma, Internal Combustion Engine, ch. 1.
 */

/** What stays above the piston at the top of its stroke. */
export interface ClearanceVolumes {
  /** Of the head, with valves and plug in place. */
  readonly chamberCm3: number;
  /** The hole of the compressed gasket. */
  readonly gasketCm3: number;
  /** Between crown and deck; negative where the crown stands above the deck. */
  readonly deckCm3: number;
  /** Dish, valve pockets: positive; a dome: negative. */
  readonly pistonCm3: number;
  /** Round the piston above its top ring. */
  readonly creviceCm3: number;
}

export type ClearancePart = keyof ClearanceVolumes;

const MM3_PER_CM3 = 1000;

/** Volume of a flat disc in cm³: a gasket's hole, the room between crown and deck. `heightMm` may be negative. Throws a RangeError unless the diameter is positive and both are finite. */
export function discCm3(diameterMm: number, heightMm: number): number {
  if (!(diameterMm > 0 && Number.isFinite(diameterMm))) {
    throw new RangeError(`diameter ${diameterMm} mm must be positive and finite`);
  }
  if (!Number.isFinite(heightMm)) throw new RangeError(`height ${heightMm} mm must be finite`);
  return ((Math.PI / 4) * diameterMm * diameterMm * heightMm) / MM3_PER_CM3;
}

/** Room round the piston from the crown to the top ring, cm³: a ring pi/4 (bore² - land²) deep as the land is high. Throws a RangeError unless 0 < land <= bore and the height is not negative. */
export function creviceCm3(boreMm: number, landDiameterMm: number, landHeightMm: number): number {
  if (!(landDiameterMm > 0 && landDiameterMm <= boreMm && Number.isFinite(boreMm))) {
    throw new RangeError(`land diameter ${landDiameterMm} mm must be positive and at most the bore of ${boreMm} mm`);
  }
  if (!(landHeightMm >= 0 && Number.isFinite(landHeightMm))) {
    throw new RangeError(`land height ${landHeightMm} mm must be 0 or more and finite`);
  }
  return discCm3(boreMm, landHeightMm) - discCm3(landDiameterMm, landHeightMm);
}

/** All of it, cm³. Throws a RangeError when a part is not finite or the whole is not positive: the crown would meet the head. */
export function clearanceCm3(v: ClearanceVolumes): number {
  const total = v.chamberCm3 + v.gasketCm3 + v.deckCm3 + v.pistonCm3 + v.creviceCm3;
  if (!(total > 0 && Number.isFinite(total))) {
    throw new RangeError(`the volumes above the piston add up to ${total} cm³; they must leave more than 0`);
  }
  return total;
}

/** Throws a RangeError unless the swept volume is positive and finite; as `clearanceCm3` for the rest. */
export function compressionRatio(sweptCm3: number, v: ClearanceVolumes): number {
  positive('swept volume', sweptCm3);
  const clearance = clearanceCm3(v);
  return (sweptCm3 + clearance) / clearance;
}

/** The clearance volume that gives a wanted ratio: swept / (ratio - 1), cm³. Throws a RangeError unless the ratio exceeds 1. */
export function clearanceForRatioCm3(sweptCm3: number, ratio: number): number {
  positive('swept volume', sweptCm3);
  if (!(ratio > 1 && Number.isFinite(ratio))) throw new RangeError(`ratio ${ratio} must be above 1 and finite`);
  return sweptCm3 / (ratio - 1);
}

/**
 * One part of the clearance volume, the others given, for a wanted ratio, cm³. A negative dish is a dome. Throws a RangeError
 * when a chamber, a gasket or a crevice would have to be negative: no such part can be had.
 */
export function partForRatioCm3(
  part: ClearancePart,
  sweptCm3: number,
  others: ClearanceVolumes,
  ratio: number,
): number {
  const wanted = clearanceForRatioCm3(sweptCm3, ratio);
  const rest = { ...others, [part]: 0 };
  const solved = wanted - (rest.chamberCm3 + rest.gasketCm3 + rest.deckCm3 + rest.pistonCm3 + rest.creviceCm3);
  if (!Number.isFinite(solved)) throw new RangeError(`the other volumes must be finite`);
  if (solved < 0 && part !== 'pistonCm3' && part !== 'deckCm3') {
    throw new RangeError(`a ratio of ${ratio} would take a ${PART_WORDS[part]} of ${solved} cm³, which can't be had`);
  }
  return solved;
}

const PART_WORDS: Readonly<Record<ClearancePart, string>> = {
  chamberCm3: 'chamber',
  gasketCm3: 'gasket',
  deckCm3: 'deck volume',
  pistonCm3: 'dish',
  creviceCm3: 'crevice',
};

function positive(name: string, cm3: number): void {
  if (!(cm3 > 0 && Number.isFinite(cm3))) throw new RangeError(`${name} ${cm3} cm³ must be positive and finite`);
}

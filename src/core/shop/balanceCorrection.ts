/**
 * What a hole in a counterweight, or a plug of heavy metal in it, does to the balance.
 *
 * Millimetres, kg/mm³, g mm. A hole drilled inward along a radius from the rim removes mass whose centre moves toward the
 * crank axis as the hole grows deeper: pi/4 d² t rho (R - t/2). A plug in such a hole, or in a hole along the shaft whose
 * centre stays at one radius, adds by its density less that of the crank. Source: statics, with the domain's correction
 * m = U / (r (1 - rho_crank / rho_plug)).
 */

const G_PER_KG = 1000;

/** Unbalance removed by a flat-bottomed hole along a radius, from the rim at `rimRadiusMm`, g mm. Throws a RangeError when the hole would reach the axis. */
export function radialHoleGMm(
  diameterMm: number,
  depthMm: number,
  rimRadiusMm: number,
  densityKgPerMm3: number,
): number {
  hole(diameterMm, depthMm, densityKgPerMm3);
  if (!(depthMm < rimRadiusMm))
    throw new RangeError(`a depth of ${depthMm} mm must be below the rim's ${rimRadiusMm} mm`);
  return (Math.PI / 4) * diameterMm ** 2 * depthMm * densityKgPerMm3 * (rimRadiusMm - depthMm / 2) * G_PER_KG;
}

/** Depth of a radial hole that removes `unbalanceGMm`, mm; null when a hole of this diameter can't, however deep. */
export function radialHoleDepthMm(
  unbalanceGMm: number,
  diameterMm: number,
  rimRadiusMm: number,
  densityKgPerMm3: number,
): number | null {
  hole(diameterMm, 1, densityKgPerMm3);
  if (!(unbalanceGMm >= 0 && rimRadiusMm > 0)) {
    throw new RangeError(`${unbalanceGMm} g mm at a rim of ${rimRadiusMm} mm: neither may be negative`);
  }
  // t (R - t/2) = U / (pi/4 d² rho): the smaller root, written so that it keeps its digits for shallow holes.
  const moment = unbalanceGMm / ((Math.PI / 4) * diameterMm ** 2 * densityKgPerMm3 * G_PER_KG);
  const under = rimRadiusMm ** 2 - 2 * moment;
  if (under < 0) return null;
  return (2 * moment) / (rimRadiusMm + Math.sqrt(under));
}

/** Mass of heavy metal, g, put at a radius in the place of the crank's own, that adds `unbalanceGMm`. Throws a RangeError unless the plug is denser than the crank. */
export function plugMassG(
  unbalanceGMm: number,
  radiusMm: number,
  crankDensityKgPerMm3: number,
  plugDensityKgPerMm3: number,
): number {
  if (!(radiusMm > 0 && Number.isFinite(radiusMm))) throw new RangeError(`radius ${radiusMm} mm must be positive`);
  if (!(crankDensityKgPerMm3 > 0 && plugDensityKgPerMm3 > crankDensityKgPerMm3)) {
    throw new RangeError('a plug must be denser than the crank to add anything');
  }
  return unbalanceGMm / (radiusMm * (1 - crankDensityKgPerMm3 / plugDensityKgPerMm3));
}

/** Length of a round plug of a mass, mm. */
export function plugLengthMm(massG: number, diameterMm: number, densityKgPerMm3: number): number {
  hole(diameterMm, 1, densityKgPerMm3);
  return massG / G_PER_KG / ((Math.PI / 4) * diameterMm ** 2 * densityKgPerMm3);
}

/**
 * Static moment about the crank axis of what is cut off along a straight line, kg mm: the segment of a disc of radius R beyond
 * a chord at distance h, rho t (2/3) (R² - h²)^(3/2), along the direction square to the chord.
 */
export function segmentMomentKgMm(
  radiusMm: number,
  chordMm: number,
  thicknessMm: number,
  densityKgPerMm3: number,
): number {
  if (!(radiusMm > 0 && Math.abs(chordMm) <= radiusMm)) {
    throw new RangeError(`a chord at ${chordMm} mm must lie within the radius of ${radiusMm} mm`);
  }
  return ((densityKgPerMm3 * thicknessMm * 2) / 3) * (radiusMm ** 2 - chordMm ** 2) ** 1.5;
}

function hole(diameterMm: number, depthMm: number, density: number): void {
  for (const [name, value] of [
    ['diameter', diameterMm],
    ['depth', depthMm],
    ['density', density],
  ] as const) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} ${value} must be positive and finite`);
  }
}

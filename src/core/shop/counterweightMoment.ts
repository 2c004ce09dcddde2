/**
 * Balance moment that a counterweight loses when it is turned down over its full concentric arc.
 *
 * The ring sector between radii R1 and R0 over +-half has the static moment rho t times the integral of r cos(a) r dr da,
 * that is rho t 2 sin(half) (R0^3 - R1^3) / 3. Millimetres, radians, kg/mm^3; returns kg mm.
 */
export function counterweightMomentLostKgMm(
  oldRadiusMm: number,
  newRadiusMm: number,
  halfAngleRad: number,
  thicknessMm: number,
  densityKgPerMm3: number,
): number {
  return (densityKgPerMm3 * thicknessMm * 2 * Math.sin(halfAngleRad) * (oldRadiusMm ** 3 - newRadiusMm ** 3)) / 3;
}

/** Carbon steel, kg/mm^3: 7850 kg/m^3, the usual handbook figure. */
export const STEEL_DENSITY_KG_PER_MM3 = 7.85e-6;

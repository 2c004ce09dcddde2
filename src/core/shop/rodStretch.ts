/**
 * How much a rod lengthens under a pull: F l / (A E), Hooke's law for an even bar. Source: any text on the strength of
 * materials; checked against worked examples in tests/core/shop/rodStretch.test.ts. A rod is no even bar: its eyes are
 * stiffer, and its own weight pulls less on the small end than on the big end; so the figure is an estimate.
 */

/**
 * Millimetres, positive for a pull; a push shortens. Newtons, millimetres, square millimetres, megapascals (N/mm²). Throws a
 * RangeError unless length, section and modulus are positive and finite and the force is finite.
 */
export function rodStretchMm(forceN: number, lengthMm: number, sectionMm2: number, modulusMPa: number): number {
  for (const [what, value] of [
    ['length', lengthMm],
    ['section', sectionMm2],
    ['modulus', modulusMPa],
  ] as const) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`rodStretchMm: ${what} ${value} must be positive`);
  }
  if (!Number.isFinite(forceN)) throw new RangeError(`rodStretchMm: force ${forceN} must be finite`);
  return (forceN * lengthMm) / (sectionMm2 * modulusMPa);
}

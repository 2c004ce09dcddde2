/** What the pistons sweep: pi/4 x bore^2 x stroke x cylinders. */

const MM3_PER_CM3 = 1000;

/**
 * Displacement of the engine in cubic centimetres. `strokeMm` is what the piston travels (with an offset a little more
 * than twice the crank radius). Throws a RangeError unless bore and stroke are positive and the cylinders a whole number from 1.
 */
export function displacementCm3(boreMm: number, strokeMm: number, cylinders: number): number {
  for (const [name, value] of [
    ['bore', boreMm],
    ['stroke', strokeMm],
  ] as const) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} ${value} mm must be positive and finite`);
  }
  if (!(Number.isInteger(cylinders) && cylinders >= 1)) {
    throw new RangeError(`${cylinders} cylinders: must be a whole number from 1`);
  }
  return ((Math.PI / 4) * boreMm * boreMm * strokeMm * cylinders) / MM3_PER_CM3;
}

/** Rod ratio: rod length between centres over stroke, both in the same unit; half of l / r. Throws a RangeError unless both are positive and finite. */
export function rodRatio(rodLengthMm: number, strokeMm: number): number {
  for (const [name, value] of [
    ['rod length', rodLengthMm],
    ['stroke', strokeMm],
  ] as const) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} ${value} mm must be positive and finite`);
  }
  return rodLengthMm / strokeMm;
}

/** Crank angles as the documents and tables of the command give them. */

/**
 * Degrees, 0 up to the period, to the ninth decimal: a thousandth of what any reader of the document may rely on, and
 * coarse enough that a rounding below zero reads 0 and not a whole turn.
 */
export function degrees(rad: number, periodRad: number): number {
  const period = Math.round((periodRad * 180) / Math.PI);
  const wrapped = ((((rad * 180) / Math.PI) % period) + period) % period;
  return Number(wrapped.toFixed(9)) % period;
}

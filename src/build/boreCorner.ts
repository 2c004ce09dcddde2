/** Where the wall of a bore ends toward the crankcase. */

/**
 * Outer lower corner of a bore's wall, engine frame, mm: `sign` 1 for the +x side of the bank's own axes, -1 for the other. At
 * height h along a bank at b and t across it: h u(b) + t v(b) with u = (sin b, cos b), v = (cos b, -sin b).
 */
export function outerBoreCorner(
  bore: { readonly boreMm: number; readonly wallMm: number; readonly offsetMm: number; readonly bottomMm: number },
  bankAngleRad: number,
  sign: 1 | -1,
): readonly [number, number] {
  const across = sign * (bore.boreMm / 2 + bore.wallMm) + bore.offsetMm;
  return [
    bore.bottomMm * Math.sin(bankAngleRad) + across * Math.cos(bankAngleRad),
    bore.bottomMm * Math.cos(bankAngleRad) - across * Math.sin(bankAngleRad),
  ];
}

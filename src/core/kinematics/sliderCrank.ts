/**
 * Where the piston pin and the rod stand at an angle of the crankpin, and how fast that changes: the slider-crank in
 * closed form, with offset.
 *
 * In the bore's own axes (`u` outward along the bore, `v` across it toward the side to which the crankpin moves just
 * after TDC) the crankpin is at (r cos alpha, r sin alpha) and the pin at (s, e). With
 *
 *   q = r sin(alpha) - e        how far the crankpin stands to the `v` side of the pin line
 *   w = sqrt(l^2 - q^2)         the rod's length along the bore
 *
 * the pin height is s = r cos(alpha) + w and the rod's angle phi = asin(q / l), positive when the big end stands on the
 * `v` side. `alpha` is in radians from the bore axis in the direction of rotation, any value; derivatives are by alpha,
 * which at a fixed bank and throw is also by crank angle. Lengths in millimetres. Every function needs an assembly that
 * can turn (`canTurn`); one that cannot has no rod angle at some alpha and gives NaN there, so it is to be refused first.
 *
 * Source: dead centres and stroke as in the offset slider-crank tutorial of Cornell's kinematic model library, part 3;
 * the derivatives follow from w w' = -q q'.
 */

export interface SliderCrank {
  readonly crankRadiusMm: number;
  readonly rodLengthMm: number;
  /** Offset of the pin line from the crank axis, positive toward the side the crankpin moves to just after TDC. */
  readonly offsetMm: number;
}

/** Whether the crank can turn right round: the rod must be longer than crank radius plus offset. False for lengths that are not positive or not finite. */
export function canTurn(s: SliderCrank): boolean {
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
  return r > 0 && Number.isFinite(l) && l > r + Math.abs(e);
}

/** Throws a RangeError with the three lengths unless the assembly can turn: for functions that would otherwise give NaN. */
export function mustTurn(s: SliderCrank): void {
  if (canTurn(s)) return;
  throw new RangeError(
    `the crank can't turn: rod length ${s.rodLengthMm} mm must exceed crank radius ${s.crankRadiusMm} mm plus offset ${Math.abs(s.offsetMm)} mm`,
  );
}

function across(s: SliderCrank, alphaRad: number): number {
  return s.crankRadiusMm * Math.sin(alphaRad) - s.offsetMm;
}

/** w; the product keeps its precision when the rod lies nearly square to the bore, where l^2 - q^2 would cancel. */
function along(s: SliderCrank, qMm: number): number {
  return Math.sqrt((s.rodLengthMm - qMm) * (s.rodLengthMm + qMm));
}

/** Height of the pin above the crank axis along the bore, s. */
export function pinHeightMm(s: SliderCrank, alphaRad: number): number {
  return s.crankRadiusMm * Math.cos(alphaRad) + along(s, across(s, alphaRad));
}

/** ds/dalpha, mm per radian; positive outward. */
export function pinHeightPerRadMm(s: SliderCrank, alphaRad: number): number {
  const r = s.crankRadiusMm;
  const q = across(s, alphaRad);
  return -r * Math.sin(alphaRad) - (q * r * Math.cos(alphaRad)) / along(s, q);
}

/** d2s/dalpha2, mm per radian squared; positive outward. */
export function pinHeightPerRad2Mm(s: SliderCrank, alphaRad: number): number {
  const r = s.crankRadiusMm;
  const sin = Math.sin(alphaRad);
  const cos = Math.cos(alphaRad);
  const q = across(s, alphaRad);
  const w = along(s, q);
  const dq = r * cos;
  return -r * cos - (dq * dq - q * r * sin) / w - (q * q * dq * dq) / (w * w * w);
}

/** phi, within -pi/2 to pi/2: the rod's angle to the bore, positive when the big end stands on the `v` side. */
export function rodAngleRad(s: SliderCrank, alphaRad: number): number {
  return Math.asin(across(s, alphaRad) / s.rodLengthMm);
}

/** dphi/dalpha. */
export function rodAnglePerRad(s: SliderCrank, alphaRad: number): number {
  return (s.crankRadiusMm * Math.cos(alphaRad)) / along(s, across(s, alphaRad));
}

/** d2phi/dalpha2. */
export function rodAnglePerRad2(s: SliderCrank, alphaRad: number): number {
  const r = s.crankRadiusMm;
  const q = across(s, alphaRad);
  const w = along(s, q);
  const dq = r * Math.cos(alphaRad);
  return (-r * Math.sin(alphaRad)) / w + (q * dq * dq) / (w * w * w);
}

/** The angle of true top dead centre, rod and crank in one line: asin(e / (l + r)), 0 without offset. */
export function tdcAlphaRad(s: SliderCrank): number {
  return Math.asin(s.offsetMm / (s.rodLengthMm + s.crankRadiusMm));
}

/** The angle of true bottom dead centre, rod folded back over the crank: pi + asin(e / (l - r)). */
export function bdcAlphaRad(s: SliderCrank): number {
  return Math.PI + Math.asin(s.offsetMm / (s.rodLengthMm - s.crankRadiusMm));
}

/** Pin height at true top dead centre, sqrt((l + r)^2 - e^2). */
export function tdcPinHeightMm(s: SliderCrank): number {
  const far = s.rodLengthMm + s.crankRadiusMm;
  return Math.sqrt((far - s.offsetMm) * (far + s.offsetMm));
}

/** Pin height at true bottom dead centre, sqrt((l - r)^2 - e^2). */
export function bdcPinHeightMm(s: SliderCrank): number {
  const near = s.rodLengthMm - s.crankRadiusMm;
  return Math.sqrt((near - s.offsetMm) * (near + s.offsetMm));
}

/** How far the piston really travels: 2 r without offset, a little more with. The difference of the two heights, written so that it does not cancel. */
export function strokeTravelledMm(s: SliderCrank): number {
  return (4 * s.rodLengthMm * s.crankRadiusMm) / (tdcPinHeightMm(s) + bdcPinHeightMm(s));
}

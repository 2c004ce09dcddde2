/**
 * What of a piston leaves the lower end of its bore at the bottom of the stroke: rings, pin ends, skirt. Millimetres along the
 * bore; positive: so much of bore left below it, negative: it stands out.
 *
 * Source: geometry; the caution that rings and the skirt's gauge point must stay inside is from a piston maker's
 * article on bore length and strokers (2019).
 */

export interface PistonAtBdc {
  /** Pin above the crank axis at BDC, along the bore. */
  readonly pinHeightMm: number;
  readonly compressionHeightMm: number;
  /** Lower end of the bore above the crank axis. */
  readonly boreBottomMm: number;
}

/** Bore left below a place of the piston that lies `fromCrownMm` below the flat of the crown. */
export function boreLeftBelowCrownMm(p: PistonAtBdc, fromCrownMm: number): number {
  return p.pinHeightMm + p.compressionHeightMm - fromCrownMm - p.boreBottomMm;
}

/** Bore left below the lowest line of the piston pin. */
export function boreLeftBelowPinMm(p: PistonAtBdc, pinDiameterMm: number): number {
  return p.pinHeightMm - pinDiameterMm / 2 - p.boreBottomMm;
}

/**
 * Metal between the lower edge of the oil-ring groove and the top of the pin bore, mm; negative when the pin bore cuts the
 * groove and a support rail is needed there.
 */
export function oilGrooveToPinMm(
  compressionHeightMm: number,
  grooveBottomFromCrownMm: number,
  pinDiameterMm: number,
): number {
  return compressionHeightMm - grooveBottomFromCrownMm - pinDiameterMm / 2;
}

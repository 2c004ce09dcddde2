/**
 * A traced rod is one outline, but its big end, its beam and its small end are of different width along the shaft. Where
 * each end stops: what lies below `bigEnd` is taken as wide as the big end, what lies above `smallEnd` as wide as the small
 * end, and the whole as wide as the beam. Heights from the crankpin, mm.
 */
export function rodCutsMm(d: {
  readonly lengthMm: number;
  readonly bigEndRadiusMm: number;
  readonly shoulderHeightMm: number;
  readonly smallEndRadiusMm: number;
}): { readonly bigEnd: number; readonly smallEnd: number } {
  return { bigEnd: Math.max(d.bigEndRadiusMm, d.shoulderHeightMm), smallEnd: d.lengthMm - d.smallEndRadiusMm };
}

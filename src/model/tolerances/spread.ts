/**
 * What a tolerance means as a distribution, as the build states it: any value of the band alike, or a normal distribution about
 * the band's middle with the band so many standard deviations to each side. A band off to one side, +.000 -.001, is drawn about its
 * own middle, not about the value written.
 */
import type { BuildDocument } from '../../build/document.ts';
import type { Variable } from './variables.ts';

export type Spread = NonNullable<BuildDocument['tolerances']>;

/** Where a build states nothing: the wider of the two, and no part outside its band. */
export const DEFAULT_SPREAD: Spread = { as: 'uniform' };

export function spreadOf(doc: BuildDocument): Spread {
  return doc.tolerances ?? DEFAULT_SPREAD;
}

/** Middle and half width of a variable's band, mm or degrees. */
export function bandOf(v: Variable): { readonly middle: number; readonly half: number } {
  if (v.band === null) return { middle: v.value, half: 0 };
  return { middle: v.value + (v.band.plus - v.band.minus) / 2, half: (v.band.plus + v.band.minus) / 2 };
}

/** Standard deviation of what is drawn for a band of this half width: of a uniform one half / sqrt(3). */
export function sdOf(half: number, spread: Spread): number {
  return spread.as === 'uniform' ? half / Math.sqrt(3) : half / spread.sigmas;
}

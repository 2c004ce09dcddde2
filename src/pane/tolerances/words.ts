/** How the page of tolerances says figures: changes of a gap, chances, and what a band means. */

import type { Units } from '../../model/state.ts';
import type { Outcome } from '../../model/tolerances/outcome.ts';
import type { Sensitivity } from '../../model/tolerances/sensitivity.ts';
import { STEP, slopeOf } from '../../model/tolerances/sensitivity.ts';
import type { Spread } from '../../model/tolerances/spread.ts';

const MM_PER_IN = 25.4;

/** A minus is U+2212, a plus stands before what opens the gap; nothing before a zero. */
function signed(value: number, places: number): string {
  const digits = Math.abs(value).toFixed(places);
  if (!/[1-9]/.test(digits)) return digits;
  return `${value < 0 ? '\u2212' : '+'}${digits}`;
}

/** Over what a change of the gap is told: a tenth of a millimetre, or a thousandth of an inch; of an angle a tenth of a degree. */
export function stepWords(kind: 'length' | 'angle', units: Units): string {
  if (kind === 'angle') return '0.1°';
  return units === 'in' ? '.001 in' : '0.1 mm';
}

/** "+0.098 mm" or "−.00098 in": what one step larger does to the gap. */
export function changeWords(perStepMm: number, kind: 'length' | 'angle', units: Units): string {
  if (units !== 'in') return `${signed(perStepMm, 3)} mm`;
  // Per .001 in of a length: the slope itself, in thousandths. Of an angle: the same change in inches.
  const inches = kind === 'length' ? (perStepMm / STEP) * 0.001 : perStepMm / MM_PER_IN;
  return `${signed(inches, 5).replace(/^([+\u2212]?)0\./, '$1.')} in`;
}

export interface ChangeTold {
  /** One for both sides; two where they differ. */
  readonly lines: readonly string[];
  /** Per step, mm: larger and smaller. */
  readonly upMm: number | null;
  readonly downMm: number | null;
}

/** What a step does, in words; both ways where they are not the same. */
export function changeOf(s: Sensitivity, units: Units): ChangeTold {
  const { kind } = s.variable;
  const slope = slopeOf(s);
  if (slope !== null) {
    const mm = slope * STEP;
    return { lines: [changeWords(mm, kind, units)], upMm: mm, downMm: -mm };
  }
  const side = (mm: number | null): string => (mm === null ? 'can’t be built' : changeWords(mm, kind, units));
  return {
    lines: [`larger ${side(s.upMm)}`, `smaller ${side(s.downMm)}`],
    upMm: s.upMm,
    downMm: s.downMm,
  };
}

/** A share as a count out of 100, 1000, …: enough that the count has a figure before the point. */
export function outOf(share: number): { readonly count: number; readonly of: number } {
  let of = 100;
  while (share > 0 && share * of < 0.95 && of < 1_000_000) of *= 10;
  return { count: share * of, of };
}

function counted(count: number): string {
  return count < 9.95 && count > 0 ? count.toFixed(1).replace(/\.0$/, '') : count.toFixed(0);
}

/** As counted, but never less than the count: what is said to be fewer must be. */
function countedUp(count: number): string {
  return counted(count < 9.9 ? Math.ceil(count * 10) / 10 : Math.ceil(count));
}

/**
 * "About 3 in 100 builds would be below the limit, 2.1 to 4.2 with 95 % confidence." Where none was seen, or all, the far end of
 * the interval alone.
 */
export function chanceWords(outcome: Outcome): string {
  const { chance, built, below } = outcome;
  if (chance === null) return 'None of the builds drawn can be built, so nothing can be said.';
  const { low, high } = chance.interval;
  if (below === 0) {
    const most = outOf(high);
    return `None of ${built} builds is below the limit: with 95 % confidence fewer than ${countedUp(most.count)} in ${most.of} would be.`;
  }
  if (below === built) {
    return `All of ${built} builds are below the limit: with 95 % confidence more than ${Math.floor(low * 100)} in 100 would be.`;
  }
  const { count, of } = outOf(chance.seen);
  const said = counted(count);
  return `About ${said} in ${of} builds would be below the limit, ${(low * of).toFixed(1)} to ${(high * of).toFixed(1)} with 95 % confidence.`;
}

/** What ± is taken to mean, and what that leaves outside the band. */
export function spreadWords(spread: Spread): string {
  if (spread.as === 'uniform') {
    return 'Any value of its band alike, none outside. The wider assumption of the two, taken unless the build says otherwise.';
  }
  return `Normal about the middle of the band, whose ends lie ${spread.sigmas} standard deviations from it; about ${outsideWords(spread.sigmas)} of the parts lie outside.`;
}

/** Two-sided tail of the normal distribution beyond so many standard deviations, by its continued fraction and series, to two figures. */
function outsideWords(sigmas: number): string {
  const share = tail(sigmas);
  const { count, of } = outOf(share);
  return share < 1e-6 ? 'two in a thousand million or fewer' : `${counted(count)} in ${of}`;
}

/** erfc(z / sqrt 2): Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.5 (series) for the range of a build's sigmas. */
export function tail(z: number): number {
  const x = z / Math.SQRT2;
  if (x < 2.5) {
    let term = x;
    let sum = x;
    for (let n = 1; n < 80; n++) {
      term *= (-x * x) / n;
      sum += term / (2 * n + 1);
    }
    return 1 - (2 / Math.sqrt(Math.PI)) * sum;
  }
  // 7.1.14, the continued fraction, from far out inward.
  let f = 0;
  for (let n = 60; n > 0; n--) f = n / 2 / (x + f);
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / (x + f);
}

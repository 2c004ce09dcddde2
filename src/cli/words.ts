/** How the printed table says lengths, places in the turn, names and the count of states. */
import type { Cylinder } from '../assembly/engine.ts';
import type { Gap, GapState } from '../model/results.ts';
import { degrees } from './degrees.ts';
import { trueFiringTdcRad } from './reportCylinder.ts';

export const CAUTION =
  "Planning aid. Check every clearance on the real parts, by hand, before the engine turns. Limits are the part\nmaker's; crank strength is for a qualified crankshaft grinder.";

const MM_PER_INCH = 25.4;

/** A minus only where a digit other than zero follows it. */
function fixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a figure to be printed must be finite, got ${value}`);
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && /[1-9]/.test(digits) ? `-${digits}` : digits;
}

/** "0.81 mm" */
export function inMm(mm: number, decimals = 2): string {
  return `${fixed(mm, decimals)} mm`;
}

/** ".032 in": no leading zero, as on inch drawings. */
export function inInches(mm: number, decimals = 3): string {
  return `${fixed(mm / MM_PER_INCH, decimals).replace(/^(-?)0\./, '$1.')} in`;
}

export function inBoth(mm: number): string {
  return `${inMm(mm)} (${inInches(mm)})`;
}

/** Always rounded down, to 0.001 mm and 0.0001 in: what is printed is proven as well. */
export function boundInMm(mm: number): string {
  return inMm(Math.floor(mm * 1000) / 1000, 3);
}

export function boundInInches(mm: number): string {
  return inInches((Math.floor((mm / MM_PER_INCH) * 10_000) / 10_000) * MM_PER_INCH, 4);
}

/** More decimals (at most 2) where a gap would read the same as the limit it misses, or as zero when it is not. */
export function finerFor(gap: Pick<Gap, 'gapMm' | 'limitMm' | 'state'>): number {
  for (let finer = 0; finer < 2; finer++) {
    const alike = (other: number): boolean =>
      inMm(gap.gapMm, 2 + finer) === inMm(other, 2 + finer) ||
      inInches(gap.gapMm, 3 + finer) === inInches(other, 3 + finer);
    if (!(gap.state === 'tight' && alike(gap.limitMm)) && !(gap.gapMm !== 0 && alike(0))) return finer;
  }
  return 2;
}

/** "176.0° after TDC 3", "538.2° after firing TDC 3" for what repeats only after two turns. */
export function afterTdc(gap: Pick<Gap, 'atCrankRad' | 'periodRad'>, cylinder: Cylinder): string {
  const twoTurns = gap.periodRad > 3 * Math.PI;
  const zeroRad = twoTurns ? trueFiringTdcRad(cylinder) : cylinder.tdcRad;
  const period = twoTurns ? 720 : 360;
  // Rounded first: just short of a whole turn reads 0.0.
  const shown = Number(fixed(degrees(gap.atCrankRad - zeroRad, gap.periodRad), 1)) % period;
  return `${fixed(shown, 1)}° after ${twoTurns ? 'firing ' : ''}TDC ${cylinder.number}`;
}

/** "counterweight 2 rear · piston 3 skirt": the bodies, and the parts of them that come closest. */
export function gapName(gap: Pick<Gap, 'between' | 'parts'>): string {
  const one = (k: 0 | 1): string => {
    const name = gap.between[k];
    const part = gap.parts[k];
    return part === '' || name.includes(part) ? name : `${name}, ${part}`;
  };
  return `${one(0)} · ${one(1)}`;
}

/** "Does not fit as drawn: 2 in contact, 1 tight, 40 clear." */
export function headline(count: Readonly<Record<GapState, number>>): string {
  const said = (['contact', 'tight', 'unproven', 'clears'] as const)
    .filter((state) => count[state] > 0)
    .map((state) => `${count[state]} ${SAID[state]}`);
  if (said.length === 0) return 'No pair of parts to judge.';
  if (count.contact > 0) return `Does not fit as drawn: ${said.join(', ')}.`;
  if (count.unproven > 0) return `Not proven to fit: ${said.join(', ')}.`;
  if (count.tight > 0) return `Fits, but tight: ${said.join(', ')}.`;
  return `Fits as drawn: ${said.join(', ')}.`;
}

const SAID: Readonly<Record<GapState, string>> = {
  contact: 'in contact',
  tight: 'tight',
  unproven: 'unproven',
  clears: 'clear',
};

/** Text out of a file or an argument, safe to print: control characters, also those that steer a terminal, by their code. */
export function plain(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, (c) => `\\u${c.codePointAt(0)!.toString(16).padStart(4, '0')}`);
}

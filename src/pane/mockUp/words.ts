/** How the mock-up log says places, differences and what would explain them. */

import { DECK } from '../../build/bodyNames.ts';
import type { MockUpEntry } from '../../build/document.ts';
import type { Comparison } from '../../model/mockUp/compare.ts';
import type { Explanation, Ground, OtherEntry } from '../../model/mockUp/explain.ts';
import type { Units } from '../../model/state.ts';
import { lengthText } from '../unitHint.ts';

/** "176 ±1 deg after TDC 3", "at TDC", "smallest while turning". */
export function placeWords({ at, between }: MockUpEntry, firing: boolean): string {
  if (between.includes(DECK)) return 'at TDC';
  if (at === undefined) return 'smallest while turning';
  return `${at.afterTdc.replace(/ *(deg|°)$/, '°')} after ${firing ? 'firing ' : ''}TDC ${at.cylinder}`;
}

/** A difference with its sign: "+0.35 mm (+.014 in)". */
export function signedLength(mm: number, units: Units): string {
  const said = lengthText(Math.abs(mm), units);
  if (!/[1-9]/.test(said)) return said;
  const sign = mm < 0 ? '−' : '+';
  return `${sign}${said.replace('(', `(${sign}`)}`;
}

/** What the tolerances explain in the direction of the difference, mm. */
export function explainedMm({ differenceMm, explainedUpMm, explainedDownMm }: Comparison): number {
  return (differenceMm ?? 0) < 0 ? explainedDownMm : explainedUpMm;
}

/** Whether measured and predicted agree, in a sentence. */
export function comparisonWords(c: Comparison, units: Units): string {
  if (c.predicted === null || c.differenceMm === null)
    return 'These two do not come within reach of one another along the shaft in this build: nothing is predicted.';
  const explained = lengthText(explainedMm(c), units);
  if (!c.differs) {
    const touching = c.measuredMm === 0 && c.predicted.gapMm < 0 && c.predicted.kind !== 'deck';
    return touching ? 'Contact was predicted, and found.' : `Agrees within the ${explained} the tolerances explain.`;
  }
  return `Differs by ${lengthText(Math.abs(c.differenceMm), units)}, more than the ${explained} the tolerances explain.`;
}

const GROUNDS: Readonly<Record<Ground, string>> = {
  tolerance: 'within its tolerance',
  assumed: 'was assumed',
  stated: 'was stated',
  measured: 'was measured',
};

/** "4 mm → 5.078 mm, +1.08 mm, was assumed". */
export function explanationWords({ from, to, change, kind, ground }: Explanation, units: Units): string {
  const by =
    kind === 'length' ? signedLength(change, units) : `${change < 0 ? '−' : '+'}${Math.abs(change).toFixed(1)}°`;
  return `${from} → ${to}, ${by}, ${GROUNDS[ground]}`;
}

/** What an explanation makes of the other measurements; empty where there are none. Numbers are places in the log, from 1. */
export function othersWords(others: readonly OtherEntry[]): string {
  if (others.length === 0) return '';
  const names = (list: readonly OtherEntry[]): string => list.map((o) => String(o.index + 1)).join(', ');
  const won = others.filter((o) => !o.agreedBefore && o.agreesAfter);
  const lost = others.filter((o) => o.agreedBefore && !o.agreesAfter);
  const left = others.filter((o) => !o.agreedBefore && !o.agreesAfter);
  const said = [
    won.length === 0 ? '' : `explains no. ${names(won)} too`,
    lost.length === 0 ? '' : `no. ${names(lost)} would no longer agree`,
    left.length === 0 ? '' : `leaves no. ${names(left)}`,
  ].filter((text) => text !== '');
  return said.length === 0 ? 'The other measurements still agree.' : `${said.join('; ')}.`;
}

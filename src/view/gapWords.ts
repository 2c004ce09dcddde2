/**
 * Gaps in sentences: what meets what, by how much, where in the turn; the verdict on all of them, and what of it is proven.
 */
import type { Engine } from '../assembly/engine.ts';
import type { Cures } from '../model/index.ts';
import { inOrder } from '../model/order.ts';
import type { Gap, GapState } from '../model/results.ts';
import type { Units } from '../model/state.ts';
import {
  bodyPhrase,
  finerFor,
  formatAngleFromTdc,
  formatLength,
  inches,
  MM_PER_INCH,
  millimetres,
  orMore,
} from './words.ts';

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function phrase(engine: Engine, name: string, part: string): string {
  const body = engine.bodies.find((b) => b.name === name);
  return body === undefined ? (part === '' ? name : `the ${part} of ${name}`) : bodyPhrase(body, part);
}

function places(count: number): string {
  return count === 1 ? '1 place' : `${count} places`;
}

/**
 * The answer to "does it fit", in a few words, from every gap of an assembly. Nothing is said to fit that is not
 * proven: a gap without a certificate, or one that rests on assumed outlines, is named as such.
 */
export function verdictHeadline(gaps: readonly Gap[]): string {
  if (gaps.length === 0) return 'No pair of parts to judge.';
  const count = (state: GapState) => gaps.filter((g) => g.state === state).length;
  if (count('contact') > 0) return 'Does not fit as drawn.';
  const spent = gaps.filter((g) => g.budgetSpent && !g.certified).length;
  const moving = gaps.some((g) => !g.certified && !g.budgetSpent);
  const tight = count('tight');
  const unproven = count('unproven');
  if (spent > 0) return `Not proven in ${places(spent)}.`;
  if (unproven > 0 && tight > 0) return `Tight in ${places(tight)}, unproven in ${unproven}.`;
  if (unproven > 0) return `Unproven in ${places(unproven)}: rests on assumed outlines.`;
  if (tight > 0) return `Fits, but tight in ${places(tight)}.`;
  return moving ? 'Fits so far as sampled.' : 'Fits as drawn.';
}

/** The state by which the headline is inked. */
export function verdictState(gaps: readonly Gap[]): GapState {
  if (gaps.some((g) => g.state === 'contact')) return 'contact';
  if (gaps.some((g) => g.state === 'tight')) return 'tight';
  if (gaps.length === 0 || gaps.some((g) => g.state === 'unproven' || !g.certified)) return 'unproven';
  return 'clears';
}

/** How far the gaps on show can be relied on, in a few words. */
export function proofWords(gaps: readonly Gap[]): string {
  if (gaps.length === 0) return '';
  if (gaps.some((g) => !g.certified && !g.budgetSpent)) return 'moving: sampled';
  return gaps.every((g) => g.certified) ? 'proven all round' : 'not all proven';
}

/** The gap to speak of first: the gravest state, then the smallest margin over its limit. Null if there is none. */
export function worstGap(gaps: readonly Gap[]): Gap | null {
  return inOrder(gaps)[0] ?? null;
}

/** What meets what, by how much, where in the turn, and the limit: one gap as a sentence or two. */
export function gapSentence(gap: Gap, engine: Engine, units: Units): string {
  if (gap.kind === 'deck') return deckSentence(gap, units);
  const first = capital(phrase(engine, gap.between[0], gap.parts[0]));
  const second = phrase(engine, gap.between[1], gap.parts[1]);
  const cylinder = engine.cylinders.find((c) => c.number === gap.cylinder);
  const where = cylinder === undefined ? '' : `, ${formatAngleFromTdc(gap.atCrankRad, cylinder, gap.periodRad)}`;
  const ofCylinder =
    engine.cylinders.length > 1 && !second.endsWith(` ${gap.cylinder}`) && !first.endsWith(` ${gap.cylinder}`);
  const turn = cylinder === undefined ? '' : `${where}${ofCylinder ? ` of cylinder ${gap.cylinder}` : ''}`;
  const finer = finerFor(gap, units);
  const size = `${orMore(gap)}${formatLength(Math.abs(gap.gapMm), units, finer)}`;
  const limit = `Limit ${formatLength(gap.limitMm, units, gap.state === 'tight' ? finer : 0)}.`;
  const along = gap.direction === 'axial' ? ' along the crank' : '';
  if (gap.state === 'contact') {
    const overlap =
      gap.axialOverlapMm > 0 ? ` They overlap ${formatLength(gap.axialOverlapMm, units)} along the crank.` : '';
    // Within a thousandth of a millimetre nothing proves that they stay apart.
    if (gap.gapMm > 0)
      return `${first} comes so near ${second} that contact is not ruled out${turn}. ${limit}${overlap}`;
    if (gap.gapMm === 0) return `${first} touches ${second}${turn}. ${limit}${overlap}`;
    return `${first} hits ${second} by ${size}${turn}. ${limit}${overlap}`;
  }
  if (gap.state === 'tight') {
    const only = allowanceDecides(gap) ? '' : 'only ';
    return `${first} clears ${second} by ${only}${size}${along}${turn}. ${limit}${lessAllowance(gap)}`;
  }
  const assumed =
    gap.state === 'unproven' && gap.assumed.length > 0
      ? ` That rests on assumed dimensions: ${gap.assumed.join(', ')}. State an allowance for them, or measure.`
      : '';
  return `${first} clears ${second} by ${size}${along}${turn}. ${limit}${assumed}`;
}

/** A gap at its limit or above it reads tight where what is allowed for assumed dimensions takes it below. */
function allowanceDecides(gap: Gap): boolean {
  return gap.state === 'tight' && gap.gapMm >= gap.limitMm && gap.assumed.length > 0;
}

function lessAllowance(gap: Gap): string {
  return allowanceDecides(gap) ? ' Less the allowance for assumed dimensions it is below that.' : '';
}

/** What would restore the limit of a gap, where one single change does. */
export function cureSentence(cures: Cures | null, gap: Gap | null): string {
  const cure = cures?.list[0];
  if (cure === undefined || gap === null || cures?.gapId !== gap.id) return '';
  const what = cure.what.charAt(0).toLowerCase() + cure.what.slice(1);
  return `What would help: ${what}${cure.body === null ? '' : ` of ${cure.body}`}, to ${cure.to}.`;
}

/** Where the crown stands at top dead centre, against the deck. */
function deckSentence(gap: Gap, units: Units): string {
  const finer = finerFor(gap, units);
  const size = formatLength(Math.abs(gap.gapMm), units, finer);
  const limit = formatLength(gap.limitMm, units, gap.state === 'tight' ? finer : 0);
  const stands = gap.gapMm === 0 ? 'level with' : `${size} ${gap.gapMm < 0 ? 'above' : 'below'}`;
  const meets = gap.state === 'contact' ? ' The gasket is no thicker than that: it meets the cylinder head.' : '';
  return `The crown of ${gap.between[0]} stands ${stands} the deck at top dead centre.${meets} Limit ${limit} below it.${lessAllowance(gap)}`;
}

/**
 * The sentence below the headline: the worst gap of all, in words. While a control moves the figure is called a
 * sample, and where the work budget ran out that is said.
 */
export function verdictSentence(gaps: readonly Gap[], engine: Engine, units: Units): string {
  const worst = worstGap(gaps);
  if (worst === null) return 'This assembly has no pair of parts whose gap is asked for.';
  const lead = worst.state === 'clears' ? 'Closest to its limit: ' : '';
  const sentence = gapSentence(worst, engine, units);
  const spoken = lead === '' ? sentence : lead + sentence.charAt(0).toLowerCase() + sentence.slice(1);
  const spent = gaps.filter((g) => !g.certified && g.budgetSpent).length;
  const note = spent > 0 ? ` In ${places(spent)} the proof was not finished: the work allowed for it ran out.` : '';
  return spoken + note;
}

/** A proven lower bound, to 0.001 mm and 0.0001 in, always rounded down: what is printed is proven as well. */
function atLeast(mm: number, units: Units): string {
  const down = (value: number, step: number) => Math.floor(value / step) * step;
  const inMm = millimetres(down(mm, 0.001), 1);
  const inInches = inches(down(mm / MM_PER_INCH, 0.0001) * MM_PER_INCH, 1);
  return `at least ${units === 'mm' ? inMm : units === 'in' ? inInches : `${inMm} (${inInches})`}`;
}

/** What stands in the column of the certificate: the proven lower bound, less what measured outlines owe; "moving" or "not finished". */
export function certificateWords(gap: Gap, units: Units): string {
  const owed =
    gap.deviationMm === undefined ? '' : `; ${formatLength(gap.deviationMm, units)} taken off for the measured outline`;
  if (gap.certified) return `${atLeast(gap.lowerBoundMm, units)}${owed}`;
  return gap.budgetSpent ? 'not finished' : 'moving';
}

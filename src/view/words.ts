/**
 * How figures and gaps are said: lengths in the units on show, angles counted from a dead centre, the verdict.
 *
 * Inches carry no leading zero, as inch drawings do; millimetres do. The unit is always printed. A minus is U+2212.
 */
import type { Body, Cylinder, Engine } from '../assembly/engine.ts';
import type { Gap, GapState } from '../model/results.ts';
import type { Units } from '../model/state.ts';

export const CAUTION =
  'Planning aid. Check every clearance on the real parts, by hand, before the engine turns. Limits are the part ' +
  "maker's; crank strength is for a qualified crankshaft grinder.";

const MM_PER_INCH = 25.4;
const TURN = 2 * Math.PI;
const MM_DECIMALS = 2;
const INCH_DECIMALS = 3;

/** A number with a fixed count of decimals; a minus only where a digit other than zero follows it. */
export function formatFixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`A figure to be shown must be finite, got ${value}`);
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && /[1-9]/.test(digits) ? `\u2212${digits}` : digits;
}

function millimetres(mm: number, finer: number): string {
  return `${formatFixed(mm, MM_DECIMALS + finer)} mm`;
}

function inches(mm: number, finer: number): string {
  return `${formatFixed(mm / MM_PER_INCH, INCH_DECIMALS + finer).replace(/^(\u2212?)0\./, '$1.')} in`;
}

/**
 * A length in the units on show: "0.81 mm", ".032 in", "0.81 mm (.032 in)". Millimetres in; `finer` adds decimals
 * (1 gives 0.001 mm and 0.0001 in, as a grinder reads them). Throws RangeError unless finite.
 */
export function formatLength(mm: number, units: Units, finer = 0): string {
  if (units === 'mm') return millimetres(mm, finer);
  if (units === 'in') return inches(mm, finer);
  return `${millimetres(mm, finer)} (${inches(mm, finer)})`;
}

/** The same in two lines for large figures: the first unit, and the second where both are asked for. */
export function formatLengthParts(mm: number, units: Units, finer = 0): readonly [string, string] {
  if (units === 'mm') return [millimetres(mm, finer), ''];
  if (units === 'in') return [inches(mm, finer), ''];
  return [millimetres(mm, finer), inches(mm, finer)];
}

/**
 * How many more decimals a gap needs so that it does not read the same as the limit it misses, or as zero when it is
 * not: at most 2, then it is left as it is.
 */
export function finerFor(gap: Pick<Gap, 'gapMm' | 'limitMm' | 'state'>, units: Units): number {
  for (let finer = 0; finer < 2; finer++) {
    const shown = formatLength(gap.gapMm, units, finer);
    const likeLimit = gap.state === 'tight' && shown === formatLength(gap.limitMm, units, finer);
    const likeZero = gap.gapMm !== 0 && shown === formatLength(0, units, finer);
    if (!likeLimit && !likeZero) return finer;
  }
  return 2;
}

/** A gap's value, with as many decimals as its limit asks for. */
export function formatGap(gap: Pick<Gap, 'gapMm' | 'limitMm' | 'state'>, units: Units): string {
  return formatLength(gap.gapMm, units, finerFor(gap, units));
}

/** "4.0°". Radians in. */
export function formatDegrees(angleRad: number): string {
  return `${formatFixed((angleRad * 180) / Math.PI, 1)}°`;
}

/** Crank angle since the cylinder's true TDC (its firing one where the period is two turns), 0 to the period. */
export function sinceTdcRad(crankAngleRad: number, cylinder: Cylinder, periodRad: number): number {
  const zero = periodRad > TURN * 1.5 ? cylinder.firingTdcRad : cylinder.tdcRad;
  const since = (crankAngleRad - zero) % periodRad;
  return since < 0 ? since + periodRad : since;
}

/** The crank angle at a place counted from the cylinder's true TDC: the way back from `sinceTdcRad`. */
export function crankAngleAt(sinceRad: number, cylinder: Cylinder, periodRad: number): number {
  const zero = periodRad > TURN * 1.5 ? cylinder.firingTdcRad : cylinder.tdcRad;
  const angle = (sinceRad + zero) % periodRad;
  return angle < 0 ? angle + periodRad : angle;
}

/** True BDC after true TDC, radians; pi only where there is no offset. */
export function bdcAfterTdcRad(cylinder: Cylinder): number {
  const after = (cylinder.bdcRad - cylinder.tdcRad) % TURN;
  return after <= 0 ? after + TURN : after;
}

/**
 * Where in the turn, from the nearest dead centre: "4.0° before bottom dead centre". For what repeats only after two
 * turns the dead centre is told apart: "firing top dead centre", "bottom dead centre after intake".
 */
export function formatAngleFromTdc(crankAngleRad: number, cylinder: Cylinder, periodRad: number): string {
  const twoTurns = periodRad > TURN * 1.5;
  const since = sinceTdcRad(crankAngleRad, cylinder, periodRad);
  const bdc = bdcAfterTdcRad(cylinder);
  const centres: (readonly [number, string])[] = twoTurns
    ? [
        [0, 'firing top dead centre'],
        [bdc, 'bottom dead centre after the power stroke'],
        [TURN, 'top dead centre at valve overlap'],
        [TURN + bdc, 'bottom dead centre after intake'],
        [2 * TURN, 'firing top dead centre'],
      ]
    : [
        [0, 'top dead centre'],
        [bdc, 'bottom dead centre'],
        [TURN, 'top dead centre'],
      ];
  let nearest = centres[0]!;
  for (const centre of centres) if (Math.abs(since - centre[0]) < Math.abs(since - nearest[0])) nearest = centre;
  const from = since - nearest[0];
  const degrees = formatDegrees(Math.abs(from));
  if (!/[1-9]/.test(degrees)) return `at ${nearest[1]}`;
  return `${degrees} ${from < 0 ? 'before' : 'after'} ${nearest[1]}`;
}

/** Short form for tables and labels: "4.0° before BDC". */
export function formatAngleShort(crankAngleRad: number, cylinder: Cylinder, periodRad: number): string {
  return formatAngleFromTdc(crankAngleRad, cylinder, periodRad)
    .replace('firing top dead centre', 'firing TDC')
    .replace('top dead centre at valve overlap', 'overlap TDC')
    .replace('top dead centre', 'TDC')
    .replace('bottom dead centre after the power stroke', 'BDC after power')
    .replace('bottom dead centre after intake', 'BDC after intake')
    .replace('bottom dead centre', 'BDC');
}

/** What a body, and the part of it that comes closest, is called in a sentence: "the skirt of piston 3". */
export function bodyPhrase(body: Pick<Body, 'name' | 'kind' | 'throw' | 'cylinder'>, part: string): string {
  const of = (whole: string) => (part === '' ? `the ${whole}` : `the ${part} of the ${whole}`);
  switch (body.kind) {
    case 'counterweight': {
      const side = /front|rear/.exec(body.name)?.[0];
      const what = body.name.startsWith('cheek') ? 'cheek' : 'counterweight';
      const plain = part === 'rim' || part === what ? '' : part;
      if (body.throw === undefined) return plain === '' ? `the ${body.name}` : `the ${plain} of ${body.name}`;
      const whole = `${side === undefined ? '' : `${side} `}${what} of throw ${body.throw}`;
      return plain === '' ? `the ${whole}` : `the ${plain} of the ${whole}`;
    }
    case 'journal':
      return body.throw === undefined ? `the ${part || body.name}` : `the ${part || 'crankpin'} of throw ${body.throw}`;
    case 'rod':
    case 'piston':
      return part === '' || part === body.kind ? body.name : `the ${part} of ${body.name}`;
    case 'lobe': {
      const which = /intake|exhaust/.exec(body.name)?.[0];
      const whole = which && body.cylinder !== undefined ? `${which} lobe of cylinder ${body.cylinder}` : body.name;
      return part === '' || part === 'lobe' ? `the ${whole}` : `the ${part} of the ${whole}`;
    }
    case 'cam core':
      return 'the camshaft core';
    case 'block':
      if (part === '' || part === body.name) return `the ${body.name}`;
      return body.cylinder === undefined ? `the ${part}` : `the ${part} of cylinder ${body.cylinder}`;
    default:
      return of(body.name);
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function phrase(engine: Engine, name: string, part: string): string {
  const body = engine.bodies.find((b) => b.name === name);
  return body === undefined ? (part === '' ? name : `the ${part} of ${name}`) : bodyPhrase(body, part);
}

/** "piston 3 · counterweight 2 rear" with the parts that come closest: short label for ribbons and callouts. */
export function gapLabel(gap: Pick<Gap, 'between' | 'parts'>): string {
  const one = (k: 0 | 1): string => {
    const name = gap.between[k];
    const part = gap.parts[k];
    if (part === '' || part === 'rim' || (name.includes(part) && !name.startsWith('bore'))) return name;
    // Of the block, the part is what is called by name: "bore bottom 4", "pan rail".
    const bore = /^bore (\d+)$/.exec(name);
    if (bore !== null) return `${part} ${bore[1]}`;
    return name === 'block' || name === 'crankcase wall' ? part : `${name} ${part}`;
  };
  return `${one(0)} · ${one(1)}`;
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

const SEVERITY: readonly GapState[] = ['contact', 'tight', 'unproven', 'clears'];

/** The gap to speak of first: the gravest state, then the smallest margin over its limit. Null if there is none. */
export function worstGap(gaps: readonly Gap[]): Gap | null {
  let worst: Gap | null = null;
  for (const gap of gaps) {
    if (worst === null) worst = gap;
    else {
      const graver = SEVERITY.indexOf(gap.state) - SEVERITY.indexOf(worst.state);
      if (graver < 0 || (graver === 0 && gap.gapMm - gap.limitMm < worst.gapMm - worst.limitMm)) worst = gap;
    }
  }
  return worst;
}

/** What meets what, by how much, where in the turn, and the limit: one gap as a sentence or two. */
export function gapSentence(gap: Gap, engine: Engine, units: Units): string {
  const first = capital(phrase(engine, gap.between[0], gap.parts[0]));
  const second = phrase(engine, gap.between[1], gap.parts[1]);
  const cylinder = engine.cylinders.find((c) => c.number === gap.cylinder);
  const where = cylinder === undefined ? '' : `, ${formatAngleFromTdc(gap.atCrankRad, cylinder, gap.periodRad)}`;
  const ofCylinder =
    engine.cylinders.length > 1 && !second.endsWith(` ${gap.cylinder}`) && !first.endsWith(` ${gap.cylinder}`);
  const turn = cylinder === undefined ? '' : `${where}${ofCylinder ? ` of cylinder ${gap.cylinder}` : ''}`;
  const finer = finerFor(gap, units);
  const size = formatLength(Math.abs(gap.gapMm), units, finer);
  const limit = `Limit ${formatLength(gap.limitMm, units, gap.state === 'tight' ? finer : 0)}.`;
  const along = gap.direction === 'axial' ? ' along the crank' : '';
  if (gap.state === 'contact') {
    const overlap =
      gap.axialOverlapMm > 0 ? ` They overlap ${formatLength(gap.axialOverlapMm, units)} along the crank.` : '';
    if (gap.gapMm === 0) return `${first} touches ${second}${turn}. ${limit}${overlap}`;
    return `${first} hits ${second} by ${size}${turn}. ${limit}${overlap}`;
  }
  if (gap.state === 'tight') return `${first} clears ${second} by only ${size}${along}${turn}. ${limit}`;
  const assumed =
    gap.state === 'unproven' && gap.assumed.length > 0
      ? ` That rests on assumed dimensions: ${gap.assumed.join(', ')}. State an allowance for them, or measure.`
      : '';
  return `${first} clears ${second} by ${size}${along}${turn}. ${limit}${assumed}`;
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

/** What stands in the column of the certificate: the proven lower bound, "moving" or "not finished". */
export function certificateWords(gap: Gap, units: Units): string {
  if (gap.certified) return atLeast(gap.lowerBoundMm, units);
  return gap.budgetSpent ? 'not finished' : 'moving';
}

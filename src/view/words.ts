/**
 * How figures and parts are said: lengths in the units on show, angles counted from a dead centre, names of parts.
 *
 * Inches carry no leading zero, as inch drawings do; millimetres do. The unit is always printed. A minus is U+2212.
 */
import type { Body, Cylinder } from '../assembly/engine.ts';
import type { Gap } from '../model/results.ts';
import type { Units } from '../model/state.ts';

export const CAUTION =
  "Planning aid: check all clearances on the real parts before the engine turns. Limits are the part maker's; crank " +
  'strength is for a qualified grinder. Follow local safety rules.';

export const MM_PER_INCH = 25.4;
const TURN = 2 * Math.PI;
const MM_DECIMALS = 2;
const INCH_DECIMALS = 3;

/** A number with a fixed count of decimals; a minus only where a digit other than zero follows it. */
export function formatFixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`A figure to be shown must be finite, got ${value}`);
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && /[1-9]/.test(digits) ? `\u2212${digits}` : digits;
}

/** "0.81 mm". */
export function millimetres(mm: number, finer: number): string {
  return `${formatFixed(mm, MM_DECIMALS + finer)} mm`;
}

/** ".032 in"; millimetres in. */
export function inches(mm: number, finer: number): string {
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

/** What slicing round parts may add without a word, mm: half a unit of the last decimal shown, and a little. */
const SLICING_UNSAID_MM = 0.015;

/** "at least " where slicing round parts keeps the figure on the safe side by more than its last decimal. */
export function orMore(gap: Pick<Gap, 'slicingMm'>): string {
  return gap.slicingMm > SLICING_UNSAID_MM ? 'at least ' : '';
}

/** A gap's value, with as many decimals as its limit asks for. */
export function formatGap(
  gap: Pick<Gap, 'gapMm' | 'limitMm' | 'state'> & Partial<Pick<Gap, 'slicingMm'>>,
  units: Units,
): string {
  return `${orMore({ slicingMm: gap.slicingMm ?? 0 })}${formatLength(gap.gapMm, units, finerFor(gap, units))}`;
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
    case 'valve': {
      const which = /intake|exhaust/.exec(body.name)?.[0];
      const whole = which && body.cylinder !== undefined ? `${which} valve of cylinder ${body.cylinder}` : body.name;
      return part === '' || part === 'head' ? `the ${whole}` : `the ${part} of the ${whole}`;
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

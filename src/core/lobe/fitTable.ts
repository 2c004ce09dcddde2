/**
 * A smooth lift law through measured lifts.
 *
 * Readings come with an error, and the second derivative of a curve drawn through every one of them would be mostly that error: at one
 * degree from reading to reading a thousandth of an inch is eighty millimetres per radian squared. So the fitted curve is the smoothest
 * one that passes every reading within the accuracy stated for them. Of all cubic splines on its knots (tableLaw.ts) it makes
 *
 *   sum (h(psi_i) - reading_i)^2  +  stiffness * sum (third differences of the coefficients)^2
 *
 * least, with the greatest stiffness at which no reading is farther from it than the accuracy. How far the farthest is stands in the
 * answer. Source: P. H. C. Eilers & B. D. Marx, "Flexible smoothing with B-splines and penalties", Statistical Science 11 (1996),
 * from memory. The equations are symmetric with three bands beside the middle, solved by Cholesky's method.
 */
import { type TableLaw, tableExtremes, tableLiftAt } from './tableLaw.ts';

/** Readings by rising psi (clockwise from the nose in the lobe's own frame), radians and millimetres. */
export interface LiftTable {
  readonly psiRad: readonly number[];
  readonly liftMm: readonly number[];
  /** Each reading is right within this, above 0. */
  readonly withinMm: number;
}

export interface FittedTable {
  readonly law: TableLaw;
  /** No reading lies farther from the curve. */
  readonly deviationMm: number;
}

/** Why a table is refused; `reading` is its index in the table. Lifts in mm, angles in rad. */
export interface TableFault {
  readonly reason:
    | 'too few readings'
    | 'order of angles'
    | 'ends not on the base circle'
    | 'lift below the base circle'
    | 'no single nose'
    | 'nose away from zero'
    | 'readings too far apart'
    | 'too rough to follow';
  readonly reading: number;
  readonly unit: 'mm' | 'rad' | 'readings';
  readonly value: number;
  readonly allowed: number;
}

/** A flank has a foot, a rise and a nose: with fewer readings off the base circle nobody can tell its shape. */
export const FEWEST_READINGS = 12;
/** Greatest distance of two readings, cam degrees: the acceleration of a flank turns within some ten. */
export const WIDEST_STEP_RAD = (10 * Math.PI) / 180;
/** The nose is where the angles are counted from; farther off than this, cam degrees, they were counted from elsewhere. */
export const NOSE_WITHIN_RAD = (3 * Math.PI) / 180;

/** Angles are told apart from this on, rad: a hundred-thousandth of a degree. */
const SAME_ANGLE_RAD = 2e-7;

/** The first fault of a table, or null. Looked at in the order of the readings; `fitTable` finds what only the curve can tell. */
export function tableFault(table: LiftTable): TableFault | null {
  const { psiRad, liftMm, withinMm } = table;
  const last = psiRad.length - 1;
  const fault = (
    reason: TableFault['reason'],
    reading: number,
    unit: TableFault['unit'],
    value: number,
    allowed: number,
  ) => ({
    reason,
    reading,
    unit,
    value,
    allowed,
  });
  const lifted = liftMm.filter((lift) => lift > withinMm).length;
  if (lifted < FEWEST_READINGS)
    return fault('too few readings', Math.max(0, last), 'readings', lifted, FEWEST_READINGS);
  for (let i = 1; i <= last; i++) {
    const apart = psiRad[i]! - psiRad[i - 1]!;
    if (!(apart > SAME_ANGLE_RAD)) return fault('order of angles', i - 1, 'rad', psiRad[i - 1]!, psiRad[i]!);
  }
  for (const end of [0, last]) {
    if (Math.abs(psiRad[end]!) > Math.PI) return fault('order of angles', end, 'rad', psiRad[end]!, Math.PI);
    if (Math.abs(liftMm[end]!) > withinMm)
      return fault('ends not on the base circle', end, 'mm', liftMm[end]!, withinMm);
  }
  const low = liftMm.findIndex((lift) => lift < -withinMm);
  if (low >= 0) return fault('lift below the base circle', low, 'mm', liftMm[low]!, -withinMm);
  const { first, final } = usedRange(table);
  for (let i = first + 1; i <= final; i++) {
    const apart = psiRad[i]! - psiRad[i - 1]!;
    if (apart > WIDEST_STEP_RAD) return fault('readings too far apart', i, 'rad', apart, WIDEST_STEP_RAD);
  }
  return riseAndFall(table, fault);
}

/** Rises to one nose and falls from it, twice the accuracy counted as level. */
function riseAndFall(
  { psiRad, liftMm, withinMm }: LiftTable,
  fault: (reason: TableFault['reason'], i: number, unit: TableFault['unit'], v: number, allowed: number) => TableFault,
): TableFault | null {
  const nose = liftMm.indexOf(Math.max(...liftMm));
  for (const way of [1, -1]) {
    let least = liftMm[nose]!;
    for (let i = nose; i >= 0 && i < liftMm.length; i += way) {
      if (liftMm[i]! > least + 2 * withinMm) return fault('no single nose', i, 'mm', liftMm[i]!, least);
      least = Math.min(least, liftMm[i]!);
    }
  }
  // The middle of what is level with the greatest lift: on a wide nose the greatest reading alone is chance.
  const level = psiRad.filter((_, i) => liftMm[i]! >= liftMm[nose]! - 2 * withinMm);
  const middle = (level[0]! + level.at(-1)!) / 2;
  return Math.abs(middle) > NOSE_WITHIN_RAD ? fault('nose away from zero', nose, 'rad', middle, NOSE_WITHIN_RAD) : null;
}

/** How far beyond the last reading plainly off the base circle the curve may still be on its way down to it, cam angle. */
const FOOT_RAD = (15 * Math.PI) / 180;

/**
 * The readings that bear on the curve: those plainly off the base circle, and as many of the others as stand within a foot's length of
 * them. Where exactly the lift ends readings can't tell, since the foot of a flank leaves the base circle as the cube of the angle.
 */
function usedRange({ psiRad, liftMm, withinMm }: LiftTable): { first: number; final: number } {
  let first = liftMm.findIndex((lift) => lift > withinMm);
  let final = liftMm.findLastIndex((lift) => lift > withinMm);
  const from = psiRad[first]! - FOOT_RAD;
  const to = psiRad[final]! + FOOT_RAD;
  while (first > 0 && psiRad[first - 1]! >= from) first--;
  while (final < psiRad.length - 1 && psiRad[final + 1]! <= to) final++;
  return { first, final };
}

/** Stretches between knots, per distance of readings; and at least and at most so many. */
const STRETCHES_A_READING = 2;
const FEWEST_STRETCHES = 48;
const MOST_STRETCHES = 720;

/** Stiffness from a curve that is all but a parabola to one that goes through every reading, and how finely it is found. */
const STIFFEST = 1e8;
const SLACKEST = 1e-9;
const STIFFNESS_FACTOR = 64;
const STIFFNESS_HALVINGS = 8;

/** Tables fitted before: one is judged, drawn and asked for its lift again and again while others of its build change. */
const known = new Map<string, FittedTable | TableFault>();
const MOST_KNOWN = 40;

/** The law through a table that `tableFault` lets pass, or why there is none. */
export function fitTable(table: LiftTable): FittedTable | TableFault {
  const key = JSON.stringify(table);
  const before = known.get(key);
  if (before !== undefined) return before;
  const found = fitAnew(table);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, found);
  return found;
}

function fitAnew(table: LiftTable): FittedTable | TableFault {
  const { first, final } = usedRange(table);
  const psi = table.psiRad.slice(first, final + 1);
  const lift = table.liftMm.slice(first, final + 1);
  const closingRad = -psi[0]!;
  const openingRad = psi.at(-1)!;
  const wanted = STRETCHES_A_READING * (psi.length - 1);
  const count = Math.min(MOST_STRETCHES, Math.max(FEWEST_STRETCHES, wanted));
  const stepRad = (closingRad + openingRad) / count;
  const system = normalEquations(psi, lift, closingRad, stepRad, count);
  const attempt = (stiffness: number) => {
    const coefs = solveStiff(system, stiffness);
    const bare = { name: 'table' as const, liftMm: 0, openingRad, closingRad, stepRad, coefs };
    let [worst, at] = [0, 0];
    psi.forEach((p, i) => {
      const off = Math.abs(tableLiftAt(bare, p).h - lift[i]!);
      if (off > worst) [worst, at] = [off, i];
    });
    return { law: { ...bare, liftMm: tableExtremes(bare).greatestMm }, deviationMm: worst, at };
  };
  let stiffness = STIFFEST;
  let found = attempt(stiffness);
  while (found.deviationMm > table.withinMm && stiffness > SLACKEST) {
    stiffness /= STIFFNESS_FACTOR;
    found = attempt(stiffness);
  }
  if (found.deviationMm > table.withinMm) {
    const reading = first + found.at;
    return { reason: 'too rough to follow', reading, unit: 'mm', value: found.deviationMm, allowed: table.withinMm };
  }
  let factor = STIFFNESS_FACTOR;
  for (let k = 0; k < STIFFNESS_HALVINGS; k++) {
    factor = Math.sqrt(factor);
    const stiffer = attempt(stiffness * factor);
    if (stiffer.deviationMm > table.withinMm) continue;
    stiffness *= factor;
    found = stiffer;
  }
  return { law: found.law, deviationMm: found.deviationMm };
}

/** Four bands of a symmetric matrix each: element [b][i] couples i and i + b. */
interface System {
  readonly size: number;
  readonly readings: readonly Float64Array[];
  readonly smoothness: readonly Float64Array[];
  readonly right: Float64Array;
}

function bands(size: number): Float64Array[] {
  return [0, 1, 2, 3].map(() => new Float64Array(size));
}

function normalEquations(
  psi: readonly number[],
  lift: readonly number[],
  closingRad: number,
  stepRad: number,
  count: number,
): System {
  const size = count - 3;
  const readings = bands(size);
  const smoothness = bands(size);
  const right = new Float64Array(size);
  psi.forEach((p, i) => {
    const from = Math.max(0, (p + closingRad) / stepRad);
    const k = Math.min(count - 1, Math.floor(from));
    const t = Math.min(1, from - k);
    const s = 1 - t;
    // Shares of coefficients k - 3 to k in the lift there.
    const share = [
      (s * s * s) / 6,
      ((3 * t - 6) * t * t + 4) / 6,
      (((3 - 3 * t) * t + 3) * t + 1) / 6,
      (t * t * t) / 6,
    ];
    addSquare(readings, right, k - 3, share, lift[i]!);
  });
  // Third differences of the coefficients, those beyond the ends, which are zero, among them.
  for (let j = -3; j < size; j++) addSquare(smoothness, null, j, [-1, 3, -3, 1], 0);
  return { size, readings, smoothness, right };
}

/** Adds the square of (sum of share[b] * coef[from + b]) - value; coefficients beyond the ends are zero. */
function addSquare(
  into: readonly Float64Array[],
  right: Float64Array | null,
  from: number,
  share: readonly number[],
  value: number,
): void {
  const size = into[0]!.length;
  for (let a = 0; a < 4; a++) {
    const row = from + a;
    if (row < 0 || row >= size) continue;
    if (right !== null) right[row] = right[row]! + share[a]! * value;
    for (let b = a; b < 4 && from + b < size; b++) into[b - a]![row] = into[b - a]![row]! + share[a]! * share[b]!;
  }
}

/** Solves (readings + stiffness * smoothness) c = right: L L^T with three bands below the diagonal. */
function solveStiff({ size, readings, smoothness, right }: System, stiffness: number): number[] {
  const lower = bands(size);
  const at = (band: number, i: number): number => readings[band]![i]! + stiffness * smoothness[band]![i]!;
  for (let i = 0; i < size; i++) {
    for (let band = Math.min(3, i); band >= 0; band--) {
      const j = i - band;
      let sum = at(band, j);
      for (let m = Math.max(0, i - 3); m < j; m++) sum -= lower[i - m]![m]! * lower[j - m]![m]!;
      lower[band]![j] = band === 0 ? Math.sqrt(sum) : sum / lower[0]![j]!;
    }
  }
  const y = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    for (let m = Math.max(0, i - 3); m < i; m++) y[i] = y[i]! - lower[i - m]![m]! * y[m]!;
    y[i] = y[i]! / lower[0]![i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let m = i + 1; m <= Math.min(size - 1, i + 3); m++) y[i] = y[i]! - lower[m - i]![i]! * y[m]!;
    y[i] = y[i]! / lower[0]![i]!;
  }
  return [...y];
}

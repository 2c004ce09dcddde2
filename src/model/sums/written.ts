/** Amounts as they are read: rounded once, here, the unit always with them. Plain text for page, paper and command line. */
import type { Units } from '../state.ts';
import type { Amount, AmountKind, Decimal } from './sum.ts';

interface Way {
  readonly unit: string;
  /** Base units in one of these. */
  readonly size: string;
  readonly places: number;
  /** Inch drawings write no zero before the point. */
  readonly bare?: true;
}

const METRIC: Readonly<Record<AmountKind, Way>> = {
  length: { unit: 'mm', size: '1', places: 2 },
  'fine length': { unit: 'mm', size: '1', places: 3 },
  weight: { unit: 'g', size: '1', places: 1 },
  volume: { unit: 'cm³', size: '1', places: 2 },
  displacement: { unit: 'cm³', size: '1', places: 0 },
  ratio: { unit: '', size: '1', places: 2 },
  share: { unit: '%', size: '0.01', places: 1 },
  angle: { unit: '°', size: '1', places: 1 },
  speed: { unit: 'm/s', size: '1', places: 2 },
  acceleration: { unit: 'm/s²', size: '1', places: 0 },
  force: { unit: 'N', size: '1', places: 0 },
  pressure: { unit: 'MPa', size: '1', places: 2 },
  torque: { unit: 'N m', size: '1', places: 3 },
  power: { unit: 'W', size: '1', places: 0 },
  unbalance: { unit: 'g mm', size: '1', places: 0 },
  viscosity: { unit: 'mPa s', size: '1', places: 1 },
  area: { unit: 'mm²', size: '1', places: 0 },
  count: { unit: '', size: '1', places: 0 },
};

/** The other units of the trade; a kind that is not here has none. Sizes by the definitions in build/literalUnits.ts. */
const INCH: Readonly<Partial<Record<AmountKind, Way>>> = {
  length: { unit: 'in', size: '25.4', places: 3, bare: true },
  'fine length': { unit: 'in', size: '25.4', places: 4, bare: true },
  volume: { unit: 'in³', size: '16.387064', places: 3 },
  displacement: { unit: 'in³', size: '16.387064', places: 1 },
  speed: { unit: 'ft/min', size: '0.00508', places: 0 },
  acceleration: { unit: 'g', size: '9.80665', places: 0 },
  force: { unit: 'lbf', size: '4.4482216152605', places: 0 },
  pressure: { unit: 'psi', size: '0.006894757293168', places: 0 },
  torque: { unit: 'lbf ft', size: '1.3558179483314004', places: 3 },
  power: { unit: 'hp', size: '745.69987158227022', places: 2 },
  unbalance: { unit: 'g in', size: '25.4', places: 1 },
};

/** "95.25 mm (3.750 in)"; with `signed` a plus is written too, for differences. */
export function written(found: Amount, units: Units, signed = false): string {
  if (found.as === 'weight') return weight(found.value, units, signed);
  const metric = METRIC[found.as];
  const inch = INCH[found.as];
  if (units === 'mm' || inch === undefined) return one(found.value, metric, signed);
  if (units === 'in') return one(found.value, inch, signed);
  return `${one(found.value, metric, signed)} (${one(found.value, inch, signed)})`;
}

function one(value: Decimal, way: Way, signed: boolean): string {
  const digits = rounded(value.div(way.size), way.places, signed);
  const text = way.bare ? digits.replace(/^([−+]?)0\./, '$1.') : digits;
  return way.unit === '' ? text : way.unit === '°' ? `${text}°` : `${text} ${way.unit}`;
}

/** Half away from zero; what rounds to zero has no sign. */
function rounded(value: Decimal, places: number, signed: boolean): string {
  const to = value.toDecimalPlaces(places, 4);
  const sign = to.isZero() ? '' : to.isNegative() ? '−' : signed ? '+' : '';
  return sign + to.abs().toFixed(places);
}

const GRAMS_PER_OUNCE = '28.349523125';
const OUNCES_PER_POUND = 16;
const OUNCE_PLACES = 2;

/** Grams, and pounds and ounces from a pound on. */
function weight(grams: Decimal, units: Units, signed: boolean): string {
  const metric = one(grams, METRIC.weight, signed);
  if (units === 'mm') return metric;
  const ounces = grams.abs().div(GRAMS_PER_OUNCE).toDecimalPlaces(OUNCE_PLACES, 4);
  const pounds = ounces.divToInt(OUNCES_PER_POUND);
  const rest = `${ounces.minus(pounds.times(OUNCES_PER_POUND)).toFixed(OUNCE_PLACES)} oz`;
  const sign = ounces.isZero() ? '' : grams.isNegative() ? '−' : signed ? '+' : '';
  return `${metric} (${sign}${pounds.isZero() ? rest : `${pounds.toFixed()} lb ${rest}`})`;
}

/** From the units that curves are kept in to those that are read. */
import type { Unit } from '../../model/curves/lines.ts';
import type { Units } from '../../model/state.ts';
import { formatFixed } from '../words.ts';

export interface Scale {
  readonly factor: number;
  readonly unit: string;
  readonly decimals: number;
}

const M_PER_FOOT = 0.3048;
/** A pound-force is what it gives a pound, m/s², exact by definition. */
const STANDARD_GRAVITY = 9.80665;

/** Both units at once would crowd an axis: then it is metric. */
export function scaleOf(unit: Unit, units: Units): Scale {
  const inches = units === 'in';
  switch (unit) {
    case 'mm':
      return inches ? { factor: 1 / 25.4, unit: 'in', decimals: 3 } : { factor: 1, unit: 'mm', decimals: 2 };
    case 'm/s':
      return inches ? { factor: 1 / M_PER_FOOT, unit: 'ft/s', decimals: 2 } : { factor: 1, unit: 'm/s', decimals: 2 };
    case 'm/s²':
      return inches ? { factor: 1 / M_PER_FOOT, unit: 'ft/s²', decimals: 0 } : { factor: 1, unit: 'm/s²', decimals: 0 };
    case 'N/kg':
      return inches
        ? { factor: 1 / STANDARD_GRAVITY, unit: 'lbf/lb', decimals: 2 }
        : { factor: 1, unit: 'N/kg', decimals: 1 };
    case '°':
      return { factor: 1, unit: '°', decimals: 1 };
    case '':
      return { factor: 1, unit: '', decimals: 3 };
  }
}

/** A value with its unit, inches without a leading zero. */
export function said(value: number, { factor, unit, decimals }: Scale): string {
  if (!Number.isFinite(value)) return '–';
  const text = formatFixed(value * factor, decimals);
  const bare = unit === 'in' ? text.replace(/^(−?)0\./, '$1.') : text;
  return unit === '' ? bare : unit === '°' ? `${bare}°` : `${bare} ${unit}`;
}

/** A figure of an axis, in the unit of its scale: as short as it can be, the minus and the inches as elsewhere. */
export function tick(value: number, unit: string): string {
  const text = Number(value.toPrecision(6)).toString().replace('-', '−');
  return unit === 'in' ? text.replace(/^(−?)0\./, '$1.') : text;
}

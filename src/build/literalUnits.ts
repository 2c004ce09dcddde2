/**
 * The units in which dimensions are written, and what one of each is worth in its kind's base unit.
 *
 * Exact by definition: 1 in = 25.4 mm and 1 lb = 453.59237 g (international yard and pound, 1959), hence an ounce of
 * 28.349523125 g, a square inch of 645.16 mm² and a cubic inch of 16.387064 cm³. A psi is 4.4482216152605 N (standard
 * gravity 9.80665 m/s², exact) on a square inch, whose decimals do not end: it is kept to 100 digits.
 */
import { Decimal } from 'decimal.js';

/** Decimal with room for the product of the longest literal and a unit factor: 40 + 3 digits, and to spare for quotients. */
export const Exact = Decimal.clone({ precision: 100, toExpNeg: -120, toExpPos: 120 });

export type LengthUnit = 'in' | 'thou' | 'mm';
export type LiteralKind =
  | 'length'
  | 'angle'
  | 'speed'
  | 'mass'
  | 'volume'
  | 'area'
  | 'stress'
  | 'viscosity'
  | 'temperature'
  | 'expansion';
export type LiteralUnit =
  | LengthUnit
  | 'deg'
  | 'rpm'
  | 'g'
  | 'kg'
  | 'oz'
  | 'lb'
  | 'cc'
  | 'cu in'
  | 'mm2'
  | 'sq in'
  | 'GPa'
  | 'MPa'
  | 'psi'
  | 'mPa s'
  | 'K'
  | 'ppm/K';

interface Unit {
  readonly kind: LiteralKind;
  readonly size: Decimal;
  /** How it may be written; its own name first. */
  readonly signs: readonly string[];
  /** Most decimals that a computed value is written with, unless the literal already has more. */
  readonly places: number;
}

function unit(kind: LiteralKind, size: string | Decimal, places: number, ...signs: string[]): Unit {
  return { kind, size: new Exact(size), places, signs };
}

export const UNITS: Readonly<Record<LiteralUnit, Unit>> = {
  in: unit('length', '25.4', 6, 'in', '"'),
  thou: unit('length', '0.0254', 3, 'thou'),
  mm: unit('length', '1', 7, 'mm'),
  deg: unit('angle', '1', 6, 'deg', '°'),
  rpm: unit('speed', '1', 3, 'rpm'),
  g: unit('mass', '1', 4, 'g'),
  kg: unit('mass', '1000', 7, 'kg'),
  oz: unit('mass', '28.349523125', 5, 'oz'),
  lb: unit('mass', '453.59237', 6, 'lb'),
  cc: unit('volume', '1', 4, 'cc', 'cm3', 'cm³'),
  'cu in': unit('volume', '16.387064', 5, 'cu in', 'in3', 'in³'),
  mm2: unit('area', '1', 3, 'mm2', 'mm²'),
  'sq in': unit('area', '645.16', 6, 'sq in', 'in2', 'in²'),
  GPa: unit('stress', '1000', 5, 'GPa'),
  MPa: unit('stress', '1', 3, 'MPa'),
  psi: unit('stress', new Exact('4.4482216152605').div('645.16'), 2, 'psi'),
  'mPa s': unit('viscosity', '1', 4, 'mPa s', 'cP'),
  K: unit('temperature', '1', 3, 'K', '°C'),
  'ppm/K': unit('expansion', '1', 4, 'ppm/K'),
};

/** What a length is in, smallest kind last: mm, degrees, rpm, g, cc, mm², MPa, mPa s, K, millionths a kelvin. */
export const BASE_UNIT: Readonly<Record<LiteralKind, LiteralUnit>> = {
  length: 'mm',
  angle: 'deg',
  speed: 'rpm',
  mass: 'g',
  volume: 'cc',
  area: 'mm2',
  stress: 'MPa',
  viscosity: 'mPa s',
  temperature: 'K',
  expansion: 'ppm/K',
};

/** Units of a kind in words, for refusals. */
export const UNITS_OF_KIND: Readonly<Record<LiteralKind, string>> = {
  length: 'in, ", thou or mm',
  angle: 'deg or °',
  speed: 'rpm',
  mass: 'g, kg, oz or lb',
  volume: 'cc, cm3 or cu in',
  area: 'mm2 or sq in',
  stress: 'GPa, MPa or psi',
  viscosity: 'mPa s or cP',
  temperature: 'K or °C',
  expansion: 'ppm/K',
};

export const EXAMPLE_OF_KIND: Readonly<Record<LiteralKind, string>> = {
  length: '"3.750 in", "2 5/8 in", "60 thou", "152.4 mm" or "3.750 ±0.001 in"',
  angle: '"66 deg" or "66.5°"',
  speed: '"3600 rpm"',
  mass: '"584.5 g" or "1.25 lb"',
  volume: '"64 cc" or "4.1 cu in"',
  area: '"180 mm2" or "0.28 sq in"',
  stress: '"205 GPa" or "29700000 psi"',
  viscosity: '"12 mPa s"',
  temperature: '"80 K", a rise or a difference',
  expansion: '"11.5 ppm/K"',
};

/** Greatest magnitude in the base unit, and how it is said. */
export const GREATEST: Readonly<Record<LiteralKind, { readonly base: number; readonly said: string }>> = {
  length: { base: 10_000, said: '10 m (10000 mm, 393 in)' },
  angle: { base: 720, said: '720 deg' },
  speed: { base: 100_000, said: '100000 rpm' },
  mass: { base: 10_000_000, said: '10000 kg' },
  volume: { base: 1_000_000, said: '1000000 cc' },
  area: { base: 1_000_000, said: '1000000 mm2' },
  stress: { base: 2_000_000, said: '2000 GPa' },
  viscosity: { base: 100_000, said: '100000 mPa s' },
  temperature: { base: 3_000, said: '3000 K' },
  expansion: { base: 1_000, said: '1000 ppm/K' },
};

const UNIT_OF_SIGN = new Map<string, LiteralUnit>(
  (Object.keys(UNITS) as LiteralUnit[]).flatMap((name) => UNITS[name].signs.map((sign) => [sign, name] as const)),
);

export function unitOfSign(sign: string): LiteralUnit | null {
  return UNIT_OF_SIGN.get(sign) ?? null;
}

/** The sign as it is written, whatever capitals were typed; null when no unit is meant, or more than one could be. */
export function signTyped(typed: string): string | null {
  if (UNIT_OF_SIGN.has(typed)) return typed;
  const meant = [...UNIT_OF_SIGN.keys()].filter((sign) => sign.toLowerCase() === typed.toLowerCase());
  return meant.length === 1 ? meant[0]! : null;
}

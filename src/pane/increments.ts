/**
 * By how much a dimension steps: with the arrow keys and while its handle is dragged, in the literal's own unit.
 * The three sizes are what a shop reads off an indicator, a scale and a tape; common practice, no published source.
 */
import type { LiteralUnit } from '../build/literal.ts';

export type StepSize = 'fine' | 'plain' | 'coarse';

/** Thousandths step by the same lengths as inches. */
const INCREMENTS: Readonly<Record<LiteralUnit, Readonly<Record<StepSize, string>>>> = {
  in: { fine: '0.001 in', plain: '0.010 in', coarse: '0.100 in' },
  thou: { fine: '1 thou', plain: '10 thou', coarse: '100 thou' },
  mm: { fine: '0.01 mm', plain: '0.1 mm', coarse: '1 mm' },
  deg: { fine: '0.1 deg', plain: '1 deg', coarse: '10 deg' },
  rpm: { fine: '10 rpm', plain: '100 rpm', coarse: '1000 rpm' },
  g: { fine: '0.1 g', plain: '1 g', coarse: '10 g' },
  kg: { fine: '0.001 kg', plain: '0.01 kg', coarse: '0.1 kg' },
  oz: { fine: '0.01 oz', plain: '0.1 oz', coarse: '1 oz' },
  lb: { fine: '0.001 lb', plain: '0.01 lb', coarse: '0.1 lb' },
  cc: { fine: '0.1 cc', plain: '1 cc', coarse: '10 cc' },
  'cu in': { fine: '0.01 cu in', plain: '0.1 cu in', coarse: '1 cu in' },
  mm2: { fine: '1 mm2', plain: '10 mm2', coarse: '100 mm2' },
  'sq in': { fine: '0.001 sq in', plain: '0.01 sq in', coarse: '0.1 sq in' },
  GPa: { fine: '0.1 GPa', plain: '1 GPa', coarse: '10 GPa' },
  MPa: { fine: '1 MPa', plain: '10 MPa', coarse: '100 MPa' },
  psi: { fine: '1000 psi', plain: '10000 psi', coarse: '100000 psi' },
  'mPa s': { fine: '0.1 mPa s', plain: '1 mPa s', coarse: '10 mPa s' },
  K: { fine: '1 K', plain: '10 K', coarse: '100 K' },
  'ppm/K': { fine: '0.1 ppm/K', plain: '1 ppm/K', coarse: '10 ppm/K' },
};

/** The step of a literal of this unit, itself a literal. */
export function incrementOf(unit: LiteralUnit, size: StepSize): string {
  return INCREMENTS[unit][size];
}

/** Alt steps fine, Shift coarse; Alt wins where both are held. */
export function sizeByKeys(held: { readonly altKey: boolean; readonly shiftKey: boolean }): StepSize {
  if (held.altKey) return 'fine';
  return held.shiftKey ? 'coarse' : 'plain';
}

const STEPS_OF_KEY: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };

/** Steps that a key asks for; 0 for a key that doesn't step. */
export function stepsOfKey(key: string): number {
  return Object.hasOwn(STEPS_OF_KEY, key) ? STEPS_OF_KEY[key]! : 0;
}

/** Travel of the pointer for one step: short enough to sweep an inch in one stroke, long enough to land on one step. */
const PX_PER_STEP = 4;

/** Whole steps for a horizontal travel of the pointer, CSS pixels; to the right is more. */
export function stepsOfTravel(travelPx: number): number {
  return Math.trunc(travelPx / PX_PER_STEP);
}

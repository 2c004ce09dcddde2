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

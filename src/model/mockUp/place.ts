/** Where in the turn an entry of the log was measured. */
import type { Engine } from '../../assembly/engine.ts';
import type { MockUpEntry } from '../../build/document.ts';
import { angleRad } from '../../build/literal.ts';
import { isTwoTurns } from './benchRows.ts';

/** Crank angle, 0 up to the period; null where it is the smallest gap found while turning. `turnedRad` is added. */
export function crankAngleOfEntry(
  { at }: MockUpEntry,
  engine: Engine,
  periodRad: number,
  turnedRad = 0,
): number | null {
  if (at === undefined) return null;
  const c = engine.cylinders.find((each) => each.number === at.cylinder);
  if (c === undefined) return null;
  const zero = isTwoTurns(periodRad) ? c.firingTdcRad : c.tdcRad;
  const angle = (zero + angleRad(at.afterTdc) + turnedRad) % periodRad;
  return angle < 0 ? angle + periodRad : angle;
}

/** Stretches of crank angle as the command says them: counted from the true TDC of a gap's cylinder. */
import type { Cylinder } from '../assembly/engine.ts';
import { afterTdc, type Intervals } from '../model/intervals.ts';
import type { Gap } from '../model/results.ts';

const twoTurns = (gap: Pick<Gap, 'periodRad'>): boolean => gap.periodRad > 3 * Math.PI;

/** "158.0° to 202.0°, 270.1° to 280.4°"; "the whole turn". Empty where there is none. */
export function arcsWords(arcs: Intervals['below'], gap: Pick<Gap, 'periodRad'>, cylinder: Cylinder): string {
  return afterTdc(arcs, cylinder, gap.periodRad)
    .map(({ fromDeg, toDeg, whole }) => {
      if (whole) return twoTurns(gap) ? 'both turns' : 'the whole turn';
      return `${fromDeg.toFixed(1)}° to ${toDeg.toFixed(1)}°`;
    })
    .join(', ');
}

/** What the angles are counted from: "after TDC 3", "after firing TDC 3". */
export function countedFrom(gap: Pick<Gap, 'periodRad' | 'cylinder'>): string {
  return `after ${twoTurns(gap) ? 'firing ' : ''}TDC ${gap.cylinder}`;
}

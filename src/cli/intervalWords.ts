/** Stretches of crank angle as the command says them: counted from the true TDC of a gap's cylinder, rounded outward. */
import type { Cylinder } from '../assembly/engine.ts';
import type { Intervals } from '../model/intervals.ts';
import type { Gap } from '../model/results.ts';
import { trueFiringTdcRad } from './report.ts';

type Arcs = Intervals['below'];

const DEGREE = Math.PI / 180;

/** Degrees are printed to a tenth, outward: what is outside of what is printed is proven. */
const PRINTED_DEG = 0.1;
/** An end that is a tenth but for rounding stays there, degrees. */
const SAME_DEG = 1e-6;

/** "158.0° to 202.0°, 270.1° to 280.4°"; "the whole turn". Empty where there is none. */
export function arcsWords(arcs: Arcs, gap: Pick<Gap, 'periodRad'>, cylinder: Cylinder): string {
  const twoTurns = gap.periodRad > 3 * Math.PI;
  const zeroRad = twoTurns ? trueFiringTdcRad(cylinder) : cylinder.tdcRad;
  const period = twoTurns ? 720 : 360;
  return [...arcs]
    .map(({ fromRad, toRad }) => {
      const from = (((fromRad - zeroRad) / DEGREE) % period) + period;
      return { from: from % period, length: (toRad - fromRad) / DEGREE };
    })
    .sort((a, b) => a.from - b.from)
    .map(({ from, length }) => {
      if (length >= period - PRINTED_DEG) return twoTurns ? 'both turns' : 'the whole turn';
      const down = Math.floor((from + SAME_DEG) / PRINTED_DEG) * PRINTED_DEG;
      const up = Math.ceil((from + length - SAME_DEG) / PRINTED_DEG) * PRINTED_DEG;
      return `${down.toFixed(1)}° to ${up.toFixed(1)}°`;
    })
    .join(', ');
}

/** What the angles are counted from: "after TDC 3", "after firing TDC 3". */
export function countedFrom(gap: Pick<Gap, 'periodRad' | 'cylinder'>): string {
  return `after ${gap.periodRad > 3 * Math.PI ? 'firing ' : ''}TDC ${gap.cylinder}`;
}

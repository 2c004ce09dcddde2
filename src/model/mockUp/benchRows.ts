/** The places of an assembly that are worth measuring on the mock-up, in the order in which one turn of the crank brings them up. */
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import type { Gap } from '../results.ts';

export interface BenchRow {
  readonly gap: Gap;
  /** Cylinder from whose TDC the angle is counted: the firing one where the pair repeats only after two turns. */
  readonly cylinder: number;
  /** 0 up to 360 or 720. */
  readonly afterTdcDeg: number;
}

/** A gap that clears is worth measuring too while it is below this many times its limit: an error of a limit's size would use it up. */
const WORTH_LIMITS = 2;

/** Does the pair repeat only after two turns. */
export function isTwoTurns(periodRad: number): boolean {
  return periodRad > 3 * Math.PI;
}

/** Crank angle after the true TDC of a cylinder, degrees, 0 up to the period. */
export function afterTdcDeg(crankAngleRad: number, cylinder: Cylinder, periodRad: number): number {
  const zero = isTwoTurns(periodRad) ? cylinder.firingTdcRad : cylinder.tdcRad;
  const period = Math.round((periodRad * 180) / Math.PI);
  const after = (((crankAngleRad - zero) * 180) / Math.PI) % period;
  return after < 0 ? after + period : after;
}

/**
 * Rows for one cylinder, or for all when `cylinder` is null: everything not clear, what is close to its limit, and of each cylinder the
 * closest pair of every kind, deck clearance included.
 */
export function benchRows(engine: Engine, gaps: readonly Gap[], cylinder: number | null): BenchRow[] {
  const closest = new Map<string, Gap>();
  for (const g of gaps) {
    const key = `${g.cylinder} ${g.kind}`;
    if (g.gapMm < (closest.get(key)?.gapMm ?? Number.POSITIVE_INFINITY)) closest.set(key, g);
  }
  return gaps
    .filter((g) => cylinder === null || g.cylinder === cylinder)
    .filter(
      (g) => g.state !== 'clears' || g.gapMm < WORTH_LIMITS * g.limitMm || closest.get(`${g.cylinder} ${g.kind}`) === g,
    )
    .map((gap) => {
      const c = engine.cylinders.find((each) => each.number === gap.cylinder)!;
      return { gap, cylinder: gap.cylinder, afterTdcDeg: afterTdcDeg(gap.atCrankRad, c, gap.periodRad) };
    })
    .sort((a, b) => a.cylinder - b.cylinder || a.afterTdcDeg - b.afterTdcDeg);
}

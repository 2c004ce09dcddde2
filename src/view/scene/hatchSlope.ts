/** Slopes of the section hatching on the paper, so that no hatching runs along the edges of the parts it fills. */
import type { Engine } from '../../assembly/engine.ts';

/** A bank nearer than this to the slope of the hatching, degrees: its walls would run along it. */
const NEAR_DEG = 20;
const FLAT_DEG = 20;

/**
 * Returns the slope on paper, degrees from +x with y up, for a slope that a part asks for. At 45 degrees as on any drawing;
 * where the banks lean about as far, the block and the pistons are hatched flatter.
 */
export function paperSlope(engine: Engine): (slopeDeg: number) => number {
  const leans = engine.cylinders.some((c) => {
    const deg = (Math.abs(c.bankAngleRad) * 180) / Math.PI;
    return Math.abs((deg % 90) - 45) < NEAR_DEG;
  });
  return (slopeDeg) => (leans && Math.abs(slopeDeg) === 45 ? Math.sign(slopeDeg) * FLAT_DEG : slopeDeg);
}

/** The walk round the cycle of a valve head, on motions whose smallest gap is known by hand: no step may leap over it. */
import { describe, expect, it } from 'vitest';
import { certifyHead } from '../../../src/core/clearance/certifyHead.ts';
import { type HeadAndCrown, makeCrown } from '../../../src/core/clearance/headAndCrown.ts';
import type { Motion } from '../../../src/core/plane/pose.ts';
import { POSE_DX, POSE_DY, POSE_X, POSE_Y } from '../../../src/core/plane/pose.ts';

const TIMES = 6;
const PERIOD = (2 * Math.PI) / TIMES;
const TOLERANCE_MM = 0.001;

/** To and fro along a straight way, `TIMES` times a turn. Speed and acceleration bounds are those of a cosine, no more. */
function swaying(x: number, y: number, dx: number, dy: number): Motion {
  return {
    write(rad, out) {
      const [c, s] = [Math.cos(TIMES * rad), -TIMES * Math.sin(TIMES * rad)];
      out.fill(0);
      out[POSE_X] = x + dx * c;
      out[POSE_Y] = y + dy * c;
      out[POSE_DX] = dx * s;
      out[POSE_DY] = dy * s;
    },
    originSpeedMm: TIMES * Math.hypot(dx, dy),
    originAccelMm: TIMES * TIMES * Math.hypot(dx, dy),
    turnSpeed: 0,
    turnAccel: 0,
  };
}

const flat: HeadAndCrown = { headRadiusMm: 24, marginMm: 1.5, leanRad: 0, besideMm: 0, topY: 40, pocket: null };
const pocketed: HeadAndCrown = { ...flat, pocket: { x: 0, y: 36, radiusMm: 26 } };
const lean = (20 * Math.PI) / 180;

describe.each([
  // Face above the crown: 41.5 - 40 at the lowest.
  ['over a flat crown', flat, swaying(3, 43.5, 0, 2), 1.5],
  // Lower edge of a leaning face: R sin 20 below its middle.
  ['leaning over a flat crown', { ...flat, leanRad: lean }, swaying(0, 52, 0, 3), 9 - 24 * Math.sin(lean)],
  // In the pocket: the floor at 36, the wall 2 mm away.
  ['down to the floor of a pocket', pocketed, swaying(0, 37.25, 0, 0.75), 0.5],
  // Against the wall on one side: 26 - 24 - 1.7, well above the floor.
  ['across to the wall of a pocket', pocketed, swaying(0.2, 38.4, 1.5, 0), 0.3],
  // And into it.
  ['into the floor of a pocket', pocketed, swaying(0, 36.5, 0, 0.75), -0.25],
] as const)('%s', (_, shape, motion, minimumMm) => {
  const crown = makeCrown(shape);
  const faces = crown.slicingMm + 1e-6;
  const starts = Array.from({ length: 40 }, (_, k) => (k / 40) * PERIOD);

  it('the smallest gap is found and proven, wherever the walk begins and whatever value is of interest above it', () => {
    for (const cutoffMm of [undefined, minimumMm + 0.002, minimumMm + 0.1, minimumMm + 1]) {
      for (const hintRad of starts) {
        const options = { toleranceMm: TOLERANCE_MM, budget: 20_000, hintRad };
        const c = certifyHead(crown, motion, PERIOD, cutoffMm === undefined ? options : { ...options, cutoffMm });
        expect([c.found, c.budgetSpent]).toEqual([true, false]);
        expect(c.minimumMm).toBeGreaterThan(minimumMm - faces - 1e-5);
        expect(c.minimumMm).toBeLessThan(minimumMm + TOLERANCE_MM + 1e-6);
        expect(c.lowerBoundMm).toBeLessThanOrEqual(minimumMm);
        expect(c.lowerBoundMm).toBeGreaterThan(minimumMm - faces - TOLERANCE_MM - 1e-5);
      }
    }
  });

  it('nothing below a value of interest that lies under it', () => {
    for (const hintRad of starts) {
      const cutoffMm = minimumMm - faces - 0.05;
      const c = certifyHead(crown, motion, PERIOD, { toleranceMm: TOLERANCE_MM, budget: 20_000, hintRad, cutoffMm });
      expect([c.found, c.minimumMm, c.lowerBoundMm]).toEqual([false, cutoffMm, cutoffMm]);
    }
  });
});

/** Bounds of a valve's motion and the easing at its seat, by hand for the 3-4-5 law of 7.5 mm over 62 and 68 degrees. */
import { describe, expect, it } from 'vitest';
import { type ValveTrain, valveFromPiston, valveLift } from '../../../src/core/kinematics/valveMotion.ts';

const DEG = Math.PI / 180;
const LAW = { name: '3-4-5', liftMm: 7.5, openingRad: 62 * DEG, closingRad: 68 * DEG } as const;
const train = (lashMm: number, more: Partial<ValveTrain> = {}): ValveTrain => ({
  law: LAW,
  deviationMm: 0,
  rockerRatio: 1.7,
  lashMm,
  peakRad: 5,
  ...more,
});
const rise = (u: number): number => 10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5;
const slope = (u: number): number => 30 * u * u * (1 - u) ** 2;
/** Where the lobe has lifted so much, as a part of the flank. */
function partAt(liftMm: number): number {
  let [low, high] = [0, 0.5];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (7.5 * rise(middle) < liftMm) low = middle;
    else high = middle;
  }
  return low;
}
function liftOf(t: ValveTrain, crankRad: number): [number, number] {
  const out = { mm: Number.NaN, perRadMm: Number.NaN };
  valveLift(t).at(crankRad, out);
  return [out.mm, out.perRadMm];
}
/** Crank angle on the opening side at which the valve would stand open by x. */
function crankAt(t: ValveTrain, x: number): number {
  const u = partAt((x + t.lashMm) / t.rockerRatio - t.deviationMm);
  return t.peakRad - 2 * 62 * DEG * (1 - u);
}

describe('bounds', () => {
  // Peaks of the rise: speed 15/8, acceleration 10 / √3; both greatest on the shorter flank, half and a quarter of it by crank angle.
  const speed = (1.7 * 7.5 * 15) / 8 / (62 * DEG) / 2;
  const accel = (1.7 * 7.5 * 10) / Math.sqrt(3) / (62 * DEG) ** 2 / 4;
  const near = (bound: number, byHand: number): void => {
    expect(bound).toBeGreaterThanOrEqual(byHand);
    expect(bound / byHand - 1).toBeLessThan(1e-9);
  };

  it('without lash are those of the lobe, whichever flank is the shorter', () => {
    const other = { ...LAW, openingRad: 68 * DEG, closingRad: 62 * DEG };
    for (const t of [train(0), train(0, { law: other })]) {
      const lift = valveLift(t);
      near(lift.speedMm, speed);
      near(lift.accelMm, accel);
    }
  });

  it.each([
    [0.3, 0],
    [0.3, 0.01],
    [0.05, 0.004],
  ])('with lash %d and a deviation of %d mm: and what easing the corner takes', (lashMm, deviationMm) => {
    const lift = valveLift(train(lashMm, { deviationMm }));
    const slow = (1.7 * 7.5 * slope(partAt((lashMm + 0.02) / 1.7 - deviationMm))) / (62 * DEG) / 2;
    near(lift.speedMm, speed);
    near(lift.accelMm, accel + (slow * slow) / 0.04);
  });

  it('seen from the piston are the sums: crank 30, rod 50, offset 10 add 50 and 50 + 250 / 3', () => {
    const seat = { acrossMm: 2, heightMm: 200, leanRad: 0.3 };
    const motion = valveFromPiston(train(0), seat, { crankRadiusMm: 30, rodLengthMm: 50, offsetMm: 10 }, 0.4);
    near(motion.originSpeedMm, speed + 50);
    near(motion.originAccelMm, accel + 50 + 250 / 3);
    expect([motion.turnSpeed, motion.turnAccel]).toEqual([0, 0]);
  });
});

describe('at the seat', () => {
  it('with lash the lift leaves 0 at -.02 mm, is .005 where it would begin, and meets itself at +.02', () => {
    const t = train(0.3);
    for (const [x, mm] of [
      [-0.025, 0],
      [-0.0200001, 0],
      [-0.01, 0.00125],
      [0, 0.005],
      [0.01, 0.01125],
      [0.0200001, 0.0200001],
      [0.05, 0.05],
    ] as const) {
      const [found, perRad] = liftOf(t, crankAt(t, x));
      expect(found).toBeCloseTo(mm, 8);
      // Speed of the lobe by crank angle, times the part of the easing that has passed.
      const whole = (1.7 * 7.5 * slope(partAt((x + 0.3) / 1.7))) / (62 * DEG) / 2;
      expect(perRad).toBeCloseTo(whole * Math.min(1, Math.max(0, (x + 0.02) / 0.04)), 4);
    }
  });

  it('without lash a closed form is not eased', () => {
    for (const x of [0.001, 0.01, 0.03]) expect(liftOf(train(0), crankAt(train(0), x))[0]).toBeCloseTo(x, 9);
    expect(liftOf(train(0), 5 + 3 * Math.PI)[0]).toBe(0);
  });

  it('a measured law is eased also without lash, and stands higher by its deviation times the ratio', () => {
    // One cubic spline of a half radian: lift 2/3 at its middle.
    const law = { name: 'table', liftMm: 2 / 3, openingRad: 1, closingRad: 1, stepRad: 0.5, coefs: [1] } as const;
    const t = train(0, { law });
    expect(liftOf(t, 5)[0]).toBeCloseTo((1.7 * 2) / 3, 12);
    expect(liftOf({ ...t, deviationMm: 0.01 }, 5)[0]).toBeCloseTo(1.7 * (2 / 3 + 0.01), 12);
    // Beyond its ends, no lift at all: half of a quarter of the easing's width.
    expect(liftOf(t, 5 + 2.1)[0]).toBeCloseTo(0.005, 12);
    expect(liftOf({ ...t, lashMm: 0.03 }, 5 + 2.1)[0]).toBe(0);
  });

  it('comes round each two turns', () => {
    for (const turns of [-3, -1, 1, 2])
      expect(liftOf(train(0.2), 5.3 + turns * 4 * Math.PI)[0]).toBeCloseTo(liftOf(train(0.2), 5.3)[0], 9);
  });
});

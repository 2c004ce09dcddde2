import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { camMotion, crankMotion, fixedMotion, pistonMotion, rodMotion } from '../../../src/core/kinematics/motions.ts';
import type { SliderCrank } from '../../../src/core/kinematics/sliderCrank.ts';
import {
  type Motion,
  newPose,
  POSE_DTURN,
  POSE_DX,
  POSE_DY,
  POSE_TURN,
  POSE_X,
  POSE_Y,
  poseX,
  poseY,
} from '../../../src/core/plane/pose.ts';
import { fewer } from '../../support/fewer.ts';

const turning = fc
  .record({
    r: fc.double({ min: 5, max: 120, noNaN: true }),
    offset: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
    n: fc.double({ min: 1.08, max: 5, noNaN: true }),
  })
  .map(
    ({ r, offset, n }): SliderCrank => ({
      crankRadiusMm: r,
      offsetMm: offset * r,
      rodLengthMm: n * (r + Math.abs(offset) * r),
    }),
  );
const anyAngle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

function at(m: Motion, crankAngleRad: number): Float64Array {
  const p = newPose();
  p.fill(Number.NaN); // whatever write leaves out shows
  m.write(crankAngleRad, p);
  return p;
}

/** Derivatives as written against a fourth-order difference, and the bounds against dense sampling. */
function checkMotion(m: Motion, scaleMm: number): void {
  const h = 1e-3;
  const STEPS = fewer(720, 72);
  let speed = 0;
  let accel = 0;
  let turnSpeed = 0;
  let turnAccel = 0;
  const slope = (f: (t: number) => number, t: number) =>
    (8 * (f(t + h) - f(t - h)) - (f(t + 2 * h) - f(t - 2 * h))) / (12 * h);
  for (let k = 0; k < STEPS; k++) {
    const t = (k / STEPS) * 4 * Math.PI;
    const p = at(m, t);
    const part = (i: number) => (u: number) => at(m, u)[i]!;
    expect(p.every(Number.isFinite)).toBe(true);
    // The difference formula errs by h^4 / 30 times the fifth derivative: room for flat rods.
    expect(Math.abs(slope(part(POSE_X), t) - p[POSE_DX]!) / scaleMm).toBeLessThan(2e-7);
    expect(Math.abs(slope(part(POSE_Y), t) - p[POSE_DY]!) / scaleMm).toBeLessThan(2e-7);
    expect(Math.abs(slope(part(POSE_TURN), t) - p[POSE_DTURN]!)).toBeLessThan(2e-7);
    speed = Math.max(speed, Math.hypot(p[POSE_DX]!, p[POSE_DY]!));
    turnSpeed = Math.max(turnSpeed, Math.abs(p[POSE_DTURN]!));
    accel = Math.max(accel, Math.hypot(slope(part(POSE_DX), t), slope(part(POSE_DY), t)));
    turnAccel = Math.max(turnAccel, Math.abs(slope(part(POSE_DTURN), t)));
  }
  expect(speed).toBeLessThanOrEqual(m.originSpeedMm);
  expect(turnSpeed).toBeLessThanOrEqual(m.turnSpeed);
  // The second derivatives are themselves differences, right to 1e-6.
  expect(accel).toBeLessThanOrEqual(m.originAccelMm + 1e-6 * scaleMm);
  expect(turnAccel).toBeLessThanOrEqual(m.turnAccel + 1e-6);
  // A bound four times the truth would be useless to a sweep.
  expect(m.originSpeedMm).toBeLessThanOrEqual(1e-9 + speed * 4);
}

describe('poses', () => {
  test('crankpin of cylinder 1 on an upright bore stands up at 0 and to the right at 90 degrees', () => {
    // The frame of the engine: y up, x right, clockwise from the front; a sign convention, checked by hand.
    const m = rodMotion({ crankRadiusMm: 40, rodLengthMm: 150, offsetMm: 0 }, 0, 0);
    expect(at(m, 0)[POSE_X]).toBeCloseTo(0, 12);
    expect(at(m, 0)[POSE_Y]).toBeCloseTo(40, 12);
    expect(at(m, Math.PI / 2)[POSE_X]).toBeCloseTo(40, 12);
    // At 90 degrees the rod leans back to the bore on the left: its +y axis points left of up, a negative turn.
    expect(at(m, Math.PI / 2)[POSE_TURN]).toBeCloseTo(-Math.asin(40 / 150), 12);
  });

  test('the small end of the rod is the pin of the piston, at every angle, on any bank, with any offset', () => {
    fc.assert(
      fc.property(turning, anyAngle, anyAngle, anyAngle, (s, bank, alphaAtZero, crank) => {
        const boreOffset = 0.4 * s.offsetMm;
        const rod = at(rodMotion(s, bank, alphaAtZero), crank);
        const piston = at(pistonMotion(s, bank, alphaAtZero, boreOffset), crank);
        const pinX = s.offsetMm - boreOffset; // in the piston's own frame, +x toward v
        expect(Math.abs(poseX(rod, 0, s.rodLengthMm) - poseX(piston, pinX, 0)) / s.rodLengthMm).toBeLessThan(1e-14);
        expect(Math.abs(poseY(rod, 0, s.rodLengthMm) - poseY(piston, pinX, 0)) / s.rodLengthMm).toBeLessThan(1e-14);
        // The big end is carried round with the crank.
        const crankPose = at(crankMotion(bank + alphaAtZero), crank);
        expect(Math.abs(poseX(rod, 0, 0) - poseX(crankPose, 0, s.crankRadiusMm)) / s.rodLengthMm).toBeLessThan(1e-14);
        expect(Math.abs(poseY(rod, 0, 0) - poseY(crankPose, 0, s.crankRadiusMm)) / s.rodLengthMm).toBeLessThan(1e-14);
        // The bore axis passes boreOffset to the v side of the crank axis.
        const across = Math.cos(bank) * piston[POSE_X]! - Math.sin(bank) * piston[POSE_Y]!;
        expect(Math.abs(across - boreOffset) / s.rodLengthMm).toBeLessThan(1e-14);
      }),
      { seed: 20250120, numRuns: fewer(300, 40) },
    );
  });

  test('rod +x points to the v side of the bank when the rod is in line', () => {
    const bank = Math.PI / 4;
    const m = rodMotion({ crankRadiusMm: 40, rodLengthMm: 150, offsetMm: 0 }, bank, 0);
    const p = at(m, 0);
    expect(poseX(p, 1, 0) - poseX(p, 0, 0)).toBeCloseTo(Math.cos(bank), 12);
    expect(poseY(p, 1, 0) - poseY(p, 0, 0)).toBeCloseTo(-Math.sin(bank), 12);
  });

  test('the camshaft turns at its ratio about its own axis', () => {
    const p = at(camMotion(3, 120, -0.5, 0.25), 2);
    expect([...p]).toEqual([3, 120, -0.75, 0, 0, -0.5]);
    expect([...at(crankMotion(0.5), 2)]).toEqual([0, 0, 2.5, 0, 0, 1]);
    expect([...at(fixedMotion(), 2)]).toEqual([0, 0, 0, 0, 0, 0]);
  });
});

describe('derivatives and bounds over the cycle', () => {
  test('fixed, crank, camshaft', () => {
    checkMotion(fixedMotion(), 1);
    checkMotion(crankMotion(1.1), 1);
    checkMotion(camMotion(10, 130, 0.5, -0.4), 1);
    checkMotion(camMotion(-10, 130, -0.5, 0.4), 1);
  });

  test('rods and pistons of seeded random engines', () => {
    fc.assert(
      fc.property(turning, anyAngle, anyAngle, (s, bank, alphaAtZero) => {
        checkMotion(rodMotion(s, bank, alphaAtZero), s.rodLengthMm);
        checkMotion(pistonMotion(s, bank, alphaAtZero, 0.5 * s.offsetMm), s.rodLengthMm);
      }),
      { seed: 20250121, numRuns: fewer(12, 4) },
    );
  });

  test('without offset the bounds of the rod are met where they must be', () => {
    // Greatest phi'' of an in-line crank is r / sqrt(l^2 - r^2), at 90 degrees: phi'' = -r sin(a) (l^2 - r^2) / w^3.
    const m = rodMotion({ crankRadiusMm: 40, rodLengthMm: 150, offsetMm: 0 }, 0, 0);
    expect(m.turnAccel).toBeCloseTo(40 / Math.sqrt(150 ** 2 - 40 ** 2), 10);
    expect(m.originSpeedMm).toBeCloseTo(40, 9);
  });
});

test('an assembly that cannot turn is refused', () => {
  const s = { crankRadiusMm: 50, rodLengthMm: 52, offsetMm: 3 };
  expect(() => rodMotion(s, 0, 0)).toThrow(/can't turn/);
  expect(() => pistonMotion(s, 0, 0, 0)).toThrow(/can't turn/);
});

/** Valve motion: by the rule of the trade, by differences, and its bounds by trying angles. */
import { describe, expect, it } from 'vitest';
import {
  EASED_MM,
  type ValveTrain,
  valveFromPiston,
  valveLift,
  valveMotion,
} from '../../../src/core/kinematics/valveMotion.ts';
import { fitTable } from '../../../src/core/lobe/fitTable.ts';
import { newPose } from '../../../src/core/plane/pose.ts';
import { fewer } from '../../support/fewer.ts';

const DEG = Math.PI / 180;
const FORM = { name: '3-4-5', liftMm: 7.5, openingRad: 62 * DEG, closingRad: 68 * DEG } as const;

/** The 3-4-5 law written out anew, by crank degrees after the peak. */
function lobe(afterDeg: number): number {
  const cam = ((((afterDeg + 360) % 720) + 720) % 720) / 2 - 180;
  const u = Math.max(0, 1 - Math.abs(cam) / (cam < 0 ? 62 : 68));
  return 7.5 * (10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5);
}

function measured() {
  const psiRad: number[] = [];
  const liftMm: number[] = [];
  for (let deg = -76; deg <= 76; deg += 2) {
    psiRad.push(deg * DEG);
    liftMm.push(Math.round(lobe(-2 * deg) * 200) / 200);
  }
  const found = fitTable({ psiRad, liftMm, withinMm: 0.005 });
  if ('reason' in found) throw new Error(found.reason);
  return found;
}

const TRAINS: readonly (readonly [string, ValveTrain])[] = [
  ['without lash', { law: FORM, deviationMm: 0, rockerRatio: 1.5, lashMm: 0, peakRad: 8 }],
  ['with lash', { law: FORM, deviationMm: 0, rockerRatio: 1.7, lashMm: 0.3, peakRad: -2 }],
  ['measured, with lash', { ...measured(), rockerRatio: 1.6, lashMm: 0.4, peakRad: 3 }],
];

describe.each(TRAINS)('%s', (name, train) => {
  const lift = valveLift(train);
  const at = { mm: 0, perRadMm: 0 };
  const mm = (rad: number): number => {
    lift.at(rad, at);
    return at.mm;
  };

  it('opens by rocker ratio times lobe lift less lash, and is shut else', () => {
    for (let after = -400; after <= 400; after += 1.7) {
      const x = train.rockerRatio * lobe(after) - train.lashMm;
      const off = mm(train.peakRad + after * DEG) - Math.max(0, x);
      // The corner at the seat is eased by up to a quarter of its width; a measured lobe stands higher by its deviation, and as near the truth as its readings.
      expect(off).toBeGreaterThan(name.startsWith('measured') ? -0.02 : -1e-9);
      expect(off).toBeLessThan(
        name.startsWith('measured') ? 0.05 : Math.abs(x) < EASED_MM ? EASED_MM / 4 + 1e-9 : 1e-9,
      );
    }
  });

  it('slope by differences, and bounds that hold and are no more than some times too wide', () => {
    const STEPS = fewer(20000, 2000);
    let [speed, accel] = [0, 0];
    const g = 1e-5;
    for (let k = 0; k < STEPS; k++) {
      const rad = (k / STEPS) * 4 * Math.PI;
      lift.at(rad, at);
      const here = at.perRadMm;
      expect(Math.abs((mm(rad + g) - mm(rad - g)) / (2 * g) - here)).toBeLessThan(2e-3);
      speed = Math.max(speed, Math.abs(here));
      lift.at(rad + g, at);
      const above = at.perRadMm;
      lift.at(rad - g, at);
      accel = Math.max(accel, Math.abs(above - at.perRadMm) / (2 * g));
    }
    expect(speed).toBeLessThanOrEqual(lift.speedMm);
    expect(speed).toBeGreaterThan(0.9 * lift.speedMm);
    expect(accel).toBeLessThanOrEqual(lift.accelMm * (1 + 1e-6));
    expect(accel).toBeGreaterThan(0.4 * lift.accelMm);
  });
});

it('the piston sees the valve come down its own axis while it goes up and down itself', () => {
  const train = TRAINS[1]![1];
  const seat = { acrossMm: -4, heightMm: 235, leanRad: 20 * DEG };
  const s = { crankRadiusMm: 45, rodLengthMm: 150, offsetMm: 0.6 };
  const [bank, boreOffset, alpha0] = [0.7, 1.1, 1.9];
  const inEngine = valveMotion(train, seat, bank, boreOffset);
  const fromPiston = valveFromPiston(train, seat, s, alpha0);
  const [p, q] = [newPose(), newPose()];
  const lift = valveLift(train);
  const at = { mm: 0, perRadMm: 0 };
  for (let rad = 0; rad < 12.5; rad += 0.37) {
    lift.at(rad, at);
    // In the bank's own axes, by Pythagoras: pin height, then the valve from it.
    const alpha = rad + alpha0;
    const pin = 45 * Math.cos(alpha) + Math.sqrt(150 ** 2 - (45 * Math.sin(alpha) - 0.6) ** 2);
    const across = -4 - at.mm * Math.sin(20 * DEG);
    const height = 235 - at.mm * Math.cos(20 * DEG);
    fromPiston.write(rad, p);
    expect(p[0]).toBeCloseTo(across, 9);
    expect(p[1]).toBeCloseTo(height - pin, 9);
    expect(p[2]).toBeCloseTo(20 * DEG, 12);
    inEngine.write(rad, q);
    expect(q[0]).toBeCloseTo(height * Math.sin(bank) + (across + boreOffset) * Math.cos(bank), 9);
    expect(q[1]).toBeCloseTo(height * Math.cos(bank) - (across + boreOffset) * Math.sin(bank), 9);
    expect(q[2]).toBeCloseTo(bank + 20 * DEG, 12);
    const [a, b] = [newPose(), newPose()];
    fromPiston.write(rad + 1e-6, a);
    fromPiston.write(rad - 1e-6, b);
    expect((a[0]! - b[0]!) / 2e-6).toBeCloseTo(p[3]!, 4);
    expect((a[1]! - b[1]!) / 2e-6).toBeCloseTo(p[4]!, 4);
  }
});

/** The promise of one stop: while the crank turns forward and back as far as told, the outlines stay at least the target apart. */
import { describe, expect, test } from 'vitest';
import { certify } from '../../../src/core/clearance/certify.ts';
import { gapAt, type Mover, newGapAt, turnsAt } from '../../../src/core/clearance/gapAt.ts';
import { crankMotion, fixedMotion } from '../../../src/core/kinematics/motions.ts';
import { flatten } from '../../../src/core/outline/flat.ts';
import { LONGEST_STEP_RAD } from '../../../src/core/outline/probe.ts';
import type { Edge } from '../../oracle/plane.ts';
import { between, box, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';
import { type Kind, randomMoving, slider } from './movers.ts';

const KINDS: readonly (readonly [Kind, Kind])[] = [
  ['crank', 'piston'],
  ['crank', 'fixed'],
  ['piston', 'crank'],
  ['crank', 'cam'],
  ['rod', 'cam'],
  ['rod', 'fixed'],
  ['fixed', 'rod'],
  ['piston', 'rod'],
];

const PAIRS_PER_KIND = fewer(14, 2);
const ANGLES = fewer(12, 3);
const PLACES_IN_STEP = fewer(24, 6);

describe('turns granted for a target', () => {
  test.each(KINDS)('%s and %s', (kindA, kindB) => {
    const g = newGapAt();
    let steps = 0;
    let tight = 0;
    for (let n = 0; n < PAIRS_PER_KIND; n++) {
      const random = seeded(90_000 + n);
      const one = slider(random);
      const [a, b] = [randomMoving(kindA, random, one), randomMoving(kindB, random, slider(random))];
      for (let k = 0; k < ANGLES; k++) {
        const at = between(random, 0, 4 * Math.PI);
        if (gapAt(a.mover, b.mover, at, Number.POSITIVE_INFINITY, false, g).overlapping) continue;
        const gapMm = g.gapMm;
        for (const share of [0.2, 0.7, 0.95, 0.9999]) {
          const target = gapMm * share;
          if (target < 0.01) continue;
          const { forwardRad, backRad } = turnsAt(a.mover, b.mover, at, gapMm, target);
          for (const turn of [forwardRad, -backRad]) {
            expect(Math.abs(turn)).toBeGreaterThan(0);
            steps += 1;
            let least = gapMm;
            for (let p = 1; p <= PLACES_IN_STEP; p++) {
              gapAt(a.mover, b.mover, at + (turn * p) / PLACES_IN_STEP, Number.POSITIVE_INFINITY, false, g, false);
              least = Math.min(least, g.gapMm);
            }
            expect(least).toBeGreaterThanOrEqual(target - 1e-9);
            // Not idly small either: now and then a good part of the room is used up within it.
            if (gapMm - least > (gapMm - target) * 0.5) tight += 1;
          }
        }
      }
    }
    expect(steps).toBeGreaterThan(fewer(100, 0));
    expect(tight / steps).toBeGreaterThan(fewer(0.02, -1));
  });
});

/** A bar or frame with long edges that turns, and small outlines beside it: discs that hold a long edge hold them too, and its box in its own frame alone tells. */
describe('turns granted beside long edges', () => {
  const bar: readonly Edge[] = box(-150, -4, 150, 4);
  test.each([
    ['beside a bar', bar],
    ['beside a bar on its side', box(-4, -150, 4, 150)],
  ] as const)('%s that turns', (_, long) => {
    const g = newGapAt();
    let tight = 0;
    for (let n = 0; n < 240; n++) {
      const random = seeded(97_000 + n);
      const [x, y] = [between(random, -130, 130), between(random, 10, 130)];
      const still: Mover = { flat: flatten({ pieces: box(x - 3, y - 3, x + 3, y + 3) }), motion: fixedMotion() };
      const turning: Mover = { flat: flatten({ pieces: long }), motion: crankMotion(0) };
      for (const [a, b] of [
        [turning, still],
        [still, turning],
      ] as const) {
        for (let k = 0; k < 10; k++) {
          const at = between(random, 0, 2 * Math.PI);
          if (gapAt(a, b, at, Number.POSITIVE_INFINITY, false, g).overlapping || g.gapMm < 1) continue;
          const gapMm = g.gapMm;
          for (const share of [0.1, 0.6, 0.95]) {
            // Each way by itself, so that nothing asked for the other way shortens it.
            const ahead = turnsAt(a, b, at, gapMm, gapMm * share, LONGEST_STEP_RAD, 0).forwardRad;
            const behind = turnsAt(a, b, at, gapMm, gapMm * share, 0, LONGEST_STEP_RAD).backRad;
            for (const turn of [ahead, -behind]) {
              let least = gapMm;
              for (let p = 1; p <= 8; p++) {
                gapAt(a, b, at + (turn * p) / 8, Number.POSITIVE_INFINITY, false, g, false);
                least = Math.min(least, g.gapMm);
              }
              expect(least).toBeGreaterThanOrEqual(gapMm * share - 1e-9);
              if (least < gapMm * (0.5 + share / 2)) tight += 1;
            }
          }
        }
      }
    }
    expect(tight).toBeGreaterThan(100);
  });
});

describe('a minimum is found from any hint', () => {
  test.each(KINDS)('%s and %s', (kindA, kindB) => {
    const period = (kindB === 'cam' ? 4 : 2) * Math.PI;
    for (let n = 0; n < fewer(6, 2); n++) {
      const random = seeded(95_000 + n);
      const one = slider(random);
      const [a, b] = [randomMoving(kindA, random, one), randomMoving(kindB, random, slider(random))];
      const usual = { toleranceMm: 0.001, budget: 400_000 };
      const c = certify(a.mover, b.mover, period, usual);
      if (c.minimumMm < 0) continue;
      for (let k = 0; k < 5; k++) {
        const hinted = certify(a.mover, b.mover, period, { ...usual, hintRad: between(random, 0, period) });
        expect(hinted.outcome).toBe('certified');
        expect(Math.abs(hinted.minimumMm - c.minimumMm)).toBeLessThan(0.001 + 1e-9);
        expect(hinted.lowerBoundMm).toBeLessThanOrEqual(c.minimumMm);
      }
    }
  });
});

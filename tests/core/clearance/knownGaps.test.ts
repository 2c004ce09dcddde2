/** Gaps over a turn that are known by hand: grazes, constant gaps, budgets and cutoffs. */
import { describe, expect, test } from 'vitest';
import { type Certificate, certify } from '../../../src/core/clearance/certify.ts';
import type { Mover } from '../../../src/core/clearance/gapAt.ts';
import { camMotion, crankMotion, fixedMotion, rodMotion } from '../../../src/core/kinematics/motions.ts';
import { flatten } from '../../../src/core/outline/flat.ts';
import { box, bulged, disc } from '../../oracle/random.ts';
import { sector } from './movers.ts';

const TURN = 2 * Math.PI;
const USUAL = { toleranceMm: 0.001, budget: 400_000 };

function fixed(edges: ReturnType<typeof box>): Mover {
  return { flat: flatten({ pieces: edges }), motion: fixedMotion() };
}

function onCrank(edges: ReturnType<typeof box>, phaseRad = 0): Mover {
  return { flat: flatten({ pieces: edges }), motion: crankMotion(phaseRad) };
}

function onCam(edges: ReturnType<typeof box>, y: number): Mover {
  return { flat: flatten({ pieces: edges }), motion: camMotion(0, y, 0.5, 0) };
}

/** A block about 60 mm wide under a half round cut of radius r about the crank axis. */
function cut(r: number): ReturnType<typeof box> {
  const [w, d] = [r + 10, -r - 10];
  return [
    ...[bulged([-w, d], [w, d], 0), bulged([w, d], [w, 0], 0), bulged([w, 0], [r, 0], 0)],
    ...[bulged([r, 0], [-r, 0], -1), bulged([-r, 0], [-w, 0], 0), bulged([-w, 0], [-w, d], 0)],
  ];
}

function expectProven(c: Certificate, gapMm: number, within = 2e-5): void {
  expect(c.outcome).toBe('certified');
  expect(Math.abs(c.minimumMm - gapMm)).toBeLessThan(within);
  expect(c.lowerBoundMm).toBeLessThanOrEqual(gapMm + 1e-9);
  expect(c.lowerBoundMm).toBeGreaterThanOrEqual(c.minimumMm - 0.001 - 1e-9);
}

describe('a graze between two looks', () => {
  // A nose 1.1 degrees wide on the crank passes a stud 0.3 mm wide whose flat top stands 60 mm below the axis: they face
  // each other for less than a degree and a half of the turn. At its lowest the nose stands at its radius less 60.
  test.each([
    ...[0.5, 0.02, 0.004, 0.0021, 0.002, 0.0019, 0.001, 0.0004, 0.0001, 0],
    ...[-0.0001, -0.0005, -0.001, -0.004, -0.05],
  ])('gap %d mm', (gapMm) => {
    for (const phase of [0, 0.05, 1.234, 3.1]) {
      const nose = onCrank(sector(60 - gapMm, 0.0096), phase);
      const c = certify(nose, fixed(box(-0.15, -64, 0.15, -60)), TURN, USUAL);
      expectProven(c, gapMm);
      // The middle of the nose stands straight down at crank angle -phase; the stud's edges reach 0.15 / 60 rad to either side.
      const off = ((((c.atCrankRad + phase + Math.PI) % TURN) + TURN) % TURN) - Math.PI;
      expect(Math.abs(off)).toBeLessThan(0.0096 + 0.15 / 60 + 1e-6);
    }
  });
});

describe('gaps that stay the same over a stretch of the turn', () => {
  // Counts as found, with head room: a plain bound on speed would need about a hundred thousand. They are those of any other gap.
  test('counterweight rim in a concentric cut', () => {
    const c = certify(onCrank(sector(60, 1.2)), fixed(cut(60.8)), TURN, USUAL);
    // At the cut's edge the flank passes the corner: the rim's own 0.8 is the least.
    expectProven(c, 0.8);
    expect(c.evaluations).toBeLessThan(90);
  });

  test('counterweight rim against a fixed flat edge', () => {
    const c = certify(onCrank(sector(60, 1.2)), fixed(box(60.75, -90, 80, 90)), TURN, USUAL);
    expectProven(c, 0.75);
    expect(c.evaluations).toBeLessThan(75);
  });

  test('counterweight rim against the camshaft core', () => {
    const c = certify(onCrank(sector(60, 1.2)), onCam(disc(0, 0, 14), 75.5), TURN, USUAL);
    expectProven(c, 75.5 - 60 - 14);
    expect(c.evaluations).toBeLessThan(70);
  });

  test('counterweight rim against the base circle of a lobe', () => {
    // A quarter turn of the lobe stands out to 18; at half speed the rim meets it and the base circle of 15.
    const lobe = [
      bulged([15, 0], [-15, 0], 1),
      bulged([-15, 0], [0, -15], Math.tan(Math.PI / 8)),
      bulged([0, -15], [15, 0], Math.tan(Math.PI / 8)),
    ];
    const c = certify(onCrank(sector(60, 1.2)), onCam(lobe, 76), 2 * TURN, USUAL);
    expectProven(c, 1);
    expect(c.evaluations).toBeLessThan(130);
  });

  test('rim too large for a concentric cut: the depth is found; what is not proven within the budget is not promised', () => {
    const c = certify(onCrank(sector(60.8, 1.2)), fixed(cut(60.5)), TURN, { ...USUAL, budget: 20_000 });
    expect(Math.abs(c.minimumMm + 0.3)).toBeLessThan(1e-5);
    if (c.outcome === 'certified') expect(c.lowerBoundMm).toBeGreaterThanOrEqual(-0.301 - 1e-5);
    else expect(c).toMatchObject({ outcome: 'budget spent', lowerBoundMm: Number.NEGATIVE_INFINITY });
  });
});

describe('depth over a turn, by hand', () => {
  test('a stud swallowed by a counterweight counts from its farthest place', () => {
    // The stud's top middle, 40 below the axis, stands 20 inside the rim of 60; its bottom edge, at 55, 5.
    // From the flanks, wide apart at half angle 1.4, its top stands farther than 20 when the sector is centred on it:
    // 40 sin 1.4 = 39.4.
    const c = certify(onCrank(sector(60, 1.4)), fixed(box(-1, -55, 1, -40)), TURN, USUAL);
    expectProven(c, -20);
  });

  test('crankpin disc into a wall', () => {
    // A disc of radius 30 on a crankpin of 45 reaches 75; the wall begins at 71.
    const pin = [...disc(0, 45, 30)];
    expectProven(certify(onCrank(pin), fixed(box(71, -200, 140, 200)), TURN, USUAL), -4);
  });

  test('that they overlap is enough: asked so, depth is not looked for', () => {
    const c = certify(onCrank(disc(0, 45, 30)), fixed(box(71, -200, 140, 200)), TURN, {
      ...USUAL,
      contactIsEnough: true,
    });
    expect(c).toMatchObject({ outcome: 'certified', minimumMm: 0, lowerBoundMm: 0 });
    expect(c.evaluations).toBeLessThan(100);
  });
});

describe('budget', () => {
  const rod: Mover = {
    flat: flatten({ pieces: box(-30, -30, 30, 25) }),
    motion: rodMotion({ crankRadiusMm: 48, rodLengthMm: 150, offsetMm: 0 }, -0.7, 0.3),
  };

  test.each([1, 5, 37, 60])('%d evaluations do not do, and nothing is promised', (budget) => {
    const c = certify(rod, fixed(box(-10, 85, 10, 100)), TURN, { toleranceMm: 0.001, budget });
    expect(c.outcome).toBe('budget spent');
    expect(c.lowerBoundMm).toBe(Number.NEGATIVE_INFINITY);
  });

  test('a depth left unfinished promises nothing either', () => {
    const c = certify(rod, fixed(box(-10, 60, 10, 100)), TURN, { toleranceMm: 0.001, budget: 200 });
    expect(c.outcome).toBe('budget spent');
    expect(c.lowerBoundMm).toBe(Number.NEGATIVE_INFINITY);
    const all = certify(rod, fixed(box(-10, 60, 10, 100)), TURN, USUAL);
    expect(all.outcome).toBe('certified');
    expect(all.minimumMm).toBeLessThan(0);
  });
});

describe('cutoff and hint', () => {
  // The corner of a flat 20 wide on a crank arm: nearest to the wall at 75 when it points across. Disc: 45 + 25 = 70, gap 5.
  const a = onCrank(disc(0, 45, 25));
  const b = fixed(box(75, -200, 140, 200));

  test.each([0.5, 1, 4.99])('a cutoff of %d mm below the gap of 5: not below, and proven to be so', (cutoffMm) => {
    const c = certify(a, b, TURN, { ...USUAL, cutoffMm });
    expect(c.outcome).toBe('not below cutoff');
    expect(c.minimumMm).toBe(cutoffMm);
    expect(c.lowerBoundMm).toBeGreaterThanOrEqual(cutoffMm - 0.001 - 1e-9);
    expect(c.lowerBoundMm).toBeLessThanOrEqual(5);
  });

  test.each([5.01, 6, 50, Number.POSITIVE_INFINITY])('a cutoff of %d mm above it: the gap', (cutoffMm) => {
    const c = certify(a, b, TURN, { ...USUAL, cutoffMm });
    expectProven(c, 5);
    expect(c.atCrankRad).toBeCloseTo(Math.PI / 2, 2);
  });

  test.each([-1, 0])('a cutoff of %d mm: apart is all that is shown', (cutoffMm) => {
    const c = certify(a, b, TURN, { ...USUAL, cutoffMm });
    expect(c.outcome).toBe('not below cutoff');
    expect(c.minimumMm).toBe(cutoffMm);
    expect(c.lowerBoundMm).toBeGreaterThanOrEqual(cutoffMm - 0.001);
  });

  test('a cutoff between contact and the depth: the depth', () => {
    const deep = fixed(box(66, -200, 140, 200));
    expectProven(certify(a, deep, TURN, { ...USUAL, cutoffMm: -1 }), -4);
    const not = certify(a, deep, TURN, { ...USUAL, cutoffMm: -6 });
    expect(not.outcome).toBe('not below cutoff');
    expect(not.minimumMm).toBe(-6);
    expect(not.lowerBoundMm).toBeGreaterThanOrEqual(-6.001);
  });

  test.each([0, 1.5, 1.6, 3, 4.7, 6.2])('a hint at %d rad, right or wrong, does not change the answer', (hintRad) => {
    expectProven(certify(a, b, TURN, { ...USUAL, hintRad }), 5);
    expectProven(certify(a, fixed(box(66, -200, 140, 200)), TURN, { ...USUAL, hintRad }), -4);
  });

  test('a good hint saves the first look round', () => {
    const without = certify(a, b, TURN, USUAL).evaluations;
    expect(certify(a, b, TURN, { ...USUAL, hintRad: Math.PI / 2 }).evaluations).toBeLessThan(without);
  });
});

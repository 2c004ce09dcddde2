/** Arcs of crank angle below a threshold: by hand where the gap has a closed form, by trying points where it has none. */
import { describe, expect, test } from 'vitest';
import { type Arc, arcsBelow, SEEN_RAD } from '../../../src/core/clearance/below.ts';
import { cellsOf, type LayeredBody } from '../../../src/core/clearance/cells.ts';
import type { Mover } from '../../../src/core/clearance/gapAt.ts';
import { layeredBelow } from '../../../src/core/clearance/layeredBelow.ts';
import { crankMotion, fixedMotion } from '../../../src/core/kinematics/motions.ts';
import { flatten } from '../../../src/core/outline/flat.ts';
import { gapOf } from '../../oracle/plane.ts';
import { between, box, bulged, disc, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';
import { type Kind, randomMoving, sector, slider } from './movers.ts';

const TURN = 2 * Math.PI;
const DEGREE = Math.PI / 180;
/** What is promised of an end: a hundredth of a degree; found are ends a hundred times as good. */
const END_RAD = 0.0001 * DEGREE;

const fixed = (edges: ReturnType<typeof box>): Mover => ({ flat: flatten({ pieces: edges }), motion: fixedMotion() });
const onCrank = (edges: ReturnType<typeof box>, phaseRad = 0): Mover => ({
  flat: flatten({ pieces: edges }),
  motion: crankMotion(phaseRad),
});

function arcs(a: Mover, b: Mover, thresholdMm: number, fromRad = -Math.PI / 2, budget = 20_000): Arc[] {
  const out: Arc[] = [];
  expect(arcsBelow(a, b, fromRad, fromRad + TURN, thresholdMm, { left: budget }, out)).toBe(true);
  return out;
}

function expectArcs(found: readonly Arc[], wanted: readonly (readonly [number, number])[]): void {
  expect(found).toHaveLength(wanted.length);
  wanted.forEach(([from, to], k) => {
    expect(Math.abs(found[k]!.fromRad - from)).toBeLessThan(END_RAD);
    expect(Math.abs(found[k]!.toRad - to)).toBeLessThan(END_RAD);
  });
}

describe('closed forms', () => {
  // A pin of radius 10 whose centre goes round at 50, under a straight edge 61 above the axis: the gap is 61 - 10 - 50 cos t.
  test.each([1.0001, 1.5, 5, 20, 60, 100.9])('pin under a straight edge, threshold %d', (thresholdMm) => {
    const half = Math.acos((51 - thresholdMm) / 50);
    expectArcs(arcs(onCrank(disc(0, 50, 10)), fixed(box(-200, 61, 200, 80)), thresholdMm, -Math.PI), [[-half, half]]);
  });

  test('the pin dips into the edge: overlap counts as below, at any depth', () => {
    // 58 - 10 - 50 cos t: 2 deep at the top.
    for (const t of [1e-6, 0.5, 3]) {
      const half = Math.acos((48 - t) / 50);
      expectArcs(arcs(onCrank(disc(0, 50, 10)), fixed(box(-200, 58, 200, 80)), t, -Math.PI), [[-half, half]]);
    }
  });

  // Two discs: centres sqrt(50^2 + 90^2 - 2 50 90 cos t) apart, radii 10 and 28.
  test('pin past a stud, touching at the nearest and not', () => {
    for (const t of [2.5, 10, 60, 101]) {
      const half = Math.acos((50 ** 2 + 90 ** 2 - (38 + t) ** 2) / (2 * 50 * 90));
      expectArcs(arcs(onCrank(disc(0, 50, 10)), fixed(disc(0, 90, 28)), t, -Math.PI), [[-half, half]]);
    }
  });

  // A corner (of a narrow box) 40 under the axis, a rim of radius 60 that is 41 long either side of it … a corner and an arc:
  // a nose of radius 5 at 45 passes the corner at (12, -40), 41.76 from the axis.
  test('a nose past a corner', () => {
    const corner = Math.hypot(12, 40);
    const direction = Math.PI - Math.atan2(12, 40);
    for (const t of [0.2, 1, 4]) {
      const half = Math.acos((45 ** 2 + corner ** 2 - (5 + t) ** 2) / (2 * 45 * corner));
      const found = arcs(onCrank(disc(0, 45, 5)), fixed(box(12, -40, 30, -30)), t, 0);
      // The nose also passes the box's other corners and edges: the arc that begins or ends by this corner is asked for.
      const far = found.at(-1)!;
      expect(Math.abs(far.toRad - (direction + half))).toBeLessThan(END_RAD);
    }
  });

  test('a gap that stays the same: never below, or all the way', () => {
    const rim = onCrank(disc(0, 0, 60));
    const edge = fixed(box(61.5, -90, 80, 90));
    expect(arcs(rim, edge, 1.4999)).toEqual([]);
    const [whole] = arcs(rim, edge, 1.6);
    expect(whole!.toRad - whole!.fromRad).toBeCloseTo(TURN, 12);
  });

  test('a rim in a concentric gap over part of the turn: its flanks end it', () => {
    // Rim of radius 60 over 1 radian to either side of straight down at crank angle 0; a pin of radius 3 at 65 below: 2 apart.
    const found = arcs(onCrank(sector(60, 1)), fixed(disc(0, -65, 3)), 2.5);
    // Past the rim's end its corner, at 60, is sqrt(60^2 + 65^2 - 2 60 65 cos x) from the centre of the pin.
    const beyond = Math.acos((60 ** 2 + 65 ** 2 - 5.5 ** 2) / (2 * 60 * 65));
    expectArcs(found, [[-1 - beyond, 1 + beyond]]);
  });
});

describe('reopenings', () => {
  // Two studs beside each other; the pin is below the threshold at each over half an angle `half`, so that between them it
  // is clear over what their directions leave.
  const t = 2.5;
  const half = Math.acos((50 ** 2 + 90 ** 2 - (38 + t) ** 2) / (2 * 50 * 90));
  test.each([5, 1, 0.1, 0.02, 0.0051])('of %d degrees is seen', (degrees) => {
    const clear = degrees * DEGREE;
    expect(clear).toBeGreaterThan(SEEN_RAD);
    const apart = 2 * half + clear;
    const pin = onCrank(disc(0, 50, 10));
    const layered: LayeredBody = {
      motion: fixedMotion(),
      layers: [-1, 1].map((side) => ({
        part: 'stud',
        z0Mm: 0,
        z1Mm: 10,
        outline: { pieces: disc(side * 90 * Math.sin(apart / 2), 90 * Math.cos(apart / 2), 28) },
      })),
      round: [],
    };
    const crank: LayeredBody = {
      motion: pin.motion,
      layers: [{ part: 'pin', z0Mm: 0, z1Mm: 10, outline: { pieces: disc(0, 50, 10) } }],
      round: [],
    };
    const { arcs: found, finished } = layeredBelow(crank.motion, layered.motion, cellsOf(crank, layered), TURN, {
      thresholdMm: t,
      slicingMm: 0.01,
      budget: 20_000,
      fromRad: Math.PI,
    });
    expect(finished).toBe(true);
    const edges = [clear / 2, clear / 2 + 2 * half, TURN - clear / 2 - 2 * half, TURN - clear / 2];
    expectArcs(found, [
      [edges[0]!, edges[1]!],
      [edges[2]!, edges[3]!],
    ]);
  });

  // One outline with two teeth that point at the crank axis, their tips at 61: the pin is below the threshold about each while
  // sqrt(50^2 + 61^2 - 2 50 61 cos x) - 10 is. Flanks and valley lie farther off than the tips all the way.
  test.each([3, 0.5, 0.1, 0.02, 0.0051])('of %d degrees between two teeth of one part is seen', (degrees) => {
    const about = Math.acos((50 ** 2 + 61 ** 2 - (10 + t) ** 2) / (2 * 50 * 61));
    const clear = degrees * DEGREE;
    const tip = about + clear / 2;
    const corners: (readonly [number, number])[] = [
      [61 * Math.sin(tip), 61 * Math.cos(tip)],
      [60, 141],
      [-60, 141],
      [-61 * Math.sin(tip), 61 * Math.cos(tip)],
      [0, 91],
    ];
    const comb = fixed(corners.map((p, k) => bulged(p, corners[(k + 1) % 5]!, 0)));
    expectArcs(arcs(onCrank(disc(0, 50, 10)), comb, t, -Math.PI), [
      [-tip - about, -clear / 2],
      [clear / 2, tip + about],
    ]);
  });

  test('a graze at the threshold itself is told as an arc too short to be seen, or not at all', () => {
    // 90 - 50 - 10 - 28 = 2 at the nearest.
    const found = arcs(onCrank(disc(0, 50, 10)), fixed(disc(0, 90, 28)), 2);
    for (const arc of found) {
      expect(arc.toRad - arc.fromRad).toBeLessThan(2 * SEEN_RAD);
      expect(Math.abs(arc.fromRad)).toBeLessThan(2 * SEEN_RAD);
    }
    expect(arcs(onCrank(disc(0, 50, 10)), fixed(disc(0, 90, 28)), 2 - 1e-7)).toEqual([]);
  });

  test('begun anywhere the arcs are the same, one that lies across the beginning among them', () => {
    const pin: LayeredBody = {
      motion: crankMotion(0),
      layers: [{ part: 'pin', z0Mm: 0, z1Mm: 10, outline: { pieces: disc(0, 50, 10) } }],
      round: [],
    };
    const stud: LayeredBody = {
      motion: fixedMotion(),
      layers: [{ part: 'stud', z0Mm: 5, z1Mm: 20, outline: { pieces: disc(0, 90, 28) } }],
      round: [],
    };
    for (const fromRad of [0, 0.1, -0.2, 3, 7]) {
      const { arcs: found } = layeredBelow(pin.motion, stud.motion, cellsOf(pin, stud), TURN, {
        thresholdMm: t,
        slicingMm: 0.01,
        budget: 20_000,
        fromRad,
      });
      expectArcs(found, [[TURN - half, TURN + half]]);
    }
  });
});

test('axially apart: below where the distance in space is', () => {
  // Faces 1.5 apart: 2.5 in space leaves 2 in the plane, between discs of radii 10 and 29.
  const half = Math.acos((50 ** 2 + 90 ** 2 - 41 ** 2) / (2 * 50 * 90));
  const pin: LayeredBody = {
    motion: crankMotion(0),
    layers: [{ part: 'pin', z0Mm: 0, z1Mm: 10, outline: { pieces: disc(0, 50, 10) } }],
    round: [],
  };
  const stud: LayeredBody = {
    motion: fixedMotion(),
    layers: [{ part: 'stud', z0Mm: 11.5, z1Mm: 20, outline: { pieces: disc(0, 90, 29) } }],
    round: [],
  };
  const ask = (thresholdMm: number): readonly Arc[] =>
    layeredBelow(pin.motion, stud.motion, cellsOf(pin, stud), TURN, {
      thresholdMm,
      slicingMm: 0.01,
      budget: 20_000,
      fromRad: 0,
    }).arcs;
  expectArcs(ask(2.5), [[TURN - half, TURN + half]]);
  expect(ask(1.5)).toEqual([]);
});

test('work that runs out is said', () => {
  const out: Arc[] = [];
  const [pin, stud] = [onCrank(disc(0, 50, 10)), fixed(disc(0, 90, 28))];
  expect(arcsBelow(pin, stud, 0, TURN, 3, { left: 20 }, out)).toBe(false);
  expect(() => arcsBelow(pin, stud, 0, TURN, 0, { left: 20 }, out)).toThrow(RangeError);
});

const KINDS: readonly (readonly [Kind, Kind])[] = [
  ['crank', 'piston'],
  ['crank', 'fixed'],
  ['rod', 'cam'],
  ['rod', 'fixed'],
  ['piston', 'rod'],
];
const SAMPLES = fewer(90, 30);

describe('against trying points at many angles', () => {
  const met = { below: 0, clear: 0, arcs: 0 };
  const cases = KINDS.flatMap(([a, b], k) =>
    Array.from({ length: fewer(6, 1) }, (_, n) => [a, b, 700 * (k + 1) + n] as const),
  );
  test.each(cases)('%s and %s, seed %d', (kindA, kindB, seed) => {
    const random = seeded(seed);
    const s = slider(random);
    const [a, b] = [randomMoving(kindA, random, s), randomMoving(kindB, random, s)];
    const period = kindB === 'cam' ? 2 * TURN : TURN;
    const tried = Array.from(
      { length: SAMPLES },
      (_, k) => gapOf(a.at((k * period) / SAMPLES), b.at((k * period) / SAMPLES), 2).gapMm,
    );
    const reach = [Math.max(0.5, Math.min(...tried)), Math.max(1, Math.max(...tried))] as const;
    const thresholdMm = between(random, ...reach);
    const found: Arc[] = [];
    expect(arcsBelow(a.mover, b.mover, 0, period, thresholdMm, { left: 50_000 }, found)).toBe(true);
    met.arcs += found.length;
    tried.forEach((gapMm, k) => {
      const at = (k * period) / SAMPLES;
      const within = found.some((arc) => at >= arc.fromRad && at <= arc.toRad);
      // Tried points are never nearer than the outlines are, and miss the nearest by some thousandths at most.
      if (gapMm < thresholdMm - 1e-6) expect(within).toBe(true);
      if (gapMm > thresholdMm + 0.005) expect(within).toBe(false);
      if (within) met.below += 1;
      else met.clear += 1;
    });
  });

  test('the samples hold both', () => {
    expect(met.below).toBeGreaterThan(fewer(300, 0));
    expect(met.clear).toBeGreaterThan(fewer(300, 0));
    expect(met.arcs).toBeGreaterThan(fewer(30, 0));
  });
});

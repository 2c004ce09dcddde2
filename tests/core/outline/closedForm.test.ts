import { describe, expect, test } from 'vitest';
import { footOn, shape } from '../../oracle/plane.ts';
import { box, disc } from '../../oracle/random.ts';
import { gapBetween, type Stand } from './standing.ts';

type Edges = Stand['pieces'];

/** A block from x -10 to 10, y -12 to 0, with a half round hollow of radius r about the origin. */
function hollow(r: number): Edges {
  return [
    { kind: 'line', x0: -10, y0: -12, x1: 10, y1: -12 },
    { kind: 'line', x0: 10, y0: -12, x1: 10, y1: 0 },
    { kind: 'line', x0: 10, y0: 0, x1: r, y1: 0 },
    { kind: 'arc', cx: 0, cy: 0, r, startRad: 0, sweepRad: -Math.PI },
    { kind: 'line', x0: -r, y0: 0, x1: -10, y1: 0 },
    { kind: 'line', x0: -10, y0: 0, x1: -10, y1: -12 },
  ];
}

const diamond: Edges = [
  { kind: 'line', x0: 0, y0: -3, x1: 3, y1: 0 },
  { kind: 'line', x0: 3, y0: 0, x1: 0, y1: 3 },
  { kind: 'line', x0: 0, y0: 3, x1: -3, y1: 0 },
  { kind: 'line', x0: -3, y0: 0, x1: 0, y1: -3 },
];

/** Sector of a counterweight: rim about the origin, hub of a third of its radius, from -60 to +60 degrees about -y. */
function sector(rim: number): Edges {
  const a = Math.PI / 3;
  const at = (r: number, angle: number): [number, number] => [r * Math.cos(angle), r * Math.sin(angle)];
  const [low, high] = [-Math.PI / 2 - a, -Math.PI / 2 + a];
  const [p, q] = [at(rim, high), at(rim / 3, high)];
  const [s, t] = [at(rim / 3, low), at(rim, low)];
  return [
    { kind: 'arc', cx: 0, cy: 0, r: rim, startRad: low, sweepRad: 2 * a },
    { kind: 'line', x0: p[0], y0: p[1], x1: q[0], y1: q[1] },
    { kind: 'arc', cx: 0, cy: 0, r: rim / 3, startRad: high, sweepRad: -2 * a },
    { kind: 'line', x0: s[0], y0: s[1], x1: t[0], y1: t[1] },
  ];
}

// Every expected figure below is worked out by hand from the dimensions in its own row.
const APART: readonly [string, Stand, Stand, number][] = [
  ['circle against flat edge', { pieces: disc(0, 0, 4) }, { pieces: box(-20, -5, 20, -1), y: -6 }, 7 - 4],
  ['circle against circle, 3-4-5', { pieces: disc(0, 0, 2) }, { pieces: disc(0, 0, 1), x: 6, y: 8 }, 10 - 3],
  ['circle against a corner, 3-4-5', { pieces: disc(0, 0, 2) }, { pieces: box(0, 0, 9, 9), x: 3, y: 4 }, 5 - 2],
  ['corner against corner, 3-4-5', { pieces: box(-9, -9, 0, 0) }, { pieces: box(0, 0, 9, 9), x: 3, y: 4 }, 5],
  ['corner against flat edge', { pieces: diamond }, { pieces: box(4, -8, 9, 8) }, 1],
  ['corner against a slanting edge', { pieces: diamond }, { pieces: box(0, 0, 4, 4), x: 2, y: 2 }, 1 / Math.SQRT2],
  ['parallel edges', { pieces: box(0, 0, 3, 3) }, { pieces: box(0, 0, 3, 3), x: 1, y: 3.25 }, 0.25],
  ['parallel edges that do not face', { pieces: box(0, 0, 3, 3) }, { pieces: box(0, 0, 3, 3), x: 6, y: 7 }, 5],
  [
    'disc inside a hollow, off its centre',
    { pieces: disc(0, 0, 3), x: 0.6, y: -0.8 },
    { pieces: hollow(8) },
    8 - 3 - 1,
  ],
  ['disc concentric with a hollow', { pieces: disc(0, 0, 3) }, { pieces: hollow(8) }, 5],
  ['disc above a hollow, nearest its edge', { pieces: disc(0, 0, 3), y: 6 }, { pieces: hollow(8) }, 10 - 3],
  ['corner inside a hollow', { pieces: diamond, y: -1 }, { pieces: hollow(8) }, 8 - 4],
  ['rim in a concentric cut', { pieces: sector(6), turnRad: 0.2 }, { pieces: hollow(8) }, 2],
  ['rims of two sectors back to back', { pieces: sector(60) }, { pieces: sector(60), y: -125, turnRad: Math.PI }, 5],
  ['quarter turn clockwise', { pieces: box(0, 0, 10, 1), turnRad: Math.PI / 2 }, { pieces: disc(0, -14, 1) }, 3],
];

describe('gaps worked out by hand', () => {
  test.each(APART)('%s', (_, a, b, gapMm) => {
    const g = gapBetween(a, b);
    expect(g.overlapping).toBe(false);
    expect(g.gapMm).toBeCloseTo(gapMm, 9);
    expect(Math.hypot(g.ax - g.bx, g.ay - g.by)).toBeCloseTo(gapMm, 9);
  });
});

// Depths: the farthest that any point of one outline lies inside the other.
const OVERLAPPING: readonly [string, Stand, Stand, number][] = [
  // Lowest point of the disc is at y = 2 - 5; the edge of the wide block at 0.
  ['circle into a wide flat edge', { pieces: disc(0, 0, 5), y: 2 }, { pieces: box(-99, -50, 99, 0) }, -3],
  // Centre on the edge: half the disc is in.
  ['circle half in', { pieces: disc(0, 0, 5) }, { pieces: box(-99, -50, 99, 0) }, -5],
  // The middle of its near side, at x = 2, lies 5 from the big one's right side and 7 from those above and below.
  ['square in a square, off the middle', { pieces: box(-1, -1, 1, 1), x: 3 }, { pieces: box(-7, -7, 7, 7) }, -5],
  // The middle of each side lies 6 from the big one's side that it faces.
  ['square in a square, concentric', { pieces: box(-1, -1, 1, 1) }, { pieces: box(-7, -7, 7, 7) }, -6],
  // The disc's point farthest from the outer rim is the one nearest its centre.
  ['disc in a disc', { pieces: disc(0, 0, 2), x: 5 }, { pieces: disc(0, 0, 20) }, -(20 - 3)],
  // A wall 4 thick, 40 long stands in the middle of a rim of radius 60: its end at the rim's centre is 60 deep.
  ['thin wall swallowed by a disc', { pieces: box(-2, 0, 2, 40) }, { pieces: disc(0, 0, 60) }, -60],
  // Two squares of 10 overlapping by 1.5 along x: corners of each lie 1.5 in, and so do the sides between.
  ['squares side by side', { pieces: box(0, 0, 10, 10) }, { pieces: box(0, -3, 10, 13), x: 8.5 }, -1.5],
  // Discs of radius 5 and 4, centres 7 apart: 5 + 4 - 7.
  ['circles side by side', { pieces: disc(0, 0, 5) }, { pieces: disc(0, 0, 4), x: 7 }, -2],
  // The tip of the diamond at x = 3 lies 0.5 inside the wall.
  ['corner into a flat edge', { pieces: diamond, x: -0.5 }, { pieces: box(2, -30, 40, 30) }, -0.5],
  // Disc of 8.25 concentric in a hollow of 8: in by 0.25 all along the half turn.
  ['rim too large for a concentric cut', { pieces: disc(0, 0, 8.25), y: 0 }, { pieces: hollow(8) }, -0.25],
];

describe('depths worked out by hand', () => {
  test.each(OVERLAPPING)('%s', (_, a, b, gapMm) => {
    for (const [p, q] of [
      [a, b],
      [b, a],
    ] as const) {
      const g = gapBetween(p, q);
      expect(g.overlapping).toBe(true);
      // Depth is searched to a hundredth of a micrometre and is that of a real point: never deeper than the true one.
      expect(g.gapMm).toBeGreaterThanOrEqual(gapMm - 1e-9);
      expect(g.gapMm).toBeLessThan(gapMm + 1.1e-5);
      expect(Math.hypot(g.ax - g.bx, g.ay - g.by)).toBeCloseTo(-g.gapMm, 9);
    }
  });

  test('touching counts as zero, not as a depth', () => {
    for (const [a, b] of [
      [{ pieces: disc(0, 0, 4) }, { pieces: box(-20, -5, 20, -4) }],
      [{ pieces: disc(0, 0, 2) }, { pieces: disc(0, 0, 8), x: 6, y: 8 }],
      [{ pieces: box(0, 0, 3, 3) }, { pieces: box(0, 0, 3, 3), x: 3 }],
      [{ pieces: diamond }, { pieces: box(3, -8, 9, 8) }],
    ] as [Stand, Stand][]) {
      const g = gapBetween(a, b);
      expect(Math.abs(g.gapMm)).toBeLessThan(1e-9);
      expect(Math.hypot(g.ax - g.bx, g.ay - g.by)).toBeLessThan(1e-9);
      expect(Math.abs(gapBetween(b, a).gapMm)).toBeLessThan(1e-9);
    }
  });
});

test('a witness of a hollow lies on the hollow, not across it', () => {
  const g = gapBetween({ pieces: disc(0, 0, 3), x: 0.6, y: -0.8 }, { pieces: hollow(8) });
  // Along the direction of the disc's own shift: (0.6, -0.8) times 4 and times 8.
  expect([g.ax, g.ay]).toEqual([expect.closeTo(2.4, 9), expect.closeTo(-3.2, 9)]);
  expect([g.bx, g.by]).toEqual([expect.closeTo(4.8, 9), expect.closeTo(-6.4, 9)]);
  const rim = shape(hollow(8)).edges;
  expect(
    Math.min(...rim.map((e) => Math.hypot(footOn(e, g.bx, g.by)[0] - g.bx, footOn(e, g.bx, g.by)[1] - g.by))),
  ).toBeLessThan(1e-9);
});

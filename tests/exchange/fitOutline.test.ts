/** Measured points as outlines: known shapes with seeded noise, distances by brute force, and what is refused. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FitFault, type FittedOutline, fitOutline } from '../../src/exchange/fitOutline.ts';
import { inside, nearestOn, pointOf, shape, signedDistanceMm, type XY } from '../oracle/plane.ts';
import { between, seeded, star } from '../oracle/random.ts';

const SEED = 40_961;
const DEG = Math.PI / 180;

function sound(fit: FittedOutline | FitFault): FittedOutline {
  if (!fit.ok) throw new Error(fit.says);
  return fit;
}

function refusal(fit: FittedOutline | FitFault): FitFault {
  if (fit.ok) throw new Error(`taken, ${fit.outline.pieces.length} pieces`);
  return fit;
}

/** Largest distance of the points from the outline, found without the program. */
function farthest(points: readonly XY[], fit: FittedOutline): number {
  const s = shape(fit.outline.pieces);
  return Math.max(
    ...points.map(([x, y]) => {
      const [nx, ny] = nearestOn(s, x, y);
      return Math.hypot(nx - x, ny - y);
    }),
  );
}

/** Counterweight sector in polar steps: rim of radius R over 2 half, hub of radius r over the rest, straight flanks. */
function sectorPoints(R: number, r: number, half: number, stepDeg: number): XY[] {
  const at = (radius: number, deg: number): XY => [radius * Math.sin(deg * DEG), radius * Math.cos(deg * DEG)];
  const arc = (radius: number, from: number, to: number) => {
    const n = Math.max(4, Math.round((to - from) / stepDeg));
    return Array.from({ length: n + 1 }, (_, k) => at(radius, from + ((to - from) * k) / n));
  };
  const flank = (deg: number, from: number, to: number) =>
    Array.from({ length: 9 }, (_, k) => at(from + ((to - from) * (k + 1)) / 10, deg));
  return [
    ...arc(R, 180 - half, 180 + half),
    ...flank(180 + half, R, r),
    ...arc(r, 180 + half, 540 - half),
    ...flank(180 - half, r, R),
  ];
}

const noisy = (points: readonly XY[], mm: number, seed: number): XY[] => {
  const random = seeded(seed);
  return points.map(([x, y]): XY => {
    const a = between(random, 0, 2 * Math.PI);
    const d = mm * Math.sqrt(random());
    return [x + d * Math.cos(a), y + d * Math.sin(a)];
  });
};

describe('a hollow edge', () => {
  // A half ring about the origin, 40 to 60 mm, its points 15 degrees apart: over the chords of its points the hollow arc stands
  // 40 (1 - cos 7.5 degrees) = 0.342 mm deeper.
  const ring = (hollowRadius: number, stepDeg: number): XY[] => {
    const n = 180 / stepDeg;
    const at = (r: number, k: number): XY => [r * Math.cos(k * stepDeg * DEG), r * Math.sin(k * stepDeg * DEG)];
    return [
      ...Array.from({ length: n + 1 }, (_, k) => at(60, k)),
      ...Array.from({ length: n + 1 }, (_, k) => at(hollowRadius, n - k)),
    ];
  };
  /** How far the polygon of the points stands out of the outline, by points along its sides. */
  const standsOut = (points: readonly XY[], fit: FittedOutline): number => {
    const s = shape(fit.outline.pieces);
    const along = points.flatMap(([x, y], k) => {
      const [u, v] = points[(k + 1) % points.length]!;
      return Array.from({ length: 20 }, (_, i): XY => [x + ((u - x) * i) / 20, y + ((v - y) * i) / 20]);
    });
    return Math.max(...along.map(([x, y]) => signedDistanceMm(s, x, y)));
  };

  it('stands no deeper under the chords of its points than the deviation stated', () => {
    for (const within of [0.4, 0.3, 0.1]) {
      const points = ring(40, 15);
      const fit = sound(fitOutline(points, within, 100));
      expect(standsOut(points, fit)).toBeLessThan(within + 1e-9);
      expect(fit.largestDeviationMm).toBeGreaterThan(standsOut(points, fit) - 1e-9);
      const hollow = fit.outline.pieces.filter((p) => p.kind === 'arc' && p.sweepRad < 0);
      expect(hollow.length > 0).toBe(within > 0.342);
    }
  });

  it('is one arc where its points are close together', () => {
    const fit = sound(fitOutline(ring(40, 3), 0.05, 100));
    expect(fit.outline.pieces.filter((p) => p.kind === 'arc' && p.sweepRad < 0)).toHaveLength(1);
    expect(standsOut(ring(40, 3), fit)).toBeLessThan(0.05);
  });
});

describe('fits', () => {
  it.each([1, 2, 3, 4, 5])('a circle of 70 mm measured every 5 degrees to 0.05 mm (seed %d)', (seed) => {
    const points = noisy(
      Array.from({ length: 72 }, (_, k): XY => [70 * Math.sin(5 * k * DEG), 70 * Math.cos(5 * k * DEG)]),
      0.05,
      seed,
    );
    const fit = sound(fitOutline(points, 0.15));
    expect(fit.reversed).toBe(true);
    expect(fit.notes).toHaveLength(1);
    expect(fit.outline.pieces.length).toBeLessThanOrEqual(4);
    expect(farthest(points, fit)).toBeLessThanOrEqual(0.15);
    // The true circle too: within the deviation of the points and theirs from it.
    const s = shape(fit.outline.pieces);
    for (let k = 0; k < 720; k++) {
      const [x, y]: XY = [70 * Math.cos(k * 0.5 * DEG), 70 * Math.sin(k * 0.5 * DEG)];
      const [nx, ny] = nearestOn(s, x, y);
      expect(Math.hypot(nx - x, ny - y)).toBeLessThanOrEqual(0.2);
    }
  });

  it('a thousand points of a scan are as few pieces as seventy', () => {
    const circle = Array.from(
      { length: 1000 },
      (_, k): XY => [70 * Math.cos(0.36 * k * DEG), 70 * Math.sin(0.36 * k * DEG)],
    );
    const points = noisy(circle, 0.06, 9);
    const fit = sound(fitOutline(points, 0.15));
    expect(fit.outline.pieces.length).toBeLessThanOrEqual(4);
    expect(fit.largestDeviationMm).toBeLessThanOrEqual(0.15);
    expect(farthest(points, fit)).toBeLessThanOrEqual(fit.largestDeviationMm + 1e-9);
  });

  it.each([1, 2, 3, 4, 5])('a counterweight sector comes out as few pieces (seed %d)', (seed) => {
    const points = noisy(sectorPoints(82, 35, 55, 3), 0.03, seed);
    const fit = sound(fitOutline(points, 0.1));
    // Rim, two flanks, and the hub of 250 degrees, each of which noise may cut once.
    expect(fit.outline.pieces.length).toBeLessThanOrEqual(8);
    expect(fit.largestDeviationMm).toBeLessThanOrEqual(0.1);
    const rim = fit.outline.pieces.filter((p) => p.kind === 'arc' && Math.abs(p.r - 82) < 1);
    expect(rim.length).toBeGreaterThanOrEqual(1);
  });

  it('without noise a sector is four pieces of the right radii', () => {
    const fit = sound(fitOutline(sectorPoints(82, 35, 55, 3), 0.01));
    const radii = fit.outline.pieces.map((p) => (p.kind === 'arc' ? p.r : 0)).sort((a, b) => a - b);
    expect(radii).toHaveLength(4);
    [0, 0, 35, 82].forEach((r, k) => {
      expect(radii[k]).toBeCloseTo(r, 3);
    });
    // The flanks are measured in ten steps; the rim's 110 degrees in 37 give less.
    expect(fit.largestStepMm).toBeCloseTo((82 - 35) / 10, 9);
    expect(fit.largestSagittaMm).toBeCloseTo(82 * (1 - Math.cos((110 / 37 / 2) * DEG)), 4);
  });

  it('no point is farther than said, and what is said is not more than asked', () => {
    let taken = 0;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e9 }), fc.double({ min: 0.01, max: 0.6, noNaN: true }), (seed, asked) => {
        const random = seeded(seed);
        const edges = star(random, between(random, 30, 100));
        const points = noisy(
          edges.flatMap((e) => Array.from({ length: 12 }, (_, k) => pointOf(e, k / 12))),
          between(random, 0, 0.5 * asked),
          seed + 1,
        );
        const fit = fitOutline(points, asked, 300);
        if (!fit.ok) {
          // A star with an edge bent inward past its neighbour may touch itself.
          expect(fit.kind).toBe('crossing');
          return;
        }
        taken++;
        expect(fit.largestDeviationMm).toBeLessThanOrEqual(asked);
        expect(farthest(points, fit)).toBeLessThanOrEqual(fit.largestDeviationMm + 1e-9);
        const s = shape(fit.outline.pieces);
        expect(inside(s, 0, 0)).toBe(true);
      }),
      { seed: SEED, numRuns: 60 },
    );
    expect(taken).toBeGreaterThan(55);
  });

  it('takes the same outline whichever way the points run, and says so', () => {
    const points = sectorPoints(82, 35, 55, 3);
    const one = sound(fitOutline(points, 0.01));
    const other = sound(fitOutline(points.toReversed(), 0.01));
    expect(one.reversed).not.toBe(other.reversed);
    expect(one.outline.pieces).toHaveLength(other.outline.pieces.length);
    const clockwise = one.reversed ? one : other;
    const run = one.reversed ? points : points.toReversed();
    clockwise.joints.forEach((joint, k) => {
      const p = clockwise.outline.pieces[k]!;
      const [x, y] = pointOf(p, 0);
      expect(Math.hypot(run[joint]![0] - x, run[joint]![1] - y)).toBeLessThan(1e-9);
    });
  });

  it('a closing point that repeats the first is left out', () => {
    const square: XY[] = [
      [0, 0],
      [20, 0],
      [20, 20],
      [0, 20],
      [0, 0],
    ];
    expect(sound(fitOutline(square, 0.1)).outline.pieces).toHaveLength(4);
  });
});

describe('refusals', () => {
  const square: XY[] = [
    [0, 0],
    [20, 0],
    [20, 20],
    [0, 20],
  ];

  it.each<[string, XY[], number, number | undefined, FitFault['kind'], number]>([
    [
      'not a number',
      [
        [0, 0],
        [20, Number.NaN],
        [20, 20],
      ],
      0.1,
      undefined,
      'number',
      1,
    ],
    [
      'infinite',
      [
        [0, 0],
        [20, 0],
        [Number.POSITIVE_INFINITY, 20],
      ],
      0.1,
      undefined,
      'number',
      2,
    ],
    [
      '11 m away',
      [
        [0, 0],
        [11_000, 0],
        [20, 20],
      ],
      0.1,
      undefined,
      'number',
      1,
    ],
    ['none', [], 0.1, undefined, 'few points', 0],
    [
      'two points',
      [
        [0, 0],
        [20, 0],
      ],
      0.1,
      undefined,
      'few points',
      0,
    ],
    [
      'two and the first again',
      [
        [0, 0],
        [20, 0],
        [0, 0],
      ],
      0.1,
      undefined,
      'few points',
      0,
    ],
    [
      'the same point twice',
      [
        [0, 0],
        [20, 0],
        [20, 0],
        [20, 20],
      ],
      0.1,
      50,
      'duplicate',
      1,
    ],
    ['open by more than stated', square, 0.1, 19.9, 'open', 3],
    [
      'open by more than the longest step',
      [...square, [0, 15], [0, 30], [-20, 30], [-20, 50]],
      0.1,
      undefined,
      'open',
      7,
    ],
    [
      'a figure of eight',
      [
        [0, 0],
        [20, 20],
        [20, 0],
        [0, 19],
      ],
      0.1,
      50,
      'crossing',
      0,
    ],
    [
      'half a square millimetre',
      [
        [0, 0],
        [1, 0],
        [1, 0.5],
        [0, 0.5],
      ],
      0.01,
      5,
      'tiny',
      0,
    ],
    [
      'a sliver thinner than the deviation allows',
      [
        [0, 0],
        [50, 0],
        [50, 0.3],
        [0, 0.3],
      ],
      0.2,
      5,
      'tiny',
      0,
    ],
    ['no deviation', square, 0, undefined, 'deviation', 0],
    ['a deviation that is none', square, Number.NaN, undefined, 'deviation', 0],
    ['a negative closing distance', square, 0.1, -1, 'open', 0],
  ])('%s', (_, points, deviation, close, kind, point) => {
    const fault = refusal(fitOutline(points, deviation, close));
    expect(fault).toMatchObject({ kind });
    if (kind !== 'crossing') expect(fault.point).toBe(point);
    expect(fault.says).toMatch(/^[A-Z0-9].*\.$/);
  });

  it('ends as far apart as stated are closed', () => {
    expect(fitOutline(square, 0.1, 20).ok).toBe(true);
  });

  it('a run that goes back on itself touches itself', () => {
    const spike: XY[] = [
      [0, 0],
      [20, 0],
      [20, 20],
      [20, 40],
      [20, 30],
      [0, 20],
    ];
    expect(refusal(fitOutline(spike, 0.1, 50)).kind).toBe('crossing');
  });
});

/** A valve head over a crown with a pocket: by hand where that can be done, and against points tried in space. */
import { describe, expect, it } from 'vitest';
import {
  type HeadAndCrown,
  type HeadGap,
  headGap,
  makeCrown,
  newDirections,
} from '../../../src/core/clearance/headAndCrown.ts';
import { headPoints } from '../../../src/core/clearance/headPlaces.ts';
import { fewer } from '../../support/fewer.ts';

const DEG = Math.PI / 180;

function gapOf(shape: HeadAndCrown, x: number, y: number): HeadGap & { slicingMm: number } {
  const crown = makeCrown(shape);
  const out: HeadGap = { mm: 0, wedge: 0, nx: 0, ny: 0, nz: 0 };
  headGap(crown, x, y, newDirections(crown), out);
  return { ...out, slicingMm: crown.slicingMm };
}

const flat: HeadAndCrown = { headRadiusMm: 24, marginMm: 1.5, leanRad: 0, besideMm: 0, topY: 40, pocket: null };

describe('by hand', () => {
  it('flat crown, upright valve: the height of the face above the crown, or minus how deep it stands in it', () => {
    expect(gapOf(flat, 3, 47.25).mm).toBeCloseTo(7.25, 9);
    expect(gapOf(flat, 3, 38.5).mm).toBeCloseTo(-1.5, 9);
  });

  it.each([20, -20])('flat crown, stem leaning %d degrees: the lower edge of the face decides', (lean) => {
    // R sin 20 = 8.2085 below the face's middle.
    const gap = gapOf({ ...flat, leanRad: lean * DEG }, 0, 50);
    expect(gap.mm).toBeCloseTo(10 - 24 * Math.sin(20 * DEG), 9);
    const [px, py, qx, qy] = headPoints(makeCrown({ ...flat, leanRad: lean * DEG }), gap, 0, 50);
    expect(px).toBeCloseTo(Math.sign(lean) * 24 * Math.cos(20 * DEG), 6);
    expect([qx - px, qy]).toEqual([expect.closeTo(0, 9), expect.closeTo(40, 9)]);
    expect(py - qy).toBeCloseTo(gap.mm, 9);
  });

  const pocketed: HeadAndCrown = { ...flat, pocket: { x: 0, y: 36, radiusMm: 26 } };
  it('upright valve in an upright pocket: floor below, wall beside, the nearer one', () => {
    expect(gapOf(pocketed, 0, 37.2).mm).toBeCloseTo(1.2, 9);
    const wall = gapOf(pocketed, 0.7, 38.8);
    // 26 - 24 - .7, less what the corners of the wall take.
    expect(wall.mm).toBeLessThanOrEqual(1.3 + 1e-9);
    expect(wall.mm).toBeGreaterThanOrEqual(1.3 - wall.slicingMm - 1e-9);
    expect(wall.slicingMm).toBeLessThan(0.01);
    // Beside along the shaft and across at once: 5, 12, 13.
    const both = gapOf({ ...pocketed, besideMm: 1.2 }, 0.5, 38.8);
    expect(both.mm).toBeLessThanOrEqual(0.7 + 1e-9);
    expect(both.mm).toBeGreaterThanOrEqual(0.7 - both.slicingMm - 1e-9);
  });

  it('above the pocket the edge is nearest: 3, 4, 5', () => {
    const edge = gapOf({ ...pocketed, pocket: { x: 0, y: 20, radiusMm: 28 } }, 0, 43);
    expect(edge.mm).toBeLessThanOrEqual(5 + 1e-9);
    expect(edge.mm).toBeGreaterThanOrEqual(5 - edge.slicingMm - 1e-9);
  });

  it('a smaller pocket, a wider head, a thicker margin never give more room', () => {
    for (const y of [36.5, 38, 39, 41, 44]) {
      for (const x of [-1.5, 0, 0.9]) {
        const here = gapOf({ ...pocketed, leanRad: 12 * DEG }, x, y).mm;
        const less = (change: Partial<HeadAndCrown>) => gapOf({ ...pocketed, leanRad: 12 * DEG, ...change }, x, y).mm;
        expect(less({ pocket: { x: 0, y: 36, radiusMm: 25.6 } })).toBeLessThanOrEqual(here + 1e-6);
        expect(less({ headRadiusMm: 24.3 })).toBeLessThanOrEqual(here + 1e-6);
        expect(less({ marginMm: 2.5 })).toBeLessThanOrEqual(here + 1e-6);
        expect(less({ topY: 40.4 })).toBeLessThanOrEqual(here + 1e-6);
      }
    }
  });
});

type P3 = readonly [number, number, number];

/** Points of the surface of a disc of radius R and thickness m about a leaning axis. */
function headCloud(s: HeadAndCrown, x: number, y: number): P3[] {
  const out: P3[] = [];
  const [ax, ay] = [Math.sin(s.leanRad), Math.cos(s.leanRad)];
  for (let k = 0; k < 160; k++) {
    const t = (2 * Math.PI * k) / 160;
    for (const [share, up] of [
      [1, 0],
      [1, s.marginMm / 2],
      [1, s.marginMm],
      [0.75, 0],
      [0.4, 0],
    ] as const) {
      const f = s.headRadiusMm * share * Math.cos(t);
      out.push([x + f * ay + up * ax, y - f * ax + up * ay, s.headRadiusMm * share * Math.sin(t)]);
    }
  }
  return out;
}

/** How far a point outside the crown lies from it, by its own words: below the top and not in the pocket; along rays, then nearer by halving steps. */
function distanceToCrown(s: HeadAndCrown, p: P3): number {
  const [ax, ay] = [Math.sin(s.leanRad), Math.cos(s.leanRad)];
  const { x: fx, y: fy, radiusMm: r } = s.pocket!;
  const inCrown = ([x, y, z]: P3): boolean => {
    if (y > s.topY) return false;
    const up = (x - fx) * ax + (y - fy) * ay;
    const across = (x - fx) * ay - (y - fy) * ax;
    return up < 0 || Math.hypot(across, z + s.besideMm) > r;
  };
  if (inCrown(p)) return 0;
  let best = Number.POSITIVE_INFINITY;
  const along = (a: number, b: number): number => {
    const d: P3 = [Math.cos(a) * Math.cos(b), Math.sin(b), Math.sin(a) * Math.cos(b)];
    // First entry within the best so far, on a march of small steps.
    const most = Math.min(best, 12);
    for (let t = 0.02; t <= most; t += 0.04) {
      if (!inCrown([p[0] + t * d[0], p[1] + t * d[1], p[2] + t * d[2]])) continue;
      return t;
    }
    return Number.POSITIVE_INFINITY;
  };
  let [atA, atB] = [0, -Math.PI / 2];
  for (let i = 0; i < 24; i++) {
    for (let j = 0; j <= 9; j++) {
      const [a, b] = [(i / 24) * 2 * Math.PI, -Math.PI / 2 + (j / 9) * (Math.PI / 2 + 0.4)];
      const t = along(a, b);
      if (t < best) [best, atA, atB] = [t, a, b];
    }
  }
  for (let step = 0.13; step > 0.005; step /= 2) {
    for (const [da, db] of [
      [step, 0],
      [-step, 0],
      [0, step],
      [0, -step],
    ] as const) {
      const t = along(atA + da, atB + db);
      if (t < best) [best, atA, atB] = [t, atA + da, atB + db];
    }
  }
  return best;
}

it('against points tried in space, leaning stems and pockets beside the valve among them', () => {
  const CASES = fewer(12, 2);
  let seed = 11;
  const any = (low: number, high: number): number => {
    seed = (seed * 16807) % 2147483647;
    return low + (seed / 2147483647) * (high - low);
  };
  let [tried, walls, edges] = [0, 0, 0];
  for (let k = 0; k < 400 && tried < CASES; k++) {
    const lean = any(-24, 24) * DEG;
    const radiusMm = any(24.5, 28);
    const depth = any(1, 6);
    const below = depth - radiusMm * Math.abs(Math.sin(lean));
    const shape: HeadAndCrown = {
      headRadiusMm: 24,
      marginMm: any(1, 3),
      leanRad: lean,
      besideMm: any(-0.8, 0.8),
      topY: 40,
      pocket: { x: -below * Math.tan(lean), y: 40 - below, radiusMm },
    };
    const up = any(0.3, 5);
    const out = any(-1.2, 1.2);
    const x = shape.pocket!.x + up * Math.sin(lean) + out * Math.cos(lean);
    const y = shape.pocket!.y + up * Math.cos(lean) - out * Math.sin(lean);
    const gap = gapOf(shape, x, y);
    // The oracle knows no depths; and a gap far above any limit is of no interest.
    if (gap.mm < 0.05 || gap.mm > 6) continue;
    tried += 1;
    if (gap.wedge > 0 && gap.ny < 0.05) walls += 1;
    if (gap.wedge > 0 && gap.ny >= 0.05) edges += 1;
    let least = Number.POSITIVE_INFINITY;
    for (const p of headCloud(shape, x, y)) least = Math.min(least, distanceToCrown(shape, p));
    // Points tried are never nearer than the truth; their spacing, two degrees of 24 mm and steps of .04 mm, leaves so much.
    expect(gap.mm).toBeLessThan(least + 0.01);
    expect(gap.mm).toBeGreaterThan(least - 0.12);
  }
  expect(tried).toBe(CASES);
  expect(walls + edges).toBeGreaterThan(fewer(3, -1));
});

import { describe, expect, test } from 'vitest';
import type { Outline } from '../../../src/core/outline/outline.ts';
import { pieceEnd, pieceStart } from '../../../src/core/outline/outline.ts';
import { areaOf, union } from '../../../src/core/outline/union.ts';
import { inside, lengthOf, pointOf, shape, signedDistanceMm } from '../../oracle/plane.ts';
import { anyOutline, between, box, bulged, disc, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';

const outline = (pieces: Outline['pieces']): Outline => ({ pieces });

/** Each piece begins where the one before ends. */
function expectClosed({ pieces }: Outline): void {
  pieces.forEach((p, k) => {
    const [x, y] = pieceEnd(p);
    const [nx, ny] = pieceStart(pieces[(k + 1) % pieces.length]!);
    expect(Math.hypot(x - nx, y - ny)).toBeLessThan(2e-6);
  });
}

describe('area', () => {
  test('of a disc, a box, a half disc and a hollow one', () => {
    expect(areaOf(disc(3, -2, 5))).toBeCloseTo(25 * Math.PI, 9);
    expect(areaOf(box(-1, 2, 4, 8))).toBeCloseTo(30, 12);
    expect(areaOf([bulged([-3, 0], [3, 0], 0), bulged([3, 0], [-3, 0], 1)])).toBeCloseTo((9 * Math.PI) / 2, 9);
    // A box 20 by 12 with a half round hollow of radius 8 in its top.
    const bowl = [
      ...[bulged([-10, -12], [10, -12], 0), bulged([10, -12], [10, 0], 0), bulged([10, 0], [8, 0], 0)],
      ...[bulged([8, 0], [-8, 0], -1), bulged([-8, 0], [-10, 0], 0), bulged([-10, 0], [-10, -12], 0)],
    ];
    expect(areaOf(bowl)).toBeCloseTo(240 - 32 * Math.PI, 9);
  });
});

describe('union of two outlines, by hand', () => {
  test('two boxes in a cross: 12 edges, 2 x 40 less the square they share', () => {
    const u = union(outline(box(-10, -2, 10, 2)), outline(box(-2, -10, 2, 10)));
    expect(u.pieces).toHaveLength(12);
    expect(areaOf(u.pieces)).toBeCloseTo(80 + 80 - 16, 9);
    expectClosed(u);
  });

  test('two discs of radius 5, centres 6 apart: two arcs that meet at (3, 4) and (3, -4)', () => {
    const u = union(outline(disc(0, 0, 5)), outline(disc(6, 0, 5)));
    // Lens: 2 r^2 acos(d / 2r) - (d / 2) sqrt(4 r^2 - d^2).
    expect(areaOf(u.pieces)).toBeCloseTo(50 * Math.PI - (50 * Math.acos(0.6) - 3 * 8), 9);
    const corners = u.pieces.map(pieceStart);
    for (const y of [4, -4]) expect(corners.some(([px, py]) => Math.hypot(px - 3, py - y) < 1e-9)).toBe(true);
    expectClosed(u);
  });

  test('boxes that share a stretch of their top: the stretch is kept once', () => {
    const u = union(outline(box(0, 0, 6, 4)), outline(box(2, -3, 10, 4)));
    // 6 x 4 and 8 x 7, less the 4 x 4 they share.
    expect(areaOf(u.pieces)).toBeCloseTo(24 + 56 - 16, 9);
    const top = u.pieces.filter((p) => p.kind === 'line' && p.y0 === 4 && p.y1 === 4);
    expect(top.reduce((s, p) => s + lengthOf(p), 0)).toBeCloseTo(10, 9);
  });

  test('two that stand apart are refused: neither may be lost', () => {
    expect(() => union(outline(disc(0, 0, 5)), outline(box(6, -1, 9, 1)))).toThrow('stand apart');
    expect(() => union(outline(box(6, -1, 9, 1)), outline(disc(0, 0, 5)))).toThrow('stand apart');
  });

  test('one inside the other: the outer one', () => {
    for (const [a, b] of [
      [disc(1, 0, 2), disc(0, 0, 9)],
      [box(-9, -9, 9, 9), disc(0, 0, 3)],
    ] as const) {
      const big = Math.max(areaOf(a), areaOf(b));
      expect(areaOf(union(outline(a), outline(b)).pieces)).toBeCloseTo(big, 9);
      expect(areaOf(union(outline(b), outline(a)).pieces)).toBeCloseTo(big, 9);
    }
  });

  test('a hook closed by a box: the hole between them is filled', () => {
    // Three sides of a frame 20 wide, 4 thick, closed on top by a bar: a frame of 20 x 20.
    const hook = [
      ...[bulged([-10, -10], [10, -10], 0), bulged([10, -10], [10, 8], 0), bulged([10, 8], [6, 8], 0)],
      ...[bulged([6, 8], [6, -6], 0), bulged([6, -6], [-6, -6], 0), bulged([-6, -6], [-6, 8], 0)],
      ...[bulged([-6, 8], [-10, 8], 0), bulged([-10, 8], [-10, -10], 0)],
    ];
    expect(areaOf(union(outline(hook), outline(box(-10, 6, 10, 10))).pieces)).toBeCloseTo(400, 6);
  });
});

/** Outlines that overlap, about each other. */
function overlappingPair(seed: number): [Outline, Outline] | null {
  const random = seeded(seed);
  const a = anyOutline(random, 30);
  const [dx, dy] = [between(random, -20, 20), between(random, -20, 20)];
  const b = anyOutline(random, 25).map((e) =>
    e.kind === 'line'
      ? { ...e, x0: e.x0 + dx, x1: e.x1 + dx, y0: e.y0 + dy, y1: e.y1 + dy }
      : { ...e, cx: e.cx + dx, cy: e.cy + dy },
  );
  const [sa, sb] = [shape(a), shape(b)];
  const meet =
    a.some((e) => [0, 0.2, 0.4, 0.6, 0.8].some((f) => inside(sb, ...pointOf(e, f)))) ||
    b.some((e) => [0, 0.2, 0.4, 0.6, 0.8].some((f) => inside(sa, ...pointOf(e, f))));
  return meet ? [outline(a), outline(b)] : null;
}

describe('union of random outlines against asking point by point', () => {
  test.each([[1], [2], [3], [4]])('seeds from %d00', (hundred) => {
    let pairs = 0;
    for (let seed = hundred * 100; seed < hundred * 100 + fewer(25, 6); seed++) {
      const pair = overlappingPair(seed);
      if (pair === null) continue;
      pairs += 1;
      const [a, b] = pair;
      const u = union(a, b);
      expectClosed(u);
      const [sa, sb, su] = [shape(a.pieces), shape(b.pieces), shape(u.pieces)];
      const random = seeded(seed + 1);
      for (let k = 0; k < fewer(200, 30); k++) {
        const [x, y] = [between(random, -55, 55), between(random, -55, 55)];
        // Whoever is in one is in the union; what the union adds are holes shut in between the two.
        if (inside(sa, x, y) || inside(sb, x, y)) expect(inside(su, x, y)).toBe(true);
      }
      // Its edge runs along the edge of one and is never inside the other.
      for (const e of su.edges) {
        const [x, y] = pointOf(e, 0.37);
        const [da, db] = [signedDistanceMm(sa, x, y), signedDistanceMm(sb, x, y)];
        expect(Math.min(Math.abs(da), Math.abs(db))).toBeLessThan(1e-6);
        expect(Math.min(da, db)).toBeGreaterThan(-1e-6);
      }
    }
    expect(pairs).toBeGreaterThan(fewer(10, 2));
  });
});

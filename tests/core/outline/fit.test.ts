/** The fitted chain against distances tried by brute force (tests/oracle/plane.ts), on shapes known beforehand. */
import { describe, expect, it } from 'vitest';
import { fitChain } from '../../../src/core/outline/fitChain.ts';
import { fitPiece } from '../../../src/core/outline/fitPiece.ts';
import { pieceEnd, pieceStart } from '../../../src/core/outline/outline.ts';
import { lengthOf, pointOf, type XY } from '../../oracle/plane.ts';
import { between, roundedBox, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';

const flat = (points: readonly XY[]) => Float64Array.from(points.flat());
const onCircle = (r: number, fromDeg: number, toDeg: number, n: number): XY[] =>
  Array.from({ length: n }, (_, k): XY => {
    const a = ((fromDeg + ((toDeg - fromDeg) * k) / (n - 1)) * Math.PI) / 180;
    return [r * Math.cos(a), r * Math.sin(a)];
  });

describe('one piece', () => {
  it('points on a line are a line, whatever their spacing', () => {
    const fit = fitPiece(
      flat([
        [0, 0],
        [1, 1],
        [5, 5.01],
        [30, 30],
      ]),
      0,
      3,
      0.02,
    );
    expect(fit).toMatchObject({ halfAngleRad: 0, sagittaMm: 0 });
    // 5, 5.01 stands .01 / sqrt 2 off the diagonal.
    expect(fit?.deviationMm).toBeCloseTo(0.01 / Math.SQRT2, 12);
  });

  it.each([
    [40, 0, 90, 45],
    [40, 90, 0, -45],
    [80, -10, 20, 15],
    [25, 30, 330, 150],
    [25, 330, 30, -150],
  ])('points on a circle of %d mm from %d to %d degrees turn through half of %d', (r, from, to, halfDeg) => {
    const points = onCircle(r, from, to, 40);
    const fit = fitPiece(flat(points), 0, 39, 0.001);
    expect(fit?.halfAngleRad).toBeCloseTo((halfDeg * Math.PI) / 180, 6);
    expect(fit?.deviationMm).toBeLessThan(1e-5);
    const stepRad = Math.abs(((to - from) / 39) * Math.PI) / 180;
    expect(fit?.sagittaMm).toBeCloseTo(r * (1 - Math.cos(stepRad / 2)), 5);
  });

  it('of a point pushed out of a circle the arc takes half, the others the other half', () => {
    const points = onCircle(50, 0, 60, 13).map((p, k): XY => (k === 6 ? [p[0] * 1.002, p[1] * 1.002] : p));
    // Out by 0.1 mm in the middle; the arc through the ends can come out by part of it only.
    const fit = fitPiece(flat(points), 0, 12, 0.09);
    expect(fit?.deviationMm).toBeGreaterThan(0.03);
    expect(fit?.deviationMm).toBeLessThan(0.08);
    expect(fitPiece(flat(points), 0, 12, 0.03)).toBeNull();
  });

  it('points that go back along the edge are no edge', () => {
    expect(
      fitPiece(
        flat([
          [0, 0],
          [10, 0],
          [5, 0],
          [20, 0],
        ]),
        0,
        3,
        0.1,
      ),
    ).toBeNull();
    expect(
      fitPiece(
        flat([
          [0, 0],
          [10, 0],
          [9.9, 0],
          [20, 0],
        ]),
        0,
        3,
        0.1,
      ),
    ).not.toBeNull();
  });

  it('corners of a square, a hexagon or an octagon are not taken for a circle', () => {
    for (const n of [4, 6, 8]) expect(fitChain(onCircle(50, 0, 360 - 360 / n, n), 0.1).joints).toHaveLength(n);
  });
});

describe('a chain', () => {
  it('begins each piece where the one before ends, at points of the run', () => {
    const random = seeded(11);
    const points = onCircle(60, 0, 355, 72).map(([x, y]): XY => [x + between(random, -0.04, 0.04), y]);
    const { outline, joints } = fitChain(points, 0.1);
    outline.pieces.forEach((piece, k) => {
      const [x, y] = pieceEnd(piece);
      const [nx, ny] = pieceStart(outline.pieces[(k + 1) % outline.pieces.length]!);
      expect(Math.hypot(x - nx, y - ny)).toBeLessThan(1e-9);
      const [jx, jy] = points[joints[k]!]!;
      const [sx, sy] = pieceStart(piece);
      expect(Math.hypot(sx - jx, sy - jy)).toBeLessThan(1e-9);
    });
  });

  it('finds the eight edges of a box with round corners, wherever the points begin', () => {
    for (let seed = 1; seed <= fewer(20, 5); seed++) {
      const random = seeded(seed);
      const edges = roundedBox(random, 100);
      const shortest = Math.min(...edges.map(lengthOf));
      // Joints stand at points, so the edge that takes a point beyond its end must leave enough of the next.
      const points = edges.flatMap((e) => {
        const n = Math.max(8, Math.ceil(lengthOf(e) / (shortest / 6)));
        return Array.from({ length: n }, (_, k) => pointOf(e, k / n));
      });
      const turned = Math.floor(random() * points.length);
      const run = [...points.slice(turned), ...points.slice(0, turned)];
      const { outline, deviationsMm } = fitChain(run, 0.01);
      expect(outline.pieces.length, `seed ${seed}`).toBeLessThanOrEqual(9);
      expect(Math.max(...deviationsMm)).toBeLessThanOrEqual(0.01);
    }
  });
});

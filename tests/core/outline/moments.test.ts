import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { momentsOf } from '../../../src/core/outline/moments.ts';
import type { Outline } from '../../../src/core/outline/outline.ts';
import { bulgedPiece } from '../../../src/core/outline/outline.ts';
import { counterweightMomentLostKgMm } from '../../../src/core/shop/counterweightMoment.ts';

/** A ring sector between two radii, its middle on -y. */
function sector(inner: number, outer: number, half: number): Outline {
  const down = -Math.PI / 2;
  const at = (r: number, a: number): [number, number] => [r * Math.cos(down + a), r * Math.sin(down + a)];
  const [x0, y0] = at(inner, -half);
  const [x1, y1] = at(outer, -half);
  const [x2, y2] = at(outer, half);
  const [x3, y3] = at(inner, half);
  return {
    pieces: [
      { kind: 'line', x0, y0, x1, y1 },
      { kind: 'arc', cx: 0, cy: 0, r: outer, startRad: down - half, sweepRad: 2 * half },
      { kind: 'line', x0: x2, y0: y2, x1: x3, y1: y3 },
      { kind: 'arc', cx: 0, cy: 0, r: inner, startRad: down + half, sweepRad: -2 * half },
    ],
  };
}

describe('area and moments', () => {
  test('a disc beside the origin, by hand', () => {
    const disc: Outline = { pieces: [{ kind: 'arc', cx: 3, cy: -4, r: 2, startRad: 1, sweepRad: 2 * Math.PI }] };
    const m = momentsOf(disc);
    expect(m.areaMm2).toBeCloseTo(4 * Math.PI, 12);
    expect(m.xMm3).toBeCloseTo(12 * Math.PI, 12);
    expect(m.yMm3).toBeCloseTo(-16 * Math.PI, 12);
  });

  test('a triangle, by hand: centroid at the mean of its corners', () => {
    const corners = [
      [1, 1],
      [7, 2],
      [4, 9],
    ] as const;
    const pieces = corners.map(([x0, y0], k) => {
      const [x1, y1] = corners[(k + 1) % 3]!;
      return { kind: 'line' as const, x0, y0, x1, y1 };
    });
    const m = momentsOf({ pieces });
    expect(m.areaMm2).toBeCloseTo(22.5, 12);
    expect(m.xMm3 / m.areaMm2).toBeCloseTo(4, 12);
    expect(m.yMm3 / m.areaMm2).toBeCloseTo(4, 12);
  });

  test('a counterweight turned down over its whole arc loses what the closed form says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 100, noNaN: true }),
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 0.2, max: 1.5, noNaN: true }),
        (outer, off, half) => {
          const before = momentsOf(sector(20, outer, half));
          const after = momentsOf(sector(20, outer - off, half));
          const lost = counterweightMomentLostKgMm(outer, outer - off, half, 1, 1);
          expect(Math.abs((after.yMm3 - before.yMm3) / lost - 1)).toBeLessThan(1e-9);
          expect(Math.abs(before.xMm3)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test('an outline with arcs both ways against the polygon through many points of it', () => {
    const corner = [
      [0, 0, 0.3],
      [10, 1, -0.4],
      [12, 9, 0.2],
      [2, 11, -0.1],
    ] as const;
    const pieces = corner.map(([x0, y0, bulge], k) => {
      const [x1, y1] = corner[(k + 1) % 4]!;
      return bulgedPiece(x0, y0, x1, y1, bulge);
    });
    const points: [number, number][] = pieces.flatMap((p) =>
      p.kind === 'line'
        ? [[p.x0, p.y0] as [number, number]]
        : Array.from({ length: 4000 }, (_, k): [number, number] => {
            const t = p.startRad + (p.sweepRad * k) / 4000;
            return [p.cx + p.r * Math.cos(t), p.cy + p.r * Math.sin(t)];
          }),
    );
    let [area, x, y] = [0, 0, 0];
    points.forEach(([x0, y0], k) => {
      const [x1, y1] = points[(k + 1) % points.length]!;
      const cross = (x0 * y1 - x1 * y0) / 2;
      area += cross;
      x += (cross * (x0 + x1)) / 3;
      y += (cross * (y0 + y1)) / 3;
    });
    const m = momentsOf({ pieces });
    expect(Math.abs(m.areaMm2 / area - 1)).toBeLessThan(1e-6);
    expect(Math.abs(m.xMm3 / x - 1)).toBeLessThan(1e-6);
    expect(Math.abs(m.yMm3 / y - 1)).toBeLessThan(1e-6);
  });
});

import { describe, expect, test } from 'vitest';
import {
  ARCLEN,
  BR,
  BX,
  BY,
  CONCAVE,
  CONVEX,
  CORNER,
  type FlatOutline,
  flatten,
  LINE,
  STRIDE,
  X0,
  X1,
  Y0,
  Y1,
} from '../../../src/core/outline/flat.ts';
import { type NearestPlace, pointOnPiece, signedDistance } from '../../../src/core/outline/signedDistance.ts';
import { mirrorX } from '../../../src/core/outline/transform.ts';
import { areaOf } from '../../../src/core/outline/union.ts';
import { lengthOf, nearestOn, pointOf, shape, signedDistanceMm } from '../../oracle/plane.ts';
import { anyOutline, between, box, disc, hook, roundedBox, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';

const SEEDS = Array.from({ length: fewer(24, 8) }, (_, k) => 500 + k);
const field = (f: FlatOutline, piece: number, at: number): number => f.at[piece * STRIDE + at]!;

describe('packed outlines', () => {
  test.each(SEEDS)('keep length, joints and bounds; seed %d', (seed) => {
    const pieces = anyOutline(seeded(seed), 30);
    const f = flatten({ pieces });
    let length = 0;
    for (let i = 0; i < f.n; i++) {
      length += field(f, i, ARCLEN);
      const next = (i + 1) % f.n;
      expect(Math.hypot(field(f, i, X1) - field(f, next, X0), field(f, i, Y1) - field(f, next, Y0))).toBeLessThan(
        1e-12 * 100,
      );
      const p = { x: 0, y: 0 };
      for (const part of [0, 0.1, 0.5, 0.77, 1]) {
        pointOnPiece(f, i, part * field(f, i, ARCLEN), p);
        expect(Math.hypot(p.x - field(f, i, BX), p.y - field(f, i, BY))).toBeLessThanOrEqual(field(f, i, BR) + 1e-9);
        expect(Math.hypot(p.x - f.whole[BX]!, p.y - f.whole[BY]!)).toBeLessThanOrEqual(f.whole[BR]! + 1e-9);
        expect(Math.hypot(p.x, p.y)).toBeLessThanOrEqual(f.reachMm + 1e-9);
      }
    }
    expect(length).toBeCloseTo(
      pieces.reduce((s, e) => s + lengthOf(e), 0),
      9,
    );
  });

  test('a full circle is cut so that every piece turns through less than 115 degrees', () => {
    const f = flatten({ pieces: disc(1, 2, 10) });
    expect(f.n).toBe(4);
    for (let i = 0; i < 4; i++) {
      expect(f.kind[i]).toBe(CONVEX);
      expect(field(f, i, ARCLEN)).toBeCloseTo(5 * Math.PI, 9);
      expect(field(f, i, CORNER)).toBe(0);
    }
  });

  test('corners: convex, smooth and reflex', () => {
    const square = flatten({ pieces: box(0, 0, 2, 2) });
    expect([0, 1, 2, 3].map((i) => field(square, i, CORNER))).toEqual([1, 1, 1, 1]);
    const smooth = flatten({ pieces: roundedBox(seeded(9), 20) });
    for (let i = 0; i < smooth.n; i++) expect(field(smooth, i, CORNER)).toBe(0);
    // An L: one reflex corner, where the fourth edge begins.
    const line = (x0: number, y0: number, x1: number, y1: number) => ({ kind: 'line', x0, y0, x1, y1 }) as const;
    const ell = flatten({
      pieces: [
        line(0, 0, 4, 0),
        line(4, 0, 4, 1),
        line(4, 1, 1, 1),
        line(1, 1, 1, 4),
        line(1, 4, 0, 4),
        line(0, 4, 0, 0),
      ],
    });
    expect([0, 1, 2, 3, 4, 5].map((i) => field(ell, i, CORNER))).toEqual([1, 1, 1, -1, 1, 1]);
  });

  test('inner arcs are concave', () => {
    const kinds = [...flatten({ pieces: hook(seeded(3), 20) }).kind];
    expect(new Set(kinds)).toEqual(new Set([CONVEX, LINE, CONCAVE]));
  });
});

describe('distance of a point from an outline, with its sign', () => {
  test.each(SEEDS)('against the even-odd rule and every edge asked; seed %d', (seed) => {
    const random = seeded(seed);
    const pieces = anyOutline(random, 30);
    const f = flatten({ pieces });
    const s = shape(pieces);
    const place: NearestPlace = { x: 0, y: 0, piece: 0, corner: false };
    for (let k = 0; k < fewer(300, 40); k++) {
      const [x, y] = [between(random, -45, 45), between(random, -45, 45)];
      const sd = signedDistance(f, x, y, place);
      expect(Math.abs(sd - signedDistanceMm(s, x, y))).toBeLessThan(1e-9);
      expect(Math.abs(Math.hypot(place.x - x, place.y - y) - Math.abs(sd))).toBeLessThan(1e-9);
      const foot = nearestOn(s, place.x, place.y);
      expect(Math.hypot(foot[0] - place.x, foot[1] - place.y)).toBeLessThan(1e-9);
    }
  });

  test.each(SEEDS)('a micrometre to either side of the edge; seed %d', (seed) => {
    const pieces = anyOutline(seeded(seed), 30);
    const f = flatten({ pieces });
    const place: NearestPlace = { x: 0, y: 0, piece: 0, corner: false };
    for (const e of pieces) {
      for (const part of [0.2, 0.5, 0.83]) {
        const [x, y] = pointOf(e, part);
        const [ax, ay] = pointOf(e, part - 1e-4);
        const [bx, by] = pointOf(e, part + 1e-4);
        const len = Math.hypot(bx - ax, by - ay);
        // Outward is to the right of travel.
        const [nx, ny] = [(by - ay) / len, -(bx - ax) / len];
        expect(signedDistance(f, x + 1e-3 * nx, y + 1e-3 * ny, place)).toBeCloseTo(1e-3, 9);
        expect(signedDistance(f, x - 1e-3 * nx, y - 1e-3 * ny, place)).toBeCloseTo(-1e-3, 9);
      }
    }
  });
});

test.each(SEEDS.slice(0, 8))('the mirror image keeps its area, its sense and its distances; seed %d', (seed) => {
  const random = seeded(seed);
  const pieces = anyOutline(random, 30);
  const image = mirrorX({ pieces });
  expect(areaOf(image.pieces)).toBeCloseTo(areaOf(pieces), 9);
  const [s, m] = [shape(pieces), shape(image.pieces)];
  for (let k = 0; k < fewer(50, 16); k++) {
    const [x, y] = [between(random, -40, 40), between(random, -40, 40)];
    expect(signedDistanceMm(m, -x, y)).toBeCloseTo(signedDistanceMm(s, x, y), 9);
  }
});

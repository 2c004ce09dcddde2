import Flatten from '@flatten-js/core';
import { describe, expect, test } from 'vitest';
import type { Piece } from '../../../src/core/outline/outline.ts';
import type { Shape } from '../../oracle/plane.ts';
import { gapOf, inside, placed, pointOf, shape, signedDistanceMm } from '../../oracle/plane.ts';
import { anyOutline, between, disc, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';
import { gapBetween, type Stand } from './standing.ts';

const SEEDS = [11, 12, 13, 14];
const PER_SEED = fewer(60, 16);

interface Pair {
  readonly a: Required<Stand>;
  readonly b: Required<Stand>;
  /** The same outlines in place, for the checks. */
  readonly placedA: Shape;
  readonly placedB: Shape;
}

function at(s: Stand): Shape {
  return placed(shape(s.pieces), s.x ?? 0, s.y ?? 0, s.turnRad ?? 0);
}

/** Random outlines up to 40 mm about their origins, from overlapping to 60 mm apart. */
function pairsOf(seed: number, count: number): Pair[] {
  const random = seeded(seed);
  const stand = (): Required<Stand> => ({
    pieces: anyOutline(random, between(random, 10, 40)),
    x: between(random, -60, 60),
    y: between(random, -60, 60),
    turnRad: between(random, -4, 4),
  });
  return Array.from({ length: count }, () => {
    const [a, b] = [stand(), stand()];
    return { a, b, placedA: at(a), placedB: at(b) };
  });
}

/** The general-purpose library's polygon of a placed outline. Its arcs take angles within a turn; true means counterclockwise. */
function libraryPolygon(s: Shape): Flatten.Polygon {
  const TURN = 2 * Math.PI;
  const wrap = (a: number): number => ((a % TURN) + TURN) % TURN;
  const edges = s.edges.map((e) =>
    e.kind === 'line'
      ? new Flatten.Segment(new Flatten.Point(e.x0, e.y0), new Flatten.Point(e.x1, e.y1))
      : new Flatten.Arc(
          new Flatten.Point(e.cx, e.cy),
          e.r,
          wrap(e.startRad),
          wrap(e.startRad + e.sweepRad),
          e.sweepRad > 0,
        ),
  );
  const polygon = new Flatten.Polygon();
  polygon.addFace(edges);
  return polygon;
}

/** Does either outline hold a point of the other. */
function nested(p: Pair): boolean {
  const [ax, ay] = pointOf(p.placedA.edges[0]!, 0);
  const [bx, by] = pointOf(p.placedB.edges[0]!, 0);
  return inside(p.placedB, ax, ay) || inside(p.placedA, bx, by);
}

describe('distance of random outlines against a general-purpose library (@flatten-js/core 1.6.15)', () => {
  test.each(SEEDS)('seed %d', (seed) => {
    let apart = 0;
    let crossing = 0;
    for (const p of pairsOf(seed, PER_SEED)) {
      const [library] = libraryPolygon(p.placedA).distanceTo(libraryPolygon(p.placedB));
      const g = gapBetween(p.a, p.b);
      // The library gives 0 where edges cross, and the gap to the wall where one outline lies inside the other.
      const overlapping = library === 0 || nested(p);
      expect(g.overlapping).toBe(overlapping);
      if (overlapping) {
        crossing += 1;
        expect(g.gapMm).toBeLessThan(0);
        continue;
      }
      apart += 1;
      // The library takes the least over edges with a tolerance of 1e-6.
      expect(Math.abs(g.gapMm - library)).toBeLessThan(2e-6);
    }
    expect(apart).toBeGreaterThan(fewer(PER_SEED / 4, 0));
    expect(crossing).toBeGreaterThan(fewer(3, 0));
  });
});

describe('signed gap of random outlines against trying points of them', () => {
  test.each(SEEDS)('seed %d', (seed) => {
    for (const p of pairsOf(seed + 100, fewer(30, 8))) {
      const tried = gapOf(p.placedA, p.placedB, 1);
      const g = gapBetween(p.a, p.b);
      // The points tried are real ones: their gap is never below the true one, and misses it by what refining leaves.
      expect(g.gapMm).toBeLessThan(tried.gapMm + 1.1e-5);
      expect(g.gapMm).toBeGreaterThan(tried.gapMm - 1e-4);
    }
  });
});

describe('witness points', () => {
  test.each(SEEDS)('lie on their outlines, as far apart as the gap says; seed %d', (seed) => {
    for (const p of pairsOf(seed + 200, PER_SEED)) {
      const g = gapBetween(p.a, p.b);
      expect(Math.abs(signedDistanceMm(p.placedA, g.ax, g.ay))).toBeLessThan(1e-9);
      expect(Math.abs(signedDistanceMm(p.placedB, g.bx, g.by))).toBeLessThan(1e-9);
      expect(Math.abs(Math.hypot(g.ax - g.bx, g.ay - g.by) - Math.abs(g.gapMm))).toBeLessThan(1e-9);
    }
  });
});

/** Depth is searched to 1e-5 mm; distances are exact to rounding. */
function same(value: number, expected: number, scale = 1): void {
  expect(Math.abs(value - expected)).toBeLessThan((expected < 0 ? 2.2e-5 : 1e-9) * scale);
}

/** Mirror image in the y axis, counterclockwise again. */
function mirrored(pieces: readonly Piece[]): Piece[] {
  return pieces
    .map(
      (e): Piece =>
        e.kind === 'line'
          ? { kind: 'line', x0: -e.x1, y0: e.y1, x1: -e.x0, y1: e.y0 }
          : { ...e, cx: -e.cx, startRad: Math.PI - e.startRad - e.sweepRad },
    )
    .reverse();
}

function scaled(s: Required<Stand>, k: number): Required<Stand> {
  const pieces = s.pieces.map(
    (e): Piece =>
      e.kind === 'line'
        ? { kind: 'line', x0: k * e.x0, y0: k * e.y0, x1: k * e.x1, y1: k * e.y1 }
        : { ...e, cx: k * e.cx, cy: k * e.cy, r: k * e.r },
  );
  return { pieces, x: k * s.x, y: k * s.y, turnRad: s.turnRad };
}

describe('what cannot change the gap', () => {
  test.each(SEEDS)('bodies exchanged, moved together, mirrored, scaled; seed %d', (seed) => {
    const random = seeded(seed + 300);
    for (const { a, b } of pairsOf(seed + 301, fewer(40, 10))) {
      const gap = gapBetween(a, b).gapMm;
      same(gapBetween(b, a).gapMm, gap);
      const turn = between(random, -3, 3);
      const [dx, dy] = [between(random, -50, 50), between(random, -50, 50)];
      const moved = (s: Required<Stand>): Stand => ({
        pieces: s.pieces,
        x: dx + Math.cos(turn) * s.x + Math.sin(turn) * s.y,
        y: dy - Math.sin(turn) * s.x + Math.cos(turn) * s.y,
        turnRad: s.turnRad + turn,
      });
      same(gapBetween(moved(a), moved(b)).gapMm, gap);
      const mirror = (s: Required<Stand>): Stand => ({
        pieces: mirrored(s.pieces),
        x: -s.x,
        y: s.y,
        turnRad: -s.turnRad,
      });
      same(gapBetween(mirror(a), mirror(b)).gapMm, gap);
      same(gapBetween(scaled(a, 25.4), scaled(b, 25.4)).gapMm, gap * 25.4, 25.4);
    }
  });
});

describe('a body that grows', () => {
  test.each(SEEDS)('never widens the gap, and never comes apart again; seed %d', (seed) => {
    const random = seeded(seed + 400);
    for (const { a, placedA } of pairsOf(seed + 401, fewer(40, 10))) {
      let met = false;
      const [x, y] = [between(random, -60, 60), between(random, -60, 60)];
      for (const r of [2, 5, 9, 14, 20, 30]) {
        const g = gapBetween(a, { pieces: disc(0, 0, r), x, y });
        // A disc's distance is its centre's less the radius: it falls by exactly what is added.
        const expected = signedDistanceMm(placedA, x, y) - r;
        if (expected > 0) expect(g.gapMm).toBeCloseTo(expected, 9);
        else met = true;
        expect(g.overlapping).toBe(met);
        if (met) expect(g.gapMm).toBeLessThan(0);
      }
    }
  });
});

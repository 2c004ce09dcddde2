/** The part of an outline on one side of a level line: areas by hand, and where it is more than one part. */
import { describe, expect, it } from 'vitest';
import { clipLevel } from '../../../src/core/outline/clip.ts';
import type { Outline } from '../../../src/core/outline/outline.ts';
import { box, disc, Path } from '../../../src/core/outline/path.ts';
import { areaOf } from '../../../src/core/outline/union.ts';
import { shape, signedDistanceMm } from '../../oracle/plane.ts';
import { between, roundedBox, seeded } from '../../oracle/random.ts';
import { fewer } from '../../support/fewer.ts';

const area = (o: Outline | null): number => (o === null ? Number.NaN : areaOf(o.pieces));

describe('clipped at a level', () => {
  it('a disc of radius 10 at its middle and at half its radius: half a circle, and a segment r² (acos(1/2) - √3/4)', () => {
    expect(area(clipLevel(disc(3, 0, 10), 0, 'below'))).toBeCloseTo(50 * Math.PI, 9);
    expect(area(clipLevel(disc(3, 0, 10), 0, 'above'))).toBeCloseTo(50 * Math.PI, 9);
    const segment = 100 * (Math.PI / 3 - Math.sqrt(3) / 4);
    expect(area(clipLevel(disc(0, 0, 10), 5, 'above'))).toBeCloseTo(segment, 9);
    expect(area(clipLevel(disc(0, 0, 10), 5, 'below'))).toBeCloseTo(100 * Math.PI - segment, 9);
  });

  it('a box, also along its own edges: whole where nothing lies beyond, null where nothing is left', () => {
    const b = box(0, 0, 4, 10);
    expect(area(clipLevel(b, 3, 'below'))).toBeCloseTo(12, 12);
    expect(area(clipLevel(b, 3, 'above'))).toBeCloseTo(28, 12);
    expect(clipLevel(b, 10, 'below')).toBe(b);
    expect(clipLevel(b, 11, 'above')).toBeNull();
    expect(clipLevel(b, -1, 'below')).toBeNull();
  });

  it('two legs are two parts, and what joins them is one', () => {
    const fork = new Path(0, 0).line(2, 0).line(2, 5).line(6, 5).line(6, 0).line(8, 0).line(8, 9).line(0, 9).close();
    expect(clipLevel(fork, 3, 'below')).toBeNull();
    expect(clipLevel(fork, 3, 'above')).toBeNull();
    expect(area(clipLevel(fork, 7, 'above'))).toBeCloseTo(16, 12);
  });

  it('a disc of a single arc, begun at its top or its side and run either way', () => {
    const segment = 100 * (Math.PI / 3 - Math.sqrt(3) / 4);
    for (const [startRad, sweepRad] of [
      [Math.PI / 2, 2 * Math.PI],
      [0, 2 * Math.PI],
      [Math.PI / 2, -2 * Math.PI],
      [-1, -2 * Math.PI],
    ] as const) {
      const whole: Outline = { pieces: [{ kind: 'arc', cx: 3, cy: -2, r: 10, startRad, sweepRad }] };
      const below = clipLevel(whole, 3, 'below');
      expect(Math.abs(area(below)), `${startRad} ${sweepRad}`).toBeCloseTo(100 * Math.PI - segment, 9);
      expect(Math.abs(area(clipLevel(whole, -7, 'below'))), `${startRad} ${sweepRad}`).toBeCloseTo(segment, 9);
    }
  });

  it('a level that meets the circle of a rounded corner, not the corner', () => {
    // A square of 10 with one corner of radius 3 about (7, 7); the level 6 cuts the sides alone.
    const arc = { kind: 'arc', cx: 7, cy: 7, r: 3, startRad: 0, sweepRad: Math.PI / 2 } as const;
    const line = (x0: number, y0: number, x1: number, y1: number) => ({ kind: 'line', x0, y0, x1, y1 }) as const;
    const square: Outline = {
      pieces: [line(0, 0, 10, 0), line(10, 0, 10, 7), arc, line(7, 10, 0, 10), line(0, 10, 0, 0)],
    };
    expect(area(clipLevel(square, 6, 'below'))).toBeCloseTo(60, 12);
    expect(area(clipLevel(square, 6, 'above'))).toBeCloseTo(40 - (9 - (9 * Math.PI) / 4), 12);
    // Along the seam of corner and side nothing is cut but the other side.
    expect(area(clipLevel(square, 7, 'below'))).toBeCloseTo(70, 12);
  });

  it('both parts together are the whole, and hold every point of theirs (seeded)', () => {
    const random = seeded(9);
    for (let k = 0; k < fewer(60, 12); k++) {
      const o: Outline = { pieces: roundedBox(random, 50) };
      const y = between(random, -12, 12);
      const [below, above] = [clipLevel(o, y, 'below')!, clipLevel(o, y, 'above')!];
      expect(area(below) + area(above)).toBeCloseTo(area(o), 8);
      const [w, b, a] = [shape(o.pieces), shape(below.pieces), shape(above.pieces)];
      for (let n = 0; n < 20; n++) {
        const [px, py] = [between(random, -50, 50), between(random, -50, 50)];
        if (Math.abs(py - y) < 1e-6 || Math.abs(signedDistanceMm(w, px, py)) < 1e-6) continue;
        expect(signedDistanceMm(py < y ? b : a, px, py) < 0).toBe(signedDistanceMm(w, px, py) < 0);
      }
    }
  });
});

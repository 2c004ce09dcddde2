/**
 * Section hatching against geometry known otherwise: the strokes' total length times their spacing tends to the area
 * (Cavalieri), and every stroke lies inside the outline and outside its holes.
 */
import { describe, expect, it } from 'vitest';
import type { Outline } from '../../src/core/outline/outline.ts';
import { dashStrokes } from '../../src/view/scene/dashes.ts';
import { hatchStrokes } from '../../src/view/scene/hatch.ts';
import { outlinePoints } from '../../src/view/scene/tessellate.ts';

const disc = (r: number, cx = 0, cy = 0): Outline => ({
  pieces: [{ kind: 'arc', cx, cy, r, startRad: 0.3, sweepRad: 2 * Math.PI }],
});
const square = (half: number): Outline => ({
  pieces: [
    { kind: 'line', x0: -half, y0: -half, x1: half, y1: -half },
    { kind: 'line', x0: half, y0: -half, x1: half, y1: half },
    { kind: 'line', x0: half, y0: half, x1: -half, y1: half },
    { kind: 'line', x0: -half, y0: half, x1: -half, y1: -half },
  ],
});
/** A half disc on a half square: lines and an arc that meet where the hatching may run through the corner. */
const arch: Outline = {
  pieces: [
    { kind: 'line', x0: -10, y0: 0, x1: -10, y1: -10 },
    { kind: 'line', x0: -10, y0: -10, x1: 10, y1: -10 },
    { kind: 'line', x0: 10, y0: -10, x1: 10, y1: 0 },
    { kind: 'arc', cx: 0, cy: 0, r: 10, startRad: 0, sweepRad: Math.PI },
  ],
};

function areaByStrokes(strokes: readonly number[], spacing: number): number {
  let length = 0;
  for (let k = 0; k < strokes.length; k += 4) {
    length += Math.hypot(strokes[k + 2]! - strokes[k]!, strokes[k + 3]! - strokes[k + 1]!);
  }
  return length * spacing;
}

describe('hatching', () => {
  const slopes = [0, 30, 45, 90, 135, -45, 200].map((deg) => (deg * Math.PI) / 180);

  it.each(slopes)('covers the area at slope %f', (slope) => {
    const spacing = 0.05;
    for (const [outlines, area] of [
      [[disc(10, 3, -2)], Math.PI * 100],
      [[disc(10), disc(4, 2, 1)], Math.PI * (100 - 16)],
      [[square(10), disc(5)], 400 - Math.PI * 25],
      [[arch], 200 + Math.PI * 50],
    ] as const) {
      expect(Math.abs(areaByStrokes(hatchStrokes(outlines, slope, spacing), spacing) / area - 1)).toBeLessThan(0.01);
    }
  });

  it('keeps inside the outline and outside the hole', () => {
    const strokes = hatchStrokes([disc(10), disc(4, 2, 1)], 0.7, 0.3);
    for (let k = 0; k < strokes.length; k += 4) {
      for (const part of [0.001, 0.25, 0.5, 0.75, 0.999]) {
        const x = strokes[k]! + part * (strokes[k + 2]! - strokes[k]!);
        const y = strokes[k + 1]! + part * (strokes[k + 3]! - strokes[k + 1]!);
        expect(Math.hypot(x, y)).toBeLessThan(10 + 1e-9);
        expect(Math.hypot(x - 2, y - 1)).toBeGreaterThan(4 - 1e-9);
      }
    }
  });

  it('does not run astray where a line meets a corner exactly', () => {
    const strokes = hatchStrokes([square(10)], Math.PI / 4, 10 * Math.SQRT2);
    for (const v of strokes) expect(Math.abs(v)).toBeLessThanOrEqual(10 + 1e-9);
  });

  it('refuses a spacing that is none', () => {
    expect(() => hatchStrokes([square(1)], 0, 0)).toThrow(RangeError);
  });
});

describe('drawn copies of outlines', () => {
  it('keep their chords within a twelfth of a pixel of the arc, at any scale', () => {
    for (const scale of [0.5, 3, 40]) {
      const points = outlinePoints(disc(50), scale);
      for (let k = 0; k < points.length; k += 2) {
        const n = (k + 2) % points.length;
        const middle = Math.hypot((points[k]! + points[n]!) / 2, (points[k + 1]! + points[n + 1]!) / 2);
        expect(50 * scale - middle).toBeLessThan(1 / 12);
      }
    }
  });
  it('turn y over once', () => {
    const points = outlinePoints(square(1), 2);
    expect(points.slice(0, 2)).toEqual([-2, 2]);
  });
});

describe('dashes', () => {
  it('draw the pattern in turn, round a corner too', () => {
    const strokes = dashStrokes([0, 0, 10, 0, 10, 10], false, [6, 2]);
    let drawn = 0;
    for (let k = 0; k < strokes.length; k += 4)
      drawn += Math.hypot(strokes[k + 2]! - strokes[k]!, strokes[k + 3]! - strokes[k + 1]!);
    // 20 px of line: dashes 0 to 6, 8 to 14, 16 to 20.
    expect(drawn).toBeCloseTo(16, 12);
  });
});

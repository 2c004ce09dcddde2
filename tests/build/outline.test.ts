import { describe, expect, it } from 'vitest';
import { outlineAreaMm2, outlineFault } from '../../src/build/outlineFault.ts';
import { outlinePieces } from '../../src/build/outlinePieces.ts';
import { pieceEnd, pieceStart } from '../../src/core/outline/outline.ts';
import { dim } from '../support/exampleBuild.ts';

type P = readonly [x: number, y: number, bulge?: number];

const points = (...list: readonly P[]) =>
  list.map(([x, y, bulge]) => ({
    x: dim(`${x} mm`),
    y: dim(`${y} mm`),
    ...(bulge === undefined ? {} : { bulge }),
  }));

/** Bulge of a quarter circle, tan(90 / 4 degrees). */
const QUARTER = Math.SQRT2 - 1;

describe('pieces', () => {
  it('a bulge of 1 is a half circle turning counterclockwise', () => {
    const [arc] = outlinePieces(points([10, 0, 1], [-10, 0])).pieces;
    expect(arc).toMatchObject({ kind: 'arc', r: 10 });
    if (arc?.kind !== 'arc') throw new Error('no arc');
    expect(arc.cx).toBeCloseTo(0, 12);
    expect(arc.cy).toBeCloseTo(0, 12);
    expect(arc.sweepRad).toBeCloseTo(Math.PI, 12);
  });

  it('a quarter circle has its centre where it belongs, whichever way it turns', () => {
    for (const [bulge, cx, cy] of [
      [QUARTER, 0, 0],
      [-QUARTER, 10, 10],
    ] as const) {
      const [arc] = outlinePieces(points([10, 0, bulge], [0, 10], [-50, -50])).pieces;
      if (arc?.kind !== 'arc') throw new Error('no arc');
      expect(arc.cx).toBeCloseTo(cx, 12);
      expect(arc.cy).toBeCloseTo(cy, 12);
      expect(arc.r).toBeCloseTo(10, 12);
      expect(arc.sweepRad).toBeCloseTo((Math.sign(bulge) * Math.PI) / 2, 12);
    }
  });

  it('each piece begins where the one before ends', () => {
    const { pieces } = outlinePieces(points([30, 0, 0.3], [5, 20, -0.4], [-20, 15, 0.9], [-18, -12]));
    pieces.forEach((piece, k) => {
      const [x, y] = pieceEnd(piece);
      const [x1, y1] = pieceStart(pieces[(k + 1) % pieces.length]!);
      expect(Math.hypot(x - x1, y - y1)).toBeLessThan(1e-12);
    });
  });

  it('areas of a square, a circle, a slot and a square with a quarter bitten out', () => {
    const area = (...list: readonly P[]) => outlineAreaMm2(outlinePieces(points(...list)));
    expect(area([0, 0], [10, 0], [10, 10], [0, 10])).toBeCloseTo(100, 10);
    expect(area([10, 0, 1], [-10, 0, 1])).toBeCloseTo(100 * Math.PI, 10);
    expect(area([0, -5], [20, -5, 1], [20, 5], [0, 5, 1])).toBeCloseTo(200 + 25 * Math.PI, 10);
    expect(area([0, 0], [10, 0, -QUARTER], [0, 10])).toBeCloseTo(100 - 25 * Math.PI, 10);
  });
});

describe('faults', () => {
  it.each<[string, readonly P[]]>([
    [
      'a square',
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 10],
      ],
    ],
    [
      'a circle of two halves',
      [
        [10, 0, 1],
        [-10, 0, 1],
      ],
    ],
    [
      'a slot, its ends tangent to its sides',
      [
        [0, -5],
        [20, -5, 1],
        [20, 5],
        [0, 5, 1],
      ],
    ],
    [
      'a concave corner',
      [
        [0, 0],
        [10, 0, -QUARTER],
        [0, 10],
      ],
    ],
    [
      'an annular sector',
      [
        [20, 0, QUARTER],
        [0, 20],
        [0, 10, -QUARTER],
        [10, 0],
      ],
    ],
    [
      'an edge just long enough',
      [
        [0, 0],
        [10, 0],
        [10, 0.01],
        [0, 10],
      ],
    ],
    [
      'a straight line in two pieces',
      [
        [0, 0],
        [5, 0],
        [10, 0],
        [10, 10],
      ],
    ],
  ])('none: %s', (_, list) => {
    expect(outlineFault(points(...list))).toBeNull();
  });

  it.each<[string, string, readonly P[]]>([
    [
      'a bow tie',
      'crossing',
      [
        [0, 0],
        [10, 10],
        [10, 0],
        [0, 10],
      ],
    ],
    // Half circle over the top edge, bending down to y = 5; the notch's tip reaches y = 6.
    [
      'an arc through a straight edge',
      'crossing',
      [
        [0, 0],
        [4, 0],
        [5, 6],
        [6, 0],
        [10, 0],
        [10, 10, -1],
        [0, 10],
      ],
    ],
    [
      'an arc that touches a straight edge',
      'crossing',
      [
        [0, 0],
        [10, 0],
        [10, 5, -1],
        [0, 5],
      ],
    ],
    // Circles of radius 6 about (-5, 0) and (5, 0) overlap between x = -1 and 1.
    [
      'two arcs bending into one another',
      'crossing',
      [
        [-5, -6, 1],
        [-5, 6],
        [-5, 20],
        [5, 20],
        [5, 6, 1],
        [5, -6],
        [5, -20],
        [-5, -20],
      ],
    ],
    [
      'an edge back along the one before',
      'crossing',
      [
        [0, 0],
        [10, 0],
        [4, 0],
        [4, 8],
      ],
    ],
    [
      'an arc back along the one before',
      'crossing',
      [
        [10, 0, 1],
        [-10, 0, -1],
      ],
    ],
    [
      'a point on a far edge',
      'crossing',
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [5, 0],
        [0, 10],
      ],
    ],
    [
      'a clockwise square',
      'clockwise',
      [
        [0, 10],
        [10, 10],
        [10, 0],
        [0, 0],
      ],
    ],
    [
      'a clockwise circle',
      'clockwise',
      [
        [10, 0, -1],
        [-10, 0, -1],
      ],
    ],
    [
      'a sliver',
      'tiny',
      [
        [0, 0],
        [10, 0],
        [10, 0.199],
      ],
    ],
    [
      'a point given twice',
      'short edge',
      [
        [0, 0],
        [10, 0],
        [10, 0],
        [0, 10],
      ],
    ],
    [
      'the first point again at the end',
      'short edge',
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 0],
      ],
    ],
    [
      'an edge just too short',
      'short edge',
      [
        [0, 0],
        [10, 0],
        [10, 0.0099],
        [0, 10],
      ],
    ],
  ])('%s: %s', (_, kind, list) => {
    expect(outlineFault(points(...list))?.kind).toBe(kind);
  });
});

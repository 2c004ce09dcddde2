/**
 * Drawings written by hand after "Drawing Interchange and File Formats", Release 12 (1992): section structure, group codes of
 * LINE (10 20, 11 21), ARC (10 20 40 50 51), CIRCLE (10 20 40), POLYLINE (66 70) with VERTEX (10 20 42) and SEQEND, and the
 * extrusion direction 210 220 230. Areas and distances are found by hand or by tests/oracle/plane.ts.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DxfOptions, type DxfOutline, readOutlineDxf } from '../../src/exchange/readDxf.ts';
import { type FileUnit, fileProblemSentence } from '../../src/exchange/units.ts';
import { inside, lengthOf, nearestOn, pointOf, shape, signedDistanceMm } from '../oracle/plane.ts';
import { seeded } from '../oracle/random.ts';

const dxf = (...groups: readonly (string | number)[]): string => `${groups.join('\n')}\n`;
const file = (...entities: readonly (readonly (string | number)[])[]): string =>
  dxf(0, 'SECTION', 2, 'ENTITIES', ...entities.flat(), 0, 'ENDSEC', 0, 'EOF');
const line = (x0: number, y0: number, x1: number, y1: number, layer = '0') => [
  ...[0, 'LINE', 8, layer, 10, x0, 20, y0, 30, 0, 11, x1, 21, y1, 31, 0],
];
const arc = (x: number, y: number, r: number, from: number, to: number, ...more: (string | number)[]) => [
  ...[0, 'ARC', 8, '0', 10, x, 20, y, 30, 0, 40, r, 50, from, 51, to, ...more],
];
const circle = (x: number, y: number, r: number, layer = '0') => [0, 'CIRCLE', 8, layer, 10, x, 20, y, 30, 0, 40, r];
const polyline = (closed: 0 | 1, vertices: readonly (readonly [number, number, number?])[], layer = '0') => [
  ...[0, 'POLYLINE', 8, layer, 66, 1, 10, 0, 20, 0, 30, 0, 70, closed],
  ...vertices.flatMap(([x, y, bulge]) => [0, 'VERTEX', 8, layer, 10, x, 20, y, 30, 0, ...(bulge ? [42, bulge] : [])]),
  ...[0, 'SEQEND', 8, layer],
];

const read = (text: string, unit: FileUnit | null = 'mm', options?: DxfOptions): DxfOutline => {
  const result = readOutlineDxf(text, unit ?? undefined, options);
  if (!result.ok) throw new Error(result.problems.map(fileProblemSentence).join('\n'));
  return result;
};
const problems = (text: string, unit: FileUnit | null = 'mm', options?: DxfOptions) => {
  const result = readOutlineDxf(text, unit ?? undefined, options);
  return result.ok ? [] : result.problems;
};
const around = (o: DxfOutline) => o.outline.pieces.reduce((sum, p) => sum + lengthOf(p), 0);
const chained = (o: DxfOutline) => {
  o.outline.pieces.forEach((p, k) => {
    const [x, y] = pointOf(p, 1);
    const [nx, ny] = pointOf(o.outline.pieces[(k + 1) % o.outline.pieces.length]!, 0);
    expect(Math.hypot(x - nx, y - ny)).toBeLessThan(1e-9);
  });
};

/** A slot 40 long and 20 wide about the origin: round ends of radius 10. */
const SLOT = [line(-10, -10, 10, -10), arc(10, 0, 10, 270, 90), line(10, 10, -10, 10), arc(-10, 0, 10, 90, 270)];
const QUARTER = Math.SQRT2 - 1;

describe('one loop', () => {
  it('a slot of lines and arcs, in any order and any direction', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }), fc.boolean(), (order, flipped) => {
        const parts = [...SLOT];
        if (flipped) parts[0] = line(10, -10, -10, -10);
        const slot = read(file(...order.map((k) => parts[k]!)));
        chained(slot);
        expect(around(slot)).toBeCloseTo(40 + 20 * Math.PI, 9);
        const s = shape(slot.outline.pieces);
        expect(signedDistanceMm(s, 0, 0)).toBeCloseTo(-10, 9);
        expect(signedDistanceMm(s, 30, 0)).toBeCloseTo(10, 9);
        expect(signedDistanceMm(s, -20, 10)).toBeCloseTo(Math.hypot(10, 10) - 10, 9);
        // Counterclockwise: every arc of a slot is convex.
        for (const p of slot.outline.pieces) if (p.kind === 'arc') expect(p.sweepRad).toBeGreaterThan(0);
      }),
      { seed: 77, numRuns: 48 },
    );
  });

  it('a polyline with bulges: the same slot, closed by its flag, clockwise or not', () => {
    const vertices = [
      [-10, -10],
      [10, -10, 1],
      [10, 10],
      [-10, 10, 1],
    ] as const;
    const slot = read(file(polyline(1, vertices)));
    expect(slot.reversed).toBe(false);
    expect(around(slot)).toBeCloseTo(40 + 20 * Math.PI, 9);
    const clockwise = read(
      file(
        polyline(1, [
          [-10, 10],
          [10, 10, -1],
          [10, -10],
          [-10, -10, -1],
        ]),
      ),
    );
    expect(clockwise.reversed).toBe(true);
    expect(around(clockwise)).toBeCloseTo(40 + 20 * Math.PI, 9);
    expect(signedDistanceMm(shape(clockwise.outline.pieces), 19, 0)).toBeCloseTo(-1, 9);
  });

  it('open polylines and lines join; a last vertex that repeats the first closes', () => {
    const corner = read(
      file(
        polyline(0, [
          [0, 0],
          [10, 0],
          [10, 10],
        ]),
        line(0, 0, 0, 10),
        line(0, 10, 10, 10),
      ),
    );
    expect(around(corner)).toBeCloseTo(40, 12);
    expect(
      around(
        read(
          file(
            polyline(1, [
              [0, 0],
              [10, 0],
              [10, 10],
              [0, 0],
            ]),
          ),
        ),
      ),
    ).toBeCloseTo(20 + 10 * Math.SQRT2, 12);
  });

  it('a quarter bitten out of a square by a negative bulge', () => {
    const bitten = read(
      file(
        polyline(1, [
          [0, 0],
          [10, 0, -QUARTER],
          [0, 10],
        ]),
      ),
    );
    const s = shape(bitten.outline.pieces);
    // The bite is round about (10, 10).
    expect(signedDistanceMm(s, 10, 10)).toBeCloseTo(10, 9);
    expect(inside(s, 2, 2)).toBe(true);
  });

  it('an arc of three quarters by a bulge above one', () => {
    // Included angle 270 degrees: tan 67.5 degrees; from (10, 0) round the origin to (0, -10).
    const cut = read(
      file(
        polyline(1, [
          [10, 0, Math.SQRT2 + 1],
          [0, -10],
        ]),
      ),
    );
    expect(around(cut)).toBeCloseTo(15 * Math.PI + 10 * Math.SQRT2, 9);
    expect(inside(shape(cut.outline.pieces), 0, 0)).toBe(true);
  });

  it('a light polyline', () => {
    const light = [0, 'LWPOLYLINE', 8, '0', 90, 4, 70, 1, 38, 0, 10, -10, 20, -10, 10, 10, 20, -10, 42, 1];
    const slot = read(file([...light, 10, 10, 20, 10, 10, -10, 20, 10, 42, 1]));
    expect(around(slot)).toBeCloseTo(40 + 20 * Math.PI, 9);
  });

  it('a circle, in inches', () => {
    const disc = read(file(circle(1, 0, 2)), 'in');
    expect(disc.outline.pieces).toEqual([
      { kind: 'arc', cx: 25.4, cy: 0, r: 50.8, startRad: 0, sweepRad: 2 * Math.PI },
    ]);
  });

  it('seen from below, x is mirrored and arcs run the other way', () => {
    // Quarter disc in the second quadrant, its arc drawn in the first and seen from below; lines are as they stand.
    const quarter = read(file(arc(0, 0, 10, 0, 90, 210, 0, 220, 0, 230, -1), line(0, 0, -10, 0), line(0, 10, 0, 0)));
    const s = shape(quarter.outline.pieces);
    expect(inside(s, -3, 3)).toBe(true);
    expect(around(quarter)).toBeCloseTo(20 + 5 * Math.PI, 9);
    const below = polyline(1, [
      [0, 0],
      [10, 0, QUARTER],
      [0, 10],
    ]);
    below.splice(14, 0, 210, 0, 220, 0, 230, -1);
    expect(below.slice(12, 20)).toEqual([70, 1, 210, 0, 220, 0, 230, -1]);
    expect(inside(shape(read(file(below)).outline.pieces), -3, 3)).toBe(true);
  });

  it('ends within the join distance are joined and the largest is said', () => {
    const gap = 0.006;
    const loose = read(file(line(0, 0, 10, 0), line(10, gap, 10, 10), line(10, 10, 0, 10), line(0, 10, 0, 0)));
    chained(loose);
    expect(loose.largestJoinMm).toBeCloseTo(gap, 9);
    // They meet in the middle.
    const [nx, ny] = nearestOn(shape(loose.outline.pieces), 11, 0);
    expect(nx).toBeCloseTo(10, 9);
    expect(ny).toBeCloseTo(gap / 2, 9);
    expect(read(file(...SLOT)).largestJoinMm).toBeLessThan(1e-9);
  });

  it('outlines with joints moved by less than the join distance stray by less than half of it', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const random = seeded(seed);
      const off = () => (random() - 0.5) * 0.006;
      const moved = file(
        line(-10 + off(), -10 + off(), 10 + off(), -10 + off()),
        arc(10 + off(), 0, 10, 270, 90),
        line(10 + off(), 10 + off(), -10 + off(), 10 + off()),
        arc(-10 + off(), 0, 10, 90, 270),
      );
      const joined = read(moved);
      chained(joined);
      expect(joined.largestJoinMm).toBeGreaterThan(0);
      const exact = shape(read(file(...SLOT)).outline.pieces);
      for (const p of joined.outline.pieces) {
        for (let k = 0; k <= 10; k++) {
          const [x, y] = pointOf(p, k / 10);
          const [nx, ny] = nearestOn(exact, x, y);
          expect(Math.hypot(x - nx, y - ny)).toBeLessThan(0.003 * Math.SQRT2 + 0.005);
        }
      }
    }
  });
});

describe('units, layers and what else a drawing holds', () => {
  const withUnits = (code: number) =>
    dxf(0, 'SECTION', 2, 'HEADER', 9, '$ACADVER', 1, 'AC1015', 9, '$INSUNITS', 70, code, 0, 'ENDSEC') +
    file(circle(0, 0, 1));

  it('the unit stands in the drawing or beside it', () => {
    expect(read(withUnits(1), null).unit).toBe('in');
    expect(read(withUnits(4), null).unit).toBe('mm');
    expect(read(withUnits(0), 'in').unit).toBe('in');
    expect(problems(withUnits(0), null)[0]!.says).toContain('does not state its unit');
    const plain = readOutlineDxf(file(circle(0, 0, 1)));
    expect(plain.ok).toBe(false);
  });

  it('two units that disagree, and units of land surveyors, are refused', () => {
    expect(problems(withUnits(1), 'mm')[0]).toMatchObject({ line: 12, text: '1' });
    expect(problems(withUnits(6), 'mm')[0]!.says).toContain('$INSUNITS');
  });

  it('a layer of several, capitals apart, with vertices that name another', () => {
    const other = polyline(
      1,
      [
        [0, 0],
        [30, 0],
        [0, 30],
      ],
      'rim',
    ).map((g) => (g === 'rim' ? 'RIM' : g));
    const text = file(circle(0, 0, 5, 'hub'), other, circle(100, 0, 5, 'HOLE'));
    expect(around(read(text, 'mm', { layer: 'Rim' }))).toBeCloseTo(60 + 30 * Math.SQRT2, 9);
    expect(around(read(text, 'mm', { layer: 'hub' }))).toBeCloseTo(10 * Math.PI, 9);
    expect(problems(text, 'mm', { layer: 'web' })[0]!.says).toContain('Layers with entities: hub, RIM, HOLE');
    const all = problems(text);
    expect(all).toHaveLength(3);
    expect(all[0]!.says).toContain('One of 3 closed loops');
  });

  it('lettering is left out and named, remarks too', () => {
    const text = file([999, 'a remark'], circle(0, 0, 5), [0, 'TEXT', 8, '0', 10, 0, 20, 0, 40, 1, 1, 'hub']);
    expect(read(text).notes).toEqual(['Left out: TEXT.']);
  });

  it('blocks are not part of the drawing', () => {
    const block = [0, 'BLOCK', 8, '0', 2, 'B', ...circle(9, 9, 9), 0, 'ENDBLK'];
    const text = dxf(0, 'SECTION', 2, 'BLOCKS', ...block, 0, 'ENDSEC') + file(circle(0, 0, 5));
    expect(around(read(text))).toBeCloseTo(10 * Math.PI, 9);
  });
});

describe('refusals', () => {
  it.each<[string, string, string]>([
    ['nothing', '', 'does not end with EOF'],
    ['a text', 'Dear sir,\nplease find enclosed', 'group code'],
    ['bytes', 'DXF\u0000\u0001', 'binary'],
    ['half a file', file(circle(0, 0, 5)).slice(0, -8), 'EOF'],
    ['a section without end', dxf(0, 'SECTION', 2, 'ENTITIES', ...circle(0, 0, 5), 0, 'EOF'), 'not ended'],
    ['no entities', dxf(0, 'SECTION', 2, 'TABLES', 0, 'ENDSEC', 0, 'EOF'), 'no section of entities'],
    ['an empty drawing', file(), 'No edges'],
    ['a spline', file([0, 'SPLINE', 8, '0', 70, 8]), 'Convert it'],
    ['an ellipse', file([0, 'ELLIPSE', 8, '0', 10, 0]), 'Convert it'],
    ['a block', file([0, 'INSERT', 8, '0', 2, 'B']), 'Explode blocks'],
    ['a vertex astray', file([0, 'VERTEX', 8, '0', 10, 0, 20, 0]), 'Convert it'],
    [
      'a polyline without end',
      file(
        polyline(1, [
          [0, 0],
          [9, 0],
          [0, 9],
        ]).slice(0, -4),
      ),
      'SEQEND',
    ],
    [
      'a spline polyline',
      file(
        polyline(1, [
          [0, 0],
          [9, 0],
        ]).map((g, k) => (k === 13 ? 5 : g)),
      ),
      'flat polyline',
    ],
    ['a tilted arc', file(arc(0, 0, 5, 0, 90, 210, 0, 220, 1, 230, 0)), 'tilted'],
    ['a radius of zero', file(circle(0, 0, 0)), 'radius above zero'],
    ['a negative radius', file(circle(0, 0, -1)), 'radius above zero'],
    ['a number that is none', file([0, 'LINE', 10, 'NaN', 20, 0, 11, 1, 21, 1]), 'group 10 of a LINE'],
    ['a missing number', file([0, 'LINE', 10, 1, 20, 0, 11, 1]), 'Group 21 is missing'],
    ['a far place', file(circle(1e9, 0, 5)), '10000 mm'],
    ['an infinite place', file([0, 'CIRCLE', 10, '1e999', 20, 0, 40, 1]), 'Allowed: a number'],
    ['two heights', file(line(0, 0, 9, 0), [0, 'LINE', 10, 9, 20, 0, 30, 0, 11, 9, 21, 9, 31, 5]), 'one height'],
    ['an open chain', file(line(0, 0, 9, 0), line(9, 0, 9, 9), line(9, 9, 0, 9)), 'open at x 0.000 mm, y 0.000 mm'],
    ['a gap above the join distance', file(line(0, 0, 9, 0), line(9, 0.02, 9, 9), line(9, 9, 0, 0)), 'within 0.01 mm'],
    ['an edge drawn twice', file(...SLOT, SLOT[0]!), 'drawn twice'],
    ['a spur', file(...SLOT, line(10, 10, 20, 20)), 'Several edges'],
    ['two loops', file(...SLOT, circle(0, 0, 3)), 'One of 2 closed loops'],
    [
      'crossing edges',
      file(
        polyline(1, [
          [0, 0],
          [9, 9],
          [9, 0],
          [0, 9],
        ]),
      ),
      'cross or touch',
    ],
    ['a dot', file(circle(0, 0, 0.3)), 'less than 1 mm²'],
    ['edges shorter than the join distance only', file(circle(0, 0, 0.001)), 'No edges'],
  ])('%s', (_, text, says) => {
    const found = problems(text).map(fileProblemSentence);
    expect(found.join('\n')).toContain(says);
  });

  it('names the line', () => {
    // 4 lines of section, then 0 LINE 8 0 10 x: the value stands on the tenth line.
    expect(problems(file([0, 'LINE', 8, '0', 10, 'x', 20, 0, 11, 1, 21, 1]))[0]).toMatchObject({ line: 10, text: 'x' });
  });

  it('a join distance that is none', () => {
    for (const joinMm of [-1, Number.NaN, 2]) {
      expect(problems(file(circle(0, 0, 5)), 'mm', { joinMm })[0]!.says).toContain('join distance');
    }
  });

  it('many faults are cut short', () => {
    const found = problems(file(...Array.from({ length: 30 }, (_, k) => line(k, 0, k, 5))));
    expect(found).toHaveLength(21);
    expect(found[20]!.says).toContain('40 further');
  });

  it('never throws, whatever lines are lost or changed', () => {
    const whole = file(
      ...SLOT,
      polyline(1, [
        [50, 0],
        [60, 0, 0.5],
        [50, 10],
      ]),
    ).split('\n');
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.constantFrom('', '0', 'SEQEND', '1e400', '-5', 'LINE', '42')), {
          maxLength: 4,
        }),
        fc.nat(whole.length),
        (changes, cut) => {
          const lines = [...whole];
          for (const [k, value] of changes) lines[k] = value;
          if (cut % 3 === 0) lines.splice(cut, 1);
          const result = readOutlineDxf(lines.join('\n'), 'mm');
          if (!result.ok) expect(result.problems.length).toBeGreaterThan(0);
          else for (const p of result.outline.pieces) expect(pointOf(p, 0.5).every(Number.isFinite)).toBe(true);
        },
      ),
      { seed: 78, numRuns: 1500 },
    );
  });
});

/** A file as the outline of a body: what becomes of points and drawings, seen from either end, in either sense of rotation. */
import { describe, expect, it } from 'vitest';
import { outlinePieces } from '../../src/build/outlinePieces.ts';
import { type ImportOptions, importOutline, outlineToPoints, writeOutlineDxf } from '../../src/exchange/index.ts';
import { pointOf, shape, signedDistanceMm, type XY } from '../oracle/plane.ts';
import { hook, roundedBox, seeded, star } from '../oracle/random.ts';

const PLAIN: ImportOptions = { deviationMm: 0.05, seenFrom: 'front', rotation: 'clockwise', from: 'measured' };
const bytes = (text: string) => new TextEncoder().encode(text);

function taken(content: Uint8Array, name: string, options: Partial<ImportOptions> = {}) {
  const read = importOutline(content, name, { ...PLAIN, ...options });
  if (!read.ok) throw new Error(read.problems.map((p) => p.says).join(' '));
  return read;
}

/** Farthest that points along the one stand from the other, either way. */
function apart(a: Parameters<typeof shape>[0], b: Parameters<typeof shape>[0]): number {
  const [sa, sb] = [shape(a), shape(b)];
  const along = (edges: typeof a): XY[] => edges.flatMap((e) => [0, 0.13, 0.4, 0.77].map((f) => pointOf(e, f)));
  return Math.max(
    ...along(a).map(([x, y]) => Math.abs(signedDistanceMm(sb, x, y))),
    ...along(b).map(([x, y]) => Math.abs(signedDistanceMm(sa, x, y))),
  );
}

describe('drawings', () => {
  // Drawing to build to drawing to build: rounding alone, twice 0.002 mm at most.
  it.each([1, 2, 3, 4, 5, 6])('come through as drawn, and through again (seed %d)', (seed) => {
    const random = seeded(seed);
    const edges = [star, hook, roundedBox][seed % 3]!(random, 60);
    for (const unit of ['mm', 'in'] as const) {
      const dxf = writeOutlineDxf([{ name: 'a', outline: { pieces: edges } }], { unit, rotation: 'clockwise' });
      const once = taken(bytes(dxf), 'a.dxf', { unit });
      expect(once.fitted).toBe(false);
      expect(apart(outlinePieces(once.points).pieces, edges)).toBeLessThan(once.largestDeviationMm + 1e-9);
      const again = writeOutlineDxf([{ name: 'a', outline: outlinePieces(once.points) }], {
        unit,
        rotation: 'clockwise',
      });
      const twice = taken(bytes(again), 'a.dxf', { unit });
      expect(apart(outlinePieces(twice.points).pieces, edges)).toBeLessThan(2 * once.largestDeviationMm);
    }
  });

  it('of straight edges only are fitted where they are a traced curve, else kept', () => {
    const polygon = (n: number) =>
      Array.from({ length: n }, (_, k) => {
        const at = (i: number) => [50 * Math.cos((2 * Math.PI * i) / n), 50 * Math.sin((2 * Math.PI * i) / n)] as const;
        const [[x0, y0], [x1, y1]] = [at(k), at(k + 1)];
        return { kind: 'line' as const, x0, y0, x1, y1 };
      });
    const read = (n: number) => {
      const dxf = writeOutlineDxf([{ name: 'a', outline: { pieces: polygon(n) } }], {
        unit: 'mm',
        rotation: 'clockwise',
      });
      return taken(bytes(dxf), 'a.dxf', { unit: 'mm' });
    };
    expect(read(24)).toMatchObject({ fitted: false, lines: 24, arcs: 0 });
    const traced = read(120);
    expect(traced.fitted).toBe(true);
    expect(traced.lines + traced.arcs).toBeLessThan(4);
    expect(
      apart(outlinePieces(traced.points).pieces, [
        { kind: 'arc', cx: 0, cy: 0, r: 50, startRad: 0, sweepRad: 2 * Math.PI },
      ]),
    ).toBeLessThan(0.05);
  });

  it('whose ends miss one another by more than twice the deviation are refused', () => {
    const line = (x0: number, y0: number, x1: number, y1: number) =>
      ['0', 'LINE', '8', '0', '10', x0, '20', y0, '11', x1, '21', y1].join('\n');
    const file = (miss: number) =>
      bytes(
        [
          '0',
          'SECTION',
          '2',
          'ENTITIES',
          line(0, 0, 40, 0),
          line(40, miss, 40, 30),
          line(40, 30, 0, 0),
          '0',
          'ENDSEC',
          '0',
          'EOF',
          '',
        ].join('\n'),
      );
    expect(taken(file(0.009), 'a.dxf', { unit: 'mm', deviationMm: 0.0066 }).ok).toBe(true);
    const refused = importOutline(file(0.009), 'a.dxf', { ...PLAIN, unit: 'mm', deviationMm: 0.006 });
    expect(refused).toMatchObject({
      ok: false,
      problems: [{ says: expect.stringMatching(/miss one another by 0.009 mm/) }],
    });
  });
});

describe('points', () => {
  // Three corners no two of which are mirror images of one another.
  const corners = 'x mm,y mm\n0,0\n40,0\n10,30\n';
  const at = (options: Partial<ImportOptions>) =>
    taken(bytes(corners), 'a.csv', options)
      .points.map((p) => `${p.x.value}|${p.y.value}`)
      .sort();

  it('are turned round when seen from the rear, and when the crank turns the other way, and not for both', () => {
    const plain = ['0.000 mm|0.000 mm', '10.000 mm|30.000 mm', '40.000 mm|0.000 mm'];
    const mirrored = ['-10.000 mm|30.000 mm', '-40.000 mm|0.000 mm', '0.000 mm|0.000 mm'];
    expect(at({})).toEqual(plain);
    expect(at({ seenFrom: 'rear' })).toEqual(mirrored);
    expect(at({ rotation: 'counterclockwise' })).toEqual(mirrored);
    expect(at({ seenFrom: 'rear', rotation: 'counterclockwise' })).toEqual(plain);
  });

  it('run counterclockwise whichever way they were taken, and keep unit and origin', () => {
    const turned = taken(bytes('x in;y in\n0,5;0\n0;1,5\n2;0\n'), 'a.csv', { from: 'assumed' });
    expect(turned.notes.join(' ')).toContain('clockwise');
    expect(turned.points.every((p) => / in$/.test(p.x.value) && p.y.from === 'assumed')).toBe(true);
    expect(taken(bytes(corners), 'a.csv').notes).toEqual([]);
  });

  it('stay within what is stated, rounding and all, for every deviation', () => {
    const random = seeded(77);
    const edges = star(random, 70);
    const points = edges.flatMap((e) => Array.from({ length: 25 }, (_, k) => pointOf(e, k / 25)));
    const csv = bytes(`x mm,y mm\n${points.map(([x, y]) => `${x.toFixed(5)},${y.toFixed(5)}`).join('\n')}`);
    for (const deviationMm of [0.005, 0.02, 0.3, 1]) {
      const read = taken(csv, 'a.csv', { deviationMm });
      const s = shape(outlinePieces(read.points).pieces);
      const farthest = Math.max(...points.map(([x, y]) => Math.abs(signedDistanceMm(s, x, y))));
      expect(farthest).toBeLessThan(deviationMm);
      expect(read.largestDeviationMm).toBeLessThanOrEqual(deviationMm + 1e-12);
    }
  });

  it('a file is told by its content where its name says nothing; old eight-bit letters are read', () => {
    expect(taken(bytes(corners), 'points').kind).toBe('csv');
    const dxf = writeOutlineDxf(
      [{ name: 'a', outline: outlinePieces(outlineToPoints({ pieces: star(seeded(3), 50) }, 'stated', 'mm')) }],
      { unit: 'mm', rotation: 'clockwise' },
    );
    expect(taken(bytes(dxf), 'drawing', { unit: 'mm' }).kind).toBe('dxf');
    const latin = new Uint8Array([...bytes('radius mm,angle ('), 0xb0, ...bytes(')\n50,0\n50,120\n50,240\n')]);
    expect(taken(latin, 'a.csv').points).toHaveLength(3);
  });
});

describe('hostile files are refused, each with its reason', () => {
  const circle = (n: number, shown = n) =>
    `x mm,y mm\n${Array.from({ length: shown }, (_, k) => {
      const a = (2 * Math.PI * k) / n;
      return `${(80 * Math.cos(a)).toFixed(3)},${(80 * Math.sin(a)).toFixed(3)}`;
    }).join('\n')}\n`;
  const triangle = (third: string) => `x mm,y mm\n0,0\n9,0\n${third}\n`;

  it.each<[string, string | Uint8Array, Partial<ImportOptions>, RegExp, number]>([
    ['no number', triangle('NaN,3'), {}, /Allowed: a number/, 4],
    ['no number either', triangle('Infinity,3'), {}, /Allowed: a number/, 4],
    ['far away', triangle('1e300,3'), {}, /10000 mm/, 4],
    ['binary', new Uint8Array([80, 75, 3, 4, 0, 0, 255]), {}, /binary/, 0],
    ['a hundred thousand points', circle(100_000), {}, /9{5} points are refused. Allowed: 5000/, 0],
    ['a point twice', triangle('9,0\n9,9'), {}, /less than 0.01 mm apart/, 3],
    ['half of it', circle(60, 30), {}, /The run is open/, 0],
    ['crossing itself', 'x mm,y mm\n0,0\n40,40\n40,0\n0,40\n', {}, /crosses or touches itself/, 4],
    ['two points', 'x mm,y mm\n0,0\n40,40\n', {}, /2 points do not make an outline/, 0],
    ['a line of points', 'x mm,y mm\n0,0\n20,0\n40,0.01\n', {}, /./, 0],
    ['nothing', '', {}, /holds no rows/, 0],
    ['no unit', 'x,y\n0,0\n9,0\n0,9\n', {}, /unit of the lengths is stated neither/, 0],
    ['another unit', triangle('0,9'), { unit: 'in' }, /The heading says mm, in was asked for/, 1],
    ['a deviation below what rounding takes', circle(60), { deviationMm: 0.001 }, /Allowed: 0.005 to 10 mm/, 0],
    ['a picture of a drawing', 'GIF89a', {}, /One column only/, 1],
  ])('%s', (_, content, options, says, line) => {
    const read = importOutline(typeof content === 'string' ? bytes(content) : content, 'a.csv', {
      ...PLAIN,
      ...options,
    });
    if (read.ok) throw new Error('taken');
    expect(read.problems[0]!.says).toMatch(says);
    expect(read.problems[0]!.line).toBe(line);
  });

  it('of five thousand points one is taken, with few edges', () => {
    const read = taken(bytes(circle(5000)), 'a.csv');
    expect(read.measured).toHaveLength(5000);
    expect(read.lines + read.arcs).toBeLessThan(4);
  });
});

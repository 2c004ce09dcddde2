/** Drawings written, taken apart by a reader of this test after the Release 12 group codes, and read back by the program. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asSeenFromFront } from '../../src/exchange/front.ts';
import { readOutlineDxf } from '../../src/exchange/readDxf.ts';
import { layerNames, writeOutlineDxf } from '../../src/exchange/writeDxf.ts';
import { type Edge, nearestOn, pointOf, shape } from '../oracle/plane.ts';
import { anyOutline, box, bulged, disc, seeded } from '../oracle/random.ts';

function stray(from: readonly Edge[], to: readonly Edge[]): number {
  const s = shape(to);
  return Math.max(
    ...from.flatMap((e) =>
      Array.from({ length: 31 }, (_, k) => {
        const [x, y] = pointOf(e, k / 30);
        const [nx, ny] = nearestOn(s, x, y);
        return Math.hypot(nx - x, ny - y);
      }),
    ),
  );
}

/** Edges of each layer, by the group codes: VERTEX 10, 20, 42 between POLYLINE and SEQEND. */
function layersOf(text: string): Map<string, Edge[]> {
  const lines = text.split('\r\n');
  const groups: [number, string][] = [];
  for (let k = 0; k + 1 < lines.length; k += 2) groups.push([Number(lines[k]), lines[k + 1]!]);
  const layers = new Map<string, Edge[]>();
  let corners: { x: number; y: number; bulge: number }[] = [];
  let entity = '';
  let layer = '';
  for (const [code, value] of groups) {
    if (code === 0) {
      entity = value;
      if (value === 'POLYLINE') corners = [];
      if (value === 'VERTEX') corners.push({ x: Number.NaN, y: Number.NaN, bulge: 0 });
      if (value === 'SEQEND') {
        layers.set(
          layer,
          corners.map((c, k) => {
            const d = corners[(k + 1) % corners.length]!;
            return bulged([c.x, c.y], [d.x, d.y], c.bulge);
          }),
        );
      }
    } else if (code === 8) layer = value;
    else if (entity === 'VERTEX') {
      const corner = corners.at(-1)!;
      if (code === 10) corner.x = Number(value);
      if (code === 20) corner.y = Number(value);
      if (code === 42) corner.bulge = Number(value);
    }
  }
  return layers;
}

describe('writing drawings', () => {
  it('two shapes, each on its layer, by the group codes', () => {
    const outlines = [
      { name: 'front weight', outline: { pieces: box(0, 0, 30, 20) } },
      { name: 'hub', outline: { pieces: disc(5, 6, 7) } },
    ];
    const layers = layersOf(writeOutlineDxf(outlines, { unit: 'mm', rotation: 'clockwise' }));
    expect([...layers.keys()]).toEqual(['FRONT_WEIGHT', 'HUB']);
    expect(stray(layers.get('FRONT_WEIGHT')!, box(0, 0, 30, 20))).toBeLessThan(1e-9);
    expect(stray(disc(5, 6, 7), layers.get('HUB')!)).toBeLessThan(1e-8);
  });

  it('what Release 12 asks for, and nothing of later releases', () => {
    const text = writeOutlineDxf([{ name: 'hub', outline: { pieces: disc(0, 0, 7) } }], {
      unit: 'in',
      rotation: 'clockwise',
    });
    const lines = text.split('\r\n');
    expect(lines.at(-1)).toBe('');
    expect(lines.at(-2)).toBe('EOF');
    lines.slice(0, -1).forEach((line, k) => {
      if (k % 2 === 0) expect(line).toMatch(/^ {0,2}\d{1,3}$/);
    });
    expect(text).toContain('AC1009');
    expect(text).not.toMatch(/LWPOLYLINE|AcDb|INSUNITS/);
    expect(lines[1]).toContain('inches');
    // A 7 mm circle in inches.
    const [edges] = [...layersOf(text).values()];
    expect(stray(edges!, disc(0, 0, 7 / 25.4))).toBeLessThan(1e-8);
    expect([...text].every((c) => c === '\r' || c === '\n' || (c >= ' ' && c <= '~'))).toBe(true);
  });

  it('written and read back, an outline is the same', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1e9 }),
        fc.constantFrom('mm' as const, 'in' as const),
        fc.constantFrom('clockwise' as const, 'counterclockwise' as const),
        (seed, unit, rotation) => {
          const edges = anyOutline(seeded(seed), 90);
          const text = writeOutlineDxf([{ name: 'a', outline: { pieces: edges } }], { unit, rotation });
          const read = readOutlineDxf(text, unit);
          if (!read.ok) throw new Error(read.problems.map((p) => p.says).join('\n'));
          expect(read.reversed).toBe(false);
          const back = asSeenFromFront(read.outline, rotation).pieces;
          expect(stray(edges, back)).toBeLessThan(1e-6);
          expect(stray(back, edges)).toBeLessThan(1e-6);
        },
      ),
      { seed: 91, numRuns: 100 },
    );
  });

  it('an engine that turns the other way is drawn as seen from the front', () => {
    const text = writeOutlineDxf([{ name: 'a', outline: { pieces: box(10, 0, 30, 20) } }], {
      unit: 'mm',
      rotation: 'counterclockwise',
    });
    expect(stray(layersOf(text).get('A')!, box(-30, 0, -10, 20))).toBeLessThan(1e-9);
  });

  it('one of several is read by its layer', () => {
    const outlines = [
      { name: 'rim', outline: { pieces: box(0, 0, 30, 20) } },
      { name: 'rim', outline: { pieces: disc(5, 6, 7) } },
    ];
    const text = writeOutlineDxf(outlines, { unit: 'mm', rotation: 'clockwise' });
    const read = readOutlineDxf(text, 'mm', { layer: 'rim_2' });
    if (!read.ok) throw new Error('refused');
    expect(stray(disc(5, 6, 7), read.outline.pieces)).toBeLessThan(1e-8);
    expect(readOutlineDxf(text, 'mm').ok).toBe(false);
  });

  it('hostile names stay in their layer', () => {
    const names = [
      'a\r\n  0\r\nEOF',
      '',
      '…',
      '…',
      'crank centre',
      'x'.repeat(99),
      'x'.repeat(99),
      '<&>',
      '\u0000\ud800',
    ];
    const layers = layerNames(names);
    expect(new Set(layers).size).toBe(names.length);
    for (const layer of layers) expect(layer).toMatch(/^[A-Z0-9_-]{1,31}$/);
    expect(layers).not.toContain('CRANK_CENTRE');
    const outlines = names.map((name, k) => ({ name, outline: { pieces: disc(20 * k, 0, 7) } }));
    const text = writeOutlineDxf(outlines, { unit: 'mm', rotation: 'clockwise' });
    expect(layersOf(text).size).toBe(names.length);
    layers.forEach((layer, k) => {
      const read = readOutlineDxf(text, 'mm', { layer });
      if (!read.ok) throw new Error('refused');
      expect(stray(read.outline.pieces, disc(20 * k, 0, 7))).toBeLessThan(1e-8);
    });
  });

  it('nothing, and numbers that are none, are not written', () => {
    const options = { unit: 'mm', rotation: 'clockwise' } as const;
    expect(() => writeOutlineDxf([], options)).toThrow(RangeError);
    expect(() => writeOutlineDxf([{ name: 'a', outline: { pieces: [] } }], options)).toThrow(RangeError);
    expect(() => writeOutlineDxf([{ name: 'a', outline: { pieces: disc(0, Number.NaN, 1) } }], options)).toThrow(
      RangeError,
    );
  });
});

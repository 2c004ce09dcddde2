/** Curves as a drawing: any number of lines with their key inside it, each look its own, values where the axes have them. */
import { describe, expect, it } from 'vitest';
import type { Line } from '../../src/model/curves/lines.ts';
import { chartSvg } from '../../src/view/curves/chartSvg.ts';
import { scaleOf } from '../../src/view/curves/scale.ts';
import type { Ink } from '../../src/view/theme.ts';

const ink: Ink = {
  paper: 0xffffff,
  ink: 0x000000,
  faint: 0x888888,
  hatchAlpha: 0.3,
  clears: 0x00aa00,
  tight: 0xaaaa00,
  contact: 0xaa0000,
  unproven: 0x880088,
  accent: 0x0000aa,
};
const x = Float64Array.from([0, 180, 360, 540, 720]);
const line = (look: number): Line => ({
  name: `line ${look}`,
  look,
  values: Float64Array.from([0, 10, Number.NaN, 30, 40]),
  marks: [{ deg: 720, value: 40 }],
  at: () => ({ value: 0, exact: true }),
});

function drawing(count: number): string {
  const lines = Array.from({ length: count }, (_, look) => line(look));
  const content = { x, xLabel: 'Degrees', xStep: 90, lines, yLabel: 'Gap', scale: scaleOf('mm', 'mm') };
  return chartSvg({ ...content, place: (deg) => `${deg}°` }, ink, 'title');
}

describe('curves as a drawing', () => {
  it.each([1, 3, 26])('%i lines: plot and key lie within it, every line is named', (count) => {
    const svg = drawing(count);
    const height = Number(/height="(\d+)"/.exec(svg)![1]);
    const places = [...svg.matchAll(/<text[^>]* y="([\d.]+)"/g)].map((found) => Number(found[1]));
    expect(places.length).toBeGreaterThan(count);
    expect(Math.max(...places)).toBeLessThan(height);
    for (let k = 0; k < count; k++) expect(svg).toContain(`line ${k};`);
    // No two look alike.
    const looks = [...svg.matchAll(/<path d="M84 [\d.]+H124"[^>]*?(stroke="[^>]*)\/>/g)].map((found) => found[1]);
    expect(new Set(looks).size).toBe(count);
  });

  it('a gap in the values is a gap in the line, and the last value stands at the end of the axis', () => {
    const [, d] = /<path d="(M[^"]*M[^"]*)"/.exec(drawing(1))!;
    expect(d!.match(/M/g)).toHaveLength(2);
    const points = [...d!.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map((found) => [Number(found[1]), Number(found[2])]);
    // 960 wide, 24 kept free at the right; ticks of the values at equal steps, so that 40 is four times as high above 0 as 10.
    expect(points.map(([px]) => px)).toEqual([84, 297, 723, 936]);
    const rise = points.map(([, py]) => points[0]![1]! - py!);
    expect(rise[3]! / rise[1]!).toBeCloseTo(4, 3);
  });
});

/** Outlines written as points of a build and read back by the build's own reader; distances by brute force. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlinePieces, parseLength } from '../../src/build/index.ts';
import { outlineFault } from '../../src/build/outlineFault.ts';
import { outlineToPoints } from '../../src/exchange/outlineToPoints.ts';
import { type Edge, nearestOn, pointOf, shape } from '../oracle/plane.ts';
import { anyOutline, disc, seeded } from '../oracle/random.ts';

const SEED = 7_177;

/** Largest distance of points of one outline from the other. */
function stray(from: readonly Edge[], to: readonly Edge[]): number {
  const s = shape(to);
  let most = 0;
  for (const e of from) {
    for (let k = 0; k <= 40; k++) {
      const [x, y] = pointOf(e, k / 40);
      const [nx, ny] = nearestOn(s, x, y);
      most = Math.max(most, Math.hypot(nx - x, ny - y));
    }
  }
  return most;
}

describe('points of a build', () => {
  it.each([
    ['in', 4],
    ['mm', 3],
  ] as const)('in %s give the outline back within 0.002 mm, with %d decimals', (unit, places) => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e9 }), fc.integer({ min: 5, max: 400 }), (seed, size) => {
        const edges = anyOutline(seeded(seed), size);
        const points = outlineToPoints({ pieces: edges }, 'measured', unit);
        for (const p of points) {
          for (const dim of [p.x, p.y]) {
            expect(dim.from).toBe('measured');
            expect(dim.value).toMatch(new RegExp(`^-?\\d*\\.\\d{${places}} ${unit}$`));
            expect(dim.value).not.toMatch(unit === 'in' ? /^-?0\./ : /^-?\./);
            expect(dim.value).not.toMatch(/^-[0.]+ /);
            expect(parseLength(dim.value).ok).toBe(true);
          }
          expect(Math.abs(p.bulge ?? 0)).toBeLessThanOrEqual(1);
        }
        const back = outlinePieces(points).pieces;
        expect(stray(edges, back)).toBeLessThan(0.002);
        expect(stray(back, edges)).toBeLessThan(0.002);
        // What the build refuses after rounding, it refused before: these outlines are sound.
        expect(outlineFault(points)).toBeNull();
      }),
      { seed: SEED, numRuns: 80 },
    );
  });

  it('a full circle is three arcs', () => {
    const points = outlineToPoints({ pieces: disc(1, 2, 30) }, 'stated', 'mm');
    expect(points).toHaveLength(3);
    // Bulge of 120 degrees: tan 30 degrees.
    for (const p of points) expect(p.bulge).toBeCloseTo(1 / Math.sqrt(3), 4);
    expect(points[0]!.x.value).toBe('31.000 mm');
    expect(points[0]!.y.value).toBe('2.000 mm');
  });

  it('a value that rounds to nothing has no sign', () => {
    const tri: Edge[] = [
      { kind: 'line', x0: -0.0001, y0: 0, x1: 10, y1: 0.5 },
      { kind: 'line', x0: 10, y0: 0.5, x1: 0, y1: 9 },
      { kind: 'line', x0: 0, y0: 9, x1: -0.0001, y1: 0 },
    ];
    expect(outlineToPoints({ pieces: tri }, 'stated', 'mm')[0]!.x.value).toBe('0.000 mm');
    expect(outlineToPoints({ pieces: tri }, 'stated', 'in')[1]!.y.value).toBe('.0197 in');
  });
});

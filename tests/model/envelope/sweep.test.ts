/** Swept bands: closed forms, and random parts whose places an oracle works out anew. The band must hold them all, and exceed them by no more than stated. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { camMotion, crankMotion, pistonMotion, rodMotion } from '../../../src/core/kinematics/motions.ts';
import type { Outline } from '../../../src/core/outline/outline.ts';
import { bandOf } from '../../../src/model/envelope/band.ts';
import { EXCEEDS_MM, STATED_EXCESS_MM } from '../../../src/model/envelope/sweep.ts';
import {
  boundary,
  carry,
  crankPlace,
  edgeDistance,
  type Place,
  type Points,
  pistonPlace,
  rodPlace,
  winding,
} from './places.ts';

const TURN = 2 * Math.PI;

const disc = (cx: number, cy: number, r: number): Outline => ({
  pieces: [
    { kind: 'arc', cx, cy, r, startRad: 0, sweepRad: Math.PI },
    { kind: 'arc', cx, cy, r, startRad: Math.PI, sweepRad: Math.PI },
  ],
});
const chain = (points: Points): Outline => {
  const n = points.length / 2;
  return {
    pieces: Array.from({ length: n }, (_, k) => {
      const j = (k + 1) % n;
      return {
        kind: 'line',
        x0: points[2 * k]!,
        y0: points[2 * k + 1]!,
        x1: points[2 * j]!,
        y1: points[2 * j + 1]!,
      } as const;
    }),
  };
};

it('exceeds what is swept by no more than is said, 0.05 mm', () => {
  expect(STATED_EXCESS_MM).toBe(0.05);
  expect(EXCEEDS_MM).toBeLessThanOrEqual(STATED_EXCESS_MM);
});

describe('closed forms', () => {
  it('a disc about the crank axis sweeps itself', () => {
    const band = bandOf({ outlines: [disc(0, 0, 70)], motion: crankMotion(0.3), from: null, periodRad: TURN });
    expect(band).toHaveLength(1);
    for (const [x, y] of boundary(band)) {
      expect(Math.hypot(x, y)).toBeGreaterThanOrEqual(70);
      expect(Math.hypot(x, y)).toBeLessThanOrEqual(70 + EXCEEDS_MM);
    }
  });

  it('a crankpin sweeps an annulus, also as a counterweight sees one that stands still', () => {
    const annulus = (band: readonly Points[]): void => {
      expect(band).toHaveLength(2);
      const radii = band.map((p) => boundary([p]).map(([x, y]) => Math.hypot(x, y))).sort((a, b) => a[0]! - b[0]!);
      expect(Math.max(...radii[0]!)).toBeLessThanOrEqual(45 - 27);
      expect(Math.min(...radii[0]!)).toBeGreaterThanOrEqual(45 - 27 - EXCEEDS_MM);
      expect(Math.min(...radii[1]!)).toBeGreaterThanOrEqual(45 + 27);
      expect(Math.max(...radii[1]!)).toBeLessThanOrEqual(45 + 27 + EXCEEDS_MM);
    };
    annulus(bandOf({ outlines: [disc(0, 45, 27)], motion: crankMotion(0), from: null, periodRad: TURN }));
    annulus(
      bandOf({ outlines: [disc(0, 45, 27)], motion: camMotion(0, 0, 0, 0), from: crankMotion(1), periodRad: TURN }),
    );
  });

  it('the box of a piston sweeps the box and the stroke', () => {
    const box = [-30, -25, 30, -25, 30, 35, -30, 35];
    const slider = { crankRadiusMm: 45, rodLengthMm: 150, offsetMm: 0 };
    const band = bandOf({ outlines: [chain(box)], motion: pistonMotion(slider, 0, 0, 0), from: null, periodRad: TURN });
    expect(band).toHaveLength(1);
    // Pin from 150 - 45 to 150 + 45.
    const sides = { left: -30, right: 30, low: 105 - 25, high: 195 + 35 };
    const off = boundary(band).map(([x, y]) =>
      Math.max(sides.left - x, x - sides.right, sides.low - y, y - sides.high),
    );
    expect(Math.min(...off)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...off)).toBeLessThanOrEqual(EXCEEDS_MM);
  });

  it('with a limit round it reaches farther by the limit', () => {
    const band = bandOf({ outlines: [disc(0, 0, 70)], motion: crankMotion(0), from: null, periodRad: TURN }, 1.524);
    for (const [x, y] of boundary(band)) {
      expect(Math.hypot(x, y)).toBeGreaterThanOrEqual(71.524);
      expect(Math.hypot(x, y)).toBeLessThanOrEqual(71.524 + EXCEEDS_MM);
    }
  });
});

describe('a random part', () => {
  const part = fc
    .array(
      fc.record({ gap: fc.double({ min: 0.4, max: 1, noNaN: true }), r: fc.double({ min: 8, max: 60, noNaN: true }) }),
      {
        minLength: 4,
        maxLength: 8,
      },
    )
    .map((corners): number[] => {
      // A star about a place that is not the part's own origin.
      const whole = corners.reduce((sum, c) => sum + c.gap, 0);
      let angle = 0;
      return corners.flatMap(({ gap, r }) => {
        angle += (gap / whole) * TURN;
        return [12 + r * Math.cos(angle), -5 + r * Math.sin(angle)];
      });
    });
  const slider = fc
    .record({
      r: fc.double({ min: 20, max: 60, noNaN: true }),
      over: fc.double({ min: 1.5, max: 2.2, noNaN: true }),
      e: fc.double({ min: -6, max: 6, noNaN: true }),
    })
    .map(({ r, over, e }) => ({ crankRadiusMm: r, rodLengthMm: 2 * r * over, offsetMm: e }));

  const WHO = ['rod from the block', 'piston from the crank', 'crank from the piston', 'crank from the rod'] as const;

  it.each(WHO)('%s stays within its band, and the band close to it', (who) => {
    fc.assert(
      fc.property(
        part,
        slider,
        fc.array(fc.double({ min: 0, max: TURN, noNaN: true }), { minLength: 20, maxLength: 20 }),
        (points, s, angles) => {
          const { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } = s;
          const motions = {
            rod: rodMotion(s, 0, 0),
            piston: pistonMotion(s, 0, 0, 0),
            crank: crankMotion(0),
          };
          const places = {
            rod: (t: number) => rodPlace(r, l, e, t),
            piston: (t: number) => pistonPlace(r, l, e, t),
            crank: crankPlace,
            block: (): Place => ({ x: 0, y: 0, turn: 0 }),
          };
          const [, mover, frame] = /^(\w+) from the (\w+)$/.exec(who) as unknown as [
            string,
            keyof typeof motions,
            keyof typeof places,
          ];
          const band = bandOf({
            outlines: [chain(points)],
            motion: motions[mover],
            from: frame === 'block' ? null : motions[frame],
            periodRad: TURN,
          });
          const at = (t: number): number[] => carry(points, places[mover](t), places[frame](t));
          for (const t of angles) {
            for (const [x, y] of boundary([at(t)])) expect(winding(band, x, y)).toBe(1);
          }
          // Distance of a place from the part, least over the turn: coarse first, then finer round the best.
          const distance = (x: number, y: number, t: number): number => {
            const p = at(t);
            return winding([p], x, y) === 0 ? edgeDistance(p, x, y) : 0;
          };
          const edge = boundary(band);
          for (let k = 0; k < edge.length; k += Math.ceil(edge.length / 25)) {
            const [x, y] = edge[k]!;
            const tries = Array.from({ length: 360 }, (_, j) => (j * TURN) / 360)
              .map((t) => ({ t, d: distance(x, y, t) }))
              .sort((a, b) => a.d - b.d)
              .slice(0, 6);
            let least = tries[0]!.d;
            for (let { t } of tries) {
              for (let step = TURN / 720; step > 1e-6; step /= 2) {
                for (const next of [t - step, t + step]) if (distance(x, y, next) < distance(x, y, t)) t = next;
              }
              least = Math.min(least, distance(x, y, t));
            }
            expect(least).toBeLessThanOrEqual(EXCEEDS_MM + 1e-4);
          }
        },
      ),
      { numRuns: 6 },
    );
  });
});

/** Every outline of the laid-out V8, at its place along the shaft, against the engine put together by hand. */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import type { Outline } from '../../src/core/outline/outline.ts';
import { exampleV8 } from '../support/exampleBuild.ts';
import { pointOf, type Shape, signedDistanceMm } from './plane.ts';
import { bore, core, counterweight, crankcase, type Part, piston, rod, type Variant } from './v8.ts';

const V: Variant = {
  counterclockwise: false,
  sense: 'same',
  firingOrder: [1, 5, 6, 3, 4, 2, 7, 8],
  camAcrossIn: 0,
  boreOffsetIn: 0,
  beamOffsetIn: 0,
  rollerRadiusIn: 0.375,
  baseCircleIn: 1.2,
};

const PARTS: readonly (readonly [string, Part])[] = [
  ['counterweight 1 front', counterweight(1, 'front')],
  ['counterweight 4 rear', counterweight(4, 'rear')],
  ['rod 1', rod(V, 1)],
  ['rod 6', rod(V, 6)],
  ['piston 3', piston(V, 3)],
  ['piston 8', piston(V, 8)],
  ['bore 2', bore(V, 2)],
  ['bore 7', bore(V, 7)],
  ['crankcase wall', crankcase(V)],
  ['camshaft core', core(V)],
];

/** Points along an outline lie on the edge of what the shapes cover together: on one of them and in none. */
function expectOnEdge(outline: Outline, shapes: readonly Shape[]): void {
  for (const piece of outline.pieces) {
    for (const f of [0, 0.13, 0.5, 0.86]) {
      const [x, y] = pointOf(piece, f);
      expect(Math.abs(Math.min(...shapes.map((s) => signedDistanceMm(s, x, y))))).toBeLessThan(1e-6);
    }
  }
}

/** And the other way about: points along the shapes that are in no other one lie on one of the outlines. */
function expectAllCovered(shapes: readonly Shape[], outlines: readonly Shape[]): void {
  for (const s of shapes) {
    for (const e of s.edges) {
      for (const f of [0.11, 0.5, 0.83]) {
        const [x, y] = pointOf(e, f);
        // Where two shapes share an edge nothing shows.
        const hidden = shapes.some((t) => t !== s && signedDistanceMm(t, x, y) < 1e-6);
        if (hidden) continue;
        expect(Math.abs(Math.min(...outlines.map((o) => signedDistanceMm(o, x, y))))).toBeLessThan(1e-6);
      }
    }
  }
}

function asShape(o: Outline): Shape {
  return { edges: o.pieces, cx: 0, cy: 0, reach: Number.POSITIVE_INFINITY };
}

describe('outlines and their places along the shaft', () => {
  const { bodies } = layOut(exampleV8(), 'Stroker');

  test.each(PARTS)('%s', (name, part) => {
    const body = bodies.find((b) => b.name === name)!;
    // Just inside every face, of the program's layers and of the parts made by hand.
    const faces = [
      ...body.layers.flatMap((l) => [l.z0Mm, l.z1Mm]),
      ...body.round.flatMap((r) => [
        r.z0Mm,
        r.z1Mm,
        r.centreMm,
        r.centreMm + 9,
        r.centreMm - 17,
        r.centreMm + 25,
        r.centreMm - 40,
      ]),
      ...part.prisms.flatMap((p) => [p.z0, p.z1]),
    ];
    let looked = 0;
    for (const z of faces.flatMap((face) => [face - 0.01, face + 0.01])) {
      const shapes = [
        ...part.prisms.filter((p) => z > p.z0 && z < p.z1).map((p) => p.shape),
        ...(part.round && z > part.round.z0 && z < part.round.z1 ? part.round.at(z) : []),
      ];
      const even = body.layers.filter((l) => z > l.z0Mm && z < l.z1Mm).map((l) => l.outline);
      const round = body.round.filter((r) => z > r.z0Mm && z < r.z1Mm).flatMap((r) => r.slice(z, z) ?? []);
      const outlines = [...even, ...round];
      expect(outlines.length > 0).toBe(shapes.length > 0);
      if (shapes.length === 0) continue;
      looked += 1;
      // Where layers lie over one another only the edge of all of them counts.
      const all = outlines.map(asShape);
      for (const [k, o] of outlines.entries()) {
        const shown = o.pieces.filter((piece) =>
          [0, 0.13, 0.5, 0.86].every((f) =>
            all.every((other, n) => n === k || signedDistanceMm(other, ...pointOf(piece, f)) > 1e-6),
          ),
        );
        expectOnEdge({ pieces: shown }, shapes);
      }
      expectAllCovered(shapes, all);
    }
    expect(looked).toBeGreaterThan(1);
  });
});

describe('slices of round parts hold every section within them, and no more than their two ends', () => {
  const { bodies } = layOut(exampleV8(), 'Stroker');

  test.each(['piston 3', 'bore 2'])('%s', (name) => {
    for (const r of bodies.find((b) => b.name === name)!.round) {
      for (const [from, to] of [
        [0.1, 0.3],
        [0.4, 0.9],
        [0.52, 0.55],
        [0, 1],
      ] as const) {
        const [z0, z1] = [from, to].map((f) => r.z0Mm + f * (r.z1Mm - r.z0Mm)) as [number, number];
        const slice = r.slice(z0, z1);
        const sections = Array.from({ length: 41 }, (_, k) =>
          r.slice(z0 + ((z1 - z0) * k) / 40, z0 + ((z1 - z0) * k) / 40),
        );
        for (const s of sections) {
          if (s === null) continue;
          for (const piece of s.pieces) {
            for (const f of [0, 0.4])
              expect(signedDistanceMm(asShape(slice!), ...pointOf(piece, f))).toBeLessThan(1e-9);
          }
        }
        // Every corner of the slice belongs to some section in it, to what 41 sections leave: two of their spacings.
        if (slice === null) continue;
        const width = Math.max(0.05, 0.05 * (z1 - z0));
        for (const piece of slice.pieces) {
          const [x, y] = pointOf(piece, 0);
          const nearest = Math.min(
            ...sections.flatMap((s) => (s === null ? [] : [signedDistanceMm(asShape(s), x, y)])),
          );
          expect(nearest).toBeLessThan(width);
        }
      }
    }
  });
});

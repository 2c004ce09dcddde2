/**
 * Gaps of measured outlines: never below what is proven, whatever the part does within the stated deviation. Here the part is
 * the polygon of the measured points itself, followed round the turn by brute force.
 */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import { parseBuild } from '../../src/build/index.ts';
import { importOutline } from '../../src/exchange/importOutline.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleV8 } from '../support/exampleBuild.ts';
import { gapOf, lengthOf, placed, pointOf, polygon, type Shape, shape, type XY } from './plane.ts';
import { type At, rodAt } from './poses.ts';
import { between, box, seeded, star } from './random.ts';
import { lowestOver } from './sweep.ts';
import { counterweight, throwZ } from './v8.ts';

const TURN = 2 * Math.PI;
/** Angles tried; then closer about the two lowest. */
const ANGLES = 120;
/** Gaps above this are not looked at. */
const FAR_MM = 25;

/** Points along edges every so often, each strayed in any direction by up to `strayMm`. */
function measuredAlong(edges: Shape['edges'], stepMm: number, strayMm: number, random: () => number): XY[] {
  return edges.flatMap((e) => {
    const n = Math.max(2, Math.ceil(lengthOf(e) / stepMm));
    return Array.from({ length: n }, (_, k): XY => {
      const [x, y] = pointOf(e, k / n);
      const [a, d] = [TURN * random(), strayMm * random()];
      return [x + d * Math.cos(a), y + d * Math.sin(a)];
    });
  });
}

const csv = (points: readonly XY[]) =>
  new TextEncoder().encode(`x mm,y mm\n${points.map(([x, y]) => `${x.toFixed(6)},${y.toFixed(6)}`).join('\n')}\n`);

function imported(points: readonly XY[], deviationMm: number) {
  const read = importOutline(csv(points), 'points.csv', {
    deviationMm,
    seenFrom: 'front',
    rotation: 'clockwise',
    from: 'measured',
  });
  if (!read.ok) throw new Error(read.problems.map((p) => p.says).join(' '));
  expect(read.points.length).toBeLessThan(points.length);
  return read.points;
}

function solved(changes: Record<string, unknown>, id: string) {
  const read = parseBuild(JSON.stringify(changed(exampleV8(), changes)));
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.place} ${p.rule}: ${p.allowed}`).join('\n'));
  const engine = layOut(read.doc, 'Stroker');
  const [gap] = solveGaps(engine, { assumedAllowanceMm: null, wanted: (pair) => pair.id === id });
  if (gap === undefined) throw new Error(`no pair ${id}`);
  expect(gap.certified).toBe(true);
  return gap;
}

/** Least gap of the parts of the counterweight, each alone, and the polygon. A part that holds another's nearest point is nearer itself. */
function leastOf(parts: readonly Shape[], place: (crank: number) => At, fixed: Shape): number {
  const gapAt = (crank: number): number => {
    const { x, y, turn } = place(crank);
    return Math.min(...parts.map((part) => gapOf(placed(part, x, y, turn), fixed, 2, FAR_MM).gapMm));
  };
  return lowestOver(gapAt, TURN, ANGLES, 2, 1e-4).value;
}

describe('a fixed part measured by points, and a counterweight', () => {
  // From well apart to deep in contact: the rim stands at 73.66 mm from the crank axis.
  it.each([
    [11, 118, 0.05],
    [12, 103, 0.3],
    [13, 99, 0.02],
    [15, 95, 1],
  ])('seed %d, at %d mm, deviation %d mm', (seed, distance, deviationMm) => {
    const random = seeded(seed);
    const at: XY = [between(random, -20, 20), -distance];
    const edges = star(random, 24);
    const points = measuredAlong(edges, 3, deviationMm / 2, random).map(([x, y]): XY => [x + at[0], y + at[1]]);
    const z = throwZ(2);
    const stop = {
      name: 'stop',
      front: dim(`${z + 20} mm`),
      rear: dim(`${z + 60} mm`),
      outline: imported(points, deviationMm),
      from: 'measured',
      outlineDeviation: dim(`${deviationMm} mm`),
    };
    const gap = solved({ 'block.fixed': [stop] }, 'counterweight 2 rear · stop');
    expect(gap.deviationMm).toBe(deviationMm);
    const part = counterweight(2, 'rear');
    const brute = leastOf(
      part.prisms.map((p) => p.shape),
      part.place,
      polygon(points),
    );
    expect(brute).toBeGreaterThanOrEqual(gap.lowerBoundMm - 1e-6);
    // And the allowance is the deviation, not more: what the fit strays to the other side, and once more what is taken off. In
    // contact the depth in the parts one by one is less than in all of them together.
    if (brute > 0) expect(gap.gapMm).toBeGreaterThan(brute - 2 * deviationMm - 0.01);
    if (brute <= 0) expect(gap.state).toBe('contact');
  });
});

describe('a traced rod and a fixed edge', () => {
  it.each([
    [21, 0.1],
    [22, 0.5],
  ])('seed %d, deviation %d mm', (seed, deviationMm) => {
    const random = seeded(seed);
    const silhouette: XY[] = [
      [-40, -30],
      [40, -30],
      [40, 22],
      [12, 45],
      [11, 135],
      [18, 145],
      [16, 168],
      [-16, 168],
      [-18, 145],
      [-11, 135],
      [-12, 45],
      [-40, 22],
    ];
    const edges = silhouette.map((p, k) => {
      const q = silhouette[(k + 1) % silhouette.length]!;
      return { kind: 'line' as const, x0: p[0], y0: p[1], x1: q[0], y1: q[1] };
    });
    const points = measuredAlong(edges, 4, deviationMm / 2, random);
    const wall = box(-60, -120, 60, -97);
    const corner = (x: number, y: number) => ({ x: dim(`${x} mm`), y: dim(`${y} mm`) });
    const z = throwZ(2);
    const gap = solved(
      {
        'block.fixed': [
          {
            name: 'tray',
            front: dim(`${z - 40} mm`),
            rear: dim(`${z + 40} mm`),
            outline: [corner(-60, -120), corner(60, -120), corner(60, -97), corner(-60, -97)],
            from: 'stated',
          },
        ],
        'assemblies[1].rod.outline': imported(points, deviationMm),
        'assemblies[1].rod.outlineFrom': 'measured',
        'assemblies[1].rod.outlineDeviation': dim(`${deviationMm} mm`),
      },
      'rod 3 · tray',
    );
    const slider = {
      r: (3.81 / 2) * 25.4,
      l: 6 * 25.4,
      e: -0.04 * 25.4,
      bank: -Math.PI / 4,
      alpha0: Math.PI / 2,
    };
    const brute = leastOf([polygon(points)], (crank) => rodAt(slider, crank), shape(wall));
    expect(gap.deviationMm).toBe(deviationMm);
    expect(brute).toBeGreaterThanOrEqual(gap.lowerBoundMm - 1e-6);
    expect(gap.gapMm).toBeGreaterThan(brute - 2 * deviationMm - 0.01);
  });
});

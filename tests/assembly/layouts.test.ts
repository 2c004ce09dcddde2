/**
 * Every layout laid out: dead centres from the positions of the pins in the section, firing, symmetry, and that situations told to
 * be alike are alike. Directions of the pins are written down here as they are drawn on a crank, in degrees from up, in the direction
 * of rotation, with cylinder 1 at the top.
 */
import { describe, expect, it } from 'vitest';
import type { Body, Cylinder, Engine } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/layOut.ts';
import type { BuildDocument, FreeLayout, NamedLayout } from '../../src/build/document.ts';
import { firingIntervalsDeg, LAYOUT_NAMES, layoutOf, layoutOfBlock, readContent } from '../../src/build/index.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../src/core/clearance/certify.ts';
import { newPose, poseX, poseY } from '../../src/core/plane/pose.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleIn, exampleInline6, exampleV8, freeLayout } from '../support/exampleBuild.ts';

const DEG = Math.PI / 180;
const TURN = 2 * Math.PI;

interface Drawn {
  /** Bank angle and pin direction of cylinders 1, 2, … */
  readonly banks: readonly number[];
  readonly pins: readonly number[];
  readonly order: readonly number[];
  readonly intervals: readonly number[];
}

const even = (count: number): number[] => new Array(count).fill(720 / count);
const vee = (odd: number, pairs: number): number[] =>
  Array.from({ length: 2 * pairs }, (_, k) => (k % 2 === 0 ? odd : -odd));
const inline = (count: number): number[] => new Array(count).fill(0);

const DRAWN: Readonly<Record<NamedLayout, Drawn>> = {
  single: { banks: [0], pins: [0], order: [1], intervals: [720] },
  'inline-3': { banks: inline(3), pins: [0, 240, 120], order: [1, 3, 2], intervals: even(3) },
  'inline-4': { banks: inline(4), pins: [0, 180, 180, 0], order: [1, 3, 4, 2], intervals: even(4) },
  'inline-5': { banks: inline(5), pins: [0, 216, 144, 72, 288], order: [1, 2, 4, 5, 3], intervals: even(5) },
  'inline-6': { banks: inline(6), pins: [0, 240, 120, 120, 240, 0], order: [1, 5, 3, 6, 2, 4], intervals: even(6) },
  'v6-90-shared-pins': {
    banks: vee(45, 3),
    pins: [45, 45, 285, 285, 165, 165],
    order: [1, 6, 5, 4, 3, 2],
    intervals: [150, 90, 150, 90, 150, 90],
  },
  'v6-90-split-pins': {
    banks: vee(45, 3),
    pins: [45, 75, 285, 315, 165, 195],
    order: [1, 6, 5, 4, 3, 2],
    intervals: even(6),
  },
  'v6-60-split-pins': {
    banks: vee(-30, 3),
    pins: [330, 270, 90, 30, 210, 150],
    order: [1, 2, 3, 4, 5, 6],
    intervals: even(6),
  },
  'v8-cross-plane': {
    banks: vee(-45, 4),
    pins: [315, 315, 45, 45, 225, 225, 135, 135],
    order: [1, 5, 6, 3, 4, 2, 7, 8],
    intervals: even(8),
  },
  'v8-cross-plane-1-left': {
    banks: vee(45, 4),
    pins: [45, 45, 135, 135, 315, 315, 225, 225],
    order: [1, 8, 4, 3, 6, 5, 7, 2],
    intervals: even(8),
  },
  'v8-flat-plane': {
    banks: vee(-45, 4),
    pins: [315, 315, 135, 135, 135, 135, 315, 315],
    order: [1, 8, 3, 6, 7, 2, 5, 4],
    intervals: even(8),
  },
  'flat-4': { banks: vee(-90, 2), pins: [270, 90, 90, 270], order: [1, 3, 2, 4], intervals: even(4) },
};

function engineIn(name: NamedLayout): Engine {
  const doc = exampleIn(name, DRAWN[name].order);
  return layOut(doc, doc.proposed);
}

/** Crankpin of a cylinder in the section. */
function pinAt(name: NamedLayout, c: Cylinder, crankRad: number): readonly [number, number] {
  const direction = DRAWN[name].pins[c.number - 1]! * DEG + crankRad;
  return [c.slider.crankRadiusMm * Math.sin(direction), c.slider.crankRadiusMm * Math.cos(direction)];
}

/** Height of the piston pin along its bore: where the circle of the rod about the crankpin cuts the line on which the piston pin runs. */
function heightAt(name: NamedLayout, c: Cylinder, crankRad: number): number {
  const bank = DRAWN[name].banks[c.number - 1]! * DEG;
  const [x, y] = pinAt(name, c, crankRad);
  const along = x * Math.sin(bank) + y * Math.cos(bank);
  const across = x * Math.cos(bank) - y * Math.sin(bank) - c.slider.offsetMm;
  return along + Math.sqrt(c.slider.rodLengthMm ** 2 - across ** 2);
}

/** Place of the greatest value near `from`, by thirds. */
function highest(f: (x: number) => number, from: number): number {
  let [low, high] = [from - 0.5, from + 0.5];
  while (high - low > 1e-9) {
    const third = (high - low) / 3;
    if (f(low + third) < f(high - third)) low += third;
    else high -= third;
  }
  return (low + high) / 2;
}

const apart = (a: number, b: number, period: number): number =>
  Math.abs(((((a - b + period / 2) % period) + period) % period) - period / 2);

function originAt(body: Body, crankRad: number): readonly [number, number] {
  const pose = newPose();
  body.motion.write(crankRad, pose);
  return [poseX(pose, 0, 0), poseY(pose, 0, 0)];
}

function bodyOf(engine: Engine, name: string): Body {
  const found = engine.bodies.find((body) => body.name === name);
  if (found === undefined) throw new Error(`no ${name} among ${engine.bodies.map((b) => b.name).join(', ')}`);
  return found;
}

describe.each(LAYOUT_NAMES)('%s', (name) => {
  const engine = engineIn(name);
  const drawn = DRAWN[name];

  it('has the dead centres that the positions of its pins give', () => {
    expect(engine.cylinders).toHaveLength(drawn.pins.length);
    for (const c of engine.cylinders) {
      // Flat at the top: a height told to 1e-13 of its size places it within a few 1e-7 rad.
      const top = highest((theta) => heightAt(name, c, theta), c.tdcRad);
      expect(apart(top, c.tdcRad, TURN)).toBeLessThan(2e-6);
      const bottom = highest((theta) => -heightAt(name, c, theta), c.bdcRad);
      expect(apart(bottom, c.bdcRad, TURN)).toBeLessThan(2e-6);
    }
  });

  it('moves rods and pistons with their own pins', () => {
    for (const c of engine.cylinders) {
      const bank = drawn.banks[c.number - 1]! * DEG;
      for (const theta of [0, 1, 2.5, 4, 5.7]) {
        const [rx, ry] = originAt(bodyOf(engine, `rod ${c.number}`), theta);
        const [x, y] = pinAt(name, c, theta);
        expect(Math.hypot(rx - x, ry - y)).toBeLessThan(1e-9);
        const [px, py] = originAt(bodyOf(engine, `piston ${c.number}`), theta);
        expect(px * Math.sin(bank) + py * Math.cos(bank)).toBeCloseTo(heightAt(name, c, theta), 9);
      }
    }
  });

  it('draws each journal where its rods run, and its cheeks round the pin beside them', () => {
    for (const c of engine.cylinders) {
      const others = engine.cylinders.filter((o) => o.throw === c.throw && o !== c);
      const front = others.every((o) => o.boreCentreMm > c.boreCentreMm);
      const rear = others.every((o) => o.boreCentreMm < c.boreCentreMm);
      const journal = engine.bodies.filter(
        (b) => b.kind === 'journal' && b.throw === c.throw && b.z0Mm <= c.boreCentreMm && c.boreCentreMm <= b.z1Mm,
      );
      expect(journal).toHaveLength(1);
      const around = [journal[0]!];
      if (front) around.push(engine.bodies.find((b) => b.kind === 'counterweight' && isOn(b, c.throw, 'front'))!);
      if (rear) around.push(engine.bodies.find((b) => b.kind === 'counterweight' && isOn(b, c.throw, 'rear'))!);
      for (const body of around) {
        const pose = newPose();
        body.motion.write(0.4, pose);
        const [x, y] = pinAt(name, c, 0.4);
        const round = body.drawn
          .flatMap((shape) => shape.outline.pieces)
          .some((p) => p.kind === 'arc' && Math.hypot(poseX(pose, p.cx, p.cy) - x, poseY(pose, p.cx, p.cy) - y) < 1e-9);
        expect(round, `${body.name} round the pin of cylinder ${c.number}`).toBe(true);
      }
    }
  });

  it('fires in its order at its intervals, each time at a top', () => {
    const times = drawn.order.map((number) => engine.cylinders[number - 1]!.firingTdcRad / DEG);
    drawn.intervals.forEach((interval, k) => {
      expect((times[k + 1] ?? 720 + times[0]!) - times[k]!).toBeCloseTo(interval, 9);
    });
    expect(firingIntervalsDeg(layoutOf(name), drawn.order)).toEqual(drawn.intervals);
    for (const c of engine.cylinders) {
      // True tops, to which an offset pin line moves them.
      expect(apart(c.tdcRad, c.firingTdcRad, TURN)).toBeLessThan(1e-9);
    }
  });

  it('finds the same gaps when no two pairs are taken as alike', { timeout: 240_000 }, () => {
    const shared = solveGaps(engine, { assumedAllowanceMm: null });
    const alone = solveGaps(
      { ...engine, pairs: engine.pairs.map((pair) => ({ ...pair, key: pair.id })) },
      { assumedAllowanceMm: null },
    );
    expect(shared.length).toBe(alone.length);
    shared.forEach((gap, k) => {
      const other = alone[k]!;
      expect(gap.id).toBe(other.id);
      expect(gap.certified && other.certified).toBe(true);
      // Both cut the same slices, and each is at most the certificate's tolerance above its bound.
      expect(Math.abs(gap.gapMm - other.gapMm), gap.id).toBeLessThanOrEqual(CERTIFICATE_TOLERANCE_MM);
      // The pair's own parts, at the angle told for it, are as far apart as told.
      if (gap.axialOverlapMm > 0 && gap.gapMm > 0) {
        const [[ax, ay], [bx, by]] = gap.pointsMm;
        expect(Math.hypot(ax - bx, ay - by), gap.id).toBeCloseTo(gap.gapMm, 6);
      }
    });
  });
});

function isOn(body: Body, throwNumber: number, side: string): boolean {
  return body.throw === throwNumber && body.name.endsWith(` ${throwNumber} ${side}`);
}

it('flat four: opposed pistons stand as far out as one another at every angle, opposed rods are half a turn from one another', () => {
  const engine = engineIn('flat-4');
  for (const [left, right] of [
    ['1', '2'],
    ['3', '4'],
  ]) {
    for (let theta = 0; theta < TURN; theta += 0.1) {
      const [xl, yl] = originAt(bodyOf(engine, `piston ${left}`), theta);
      const [xr, yr] = originAt(bodyOf(engine, `piston ${right}`), theta);
      expect(xl).toBeLessThan(0);
      expect(xl + xr).toBeCloseTo(0, 9);
      expect(yl).toBeCloseTo(0, 9);
      expect(yr).toBeCloseTo(0, 9);
      const pose = newPose();
      const at = (rod: string, x: number, y: number): number[] => {
        bodyOf(engine, `rod ${rod}`).motion.write(theta, pose);
        return [poseX(pose, x, y), poseY(pose, x, y)];
      };
      const [a, b] = [at(left!, 20, 70), at(right!, 20, 70)];
      expect(a[0]! + b[0]!).toBeCloseTo(0, 9);
      expect(a[1]! + b[1]!).toBeCloseTo(0, 9);
    }
  }
  // Bores one bank offset apart in turn: 0, 59, 118, 177 mm.
  expect(engine.cylinders.map((c) => c.boreCentreMm)).toEqual([0, 59, 118, 177]);
});

describe('a free layout', () => {
  const FREE: readonly (readonly [NamedLayout, FreeLayout])[] = [
    [
      'inline-5',
      freeLayout(
        [0],
        [10, 226, 154, 82, 298],
        [1, 2, 3, 4, 5].map((k) => [1, k] as const),
      ),
    ],
    [
      'v6-60-split-pins',
      // Counted from the middles of the throws, 30 degrees behind the pin of cylinder 1.
      freeLayout(
        [-30, 30],
        [0, 120, 240],
        [
          [1, 1, 30],
          [2, 1, -30],
          [1, 2, 30],
          [2, 2, -30],
          [1, 3, 30],
          [2, 3, -30],
        ],
      ),
    ],
    [
      'v8-cross-plane',
      freeLayout(
        [-45, 45],
        [-0.25, 89.75, 269.75, 179.75],
        [1, 1, 2, 2, 3, 3, 4, 4].map((t, k) => [(k % 2) + 1, t] as const),
      ),
    ],
    [
      'flat-4',
      freeLayout(
        [-90, 90],
        [0, 180, 180, 0],
        [1, 2, 3, 4].map((k) => [((k - 1) % 2) + 1, k] as const),
      ),
    ],
  ];

  const freed = (doc: BuildDocument, layout: FreeLayout): BuildDocument => ({
    ...doc,
    block: { ...doc.block, layout: 'free', freeLayout: layout },
  });

  it.each(FREE)('that describes %s gives the same engine', (name, layout) => {
    const named = exampleIn(name, DRAWN[name].order);
    const free = freed(named, layout);
    expect(readContent(JSON.parse(JSON.stringify(free))).ok).toBe(true);
    const [a, b] = [layOut(named, named.proposed), layOut(free, named.proposed)];
    expect(b.cylinders).toEqual(a.cylinders);
    expect(b.side).toEqual(a.side);
    expect(b.pairs.map((p) => [p.id, p.key, p.keyShiftRad, p.cylinder, p.assumed])).toEqual(
      a.pairs.map((p) => [p.id, p.key, p.keyShiftRad, p.cylinder, p.assumed]),
    );
  });

  it('numbered from the flywheel end has its axial zero at cylinder 1 and its crankcase over all bores', () => {
    const layout = freeLayout(
      [0],
      [120, 240, 0],
      [
        [1, 3],
        [1, 2],
        [1, 1],
      ],
    );
    const doc = changed(freed(exampleIn('inline-3', [1, 3, 2]), layout), { 'block.boreSpacing': dim('110 mm') });
    const engine = layOut(doc as unknown as BuildDocument, 'Long stroke');
    expect(engine.cylinders.map((c) => c.boreCentreMm + 0)).toEqual([0, -110, -220]);
    expect(engine.cylinders.map((c) => c.throw)).toEqual([3, 2, 1]);
    // Bore 3.900, wall .220 in: 55.118 mm from the bore centre.
    expect(bodyOf(engine, 'crankcase wall').z0Mm).toBeCloseTo(-275.118, 9);
    expect(bodyOf(engine, 'crankcase wall').z1Mm).toBeCloseTo(55.118, 9);
    expect(bodyOf(engine, 'camshaft core').z0Mm).toBeCloseTo(-220 - 49.53, 9);
  });

  it('of two cylinders on one pin, 45 degrees apart, fires at 315 and 405 degrees', () => {
    const layout = freeLayout(
      [22.5, -22.5],
      [0],
      [
        [1, 1],
        [2, 1],
      ],
    );
    const block = { layout: 'free', freeLayout: layout } as const;
    // The pin reaches the bore at -22.5 after 360 - 45 degrees.
    expect(firingIntervalsDeg(layoutOfBlock(block), [1, 2])).toEqual([315, 405]);
  });

  it('of three throws the other way round fires evenly in the other order only', () => {
    const layout = freeLayout(
      [0],
      [0, 120, 240],
      [
        [1, 1],
        [1, 2],
        [1, 3],
      ],
    );
    const rulesOf = (order: readonly number[]): string[] => {
      const doc = changed(freed(exampleIn('inline-3', order), layout), {});
      const read = readContent(doc);
      return read.ok ? [] : read.problems.map((p) => p.rule);
    };
    expect(rulesOf([1, 2, 3])).toEqual([]);
    expect(rulesOf([1, 3, 2])).toEqual(['firing intervals']);
  });

  it('with an assumed angle says so at every gap', () => {
    const layout = freeLayout(
      [-45, 45],
      [0, 90, 270, 180],
      [1, 1, 2, 2, 3, 3, 4, 4].map((t, k) => [(k % 2) + 1, t] as const),
    );
    const doc = changed(freed(exampleV8(), layout), { 'block.freeLayout.throws[1].phase': dim('90 deg', 'assumed') });
    for (const pair of layOut(doc as unknown as BuildDocument, 'Stroker').pairs) {
      expect(pair.assumed).toContain('phase of throw 2');
    }
  });
});

it('a firing order that takes cylinders in one turn and then pauses is refused where the throws can fire evenly', () => {
  const doc = changed(exampleInline6(), {
    'block.layout': 'inline-3',
    'block.firingOrder': [1, 2, 3],
    'assemblies[0].crank.weighted': undefined,
    'assemblies[1].crank.weighted': undefined,
  });
  const read = readContent(doc);
  expect(read.ok ? [] : read.problems.map((p) => p.rule)).toEqual(['firing intervals']);
});

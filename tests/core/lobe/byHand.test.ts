/** Bounds, edges and the smoothest curve of lobes, worked by hand or anew with plain sums. */
import { describe, expect, it } from 'vitest';
import { biarc } from '../../../src/core/lobe/biarc.ts';
import { crankAboveLiftRad } from '../../../src/core/lobe/durationOf.ts';
import { fitTable, type LiftTable, tableFault } from '../../../src/core/lobe/fitTable.ts';
import {
  flankPeaks,
  type LiftLaw,
  leastOverBaseMm,
  liftAt,
  mirrorLaw,
  speedUpToLift,
} from '../../../src/core/lobe/liftLaw.ts';
import { flankBounds, pathCurvaturePerMm, surfaceAt } from '../../../src/core/lobe/lobeProfile.ts';
import { checkLobe, type LobeSpec, lobeLaw, lobeLawOf, mirrorLobe } from '../../../src/core/lobe/lobeSpec.ts';
import { type TableLaw, tableExtremes, tableSpeedUpTo } from '../../../src/core/lobe/tableLaw.ts';

const DEG = Math.PI / 180;

describe('bounds of a 3-4-5 flank of 6 mm over one radian', () => {
  // Peaks of the unit rise 15/8, 10/√3 and 60, times the lift.
  const law: LiftLaw = { name: '3-4-5', liftMm: 6, openingRad: 1, closingRad: 0.8 };
  const [h1, h2, h3] = [11.25, 60 / Math.sqrt(3), 360];

  it('peaks, and speed up to a lift', () => {
    expect(flankPeaks(law)).toEqual({
      h1: expect.closeTo(h1, 12),
      h2: expect.closeTo(h2, 12),
      h3: expect.closeTo(h3, 12),
      leastMm: 0,
    });
    expect(flankPeaks(mirrorLaw(law)).h2).toBeCloseTo(h2 / 0.64, 12);
    // On the shorter flank; half-way up and beyond it is the greatest there is, at the foot nothing.
    for (const lift of [3, 4, 6, 7]) expect(speedUpToLift(law, lift)).toBeCloseTo(h1 / 0.8, 9);
    for (const lift of [0, -1]) expect(speedUpToLift(law, lift)).toBe(0);
    // At u = 1/4: s = 10/64 - 15/256 + 6/1024, s' = 30 / 16 x 9 / 16.
    expect(speedUpToLift(law, 6 * (10 / 64 - 15 / 256 + 6 / 1024))).toBeCloseTo((6 * 30 * 9) / 256 / 0.8, 8);
  });

  it('of the surface, flat face: (h1 + h3) across, base, lift and h2 along', () => {
    const bound = flankBounds(law, 14, { kind: 'flat' });
    expect(bound.pointSecondMm).toBeCloseTo(Math.hypot(h1 + h3, 20 + h2), 9);
    expect(bound.pathCurvatureSlope).toBe(0);
  });

  it('of the surface, roller of 10 mm: as the comment beside it says, with sigma from 24 and p to 30', () => {
    const bound = flankBounds(law, 14, { kind: 'roller', radiusMm: 10 });
    const sigma1 = (h1 / 24) * (30 + h2);
    const theta1 = 2 + h2 / 24;
    const n1 = 60 * h1 + 3 * h1 * h2 + 30 * h3;
    const theta2 = n1 / 576 + (2 * theta1 * sigma1) / 24;
    const sigma = Math.hypot(30, h1);
    expect(bound.pointSecondMm).toBeCloseTo(Math.hypot(sigma1 + 10 * theta2, (sigma + 10 * theta1) * theta1), 7);
    expect(bound.pathCurvatureSlope).toBeCloseTo(n1 / 24 ** 3 + (3 * theta1 * sigma1) / 576, 9);
  });

  it.each([{ kind: 'flat' } as const, { kind: 'roller', radiusMm: 10 } as const])(
    'hold by differences: %o',
    (follower) => {
      const bound = flankBounds(law, 14, follower);
      const g = 1e-4;
      for (let psi = 0.001; psi < 0.999; psi += 0.004) {
        const [a, b, c] = [psi - g, psi, psi + g].map((x) => surfaceAt(law, 14, follower, x));
        const second = Math.hypot(a!.x - 2 * b!.x + c!.x, a!.y - 2 * b!.y + c!.y) / (g * g);
        expect(second).toBeLessThan(bound.pointSecondMm * 1.001);
        const slope = (pathCurvaturePerMm(law, 14, 10, psi + g) - pathCurvaturePerMm(law, 14, 10, psi - g)) / (2 * g);
        if (follower.kind === 'roller') expect(Math.abs(slope)).toBeLessThan(bound.pathCurvatureSlope);
      }
    },
  );

  it('least radius over the base: of both flanks the smaller', () => {
    let least = 0;
    for (let psi = -0.8; psi <= 1; psi += 1e-4) least = Math.min(least, liftAt(law, psi).h + liftAt(law, psi).h2);
    expect(leastOverBaseMm(law)).toBeCloseTo(least, 3);
    expect(leastOverBaseMm(mirrorLaw(law))).toBe(leastOverBaseMm(law));
  });

  it('crank angle above a lift: twice the cam angle from flank to flank', () => {
    // Half the lift stands half-way up either flank.
    expect(crankAboveLiftRad(law, 3)).toBeCloseTo(2 * (0.5 + 0.4), 12);
    expect(crankAboveLiftRad(law, 6)).toBeCloseTo(0, 4);
    expect(crankAboveLiftRad(law, 0)).toBeCloseTo(3.6, 12);
  });
});

describe('a curve through readings', () => {
  const shape = (psi: number): number => {
    const u = Math.max(0, 1 - Math.abs(psi) / (psi < 0 ? 1.2 : 1));
    return 7 * (10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5);
  };
  const table = (stepDeg: number, withinMm: number): LiftTable => {
    const psiRad: number[] = [];
    for (let deg = -80; deg <= 80; deg += stepDeg) psiRad.push(deg * DEG);
    return { psiRad, liftMm: psiRad.map((p) => Math.round(shape(p) * 100) / 100), withinMm };
  };
  /** The cubic B-spline of knots 0 to 4, by de Boor's recursion. */
  const spline = (x: number, degree = 3): number =>
    degree === 0
      ? x >= 0 && x < 1
        ? 1
        : 0
      : (x / degree) * spline(x, degree - 1) + ((degree + 1 - x) / degree) * spline(x - 1, degree - 1);
  const solve = (matrix: number[][], right: readonly number[]): number[] => {
    const rows = matrix.map((row, i) => [...row, right[i]!]);
    for (let i = 0; i < rows.length; i++) {
      for (let j = i + 1; j < rows.length; j++) {
        const part = rows[j]![i]! / rows[i]![i]!;
        if (part !== 0) for (let k = i; k <= rows.length; k++) rows[j]![k]! -= part * rows[i]![k]!;
      }
    }
    const x = new Array<number>(rows.length).fill(0);
    for (let i = rows.length - 1; i >= 0; i--) {
      x[i] = (rows[i]!.at(-1)! - x.reduce((sum, v, k) => (k > i ? sum + v * rows[i]![k]! : sum), 0)) / rows[i]![i]!;
    }
    return x;
  };

  it.each([
    [4, 0.008, 70],
    [8, 0.02, 48],
  ])(
    'every %d degrees, within %d mm: the sum of squares and stiffness it makes least, and stiffer it would miss a reading',
    (step, within, count) => {
      const read = table(step, within);
      expect(tableFault(read)).toBeNull();
      const found = fitTable(read);
      if ('reason' in found) throw new Error(found.reason);
      expect(fitTable({ ...read })).toBe(found);
      const { law } = found;
      expect(law.coefs.length).toBe(count - 3);
      expect(law.stepRad).toBeCloseTo((law.openingRad + law.closingRad) / count, 12);
      // The readings plainly off the base circle, and a foot of 15 degrees beyond them.
      const used = read.psiRad
        .map((_, i) => i)
        .filter((i) => read.psiRad[i]! >= -law.closingRad - 1e-9 && read.psiRad[i]! <= law.openingRad + 1e-9);
      const rows = used.map((i) =>
        law.coefs.map((_, j) => spline((read.psiRad[i]! + law.closingRad) / law.stepRad - j)),
      );
      const lifts = used.map((i) => read.liftMm[i]!);
      const n = law.coefs.length;
      const differences: number[][] = [];
      for (let j = -3; j < n; j++) differences.push(law.coefs.map((_, k) => [-1, 3, -3, 1][k - j] ?? 0));
      const square = (of: readonly (readonly number[])[]): number[][] =>
        law.coefs.map((_, a) => law.coefs.map((__, b) => of.reduce((sum, row) => sum + row[a]! * row[b]!, 0)));
      const [near, smooth] = [square(rows), square(differences)];
      const right = law.coefs.map((_, a) => rows.reduce((sum, row, i) => sum + row[a]! * lifts[i]!, 0));
      const times = (m: readonly (readonly number[])[], c: readonly number[]): number[] =>
        m.map((row) => row.reduce((sum, v, k) => sum + v * c[k]!, 0));
      const pull = times(near, law.coefs).map((v, k) => v - right[k]!);
      const bend = times(smooth, law.coefs);
      const stiffness = -pull.reduce((sum, v, k) => sum + v * bend[k]!, 0) / bend.reduce((sum, v) => sum + v * v, 0);
      expect(stiffness).toBeGreaterThan(0);
      pull.forEach((v, k) => {
        expect(Math.abs(v + stiffness * bend[k]!)).toBeLessThan(1e-8);
      });
      const farthest = (c: readonly number[]): number =>
        Math.max(...times(rows, c).map((v, i) => Math.abs(v - lifts[i]!)));
      expect(farthest(law.coefs)).toBeCloseTo(found.deviationMm, 9);
      expect(found.deviationMm).toBeLessThanOrEqual(within);
      // Found by halving a factor of 64 eight times: to 64^(1/256), 1.7 %.
      const stiffer = near.map((row, a) => row.map((v, b) => v + 1.02 * stiffness * smooth[a]![b]!));
      expect(farthest(solve(stiffer, right))).toBeGreaterThan(within);
      expect(law.liftMm).toBeCloseTo(tableExtremes(law).greatestMm, 12);
    },
  );

  it('too rough for the accuracy: says which reading is missed most', () => {
    const read = table(4, 0.008);
    const i = 12;
    // Two readings at all but one place, 0.016 mm apart: a curve would have to leap.
    const psiRad = [...read.psiRad.slice(0, i), read.psiRad[i]! - 1e-6, ...read.psiRad.slice(i)];
    const liftMm = [...read.liftMm.slice(0, i), read.liftMm[i]! + 0.016, ...read.liftMm.slice(i)];
    const found = fitTable({ psiRad, liftMm, withinMm: 0.004 });
    expect(found).toMatchObject({ reason: 'too rough to follow', unit: 'mm', allowed: 0.004 });
    if (!('reason' in found)) throw new Error('fitted');
    expect([i, i + 1]).toContain(found.reading);
    // Half their difference would be the least that a level curve misses.
    expect(found.value).toBeGreaterThan(0.004);
    expect(found.value).toBeLessThan(0.00801);
  });

  it('rounds of the table are looked at from their edges', () => {
    // Seven readings up to the nose and six down, 10 degrees apart, in tenths.
    const lifts = [0, 0, 5, 10, 20, 30, 35, 38, 39, 40, 39, 38, 35, 30, 20, 10, 5, 0, 0];
    const at = (step: number, list = lifts, within = 1): LiftTable => ({
      psiRad: list.map((_, k) => (k - 9) * step * DEG),
      liftMm: [...list],
      withinMm: within,
    });
    expect(tableFault(at(9.9999))).toBeNull();
    expect(tableFault(at(10.001))).toMatchObject({
      reason: 'readings too far apart',
      reading: 2,
      unit: 'rad',
      value: expect.closeTo(10.001 * DEG, 9),
    });
    // Twelve readings off the base circle are enough, eleven not; those within the accuracy do not count.
    const twelve = [0, 5, 10, 20, 30, 39, 40, 39, 30, 20, 10, 5, 4, 0];
    const few = (list: readonly number[]): LiftTable => ({
      psiRad: list.map((_, k) => (k - 6) * 9 * DEG),
      liftMm: list,
      withinMm: 1,
    });
    expect(tableFault(few(twelve))).toBeNull();
    expect(tableFault(few(twelve.map((v) => (v === 4 ? 1 : v))))).toEqual({
      reason: 'too few readings',
      reading: 13,
      unit: 'readings',
      value: 11,
      allowed: 12,
    });
    expect(tableFault({ psiRad: [], liftMm: [], withinMm: 1 })).toMatchObject({
      reason: 'too few readings',
      reading: 0,
    });
    // Ends: within the accuracy to either side, and within half a turn.
    for (const end of [0, 18]) {
      const with1 = (v: number) =>
        at(
          9,
          lifts.map((l, k) => (k === end ? v : l)),
        );
      for (const v of [1, -1]) expect(tableFault(with1(v))).toBeNull();
      for (const v of [1.001, -1.001])
        expect(tableFault(with1(v))).toMatchObject({
          reason: 'ends not on the base circle',
          reading: end,
          unit: 'mm',
          value: v,
          allowed: 1,
        });
      const far = at(9);
      const psiRad = far.psiRad.map((p, k) => (k === end ? Math.sign(p) * 3.15 : p));
      expect(tableFault({ ...far, psiRad })).toMatchObject({
        reason: 'order of angles',
        reading: end,
        allowed: Math.PI,
      });
    }
    const low = (v: number) =>
      at(
        9,
        lifts.map((l, k) => (k === 1 ? v : l)),
      );
    expect(tableFault(low(-1))).toBeNull();
    expect(tableFault(low(-1.001))).toMatchObject({
      reason: 'lift below the base circle',
      reading: 1,
      value: -1.001,
      allowed: -1,
    });
    // Twice the accuracy counts as level on the way down from the nose.
    const dip = (v: number) =>
      at(
        9,
        lifts.map((l, k) => (k === 13 ? v : l)),
      );
    expect(tableFault(dip(37))).toBeNull();
    expect(tableFault(dip(37.001))).toMatchObject({
      reason: 'no single nose',
      reading: 13,
      value: 37.001,
      allowed: 35,
    });
    expect(
      tableFault(
        at(
          9,
          lifts.map((l, k) => (k === 5 ? 37.001 : l)),
        ),
      ),
    ).toMatchObject({ reason: 'no single nose', reading: 5 });
    // The nose, in the middle of what is level with it, 39 to 41 here: moved by 2.9 and 3.1 degrees.
    for (const [by, refused] of [
      [2.9, false],
      [-2.9, false],
      [3.1, true],
      [-3.1, true],
    ] as const) {
      const moved = { ...at(9), psiRad: at(9).psiRad.map((p) => p + by * DEG) };
      const fault = tableFault(moved);
      if (refused)
        expect(fault).toMatchObject({ reason: 'nose away from zero', unit: 'rad', value: expect.closeTo(by * DEG, 9) });
      else expect(fault).toBeNull();
    }
    // Two readings at one angle.
    const twice = at(9).psiRad.map((p, k, all) => (k === 4 ? all[3]! + 1e-7 : p));
    expect(tableFault({ ...at(9), psiRad: twice })).toMatchObject({
      reason: 'order of angles',
      reading: 3,
      unit: 'rad',
    });
  });

  it('speed where the lift is small: that of the stretches which come so low', () => {
    // One spline alone: stretches 0 to 3, lift 1/6, 4/6, 1/6 at its knots, slope ± 1/2 at the outer ones.
    const law: TableLaw = { name: 'table', liftMm: 2 / 3, openingRad: 2, closingRad: 2, stepRad: 1, coefs: [1] };
    // Its slope is t² / 2 on the first stretch; (1 + 2t - 3t²) / 2 on the second, greatest at 1/3: 2/3.
    for (const lift of [0, 0.1]) expect(tableSpeedUpTo(law, lift)).toBeCloseTo(0.5, 12);
    expect(tableSpeedUpTo(law, 0.17)).toBeCloseTo(2 / 3, 12);
    expect(tableSpeedUpTo(law, -0.01)).toBe(0);
    expect(liftAt(law, 0).h).toBeCloseTo(2 / 3, 12);
    for (const psi of [-2.01, 2.01]) expect(liftAt(law, psi)).toEqual({ h: 0, h1: 0, h2: 0, h3: 0 });
    const found = tableExtremes(law);
    expect(found.greatestMm).toBeCloseTo(2 / 3, 12);
    expect(found.greatestAtRad).toBeCloseTo(0, 12);
    // Second derivatives 1, -2, 1 at the knots; third 1, -3, 3, -1.
    expect([found.h1, found.h2, found.h3]).toEqual([expect.closeTo(2 / 3, 12), 2, 3]);
    expect(found.leastLiftPlusAccelMm).toBeCloseTo(2 / 3 - 2, 12);
    expect(found.leastMm).toBe(0);
  });
});

describe('splines by hand', () => {
  it('a stretch of a parabola has its greatest lift inside: coefficients 9 - (j - 2.5)² make 9 - 1/3', () => {
    const coefs = [0, 1, 2, 3, 4, 5].map((j) => 9 - (j - 2.5) ** 2);
    const found = tableExtremes({ coefs, stepRad: 0.2, closingRad: 0.8 });
    expect(found.greatestMm).toBeCloseTo(9 - 1 / 3, 12);
    expect(found.greatestAtRad).toBeCloseTo(4.5 * 0.2 - 0.8, 12);
  });

  it('a second hump of a flank does not count as above the lift', () => {
    // Humps at psi 0 and .4, each 1/6 high a step of .1 from its middle, and nothing between them at .2.
    const law: TableLaw = {
      name: 'table',
      liftMm: 2 / 3,
      openingRad: 0.6,
      closingRad: 0.6,
      stepRad: 0.1,
      coefs: [0, 0, 0, 0, 1, 0, 0, 0, 1],
    };
    expect(crankAboveLiftRad(law, 1 / 6)).toBeCloseTo(0.4, 9);
  });

  it('a table that no curve can follow has no law', () => {
    const psiRad = Array.from({ length: 41 }, (_, k) => (k - 20) * 4 * DEG);
    const liftMm = psiRad.map((p, k) => (Math.abs(p) > 1 ? 0 : 5 + (k % 2)));
    const lobe = { baseRadiusMm: 20, follower: { kind: 'flat' }, table: { psiRad, liftMm, withinMm: 1e-6 } } as const;
    // Two readings at one angle, a millimetre apart.
    const torn = {
      ...lobe,
      table: { ...lobe.table, psiRad: psiRad.map((p, k) => (k === 21 ? psiRad[20]! + 1e-12 : p)) },
    };
    expect(() => lobeLawOf(torn)).toThrow(/too rough to follow/);
  });
});

describe('a pair of arcs', () => {
  it('has tangents in the ratio asked for', () => {
    const from = { x: 0, y: 0, tx: 1, ty: 0 };
    const to = { x: 5, y: 2, tx: Math.cos(1.3), ty: Math.sin(1.3) };
    for (const ratio of [0.4, 1, 2.5]) {
      const pair = biarc(from, to, ratio)!;
      // From either end of an arc to where its tangents meet: radius times the tangent of half its angle.
      const [first, second] = [pair.first, pair.second].map((p) =>
        p.kind === 'arc' ? p.r * Math.tan(Math.abs(p.sweepRad) / 2) : Number.NaN,
      );
      expect(second! / first!).toBeCloseTo(ratio, 9);
    }
  });

  it('a quarter circle is two eighths of it', () => {
    const pair = biarc({ x: 0, y: 0, tx: 1, ty: 0 }, { x: 10, y: 10, tx: 0, ty: 1 }, 1)!;
    for (const piece of [pair.first, pair.second])
      expect(piece).toMatchObject({
        kind: 'arc',
        r: expect.closeTo(10, 9),
        sweepRad: expect.closeTo(Math.PI / 4, 9),
        cx: expect.closeTo(0, 9),
        cy: expect.closeTo(10, 9),
      });
    expect(pair.joint.x).toBeCloseTo(10 * Math.SQRT1_2, 9);
    expect(pair.joint.tx).toBeCloseTo(Math.SQRT1_2, 9);
    expect(biarc({ x: 1, y: 1, tx: 1, ty: 0 }, { x: 1, y: 1, tx: 0, ty: 1 }, 1)).toBeNull();
  });
});

describe('lobes at the edge of what is allowed', () => {
  const flat: LobeSpec = {
    baseRadiusMm: 40,
    liftMm: 7,
    law: 'cycloidal',
    durationAtLiftCrankRad: 4,
    durationAtLiftMm: 1,
    follower: { kind: 'flat' },
  };

  it('the flank that opens takes a part of the duration', () => {
    for (const opening of [0, 4, 4.1, -1, Number.NaN])
      expect(checkLobe({ ...flat, openingAtLiftCrankRad: opening })).toEqual({
        reason: 'opening flank',
        unit: 'rad',
        value: opening,
        above: 0,
        below: 4,
      });
    expect(checkLobe({ ...flat, openingAtLiftCrankRad: 2.2 })).toBeNull();
    const law = lobeLaw({ ...flat, openingAtLiftCrankRad: 2.2 });
    expect(liftAt(law, 1.1).h).toBeCloseTo(1, 9);
    expect(liftAt(law, -0.9).h).toBeCloseTo(1, 9);
    expect(mirrorLobe({ ...flat, openingAtLiftCrankRad: 2.5 })).toEqual({ ...flat, openingAtLiftCrankRad: 1.5 });
    expect(mirrorLobe(flat)).toBe(flat);
  });

  it('lengths without an end are refused by their field', () => {
    expect(checkLobe({ ...flat, baseRadiusMm: Number.POSITIVE_INFINITY })?.reason).toBe('base radius');
    expect(checkLobe({ ...flat, liftMm: Number.POSITIVE_INFINITY })?.reason).toBe('lift');
    expect(checkLobe({ ...flat, durationAtLiftCrankRad: Number.POSITIVE_INFINITY })?.reason).toBe('duration');
    expect(checkLobe({ ...flat, follower: { kind: 'roller', radiusMm: Number.POSITIVE_INFINITY } })?.reason).toBe(
      'roller radius',
    );
    expect(checkLobe({ ...flat, durationAtLiftMm: 0 })).toBeNull();
  });
});

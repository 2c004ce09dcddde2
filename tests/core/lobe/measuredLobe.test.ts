/** Lobes with unlike flanks and lobes drawn through measured lifts, against the follower itself. */
import fc from 'fast-check';
import { derivative, parse } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { crankAboveLiftRad } from '../../../src/core/lobe/durationOf.ts';
import { type FittedTable, fitTable, type LiftTable, tableFault } from '../../../src/core/lobe/fitTable.ts';
import { liftAt, mirrorLaw } from '../../../src/core/lobe/liftLaw.ts';
import { lobeOutline } from '../../../src/core/lobe/lobeOutline.ts';
import { checkLobe, type LobeSpec, lobeLaw, type MeasuredLobe, mirrorLobe } from '../../../src/core/lobe/lobeSpec.ts';
import { type TableLaw, tableExtremes, tableSpeedUpTo, withinStretch } from '../../../src/core/lobe/tableLaw.ts';
import type { Piece } from '../../../src/core/outline/outline.ts';
import { fewer } from '../../support/fewer.ts';
import { type EnvelopeSpec, envelopeRadiusMm } from './followerEnvelope.ts';

const DEG = Math.PI / 180;
const RAYS = fewer(60, 12);

/** How far the chain of pieces reaches along a ray from the cam axis, by halving on a plain inside test of its points. */
function rayReach(pieces: readonly Piece[], rayRad: number): number {
  const [dx, dy] = [Math.sin(rayRad), Math.cos(rayRad)];
  let most = 0;
  for (const p of pieces) {
    if (p.kind === 'line') {
      const [ex, ey] = [p.x1 - p.x0, p.y1 - p.y0];
      const det = dy * ex - dx * ey;
      const t = (p.y0 * ex - p.x0 * ey) / det;
      const k = (dx * p.y0 - dy * p.x0) / det;
      if (k >= -1e-9 && k <= 1 + 1e-9) most = Math.max(most, t);
      continue;
    }
    const along = p.cx * dx + p.cy * dy;
    const root = p.r * p.r - (p.cx * dy - p.cy * dx) ** 2;
    if (root < 0) continue;
    for (const t of [along - Math.sqrt(root), along + Math.sqrt(root)]) {
      let past = (Math.atan2(t * dy - p.cy, t * dx - p.cx) - p.startRad) * Math.sign(p.sweepRad);
      past -= 2 * Math.PI * Math.floor(past / (2 * Math.PI));
      if (t > 0 && (past <= Math.abs(p.sweepRad) + 1e-9 || past > 2 * Math.PI - 1e-9)) most = Math.max(most, t);
    }
  }
  return most;
}

describe('flanks unlike each other', () => {
  const unlike = fc
    .record({
      law: fc.constantFrom('3-4-5' as const, 'cycloidal' as const),
      baseRadiusMm: fc.double({ min: 12, max: 22, noNaN: true }),
      liftMm: fc.double({ min: 4, max: 9, noNaN: true }),
      durationDeg: fc.double({ min: 190, max: 280, noNaN: true }),
      share: fc.double({ min: 0.38, max: 0.62, noNaN: true }),
      rollerRadiusMm: fc.option(fc.double({ min: 6, max: 18, noNaN: true }), { nil: null, freq: 2 }),
    })
    .map(
      ({ durationDeg, share, rollerRadiusMm, ...rest }): LobeSpec => ({
        ...rest,
        durationAtLiftMm: 1.27,
        durationAtLiftCrankRad: durationDeg * DEG,
        openingAtLiftCrankRad: share * durationDeg * DEG,
        follower: rollerRadiusMm === null ? { kind: 'flat' } : { kind: 'roller', radiusMm: rollerRadiusMm },
      }),
    )
    .filter((spec) => checkLobe(spec) === null);

  test('stand at the stated lift where a cam card says, crank degrees either side of the nose', () => {
    fc.assert(
      fc.property(unlike, (spec) => {
        const law = lobeLaw(spec);
        const opening = spec.openingAtLiftCrankRad! / 2;
        const closing = (spec.durationAtLiftCrankRad - spec.openingAtLiftCrankRad!) / 2;
        expect(liftAt(law, opening).h).toBeCloseTo(1.27, 10);
        expect(liftAt(law, -closing).h).toBeCloseTo(1.27, 10);
        expect(crankAboveLiftRad(law, 1.27)).toBeCloseTo(spec.durationAtLiftCrankRad, 9);
      }),
      { seed: 20261125, numRuns: fewer(100, 15) },
    );
  });

  test('the outline holds what the follower leaves, and no more than stated beyond it', () => {
    fc.assert(
      fc.property(unlike, (spec) => {
        const { openingRad, closingRad } = lobeLaw(spec);
        const own: EnvelopeSpec = {
          baseRadiusMm: spec.baseRadiusMm,
          liftMm: spec.liftMm,
          law: spec.law,
          flankRad: openingRad,
          closingRad,
          ...(spec.follower.kind === 'flat' ? {} : { rollerRadiusMm: spec.follower.radiusMm }),
        };
        const { outline } = lobeOutline(spec);
        const turned = lobeOutline(mirrorLobe(spec)).outline;
        for (let k = 0; k < RAYS; k++) {
          const ray = ((k + 0.37) / RAYS) * 2 * Math.PI - Math.PI;
          const beyond = rayReach(outline.pieces, ray) - envelopeRadiusMm(own, ray);
          expect(beyond).toBeGreaterThan(-1e-8);
          // Along the ray the outline may stand off by its normal distance over the cosine of the flank's slope; no engine's is below a half.
          expect(beyond).toBeLessThan(0.004);
          expect(rayReach(turned.pieces, -ray)).toBeCloseTo(rayReach(outline.pieces, ray), 2);
        }
      }),
      { seed: 20261126, numRuns: fewer(12, 2) },
    );
  });

  test('a flank that is too sharp by itself is refused, whichever it is', () => {
    const flat = (share: number): LobeSpec => ({
      baseRadiusMm: 14,
      liftMm: 8,
      law: '3-4-5',
      durationAtLiftCrankRad: 250 * DEG,
      durationAtLiftMm: 1.27,
      openingAtLiftCrankRad: share * 250 * DEG,
      follower: { kind: 'flat' },
    });
    expect(checkLobe(flat(0.5))).toBeNull();
    expect(checkLobe(flat(0.25))?.reason).toBe('too sharp for a flat face');
    expect(checkLobe(flat(0.75))?.reason).toBe('too sharp for a flat face');
    expect(checkLobe(flat(1))?.reason).toBe('opening flank');
  });
});

/** The 3-4-5 law written out anew, flanks of 62 and 70 cam degrees, lift 8 mm. */
function truth(psiRad: number): number {
  const flank = (psiRad < 0 ? 70 : 62) * DEG;
  const u = Math.max(0, 1 - Math.abs(psiRad) / flank);
  return 8 * (10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5);
}

/** Read every `stepDeg` to the nearest `readToMm`. */
function readings(stepDeg: number, readToMm: number, lift = truth): LiftTable {
  const psiRad: number[] = [];
  const liftMm: number[] = [];
  for (let deg = -76; deg <= 76 + 1e-9; deg += stepDeg) {
    psiRad.push(deg * DEG);
    liftMm.push(Math.round(lift(deg * DEG) / readToMm) * readToMm);
  }
  return { psiRad, liftMm, withinMm: readToMm };
}

function fitted(table: LiftTable): FittedTable {
  expect(tableFault(table)).toBeNull();
  const found = fitTable(table);
  if ('reason' in found) throw new Error(found.reason);
  return found;
}

describe('a curve through measured lifts', () => {
  test.each([
    [2, 0.002],
    [1, 0.01],
    [4, 0.002],
    [5, 0.0127],
  ])('every %d degrees, read to %d mm: no reading missed by more, the truth met as well', (step, readTo) => {
    const table = readings(step, readTo);
    const { law, deviationMm } = fitted(table);
    expect(deviationMm).toBeLessThanOrEqual(readTo);
    table.psiRad.forEach((psi, i) => {
      expect(Math.abs(liftAt(law, psi).h - table.liftMm[i]!)).toBeLessThanOrEqual(deviationMm);
    });
    // Between readings: within twice the reading, or a hundredth of a millimetre where they stand far apart.
    for (let deg = -75; deg < 75; deg += 0.13) {
      expect(Math.abs(liftAt(law, deg * DEG).h - truth(deg * DEG))).toBeLessThan(Math.max(2 * readTo, 0.012));
    }
  });

  test('lift, speed and acceleration are continuous, the ends on the base circle included', () => {
    const { law } = fitted(readings(2, 0.002));
    for (let k = 0; k <= law.coefs.length + 3; k++) {
      const psi = k * law.stepRad - law.closingRad;
      const [below, above] = [liftAt(law, psi - 1e-9), liftAt(law, psi + 1e-9)];
      expect(Math.abs(above.h - below.h)).toBeLessThan(1e-7);
      expect(Math.abs(above.h1 - below.h1)).toBeLessThan(1e-6);
      expect(Math.abs(above.h2 - below.h2)).toBeLessThan(1e-4);
    }
  });

  test('a stretch of it against mathjs', () => {
    // The four cubic B-splines of even knots, de Boor, written out as text.
    const f0 = parse('((1-t)^3*a + (3*t^3-6*t^2+4)*b + (-3*t^3+3*t^2+3*t+1)*c + t^3*e)/6');
    const law = { coefs: [0.7, 1.9, 2.2, 2.6, 1.1], stepRad: 0.031 };
    const scope = { a: 0.7, b: 1.9, c: 2.2, e: 2.6 };
    let f = f0;
    const by = [f0];
    for (let n = 0; n < 3; n++) {
      f = derivative(f, 't') as typeof f;
      by.push(f);
    }
    for (let t = 0; t <= 1; t += 0.1) {
      const at = withinStretch(law, 3, t);
      [at.h, at.h1, at.h2, at.h3].forEach((value, n) => {
        const expected = by[n]!.evaluate({ ...scope, t }) / 0.031 ** n;
        expect(Math.abs(value - expected)).toBeLessThan(1e-9 * Math.max(1, Math.abs(expected)));
      });
    }
  });

  test('its extremes hold at every place looked at, and are met', () => {
    const { law } = fitted(readings(1, 0.01));
    const STEPS = fewer(200_000, 20_000);
    const most = { h: 0, h1: 0, h2: 0, h3: 0, slow: 0 };
    let [least, sum] = [0, 0];
    for (let k = 0; k < STEPS; k++) {
      const at = liftAt(law, -law.closingRad + (k / STEPS) * (law.closingRad + law.openingRad));
      for (const key of ['h', 'h1', 'h2', 'h3'] as const) most[key] = Math.max(most[key], Math.abs(at[key]));
      if (at.h <= 0.3) most.slow = Math.max(most.slow, Math.abs(at.h1));
      least = Math.min(least, at.h);
      sum = Math.min(sum, at.h + at.h2);
    }
    const x = tableExtremes(law);
    const meets = (bound: number, sampled: number) => {
      expect(sampled).toBeLessThanOrEqual(bound + 1e-9);
      expect(sampled).toBeGreaterThan(bound * (1 - 1e-4) - 1e-9);
    };
    meets(x.greatestMm, most.h);
    meets(x.h1, most.h1);
    meets(x.h2, most.h2);
    meets(x.h3, most.h3);
    meets(-x.leastMm, -least);
    meets(-x.leastLiftPlusAccelMm, -sum);
    expect(most.slow).toBeLessThanOrEqual(tableSpeedUpTo(law, 0.3));
    expect(liftAt(law, x.greatestAtRad).h).toBeCloseTo(x.greatestMm, 12);
  });

  test('mirrored, lift changes sides', () => {
    const { law } = fitted(readings(2, 0.002));
    const other = mirrorLaw(law) as TableLaw;
    for (let psi = -1.4; psi < 1.4; psi += 0.07) expect(liftAt(other, -psi).h).toBeCloseTo(liftAt(law, psi).h, 12);
    const table = fitted(
      (mirrorLobe({ baseRadiusMm: 15, follower: { kind: 'flat' }, table: readings(2, 0.002) }) as MeasuredLobe).table,
    );
    for (let psi = -1.4; psi < 1.4; psi += 0.07) expect(liftAt(table.law, -psi).h).toBeCloseTo(liftAt(law, psi).h, 8);
  });
});

describe('the outline of a measured lobe', () => {
  test.each([
    ['flat', { kind: 'flat' as const }, 36],
    ['roller', { kind: 'roller' as const, radiusMm: 9.5 }, 15],
  ])('%s: holds what the follower leaves at every reading, and at the truth', (_, follower, baseRadiusMm) => {
    const table = readings(2, 0.005);
    const lobe: MeasuredLobe = { baseRadiusMm, follower, table };
    expect(checkLobe(lobe)).toBeNull();
    const { outline, deviationMm, errorMm } = lobeOutline(lobe);
    expect(errorMm).toBeLessThanOrEqual(0.002);
    const { law } = fitted(table);
    const roller = follower.kind === 'roller' ? { rollerRadiusMm: follower.radiusMm } : {};
    const asFitted: EnvelopeSpec = {
      baseRadiusMm,
      liftMm: 8,
      law: '3-4-5',
      flankRad: 1,
      lift: (psi) => liftAt(law, psi).h,
      ...roller,
    };
    for (let k = 0; k < RAYS; k++) {
      const ray = ((k + 0.37) / RAYS) * 2 * Math.PI - Math.PI;
      const reach = rayReach(outline.pieces, ray);
      const beyond = reach - envelopeRadiusMm(asFitted, ray);
      expect(beyond).toBeGreaterThan(-1e-8);
      expect(beyond).toBeLessThan(2 * (deviationMm + 0.002));
      const off = reach - envelopeRadiusMm({ ...asFitted, lift: truth }, ray);
      expect(Math.abs(off)).toBeLessThan(0.03);
    }
  });
});

describe('tables that are refused', () => {
  const good = readings(2, 0.005);
  const fault = (table: Partial<LiftTable>) => tableFault({ ...good, ...table });
  const with1 = (i: number, lift: number) => ({ liftMm: good.liftMm.map((l, k) => (k === i ? lift : l)) });

  test('by what is wrong with the readings', () => {
    expect(fault({})).toBeNull();
    expect(tableFault(readings(12, 0.005))?.reason).toBe('too few readings');
    const swapped = good.psiRad.map((p, k) => (k === 10 ? good.psiRad[12]! : p));
    expect(fault({ psiRad: swapped })).toMatchObject({ reason: 'order of angles', reading: 10 });
    expect(fault(with1(0, 0.02))).toMatchObject({ reason: 'ends not on the base circle', reading: 0 });
    expect(fault(with1(1, -0.02))).toMatchObject({ reason: 'lift below the base circle', reading: 1 });
    expect(fault(with1(20, 1))).toMatchObject({ reason: 'no single nose' });
    expect(fault({ psiRad: good.psiRad.map((p) => p + 4 * DEG) })?.reason).toBe('nose away from zero');
    const gap = {
      psiRad: good.psiRad.filter((_, k) => k < 20 || k > 24),
      liftMm: good.liftMm.filter((_, k) => k < 20 || k > 24),
    };
    expect(fault(gap)).toMatchObject({ reason: 'readings too far apart', unit: 'rad' });
  });

  test('one reading off by more than they are said to be right within', () => {
    const i = good.psiRad.findIndex((p) => p > -30 * DEG);
    const lobe: MeasuredLobe = {
      baseRadiusMm: 15,
      follower: { kind: 'roller', radiusMm: 9.5 },
      table: { ...good, ...with1(i, good.liftMm[i]! + fewer(0.15, 0.05)) },
    };
    // Either no curve passes it, or the one that does has a bump that no roller follows.
    expect(checkLobe(lobe)?.reason).toMatch(/table|roller/);
  });

  test('noise that would leave hollows under a flat face', () => {
    let seed = 7;
    const noise = () => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647 - 0.5;
    };
    const noisy = readings(1, 0.0001, (psi) => truth(psi) + (Math.abs(psi) < 60 * DEG ? 0.02 * noise() : 0));
    const lobe: MeasuredLobe = { baseRadiusMm: 36, follower: { kind: 'flat' }, table: noisy };
    expect(checkLobe(lobe)?.reason).toMatch(/table|too sharp for a flat face/);
    // Said to be right within what the noise is, the curve goes through its middle and can be followed.
    expect(checkLobe({ ...lobe, table: { ...noisy, withinMm: 0.0127 } })).toBeNull();
  });
});

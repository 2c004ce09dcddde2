import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { biarc } from '../../../src/core/lobe/biarc.ts';
import { lobeOutline } from '../../../src/core/lobe/lobeOutline.ts';
import { surfaceAt } from '../../../src/core/lobe/lobeProfile.ts';
import { checkLobe, type LobeSpec, lobeLaw } from '../../../src/core/lobe/lobeSpec.ts';
import type { Piece } from '../../../src/core/outline/outline.ts';
import { pieceEnd, pieceStart } from '../../../src/core/outline/outline.ts';
import { fewer } from '../../support/fewer.ts';
import { type EnvelopeSpec, envelopeRadiusMm } from './followerEnvelope.ts';

const DEG = Math.PI / 180;

const lobes = fc
  .record({
    law: fc.constantFrom('3-4-5' as const, 'cycloidal' as const),
    baseRadiusMm: fc.double({ min: 10, max: 22, noNaN: true }),
    liftMm: fc.double({ min: 3, max: 11, noNaN: true }),
    durationDeg: fc.double({ min: 170, max: 320, noNaN: true }),
    durationAtLiftMm: fc.double({ min: 0, max: 1.5, noNaN: true }),
    rollerRadiusMm: fc.option(fc.double({ min: 5, max: 20, noNaN: true }), { nil: null, freq: 2 }),
  })
  .map(
    ({ durationDeg, rollerRadiusMm, ...rest }): LobeSpec => ({
      ...rest,
      durationAtLiftCrankRad: durationDeg * DEG,
      follower: rollerRadiusMm === null ? { kind: 'flat' } : { kind: 'roller', radiusMm: rollerRadiusMm },
    }),
  )
  .filter((spec) => checkLobe(spec) === null);

function envelopeOf(spec: LobeSpec): EnvelopeSpec {
  const { baseRadiusMm, liftMm, law } = spec;
  const own = { baseRadiusMm, liftMm, law, flankRad: lobeLaw(spec).openingRad };
  return spec.follower.kind === 'flat' ? own : { ...own, rollerRadiusMm: spec.follower.radiusMm };
}

function holds(piece: Piece & { kind: 'arc' }, angle: number): boolean {
  const way = Math.sign(piece.sweepRad);
  let past = (angle - piece.startRad) * way;
  past -= 2 * Math.PI * Math.floor(past / (2 * Math.PI));
  // A rounding before the start counts as at it.
  return past <= Math.abs(piece.sweepRad) + 1e-9 || past >= 2 * Math.PI - 1e-9;
}

function distanceTo(piece: Piece, x: number, y: number): number {
  if (piece.kind === 'line') {
    const [dx, dy] = [piece.x1 - piece.x0, piece.y1 - piece.y0];
    const t = Math.min(1, Math.max(0, ((x - piece.x0) * dx + (y - piece.y0) * dy) / (dx * dx + dy * dy)));
    return Math.hypot(x - piece.x0 - t * dx, y - piece.y0 - t * dy);
  }
  const [ux, uy] = [x - piece.cx, y - piece.cy];
  if (holds(piece, Math.atan2(uy, ux))) return Math.abs(Math.hypot(ux, uy) - piece.r);
  const [[ax, ay], [bx, by]] = [pieceStart(piece), pieceEnd(piece)];
  return Math.min(Math.hypot(x - ax, y - ay), Math.hypot(x - bx, y - by));
}

/** Where the ray from the origin along the unit direction leaves the chain of pieces; the chain is met once. */
function rayRadius(pieces: readonly Piece[], dx: number, dy: number): number {
  const met: number[] = [];
  for (const piece of pieces) {
    if (piece.kind === 'line') {
      const [ex, ey] = [piece.x1 - piece.x0, piece.y1 - piece.y0];
      const det = dx * -ey + dy * ex;
      if (det === 0) continue;
      const t = (piece.x0 * -ey + piece.y0 * ex) / det;
      const k = (dx * piece.y0 - dy * piece.x0) / det;
      if (t > 0 && k >= -1e-9 && k <= 1 + 1e-9) met.push(t);
      continue;
    }
    const along = piece.cx * dx + piece.cy * dy;
    const root = piece.r * piece.r - (piece.cx * dy - piece.cy * dx) ** 2;
    if (root < 0) continue;
    for (const t of [along - Math.sqrt(root), along + Math.sqrt(root)]) {
      if (t > 0 && holds(piece, Math.atan2(t * dy - piece.cy, t * dx - piece.cx))) met.push(t);
    }
  }
  expect(met.length).toBeGreaterThan(0);
  expect(Math.max(...met) - Math.min(...met)).toBeLessThan(1e-6);
  return Math.max(...met);
}

function checkOutline(spec: LobeSpec, errorMm: number, rays: number): number {
  const { outline, errorMm: proven } = lobeOutline(spec, errorMm);
  expect(proven).toBeLessThanOrEqual(errorMm);
  const { pieces } = outline;
  // A closed chain that turns once counterclockwise.
  let turned = 0;
  pieces.forEach((piece, i) => {
    const next = pieces[(i + 1) % pieces.length]!;
    const [[ax, ay], [bx, by]] = [pieceEnd(piece), pieceStart(next)];
    expect(Math.hypot(ax - bx, ay - by)).toBeLessThan(1e-9);
    if (piece.kind === 'arc') {
      expect(Math.abs(piece.sweepRad)).toBeLessThanOrEqual(2 * Math.PI);
      expect(piece.r).toBeGreaterThan(0);
      turned += piece.sweepRad;
    }
  });
  expect(Math.abs(turned - 2 * Math.PI)).toBeLessThan(1e-4); // arcs as flat as 1 km in radius are lines
  const envelope = envelopeOf(spec);
  for (let k = 0; k < rays; k++) {
    const ray = ((k + 0.37) / rays) * 2 * Math.PI - Math.PI;
    const [dx, dy] = [Math.sin(ray), Math.cos(ray)];
    const truth = envelopeRadiusMm(envelope, ray);
    const drawn = rayRadius(pieces, dx, dy);
    // 1e-8: what golden sections leave of the true envelope.
    expect(drawn - truth).toBeGreaterThan(-1e-8);
    const off = Math.min(...pieces.map((p) => distanceTo(p, truth * dx, truth * dy)));
    expect(off).toBeLessThan(proven + 1e-8);
  }
  return pieces.length;
}

describe('the outline against the envelope of the follower itself', () => {
  test('seeded random lobes: nowhere inside, nowhere farther outside than stated', () => {
    let concave = 0;
    let most = 0;
    fc.assert(
      fc.property(lobes, (spec) => {
        most = Math.max(most, checkOutline(spec, 0.002, fewer(180, 24)));
        if (lobeOutline(spec).outline.pieces.some((p) => p.kind === 'arc' && p.sweepRad < 0)) concave += 1;
      }),
      { seed: 20250128, numRuns: fewer(40, 12), endOnFailure: true },
    );
    expect(concave).toBeGreaterThan(fewer(3, 0)); // hollow flanks are among them
    expect(most).toBeLessThanOrEqual(49);
  });

  test('other errors, coarse and fine', () => {
    fc.assert(
      fc.property(lobes, fc.constantFrom(0.05, 0.01, 0.0003), (spec, errorMm) => {
        checkOutline(spec, errorMm, 60);
      }),
      { seed: 20250129, numRuns: fewer(12, 2), endOnFailure: true },
    );
  });

  test('a lobe of ordinary size takes about forty pieces', () => {
    const spec: LobeSpec = {
      baseRadiusMm: 14,
      liftMm: 9,
      law: '3-4-5',
      durationAtLiftCrankRad: 230 * DEG,
      durationAtLiftMm: 1.27,
      follower: { kind: 'roller', radiusMm: 9.5 },
    };
    expect(checkOutline(spec, 0.002, fewer(720, 72))).toBeLessThanOrEqual(41);
    // Twice as coarse, fewer pieces.
    expect(checkOutline(spec, 0.02, 90)).toBeLessThan(30);
  });

  test('hollow flanks with a waist wider than the roller', () => {
    const spec: LobeSpec = {
      baseRadiusMm: 8.13,
      liftMm: 16.6,
      law: 'cycloidal',
      durationAtLiftCrankRad: 190 * DEG,
      durationAtLiftMm: 0.26,
      follower: { kind: 'roller', radiusMm: 4.6 },
    };
    checkOutline(spec, 0.002, fewer(360, 48));
  });

  test('no base circle left: flanks that meet behind', () => {
    // A flank just under half a turn: 720 crank degrees at no lift.
    const spec: LobeSpec = {
      baseRadiusMm: 15,
      liftMm: 6,
      law: 'cycloidal',
      durationAtLiftCrankRad: 4 * Math.PI * (1 - 1e-3),
      durationAtLiftMm: 0,
      follower: { kind: 'flat' },
    };
    checkOutline(spec, 0.002, fewer(360, 48));
    checkOutline({ ...spec, durationAtLiftCrankRad: 4 * Math.PI }, 0.002, fewer(360, 48));
  });
});

describe('the base circle', () => {
  test('is one exact arc, behind the flanks', () => {
    const spec: LobeSpec = {
      baseRadiusMm: 16,
      liftMm: 7,
      law: 'cycloidal',
      durationAtLiftCrankRad: 270 * DEG,
      durationAtLiftMm: 1.27,
      follower: { kind: 'flat' },
    };
    expect(checkLobe(spec)).toBeNull();
    const { pieces } = lobeOutline(spec).outline;
    const base = pieces.filter((p) => p.kind === 'arc' && p.cx === 0 && p.cy === 0);
    expect(base.length).toBe(1);
    expect(base[0]).toMatchObject({ r: 16 });
    expect(rayRadius(pieces, 0, -1)).toBeCloseTo(16, 12);
    // The nose: base radius and lift, on +y.
    const nose = rayRadius(pieces, 0, 1);
    expect(nose).toBeGreaterThanOrEqual(23);
    expect(nose).toBeLessThan(23.002);
    // Alike on both sides.
    for (const a of [0.3, 0.9, 1.4, 2]) {
      expect(rayRadius(pieces, Math.sin(a), Math.cos(a))).toBeCloseTo(rayRadius(pieces, -Math.sin(a), Math.cos(a)), 10);
    }
  });
});

test('the surface touches the follower where its formula says', () => {
  fc.assert(
    fc.property(lobes, fc.double({ min: -3, max: 3, noNaN: true }), (spec, psi) => {
      const p = surfaceAt(lobeLaw(spec), spec.baseRadiusMm, spec.follower, psi);
      const ray = Math.atan2(p.x, p.y);
      expect(Math.abs(Math.hypot(p.x, p.y) - envelopeRadiusMm(envelopeOf(spec), ray))).toBeLessThan(1e-8);
      expect(Math.hypot(p.nx, p.ny)).toBeCloseTo(1, 12);
    }),
    { seed: 20250130, numRuns: fewer(200, 25), endOnFailure: true },
  );
});

describe('refused', () => {
  const spec: LobeSpec = {
    baseRadiusMm: 8,
    liftMm: 8,
    law: '3-4-5',
    durationAtLiftCrankRad: 200 * DEG,
    durationAtLiftMm: 1,
    follower: { kind: 'flat' },
  };
  test('a waist narrower than the roller, which the roller would cut away', () => {
    const pinched: LobeSpec = {
      baseRadiusMm: 2.36,
      liftMm: 21.9,
      law: 'cycloidal',
      durationAtLiftCrankRad: 2.19,
      durationAtLiftMm: 0.0466,
      follower: { kind: 'roller', radiusMm: 2.7 },
    };
    expect(() => lobeOutline(pinched)).toThrow(/waist under the nose/);
    // The follower itself: somewhere a place that it touches is cut by it elsewhere.
    const STEPS = fewer(200, 40);
    let cut = 0;
    for (let k = 0; k < STEPS; k++) {
      const p = surfaceAt(lobeLaw(pinched), 2.36, pinched.follower, (k / STEPS) * 1.2);
      cut = Math.max(cut, Math.hypot(p.x, p.y) - envelopeRadiusMm(envelopeOf(pinched), Math.atan2(p.x, p.y)));
    }
    expect(cut).toBeGreaterThan(0.01);
  });

  test('a lobe that no follower can follow, an error that is not positive', () => {
    expect(() => lobeOutline(spec)).toThrow(/too sharp for a flat face/);
    expect(() => lobeOutline({ ...spec, baseRadiusMm: 40 }, 0)).toThrow(/outline error 0 mm/);
    expect(() => lobeOutline({ ...spec, baseRadiusMm: 40 }, Number.NaN)).toThrow(/outline error NaN mm/);
  });
});

describe('biarcs', () => {
  test('leave and arrive along their directions and meet without a kink', () => {
    const unit = fc.double({ min: -1.2, max: 1.2, noNaN: true });
    const ratio = fc.double({ min: 0.4, max: 2.5, noNaN: true });
    fc.assert(
      fc.property(unit, unit, ratio, (a, b, k) => {
        const from = { x: 1, y: 2, tx: Math.cos(a), ty: Math.sin(a) };
        const to = { x: 4, y: 2.5, tx: Math.cos(b), ty: Math.sin(b) };
        const pair = biarc(from, to, k)!;
        const dir = (p: Piece, end: boolean): number => {
          if (p.kind === 'line') return Math.atan2(p.y1 - p.y0, p.x1 - p.x0);
          return p.startRad + (end ? p.sweepRad : 0) + (Math.sign(p.sweepRad) * Math.PI) / 2;
        };
        const close = (x: number, y: number) => expect(Math.abs(Math.sin((x - y) / 2))).toBeLessThan(2e-6);
        close(dir(pair.first, false), a);
        close(dir(pair.second, true), b);
        close(dir(pair.first, true), dir(pair.second, false));
        const [[sx, sy], [mx, my]] = [pieceStart(pair.first), pieceEnd(pair.first)];
        const [[nx, ny], [ex, ey]] = [pieceStart(pair.second), pieceEnd(pair.second)];
        expect(Math.hypot(sx - 1, sy - 2)).toBeLessThan(1e-9);
        expect(Math.hypot(mx - nx, my - ny)).toBeLessThan(1e-9);
        expect(Math.hypot(ex - 4, ey - 2.5)).toBeLessThan(1e-9);
      }),
      { seed: 20250131, numRuns: fewer(300, 40), endOnFailure: true },
    );
  });

  test('straight ahead gives lines', () => {
    const pair = biarc({ x: 0, y: 0, tx: 1, ty: 0 }, { x: 3, y: 0, tx: 1, ty: 0 }, 1)!;
    expect([pair.first.kind, pair.second.kind]).toEqual(['line', 'line']);
  });

  test('none backward', () => {
    expect(biarc({ x: 0, y: 0, tx: -1, ty: 0 }, { x: 3, y: 0, tx: -1, ty: 0 }, 1)).toBeNull();
  });
});

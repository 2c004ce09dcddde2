/**
 * From the static gap to the running one. Deck clearances by hand; gaps to the counterweight against the static gap of a build whose
 * dimensions are changed by as much as the allowance moves the part.
 */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../../src/build/document.ts';
import { certifiedGaps } from '../../../src/model/certified.ts';
import type { Gap } from '../../../src/model/results.ts';
import { type RunningGap, runningGaps } from '../../../src/model/running/runningGap.ts';
import { changed } from '../../support/changed.ts';
import { dim, exampleV8 } from '../../support/exampleBuild.ts';

const A = 'assemblies[1]';
const IN = 25.4;
/** The search pins angles to 1e-5 radians; what is left of a smooth minimum is far below this. */
const NEAR_MM = 1e-5;

/** Straight bores and pins, so that dead centres lie at 0 and 180; counterweights that come near the pistons. */
const base = changed(exampleV8(), {
  [`${A}.piston.pinOffset`]: dim('0 in'),
  'block.boreOffset': dim('0 in'),
  [`${A}.crank.counterweight.radius`]: dim('3.350 in'),
}) as unknown as BuildDocument;

const altered = (changes: Record<string, unknown>): BuildDocument => changed(base, changes) as unknown as BuildDocument;

function gapsOf(doc: BuildDocument): Gap[] {
  return certifiedGaps(doc, layOut(doc, 'Stroker'), new Map());
}

const standing = gapsOf(base);
const DECK = 'piston 1 · deck';
const SKIRT = 'counterweight 1 front · piston 1';
const only = (id: string): Gap[] => standing.filter((g) => g.id === id);

function running(dims: Record<string, unknown>, id: string, more: Record<string, unknown> = {}): RunningGap {
  const doc = altered({ ...more, [`${A}.running`]: dims });
  return runningGaps(doc, layOut(doc, 'Stroker'), only(id)).gaps.get(id)!;
}

// The example: stroke 3.810, rod 6.000, compression height 1.395, deck 9.310 in.
const R = (3.81 / 2) * IN;
const L = 6 * IN;
const HEIGHT = 1.395 * IN;
const BORE = 4.06 * IN;

const WEIGHTS = {
  [`${A}.weights`]: {
    piston: dim('500 g'),
    pin: dim('120 g'),
    rings: dim('50 g'),
    locks: dim('4 g'),
    rodSmallEnd: dim('176 g'),
  },
};
const KG = 0.85;

describe('a crown at top dead centre', () => {
  it('comes nearer the deck by half of each clearance: inertia pulls outward', () => {
    for (const key of ['rodClearance', 'pinClearance']) {
      const found = running({ [key]: dim('.004 in') }, DECK);
      expect(found.lines).toHaveLength(1);
      expect(found.lines[0]!.changeMm).toBeCloseTo(-0.002 * IN, 5);
      expect(found.runningMm).toBeCloseTo(found.staticMm - 0.002 * IN, 5);
    }
  });

  it('and by as much of the main bearing’s half clearance as lies along the bore: both pistons of the pin pull', () => {
    // Piston 1 pulls along its bore with 1 + r / l; piston 2, a quarter turn off, pushes along its own, square to it, with
    // r / sqrt(l² - r²): the crank stands off along their sum.
    const [along, across] = [1 + R / L, R / Math.sqrt(L * L - R * R)];
    const found = running({ mainClearance: dim('.004 in') }, DECK);
    expect(found.lines[0]!.changeMm).toBeCloseTo((-0.002 * IN * along) / Math.hypot(along, across), 5);
  });

  it('and by the stretch of the rod at the speed: F l / (A E), F = m r w² (1 + r / l)', () => {
    for (const [rpm, speed] of [
      [6000, { speed: dim('6000 rpm') }],
      [Number.NaN, {}],
    ] as const) {
      const build = Number(/\d+/.exec(base.speed.value)![0]);
      const w = ((Number.isNaN(rpm) ? build : rpm) * 2 * Math.PI) / 60;
      const found = running({ ...speed, rodSection: dim('200 mm2'), rodModulus: dim('205 GPa') }, DECK, WEIGHTS);
      const force = KG * (R / 1000) * w * w * (1 + R / L);
      expect(found.lines.map((l) => l.allowance)).toEqual(['rod stretch']);
      expect(found.lines[0]!.changeMm).toBeCloseTo((-force * L) / (200 * 205_000), 6);
    }
  });

  it('askew in the bore by its edge: R sin t - h (1 - cos t), t = atan(c / L)', () => {
    const found = running({ skirtClearance: dim('.004 in'), guideLength: dim('2 in') }, DECK);
    const t = Math.atan(0.004 / 2);
    expect(found.lines[0]!.changeMm).toBeCloseTo(-((BORE / 2) * Math.sin(t) - HEIGHT * (1 - Math.cos(t))), 6);
  });

  it('warm by what block, crank, rod and piston grow', () => {
    const grown = running(
      {
        ...{ crankGrowth: dim('11 ppm/K'), crankWarmer: dim('70 K') },
        ...{ rodGrowth: dim('11 ppm/K'), rodWarmer: dim('80 K') },
        ...{ pistonGrowth: dim('21 ppm/K'), pistonWarmer: dim('150 K') },
        ...{ blockGrowth: dim('10.5 ppm/K'), blockWarmer: dim('65 °C') },
      },
      DECK,
    );
    const change = 9.31 * IN * 10.5e-6 * 65 - R * 11e-6 * 70 - L * 11e-6 * 80 - HEIGHT * 21e-6 * 150;
    expect(grown.lines[0]!.changeMm).toBeCloseTo(change, 6);
  });

  it('all together: the lines add up, in their order', () => {
    const all = running(
      {
        ...{ mainClearance: dim('.002 in'), rodClearance: dim('.003 in'), pinClearance: dim('.001 in') },
        ...{ rodSection: dim('.3 sq in'), rodModulus: dim('205 GPa'), speed: dim('7000 rpm') },
        ...{ skirtClearance: dim('.004 in'), guideLength: dim('2 in') },
        ...{ pistonGrowth: dim('21 ppm/K'), pistonWarmer: dim('100 K') },
      },
      DECK,
      WEIGHTS,
    );
    expect(all.lines.map((l) => l.allowance)).toEqual([
      'main bearing clearance',
      'rod bearing clearance',
      'wrist pin clearance',
      'rod stretch',
      'piston rock',
      'growth by heat',
    ]);
    expect(all.lines.reduce((sum, l) => sum + l.changeMm, all.staticMm)).toBeCloseTo(all.runningMm, 9);
    for (const line of all.lines) expect(line.changeMm).toBeLessThan(0);
  });
});

describe('a counterweight under the piston at bottom dead centre', () => {
  /** Static gap of the build with something changed. */
  const gapWith = (changes: Record<string, unknown>): number =>
    gapsOf(altered(changes)).find((g) => g.id === SKIRT)!.gapMm;
  const was = only(SKIRT)[0]!.gapMm;

  it('meets a piston that inertia pushes toward the crank: as with a rod shorter by half the clearance', () => {
    expect(was).toBeGreaterThan(0);
    const shorter = gapWith({ [`${A}.rod.length`]: dim('5.998 in') }) - was;
    expect(shorter).toBeLessThan(-0.03);
    for (const key of ['rodClearance', 'pinClearance']) {
      const found = running({ [key]: dim('.004 in') }, SKIRT);
      expect(Math.abs(found.lines[0]!.changeMm - shorter)).toBeLessThan(NEAR_MM);
    }
  });

  it('shortens the rod by inertia: m r w² (1 - r / l) at bottom dead centre', () => {
    const w = (6000 * 2 * Math.PI) / 60;
    const force = KG * (R / 1000) * w * w * (1 - R / L);
    const less = (force * L) / (200 * 205_000);
    const shorter = gapWith({ [`${A}.rod.length`]: dim(`${(L - less).toFixed(6)} mm`) }) - was;
    const dims = { speed: dim('6000 rpm'), rodSection: dim('200 mm2'), rodModulus: dim('205 GPa') };
    const found = running(dims, SKIRT, WEIGHTS);
    // The rod's push differs a little beside dead centre, where the gap is all but as small.
    expect(Math.abs(found.lines[0]!.changeMm - shorter)).toBeLessThan(1e-4);
  });

  it('grows toward it by heat, as a counterweight of a larger radius does', () => {
    const growth = 1 + 11e-6 * 90;
    const larger =
      gapWith({
        [`${A}.crank.counterweight.radius`]: dim(`${(3.35 * growth).toFixed(9)} in`),
        [`${A}.crank.stroke`]: dim(`${(3.81 * growth).toFixed(9)} in`),
      }) - was;
    const found = running({ crankGrowth: dim('11 ppm/K'), crankWarmer: dim('90 K') }, SKIRT);
    expect(Math.abs(found.lines[0]!.changeMm - larger)).toBeLessThan(5e-4);
  });
});

describe('what is switched on', () => {
  it('nothing: no ladder', () => {
    expect(runningGaps(base, layOut(base, 'Stroker'), only(DECK)).gaps.size).toBe(0);
  });

  it('begun and not complete: what is still to be stated, and no line', () => {
    const doc = altered({
      [`${A}.running`]: { rodSection: dim('200 mm2'), skirtClearance: dim('.004 in'), rodGrowth: dim('11 ppm/K') },
    });
    const { engine, gaps } = runningGaps(doc, layOut(doc, 'Stroker'), only(DECK));
    expect(gaps.size).toBe(0);
    expect(engine.on).toEqual([]);
    expect(engine.buildsSpeed).toBe(true);
    expect(engine.lacking.map((l) => l.allowance)).toEqual(['rod stretch', 'piston rock', 'growth by heat']);
    expect(engine.lacking[0]!.needs).toEqual([
      'modulus of the rod',
      'piston weight',
      'pin weight',
      'ring weight',
      'lock weight',
      'small-end weight of the rod',
    ]);
  });
});

describe('every pair of the engine', () => {
  it('gets finite lines, small beside the allowances themselves', () => {
    const doc = altered({
      ...WEIGHTS,
      [`${A}.running`]: {
        ...{ mainClearance: dim('.002 in'), rodClearance: dim('.003 in'), pinClearance: dim('.001 in') },
        ...{ rodSection: dim('.3 sq in'), rodModulus: dim('205 GPa') },
        ...{ skirtClearance: dim('.004 in'), guideLength: dim('2 in') },
      },
    });
    const engine = layOut(doc, 'Stroker');
    const some = standing.filter((g) => ['1', '2'].some((n) => g.between.some((name) => name.includes(n))));
    const kinds = new Set<string>();
    const asked = some.filter((g) => !kinds.has(g.kind) && kinds.add(g.kind));
    expect(asked.length).toBeGreaterThan(6);
    const { gaps } = runningGaps(doc, engine, asked);
    for (const gap of asked) {
      const { lines, runningMm } = gaps.get(gap.id)!;
      expect(lines).toHaveLength(5);
      for (const line of lines) {
        expect(Number.isFinite(line.changeMm)).toBe(true);
        expect(Math.abs(line.changeMm), `${gap.id} ${line.allowance}`).toBeLessThan(0.25);
      }
      expect(Math.abs(runningMm - gap.gapMm)).toBeLessThan(0.6);
    }
  });
});

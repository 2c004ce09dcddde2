/** Chance builds and sums of tolerances on a build whose gap is linear in its dimensions, so that the answer is known otherwise. */
import { describe, expect, it } from 'vitest';
import type { BuildDocument } from '../../../src/build/document.ts';
import { directPool, toTheEnd } from '../../../src/model/pieces/kind.ts';
import type { Hand } from '../../../src/model/pieces/pool.ts';
import { createPool } from '../../../src/model/pieces/pool.ts';
import type { FromWorker } from '../../../src/model/pieces/serve.ts';
import { serve } from '../../../src/model/pieces/serve.ts';
import { WORK } from '../../../src/model/pieces/table.ts';
import type { Lot, MonteCarloTask } from '../../../src/model/tolerances/monteCarlo.ts';
import { lotsOf, monteCarloWork } from '../../../src/model/tolerances/monteCarlo.ts';
import type { Outcome } from '../../../src/model/tolerances/outcome.ts';
import { outcomeOf } from '../../../src/model/tolerances/outcome.ts';
import { asked, sensitivityWork } from '../../../src/model/tolerances/sensitivity.ts';
import { settled } from '../../../src/model/tolerances/settled.ts';
import { sdOf } from '../../../src/model/tolerances/spread.ts';
import { stackOf, worstCaseWork } from '../../../src/model/tolerances/stack.ts';
import { FLAT_GAP_ID, FLAT_GAP_MM, flatSkirt } from './flatSkirt.ts';

/** gap = l - s/2 - b - R: what each band, plus and minus, does to it. */
const LITERALS = {
  rod: '152.4 ±0.05 mm',
  stroke: '92 +0.10 -0.00 mm',
  skirt: '28 ±0.10 mm',
  radius: '75.0 +0.00/-0.20 mm',
};
/** Middles: stroke +.05 takes .025, radius -.10 gives .10. */
const MIDDLE = FLAT_GAP_MM - 0.025 + 0.1;
/** Half ranges of the gap. */
const HALVES = [0.05, 0.025, 0.1, 0.1];

function task(doc: BuildDocument, more: Partial<MonteCarloTask> = {}): MonteCarloTask {
  return {
    doc: settled(doc, doc.proposed),
    gapId: FLAT_GAP_ID,
    hints: new Map([[FLAT_GAP_ID, Math.PI]]),
    builds: 400,
    seed: 11,
    ...more,
  };
}

function run(t: MonteCarloTask): Outcome {
  const work = monteCarloWork(t);
  return outcomeOf(lotsOf(t).map((lot) => toTheEnd(work(lot))));
}

describe('sums of tolerances', () => {
  const doc = flatSkirt(LITERALS);
  const about = {
    doc: settled(doc, doc.proposed),
    gapId: FLAT_GAP_ID,
    between: ['counterweight 1 front', 'piston 1'] as const,
    atCrankRad: Math.PI,
  };
  const list = toTheEnd(sensitivityWork(about)(asked(about)));

  it('worst case, best case and root sum of squares in closed form', () => {
    const stack = stackOf(FLAT_GAP_MM, list);
    expect(stack.worstSumMm).toBeCloseTo(FLAT_GAP_MM - 0.05 - 0.05 - 0.1, 5);
    expect(stack.bestSumMm).toBeCloseTo(FLAT_GAP_MM + 0.05 + 0.1 + 0.2, 5);
    expect(stack.middleMm).toBeCloseTo(MIDDLE, 5);
    expect(stack.rssMm).toBeCloseTo(Math.hypot(...HALVES), 5);
    expect(stack.exact).toBe(0);
    expect(stack.refusedEnds).toEqual([]);
  });

  it('the worst case on the build itself', () => {
    const worst = toTheEnd(worstCaseWork(about)(list));
    expect(worst.gapMm).toBeCloseTo(FLAT_GAP_MM - 0.2, 5);
    expect(worst.lowerBoundMm).toBeGreaterThan(FLAT_GAP_MM - 0.2 - 0.0011);
    const ends = Object.fromEntries(
      list.filter((s) => s.variable.band !== null).map((s, k) => [s.variable.label, worst.ends[k]]),
    );
    expect(ends).toEqual({ length: -1, stroke: 1, 'skirt below pin': 1, radius: 1 });
    expect(worst.turned).toBe(0);
  });
});

describe('chance builds', () => {
  for (const as of [{ as: 'uniform' }, { as: 'normal', sigmas: 3 }] as const) {
    it(`agree with the linear estimate within three standard errors: ${as.as}`, () => {
      const { spread, built, refused } = run(task({ ...flatSkirt(LITERALS), tolerances: as }));
      expect([built, refused]).toEqual([400, 0]);
      const { mean, sd, count } = spread!.summary;
      const sigma = Math.hypot(...HALVES.map((half) => sdOf(half, as)));
      expect(Math.abs(mean - MIDDLE)).toBeLessThan((3 * sigma) / Math.sqrt(count));
      // Standard error of a standard deviation: sigma sqrt((kurtosis - 1) / 4n), kurtosis at most 3 here.
      expect(Math.abs(sd - sigma)).toBeLessThan((3 * sigma) / Math.sqrt(2 * count));
    });
  }

  it('chance of a triangle, of which an eighth lies below the limit', () => {
    // Two bands alike, ±h: their sum is a triangle over ±2h, of which (2h - h)² / 2(2h)² = 1/8 lies beyond -h.
    const doc = flatSkirt({ rod: '152.4 ±0.10 mm', skirt: '28 ±0.10 mm' }, '3.3 mm');
    const { chance, below, byGap } = run(task(doc));
    expect(chance!.interval.low).toBeLessThan(0.125);
    expect(chance!.interval.high).toBeGreaterThan(0.125);
    expect(Math.abs(chance!.seen - 0.125)).toBeLessThan(3 * Math.sqrt((0.125 * 0.875) / 400));
    expect(byGap).toMatchObject([{ id: FLAT_GAP_ID, below }]);
  });

  it('of all gaps the worst margin is told, and each gap counted', () => {
    // Both cheeks' counterweights under one skirt vary each by itself; the rod is common to both.
    const doc = flatSkirt({ rod: '152.4 ±0.10 mm', radius: '75.0 ±0.10 mm' }, '3.35 mm');
    const all = run(task(doc, { gapId: null, builds: 40 }));
    const one = run(task(doc, { builds: 40 }));
    expect(all.below).toBeGreaterThan(one.below);
    const front = all.byGap.find((g) => g.id === FLAT_GAP_ID)!;
    expect(front.below).toBe(one.below);
    expect(all.byGap.find((g) => g.id === 'counterweight 1 rear · piston 1')!.below).toBeGreaterThan(0);
    // The margin of the worst is never above that of one.
    expect(all.spread!.summary.mean).toBeLessThan(one.spread!.summary.mean - 3.35);
    expect(all.spread!.summary.least).toBeGreaterThan(FLAT_GAP_MM - 0.2 - 3.35 - 1e-6);
  });

  it('a build that a rule refuses is counted and left out of the chance', () => {
    // Skirt as wide as the bore, plus or minus: half of the builds have a piston that does not go in.
    const doc = flatSkirt(LITERALS);
    const wide: BuildDocument = {
      ...doc,
      assemblies: doc.assemblies.map((a) => ({
        ...a,
        piston: { ...a.piston, skirtDiameter: { value: '90.00 ±0.01 mm', from: 'stated' } },
      })),
    };
    const { drawn, built, refused } = run(task(wide, { builds: 60 }));
    expect(drawn).toBe(60);
    expect(built + refused).toBe(60);
    expect(Math.abs(refused - 30)).toBeLessThan(3 * Math.sqrt(15));
  });

  it('of a build without tolerances are all alike', () => {
    const { spread } = run(task(flatSkirt(), { builds: 7 }));
    expect(spread!.summary.least).toBe(spread!.summary.greatest);
    expect(spread!.histogram.counts).toEqual([7]);
  });
});

describe('the seed', () => {
  const t = task(flatSkirt(LITERALS), { builds: 33 });

  /** Workers stepped one after the other, each answering at once. */
  function inWorkers(
    count: number,
    stopAfter = Number.POSITIVE_INFINITY,
  ): { lots: Lot[]; done: boolean; told: number } {
    const lots: Lot[] = [];
    const mail: (() => void)[][] = [];
    const later: (() => void)[] = [];
    const pool = createPool(WORK, {
      workers: count,
      make: (answered: (message: FromWorker) => void): Hand => {
        const take = serve(WORK, answered);
        const mine: (() => void)[] = [];
        mail.push(mine);
        return { post: (message) => mine.push(() => take(structuredClone(message))), stop: () => {} };
      },
      later: (step) => later.push(step),
      clock: () => 0,
    });
    let done = false;
    let told = 0;
    const cancel = pool.run('chance', 'chance builds', t, lotsOf(t), {
      piece: (k, lot) => {
        lots[k] = lot;
        told += 1;
        if (told === stopAfter) cancel();
      },
      done: () => {
        done = true;
      },
      failed: (why) => {
        throw new Error(why);
      },
    });
    // The last worker first, so that lots come in another order than they were given out.
    for (;;) {
      const next = mail.findLast((box) => box.length > 0)?.shift() ?? later.shift();
      if (next === undefined) break;
      next();
    }
    return { lots, done, told };
  }

  it('gives the same figures to the last digit with one, two or three workers, and at once', () => {
    const one = outcomeOf(inWorkers(1).lots);
    expect(one.drawn).toBe(33);
    for (const workers of [2, 3]) expect(outcomeOf(inWorkers(workers).lots)).toEqual(one);
    const direct: Lot[] = [];
    directPool(WORK).run('x', 'chance builds', t, lotsOf(t), {
      piece: (k, lot) => {
        direct[k] = lot;
      },
      done: () => {},
      failed: () => {},
    });
    expect(outcomeOf(direct)).toEqual(one);
  });

  it('another seed gives other builds, fewer builds the first of the same', () => {
    const values = (more: Partial<MonteCarloTask>): number[] =>
      lotsOf({ ...t, ...more }).flatMap((lot) => [...toTheEnd(monteCarloWork({ ...t, ...more })(lot)).values]);
    const all = values({});
    expect(values({ builds: 8 })).toEqual(all.slice(0, 8));
    expect(values({ builds: 8, seed: 12 })).not.toEqual(all.slice(0, 8));
  });

  it('a run that is cancelled tells nothing more', () => {
    const { done, told } = inWorkers(2, 2);
    expect([done, told]).toEqual([false, 2]);
  });
});

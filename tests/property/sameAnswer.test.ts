/** Random builds told in other words, or solved in another way, have the same gaps: what must not change the answer does not. */
import { describe, expect, test } from 'vitest';
import type { Engine, Pair } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/index.ts';
import { joined } from '../../src/assembly/pairs.ts';
import { type BuildDocument, readContent } from '../../src/build/index.ts';
import { cellsOf } from '../../src/core/clearance/cells.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../src/core/clearance/certify.ts';
import { certifyLayered, SLICING_MM } from '../../src/core/clearance/layered.ts';
import type { Gap } from '../../src/model/results.ts';
import { pairCells, solveGaps } from '../../src/model/solve.ts';
import { RANDOM_LAYOUTS, randomBuild } from '../examine/randomBuild.ts';
import { seeded } from '../oracle/random.ts';

/** Work allowed for a pair: a contact whose depth takes more is left out of the comparison. */
const BUDGET = 4_000;

/** Builds that break no rule, layout by layout. */
function builds(seed: number, each: number, layouts: readonly string[] = RANDOM_LAYOUTS): BuildDocument[] {
  return layouts.flatMap((layout, n) => {
    const out: BuildDocument[] = [];
    for (let k = 0; out.length < each && k < 30; k++) {
      const read = readContent(randomBuild(seeded(seed + 1000 * n + 31 * k), layout));
      if (read.ok) out.push(read.doc);
    }
    return out;
  });
}

function gapsOf(engine: Engine, wanted?: (p: Pair) => boolean): Gap[] {
  return solveGaps(engine, { assumedAllowanceMm: null, budget: BUDGET, ...(wanted === undefined ? {} : { wanted }) });
}

const of = (doc: BuildDocument): Engine => layOut(doc, doc.proposed);

/** How far two certified answers to one question may be apart: a certificate each, and what slicing is said to add. */
function allowedMm(p: Gap, q: Gap): number {
  return CERTIFICATE_TOLERANCE_MM + Math.max(p.slicingMm, q.slicingMm) + 1e-6;
}

describe('situations told to be alike', () => {
  const docs = builds(71, 1);
  let compared = 0;

  test('go through the same relative motion: a gap found for one of them is the gap of each', () => {
    const faults: string[] = [];
    const random = seeded(3);
    for (const doc of docs) {
      const engine = of(doc);
      const groups = new Map<string, Pair[]>();
      for (const p of engine.pairs) groups.set(p.key, [...(groups.get(p.key) ?? []), p]);
      const several = [...groups.values()].filter((group) => group.length > 1);
      // Some groups of each build, all of their members: each solved by itself, with a key of its own.
      const chosen = several.sort(() => random() - 0.5).slice(0, 4);
      const ids = new Set(chosen.flatMap((group) => group.slice(0, 4)).map((p) => p.id));
      const alone: Engine = { ...engine, pairs: engine.pairs.map((p) => ({ ...p, key: p.id })) };
      const together = gapsOf(engine, (p) => ids.has(p.id));
      const apart = gapsOf(alone, (p) => ids.has(p.id));
      together.forEach((g, k) => {
        const own = apart[k]!;
        if (!g.certified || !own.certified) return;
        compared += 1;
        const off = Math.abs(g.gapMm - own.gapMm);
        if (!(off <= allowedMm(g, own))) faults.push(`${doc.name}: ${g.id} ${g.gapMm} for all, ${own.gapMm} by itself`);
      });
    }
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThan(60);
  });

  test('lie where the points are: nearest points told for each are as far apart as its gap, on the side of its own bank', () => {
    let looked = 0;
    for (const doc of docs.filter((_, k) => k % 2 === 0)) {
      const engine = of(doc);
      const keys = new Set<string>();
      const repeated = engine.pairs.filter((p) => keys.has(p.key) || !keys.add(p.key)).slice(0, 8);
      const alone: Engine = { ...engine, pairs: engine.pairs.map((p) => ({ ...p, key: p.id })) };
      const ids = new Set(repeated.map((p) => p.key));
      const first = gapsOf(engine, (p) => ids.has(p.key)).filter((g) => repeated.some((p) => p.id === g.id));
      const own = gapsOf(alone, (p) => repeated.some((r) => r.id === p.id));
      first.forEach((g, k) => {
        const mine = own[k]!;
        // One and the same place, where there is one: constant gaps have many.
        if (g.direction === 'axial' || mine.direction === 'axial' || g.gapMm <= 0) return;
        looked += 1;
        const [p, q] = g.pointsMm;
        expect(
          Math.abs(Math.hypot(p[0] - q[0], p[1] - q[1], g.axialOverlapMm > 0 ? 0 : p[2] - q[2]) - g.gapMm),
        ).toBeLessThan(g.slicingMm + 1e-5);
      });
    }
    expect(looked).toBeGreaterThan(10);
  });
});

describe('two bodies that swap places', () => {
  test('have the same gap', () => {
    const faults: string[] = [];
    let compared = 0;
    const random = seeded(5);
    for (const doc of builds(501, 1, RANDOM_LAYOUTS.slice(5))) {
      const { pairs } = of(doc);
      for (const p of [...pairs].sort(() => random() - 0.5).slice(0, 10)) {
        const { a, b } = p.relative ?? p;
        const options = { toleranceMm: CERTIFICATE_TOLERANCE_MM, slicingMm: SLICING_MM, budget: BUDGET };
        const one = certifyLayered(a.motion, b.motion, pairCells(p), p.periodRad, options);
        const swapped = cellsOf(b, a, (partB, partA) => joined(p.kind, partA, partB));
        const other = certifyLayered(b.motion, a.motion, swapped, p.periodRad, options);
        if (one.budgetSpent || other.budgetSpent) continue;
        compared += 1;
        const slack = CERTIFICATE_TOLERANCE_MM + Math.max(one.slicingMm, other.slicingMm) + 1e-6;
        // Of a contact in a round part the depth depends on where it was cut; that it is one does not.
        const same =
          one.gapMm < 0 && p.b.round.length + p.a.round.length > 0
            ? other.gapMm < 0
            : Math.abs(one.gapMm - other.gapMm) <= slack;
        if (!same) faults.push(`${doc.name}: ${p.id} ${one.gapMm}, swapped ${other.gapMm}`);
      }
    }
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThan(50);
  });
});

/** The lengths written in inches and thousandths written in millimetres, exactly: 1 in = 25.4 mm, 1 thou = 0.0254 mm. */
function inMillimetres(doc: BuildDocument): BuildDocument {
  const text = JSON.stringify(doc).replace(
    /"(-?)(\d*)\.?(\d*)( ±([\d.]+))? (in|thou)"/g,
    (_, sign: string, whole: string, part: string, _t: string, _v: string, unit: string) => {
      const digits = BigInt(`${whole}${part}` || '0') * 254n;
      const places = part.length + (unit === 'in' ? 1 : 4);
      const padded = digits.toString().padStart(places + 1, '0');
      return `"${sign}${padded.slice(0, -places)}.${padded.slice(-places)} mm"`;
    },
  );
  return JSON.parse(text) as BuildDocument;
}

describe('inches written as millimetres', () => {
  test('give the same gaps, digit for digit', () => {
    let literals = 0;
    let compared = 0;
    for (const doc of builds(901, 1, RANDOM_LAYOUTS.slice(7))) {
      const other = inMillimetres(doc);
      literals += JSON.stringify(doc).split(/ (?:in|thou)"/).length - 1;
      expect(JSON.stringify(other)).not.toMatch(/ (in|thou)"/);
      const [e, f] = [of(doc), of(other)];
      expect(f.pairs.map((p) => p.id)).toEqual(e.pairs.map((p) => p.id));
      const some = (p: Pair): boolean => p.cylinder === 1;
      const [one, two] = [gapsOf(e, some), gapsOf(f, some)];
      one.forEach((g, k) => {
        compared += 1;
        expect(Math.abs(two[k]!.gapMm - g.gapMm)).toBeLessThan(1e-6);
        expect(two[k]!.certified).toBe(g.certified);
      });
    }
    expect(literals).toBeGreaterThan(120);
    expect(compared).toBeGreaterThan(60);
  });
});

/** A build changed so that its nearest counterweight and piston just touch, to some ten-thousandths of a micrometre. */
import { layOut } from '../../src/assembly/index.ts';
import { readContent } from '../../src/build/index.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { mm } from '../oracle/buildFile.ts';
import type { RandomBuild } from './randomBuild.ts';

/** How near to touching, mm: far below what a certificate tells apart. */
const TOUCHING_MM = 1e-7;

export interface Touching {
  readonly file: RandomBuild;
  readonly pair: string;
}

/** The common counterweight radius by false position on the certified gap; null when the gap does not follow it or a rule stops it. */
export function touchingBuild(file: RandomBuild): Touching | null {
  const withRadius = (radius: number): RandomBuild => {
    const copy = structuredClone(file) as unknown as {
      assemblies: { crank: { counterweight: Record<string, unknown> } }[];
    };
    copy.assemblies[0]!.crank.counterweight['radius'] = { value: `${radius.toFixed(8)} mm`, from: 'measured' };
    return copy as unknown as RandomBuild;
  };
  let wanted: string | null = null;
  const gapAt = (radius: number): number => {
    const read = readContent(withRadius(radius));
    if (!read.ok) return Number.NaN;
    const engine = layOut(read.doc, read.doc.proposed);
    const gaps = solveGaps(engine, {
      assumedAllowanceMm: null,
      budget: 20_000,
      wanted: (p) => p.kind === 'counterweight-piston' && (wanted === null || p.id === wanted),
    });
    const least = gaps.filter((g) => g.axialOverlapMm > 0).sort((p, q) => p.gapMm - q.gapMm)[0];
    wanted ??= least?.id ?? null;
    return least?.gapMm ?? Number.NaN;
  };
  const start = mm(file.assemblies[0]!.crank.counterweight['radius']!);
  let [r0, g0] = [start, gapAt(start)];
  if (!(g0 > -4 && g0 < 12)) return null;
  let r1 = start + g0 * 0.9;
  for (let k = 0; k < 12; k++) {
    const g1 = gapAt(r1);
    if (Number.isNaN(g1)) return null;
    if (Math.abs(g1) < TOUCHING_MM) return { file: withRadius(r1), pair: wanted! };
    if (g1 === g0) return null;
    const next = r1 - (g1 * (r1 - r0)) / (g1 - g0);
    [r0, g0, r1] = [r1, g1, next];
    if (Math.abs(r1 - start) > 15) return null;
  }
  return null;
}

/**
 * Pairs that are told what was solved for their mirror image really are that: their gaps, taken outright over all layers at one crank angle
 * after another, are the same at mirrored angles; and what is told is what comes of solving them by themselves.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Engine, Pair } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { parseBuild, readContent } from '../../src/build/index.ts';
import { cellGapMm } from '../../src/core/clearance/cells.ts';
import { gapAt, newGapAt } from '../../src/core/clearance/gapAt.ts';
import { withLiteral } from '../../src/model/edit.ts';
import { headNow } from '../../src/model/headPair.ts';
import { pairCells, solveGaps } from '../../src/model/solve.ts';
import { RANDOM_LAYOUTS, randomBuild } from '../examine/randomBuild.ts';
import { seeded } from '../oracle/random.ts';
import { withOwnEntries } from './ownEntries.ts';

const here = newGapAt();

/** Distance of a pair at an angle, over all its cells; 0 where outlines overlap. */
function gapOf(pair: Pair, cells: ReturnType<typeof pairCells>, rad: number): number {
  if (pair.head !== undefined) return headNow(pair, pair.head, rad).gapMm;
  const { a, b } = pair.relative ?? pair;
  let least = Number.POSITIVE_INFINITY;
  for (const cell of cells) {
    const [p, q] = [
      { flat: cell.a.flat, motion: a.motion },
      { flat: cell.b.flat, motion: b.motion },
    ];
    gapAt(p, q, rad, Number.POSITIVE_INFINITY, false, here, false);
    least = Math.min(least, cellGapMm(cell, here.gapMm));
  }
  return least;
}

/** Angles after the dead centre that a pair's angles are counted from. */
const AFTER = [0.4, 2.7, 3.9, 5.2];

/** First pairs of each situation with the first pair of which they are the mirror image. */
function twinsOf(engine: Engine): [Pair, Pair][] {
  const first = new Map<string, Pair>();
  for (const pair of engine.pairs) if (!first.has(pair.key)) first.set(pair.key, pair);
  return [...first.values()].flatMap((pair): [Pair, Pair][] => {
    const like = pair.twin && first.get(pair.twin.key);
    return like === undefined ? [] : [[like, pair]];
  });
}

function demo(name: string): BuildDocument {
  const read = parseBuild(readFileSync(new URL(`../../assets/demos/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
  return read.doc;
}

function builds(): { readonly doc: BuildDocument; readonly name: string }[] {
  const v8 = demo('quarry-v8');
  const index = v8.assemblies.findIndex((a) => a.name === v8.proposed);
  const out = [
    { doc: v8, name: 'quarry-v8' },
    { doc: withLiteral(v8, ['assemblies', index, 'piston', 'pinOffset'], '.060 in'), name: 'with a pin offset' },
    { doc: withLiteral(v8, ['block', 'boreOffset'], '.050 in'), name: 'with a bore offset' },
  ];
  for (let k = 0; k < 26; k++) {
    const random = seeded(47 * k + 3);
    const file = randomBuild(random, RANDOM_LAYOUTS[k % RANDOM_LAYOUTS.length]!);
    const read = readContent(k % 3 === 0 ? withOwnEntries(file, random) : file);
    if (read.ok) out.push({ doc: read.doc, name: `random ${k}` });
  }
  return out;
}

describe('pairs that are mirror images', () => {
  test('have the same gaps at mirrored angles', () => {
    let compared = 0;
    const faults: string[] = [];
    for (const { doc, name } of builds()) {
      for (const [like, pair] of twinsOf(layOut(doc, doc.proposed))) {
        const [cells, others] = like.head ? [[], []] : [pairCells(like), pairCells(pair)];
        for (const after of AFTER) {
          const there = gapOf(like, cells, like.keyShiftRad + after);
          const image = gapOf(pair, others, pair.keyShiftRad + (pair.twin!.reversed ? -after : after));
          compared += 1;
          if (!(Math.abs(there - image) < 1e-6)) faults.push(`${name}: ${like.id} ${there}, ${pair.id} ${image}`);
        }
      }
    }
    expect(faults.slice(0, 8)).toEqual([]);
    expect(compared).toBeGreaterThan(400);
  });

  test('and are told what solving them by themselves gives', () => {
    let compared = 0;
    const faults: string[] = [];
    for (const { doc, name } of builds().slice(0, 6)) {
      const engine = layOut(doc, doc.proposed);
      const told = new Map(solveGaps(engine, { assumedAllowanceMm: null }).map((gap) => [gap.id, gap]));
      for (const [like, pair] of twinsOf(engine)) {
        if (like === pair) continue;
        const [alone] = solveGaps(engine, { assumedAllowanceMm: null, wanted: (each) => each === pair });
        const gap = told.get(pair.id)!;
        compared += 1;
        const within = 0.001 + gap.slicingMm + alone!.slicingMm;
        if (Math.abs(gap.gapMm - alone!.gapMm) > within || gap.lowerBoundMm > alone!.gapMm + alone!.slicingMm + 1e-6)
          faults.push(`${name} ${pair.id}: ${gap.gapMm} from ${gap.lowerBoundMm}, by itself ${alone!.gapMm}`);
        // The gap told is there: between the layers told, at the angle told.
        const [p, q] = gap.pointsMm;
        const apart = Math.hypot(p[0] - q[0], p[1] - q[1], gap.direction === 'axial' ? p[2] - q[2] : 0);
        if (gap.gapMm > 0 && gap.direction === 'in-plane' && !(apart <= gap.gapMm + 1e-3))
          faults.push(`${name} ${pair.id}: points ${apart} apart, gap ${gap.gapMm}`);
      }
    }
    expect(faults.slice(0, 8)).toEqual([]);
    expect(compared).toBeGreaterThan(20);
  });
});

/**
 * `npm run bench`: what the numeric work costs on this machine, one line a figure, `name: value unit`. Least of several
 * runs, the builds fixed. Milliseconds live here and nowhere in the tests, which assert counts.
 */
import { readFileSync } from 'node:fs';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { checkBuild, parseBuild } from '../../src/build/index.ts';
import { gapAt, newGapAt } from '../../src/core/clearance/gapAt.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { gapNow, pairsOfThrow } from '../../src/model/now.ts';
import { previewGaps } from '../../src/model/preview.ts';
import { pairCells } from '../../src/model/solve.ts';

function demo(name: string): BuildDocument {
  const read = parseBuild(readFileSync(new URL(`../../assets/demos/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
  return read.doc;
}

function least(runs: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < runs; k++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

function say(name: string, value: number, unit: string): void {
  console.log(`${name}: ${value.toPrecision(3)} ${unit}`);
}

const doc = demo('quarry-v8');
const engine = layOut(doc, doc.proposed);
const gaps = certifiedGaps(doc, engine, new Map());

const pair = engine.pairs.find((p) => p.kind === 'counterweight-piston');
if (pair === undefined) throw new Error('no counterweight and piston');
const cell = pairCells(pair).find((c) => c.exact && c.b.part === 'skirt');
if (cell === undefined) throw new Error('no skirt beside the counterweight');
const out = newGapAt();
const ANGLES = 4000;
const a = { flat: cell.a.flat, motion: pair.a.motion };
const b = { flat: cell.b.flat, motion: pair.b.motion };
const onePassMs = least(20, () => {
  for (let k = 0; k < ANGLES; k++) gapAt(a, b, (k * 2 * Math.PI) / ANGLES, Number.POSITIVE_INFINITY, false, out, false);
});
say(
  `one gap of counterweight and skirt, ${cell.a.flat.n} x ${cell.b.flat.n} pieces`,
  (onePassMs / ANGLES) * 1000,
  'us',
);

say(
  'lay out the V8',
  least(30, () => layOut(doc, doc.proposed)),
  'ms',
);
say(
  'check the V8 build, one assembly',
  least(30, () => checkBuild({ ...doc, assemblies: [doc.assemblies[1]!], replaced: doc.proposed })),
  'ms',
);
say(
  `certify the V8, ${engine.pairs.length} pairs, from nothing`,
  least(10, () => certifiedGaps(doc, engine, new Map())),
  'ms',
);
const hints = new Map(gaps.map((g) => [g.id, g.atCrankRad]));
say(
  'certify the V8, minima known',
  least(10, () => certifiedGaps(doc, engine, hints)),
  'ms',
);
const before = new Map(gaps.map((g) => [g.id, g]));
say(
  'follow all gaps of the V8, one step of a drag',
  least(30, () => previewGaps(engine, before, null)),
  'ms',
);
const shown = pairsOfThrow(engine, 1);
say(
  'gaps in view at one crank angle',
  least(30, () => {
    for (const p of shown) gapNow(engine, p, before.get(p.id), 1.1, null);
  }),
  'ms',
);

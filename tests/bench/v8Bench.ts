/** What the V8 costs: laid out, checked, certified, followed, looked at. */
import { readFileSync } from 'node:fs';
import { layOut } from '../../src/assembly/index.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { checkBuild, parseBuild } from '../../src/build/index.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { gapNow, pairsOfThrow } from '../../src/model/now.ts';
import { previewGaps } from '../../src/model/preview.ts';
import { least, say } from './measure.ts';

function demo(name: string): BuildDocument {
  const read = parseBuild(readFileSync(new URL(`../../assets/demos/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
  return read.doc;
}

export function benchV8(): void {
  const doc = demo('quarry-v8');
  const engine = layOut(doc, doc.proposed);
  const gaps = certifiedGaps(doc, engine, new Map());

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
  const found = new Map(gaps.map((g) => [g.id, g.evaluations]));
  const situations = new Map<string, number>();
  for (const p of engine.pairs)
    if (!situations.has(p.key) && !(p.twin && situations.has(p.twin.key))) situations.set(p.key, found.get(p.id) ?? 0);
  const counts = [...situations.values()];
  say('pairs that go through different motions, mirror images taken together', counts.length, 'pairs');
  say(
    'evaluations for the V8',
    counts.reduce((sum, n) => sum + n, 0),
    'evaluations',
  );
  say('evaluations of the costliest pair', Math.max(...counts), 'evaluations');
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
}

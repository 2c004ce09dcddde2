/**
 * Random builds in all layouts, examined one after another: `npm run examine -- --builds 1000 --seed 7 [--layout inline-4]
 * [--looks 20] [--sweeps 6] [--angles 120] [--budget 400000] [--save file.json]`. Prints what was looked at and the smallest failing build's seed. Each build has a seed
 * of its own, `seed + its number`, so that one can be looked at again with `--builds 1`.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readContent } from '../../src/build/index.ts';
import { seeded } from '../oracle/random.ts';
import { examineBuild, newTally } from './examine.ts';
import { RANDOM_LAYOUTS, randomBuild } from './randomBuild.ts';
import { touchingBuild } from './touching.ts';

const { values } = parseArgs({
  options: {
    builds: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    layout: { type: 'string' },
    looks: { type: 'string', default: '20' },
    sweeps: { type: 'string', default: '6' },
    angles: { type: 'string', default: '120' },
    budget: { type: 'string', default: '400000' },
    save: { type: 'string' },
  },
});
const [builds, seed, looks, sweeps, angles, budget] = [
  values.builds,
  values.seed,
  values.looks,
  values.sweeps,
  values.angles,
  values.budget,
].map(Number) as [number, number, number, number, number, number];
if (![builds, seed, looks, sweeps, angles, budget].every((n) => Number.isInteger(n) && n >= 0)) {
  process.stderr.write('--builds, --seed, --looks, --sweeps, --angles and --budget take whole numbers.\n');
  process.exit(2);
}

const total = newTally();
const byLayout = new Map<string, number>();
const refused = new Map<string, number>();
let brought = 0;
let worst: { size: number; seed: number; layout: string; file: string } | undefined;
for (let k = 0; k < builds; k++) {
  const layout = values.layout ?? RANDOM_LAYOUTS[k % RANDOM_LAYOUTS.length]!;
  const random = seeded((seed + k) * 2654435761);
  const made = randomBuild(random, layout);
  const read = readContent(made);
  // Every third one is brought to touch.
  const touching = read.ok && (seed + k) % 3 === 0 ? touchingBuild(made) : null;
  const file = touching?.file ?? made;
  if (touching !== null) brought += 1;
  if (!read.ok) {
    const rule = read.problems[0]!.rule;
    refused.set(rule, (refused.get(rule) ?? 0) + 1);
    continue;
  }
  const before = total.faults.length;
  try {
    examineBuild(file, { looks, sweeps, random, angles, budget }, total);
  } catch (error) {
    total.faults.push({
      pair: 'the build',
      what: error instanceof Error ? (error.stack ?? error.message) : String(error),
    });
  }
  byLayout.set(layout, (byLayout.get(layout) ?? 0) + 1);
  const found = total.faults.slice(before);
  if (found.length === 0) continue;
  for (const f of found.slice(0, 6)) process.stdout.write(`seed ${seed + k}, ${layout}: ${f.pair} ${f.what}\n`);
  const text = JSON.stringify(file, null, 1);
  // The fewest cylinders and own entries make the case easiest to look at.
  if (worst === undefined || text.length < worst.size)
    worst = { size: text.length, seed: seed + k, layout, file: text };
}
const counted = (m: ReadonlyMap<string, number>): string => [...m].map(([name, n]) => `${name} ${n}`).join(', ');
process.stdout.write(
  [
    `seed ${seed}: ${total.builds} builds examined (${counted(byLayout)})`,
    `brought to touch: ${brought}; refused by a rule: ${[...refused.values()].reduce((s, n) => s + n, 0)} (${counted(refused)})`,
    `pairs ${total.pairs}, swept by trying ${total.swept}, in contact ${total.contacts}, depths ${total.depths}, within 0.01 mm of touching ${total.touching}, axial ${total.axial}, pairs of points ${total.points}, contacts whose depth is unproven ${total.unproven}`,
    `faults ${total.faults.length}${worst === undefined ? '' : `; the smallest build is that of seed ${worst.seed}, layout ${worst.layout}`}`,
    '',
  ].join('\n'),
);
if (worst !== undefined && values.save !== undefined) writeFileSync(values.save, worst.file);
process.exit(total.faults.length === 0 ? 0 : 1);

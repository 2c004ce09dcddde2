// npm run mutate -- AREA... [--file PATH] [--share 0.1 --draw 1] [--anew]: changes the code of an area in small ways, one at a time, and counts how many of the
// changes its tests see. Prints each change that none of them saw. Without an area all are done, one after another. What was found last time is taken over
// where neither the code nor its tests have changed; --anew tries everything again. Large areas
// take hours: --share tries a part of the changes, drawn by chance, --draw another choice of the same size.

import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { AREAS, LEAST_SCORE } from './areas.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    file: { type: 'string' },
    hands: { type: 'string', default: '2' },
    share: { type: 'string', default: '1' },
    draw: { type: 'string', default: '1' },
    anew: { type: 'boolean', default: false },
  },
});
const unknown = positionals.filter((name) => !(name in AREAS));
if (unknown.length > 0) {
  console.error(`${unknown.join(', ')}: no such area. There are ${Object.keys(AREAS).join(', ')}.`);
  process.exit(2);
}

const figures = [];
for (const name of positionals.length > 0 ? positionals : Object.keys(AREAS)) {
  const report = `tests/output/mutation-${name}.json`;
  rmSync(report, { force: true });
  const options = {
    AREA: name,
    MUTATE: values.file ?? AREAS[name].mutate.join(';'),
    REPORT: report,
    KEPT: report.replace('.json', values.share === '1' ? '-kept.json' : `-${values.share}-${values.draw}-kept.json`),
    HANDS: values.hands,
    ANEW: String(values.anew),
    SHARE: values.share,
    DRAW: values.draw,
  };
  const run = spawnSync('npx', ['--no-install', 'stryker', 'run', 'tests/mutation/stryker.config.mjs'], {
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, ...options },
  });
  if (run.status !== 0) process.exit(run.status ?? 1);
  const { files } = JSON.parse(readFileSync(report, 'utf8'));
  let seen = 0;
  let all = 0;
  for (const [path, { mutants, source }] of Object.entries(files)) {
    const lines = source.split('\n');
    let seenHere = 0;
    let allHere = 0;
    for (const mutant of mutants) {
      if (!['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(mutant.status)) continue;
      allHere += 1;
      if (mutant.status === 'Killed' || mutant.status === 'Timeout') seenHere += 1;
      else {
        const { line, column } = mutant.location.start;
        console.log(`${path}:${line}:${column} ${mutant.status} ${mutant.mutatorName}: ${mutant.replacement}`);
        console.log(`    ${lines[line - 1].trim()}`);
      }
    }
    console.log(`${path}: ${seenHere} of ${allHere} seen`);
    seen += seenHere;
    all += allHere;
  }
  figures.push({ name, seen, all, score: all === 0 ? 100 : (100 * seen) / all });
}

for (const { name, seen, all, score } of figures) console.log(`${name}: ${seen} of ${all} seen, ${score.toFixed(1)} %`);
if (values.file === undefined && figures.some(({ score }) => score < LEAST_SCORE)) {
  console.error(`Less than ${LEAST_SCORE} % seen.`);
  process.exit(1);
}

/**
 * The map of 64 x 64 designs of the V8 on two workers, from the first message to the first picture (a design of every other
 * tile), to the last cell, and to the last point of the boundary. `npx tsx tests/bench/map.ts`; also the last part of `npm run bench`.
 * Starting the workers is not counted: a page has them already.
 */
import { readFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { layOut } from '../../src/assembly/index.ts';
import { parseBuild } from '../../src/build/index.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { usualAxis } from '../../src/model/map/axis.ts';
import { coarsePieces } from '../../src/model/map/plan.ts';
import { runMap } from '../../src/model/map/run.ts';
import type { MapSpec } from '../../src/model/map/spec.ts';
import { createPool } from '../../src/model/pieces/pool.ts';
import type { FromWorker } from '../../src/model/pieces/serve.ts';
import { WORK } from '../../src/model/pieces/table.ts';

const CELLS = 64;
const WORKERS = 2;

const read = parseBuild(readFileSync(new URL('../../assets/demos/quarry-v8.json', import.meta.url), 'utf8'));
if (!read.ok) throw new Error(read.problems.map((p) => p.place).join());
const { doc } = read;
const index = doc.assemblies.findIndex((a) => a.name === doc.proposed);
const spec: MapSpec = {
  doc,
  assembly: doc.proposed,
  deckHeld: true,
  a: usualAxis(doc, ['assemblies', index, 'crank', 'stroke'], CELLS),
  b: usualAxis(doc, ['assemblies', index, 'rod', 'length'], CELLS),
};
const gaps = certifiedGaps(doc, layOut(doc, doc.proposed), new Map());

const threads: Worker[] = [];
for (let k = 0; k < WORKERS; k++) {
  // A thread does not take over how this process reads TypeScript; it is told first.
  const there = JSON.stringify(new URL('./map.thread.ts', import.meta.url).href);
  const code = `import('tsx/esm/api').then(({ register }) => { register(); return import(${there}); });`;
  const thread = new Worker(code, { eval: true });
  threads.push(thread);
  await new Promise((ready) => thread.once('message', ready));
}
let made = 0;
const pool = createPool(WORK, {
  workers: WORKERS,
  make: (answered, failed) => {
    const thread = threads[made++]!;
    thread.on('message', (message: FromWorker) => answered(message));
    thread.on('error', failed);
    return { post: (message) => thread.postMessage(message), stop: () => void thread.terminate() };
  },
  later: (step) => setTimeout(step, 0),
  clock: () => performance.now(),
});

const far = Math.ceil(coarsePieces(spec).length / 4);
const start = performance.now();
let picture = 0;
let cells = 0;
await new Promise<void>((done, fail) => {
  let evaluations = 0;
  runMap(pool, spec, gaps, {
    grown: (map, fresh) => {
      for (const cell of fresh) evaluations += cell.evaluations;
      if (picture === 0 && map.done >= far) picture = performance.now() - start;
      if (cells === 0 && map.done === map.cells.length) cells = performance.now() - start;
      if (!map.finished) return;
      say('map of 64 x 64 designs, first picture', picture, 'ms');
      say('map of 64 x 64 designs, last cell', cells, 'ms');
      say('map of 64 x 64 designs, boundary', performance.now() - start, 'ms');
      say('map of 64 x 64 designs, evaluations a cell', evaluations / map.cells.length, 'evaluations');
      done();
    },
    failed: (why) => fail(new Error(why)),
  });
});
for (const thread of threads) await thread.terminate();

function say(name: string, value: number, unit: string): void {
  console.log(`${name}: ${value.toPrecision(3)} ${unit}`);
}

/**
 * Build files and literals spoilt in great number: `npm run spoil -- --files 100000 --seed 1 [--literals 100000] [--hang 60]`.
 * Each has a seed of its own, `seed + its number`, so that one can be looked at again with `--files 1 --seed N`. The work is done in a
 * thread that is watched: a file that takes longer than `--hang` seconds is a fault, and the next thread goes on behind it.
 */
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import type { Told } from './thread.ts';

const { values } = parseArgs({
  options: {
    files: { type: 'string', default: '1000' },
    literals: { type: 'string' },
    seed: { type: 'string', default: '1' },
    hang: { type: 'string', default: '60' },
  },
});
const [files, literals, seed, hangS] = [values.files, values.literals ?? values.files, values.seed, values.hang].map(
  Number,
) as [number, number, number, number];
if (![files, literals, seed, hangS].every((n) => Number.isInteger(n) && n >= 0)) {
  process.stderr.write('--files, --literals, --seed and --hang take whole numbers.\n');
  process.exit(2);
}

const started = performance.now();
const rules = new Map<string, number>();
const counts = { taken: 0, refused: 0, swept: 0, literals: 0, whole: 0, faults: 0 };
let slowest = { ms: 0, seed: 0 };

function fault(kind: string, at: number, what: string): void {
  counts.faults += 1;
  if (counts.faults <= 200) process.stdout.write(`${kind} ${at}: ${what.slice(0, 400)}\n`);
}

/** Seeds from `from` up to `to`, in one thread after another until all are done. */
function run(kind: 'file' | 'literal', from: number, to: number): Promise<void> {
  return new Promise((resolve) => {
    let at = from;
    let since = performance.now();
    const there = JSON.stringify(new URL('./thread.ts', import.meta.url).href);
    const code = `import('tsx/esm/api').then(({ register }) => { register(); return import(${there}); });`;
    const worker = new Worker(code, { eval: true, workerData: { kind, from, to } });
    const watch = setInterval(() => {
      if (performance.now() - since < hangS * 1000) return;
      fault(kind, at, `takes longer than ${hangS} s`);
      over(at + 1);
    }, 1000);
    const over = (next: number): void => {
      clearInterval(watch);
      void worker.terminate();
      if (next >= to) resolve();
      else void run(kind, next, to).then(resolve);
    };
    worker.on('message', (told: Told) => {
      if ('done' in told) {
        over(to);
        return;
      }
      const ms = performance.now() - since;
      if (told.seed === at && ms > slowest.ms && kind === 'file') slowest = { ms: told.ms, seed: told.seed };
      since = performance.now();
      at = told.seed + 1;
      for (const what of told.faults) fault(kind, told.seed, what);
      if (kind === 'literal') counts.literals += told.count;
      else if (told.taken) counts.taken += 1;
      else counts.refused += 1;
      counts.swept += told.swept;
      counts.whole += told.whole;
      if (told.rule !== null) rules.set(told.rule, (rules.get(told.rule) ?? 0) + 1);
      const all = counts.taken + counts.refused;
      if (kind === 'file' && all % 5000 === 0) process.stderr.write(`${all} files, ${counts.faults} faults\n`);
    });
    worker.on('error', (error) => {
      if (at === from && counts.taken + counts.refused + counts.literals === 0) throw error;
      fault(kind, at, `throws ${error.stack ?? error.message}`);
      over(at + 1);
    });
  });
}

await run('literal', seed, seed + literals);
await run('file', seed, seed + files);

const byRule = [...rules].sort((a, b) => b[1] - a[1]);
process.stdout.write(
  [
    `seed ${seed}: ${files} files, ${counts.taken} taken and swept (${counts.swept} pairs; ${counts.whole} in full), ${counts.refused} refused by ${byRule.length} rules; ${counts.literals} literals`,
    `refused first by: ${byRule.map(([name, n]) => `${name} ${n}`).join(', ')}`,
    `slowest file: seed ${slowest.seed}, ${(slowest.ms / 1000).toFixed(1)} s; all took ${((performance.now() - started) / 60_000).toFixed(1)} min`,
    `faults ${counts.faults}`,
    '',
  ].join('\n'),
);
process.exit(counts.faults === 0 ? 0 : 1);

/**
 * Bytes that one evaluation leaves on the heap, for each hot loop, as JSON: the middle one of many stretches of evaluations, of what the heap has
 * grown by over each. Started with a nursery so large (`--max-semi-space-size`) that hardly a stretch is collected in, and with `--expose-gc`.
 * What is counted begins after the loops have been compiled.
 */
import { distanceAt, gapAt, newGapAt, overlapAt, turnsAt } from '../../src/core/clearance/gapAt.ts';
import { headGap, makeCrown, newDirections } from '../../src/core/clearance/headAndCrown.ts';
import { a, b } from '../bench/oneGap.ts';

const WARM = 100_000;
const STRETCHES = 50;
const EVALUATIONS = 20_000;

const collect = (globalThis as { gc?: () => void }).gc;
if (collect === undefined) throw new Error('needs --expose-gc');

const here = newGapAt();
const crown = makeCrown({
  headRadiusMm: 24,
  marginMm: 1.5,
  leanRad: 0.3,
  besideMm: 0,
  topY: 40,
  pocket: { x: 0, y: 36, radiusMm: 26 },
});
const directions = newDirections(crown);
const head = { mm: 0, wedge: 0, nx: 0, ny: 0, nz: 0 };

/** Angles all round, not in order. In an array of anything each is an object already, and handing one over makes none. */
const ANGLES: readonly unknown[] = ['', ...Array.from({ length: 9973 }, (_, k) => ((k * 7919) % 9973) * 6.3e-4)];
const at = (k: number): number => ANGLES[1 + (k % 9973)] as number;

const LOOPS: Readonly<Record<string, (k: number) => void>> = {
  'signed gap': (k) => {
    gapAt(a, b, at(k), Number.POSITIVE_INFINITY, false, here);
  },
  distance: (k) => {
    distanceAt(a, b, at(k), Number.POSITIVE_INFINITY);
  },
  'distance with safe turns': (k) => {
    turnsAt(a, b, at(k), 4, 3.5, 0.2, 0.2);
  },
  overlap: (k) => {
    overlapAt(a, b, at(k));
  },
  'head and crown': (k) => {
    if (k % 20 === 0) headGap(crown, at(k % 7), 37, directions, head);
  },
};

const out: Record<string, number> = {};
for (const [name, evaluate] of Object.entries(LOOPS)) {
  for (let k = 0; k < WARM; k++) evaluate(k);
  collect();
  const made = new Float64Array(STRETCHES);
  for (let n = 0; n < STRETCHES; n++) {
    const start = process.memoryUsage().heapUsed;
    for (let k = 0; k < EVALUATIONS; k++) evaluate(n * EVALUATIONS + k);
    made[n] = (process.memoryUsage().heapUsed - start) / EVALUATIONS;
  }
  out[name] = made.sort()[STRETCHES / 2]!;
}
console.log(JSON.stringify(out));

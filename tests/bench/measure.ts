/** How the bench measures and tells: least of several runs, one line a figure, `name: value unit`. */

/** Milliseconds that `work` takes, the least of some runs. */
export function least(runs: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < runs; k++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

export function say(name: string, value: number, unit: string): void {
  console.log(`${name}: ${value.toPrecision(3)} ${unit}`);
}

/** The smallest of a function of crank angle by trying many angles and then closer about the lowest: for checks, imports nothing. */
export interface Lowest {
  readonly value: number;
  readonly at: number;
}

/** `count` angles round the period, then the neighbourhoods of the `closer` lowest dips by thirds, down to `finest`. */
export function lowestOver(
  f: (angle: number) => number,
  period: number,
  count: number,
  closer: number,
  finest = 1e-7,
): Lowest {
  const step = period / count;
  const values = Array.from({ length: count }, (_, k) => f(k * step));
  const dips = values
    .map((value, k) => ({
      value,
      at: k * step,
      before: values[(k + count - 1) % count]!,
      after: values[(k + 1) % count]!,
    }))
    .filter((d) => d.value <= d.before && d.value <= d.after)
    .sort((p, q) => p.value - q.value)
    .slice(0, closer);
  let best: Lowest = { value: Number.POSITIVE_INFINITY, at: 0 };
  for (const d of dips) {
    if (d.value < best.value) best = { value: d.value, at: d.at };
    let [low, high] = [d.at - step, d.at + step];
    for (let k = 0; k < 40 && high - low > finest; k++) {
      const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
      const [fp, fq] = [f(p), f(q)];
      if (fp < best.value) best = { value: fp, at: p };
      if (fq < best.value) best = { value: fq, at: q };
      if (fp < fq) high = q;
      else low = p;
    }
  }
  return best;
}

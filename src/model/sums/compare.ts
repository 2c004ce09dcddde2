/** Two assemblies' sums side by side, with the difference of each that both have. */
import type { Amount, Sum, SumGroup } from './sum.ts';

export interface Compared {
  readonly title: string;
  readonly rows: readonly {
    readonly key: string;
    readonly replaced: Sum | null;
    readonly proposed: Sum | null;
    /** Proposed less replaced. */
    readonly difference: Amount | null;
  }[];
}

export function compared(replaced: readonly SumGroup[], proposed: readonly SumGroup[]): Compared[] {
  const titles = [...new Set([...proposed, ...replaced].map((g) => g.title))];
  return titles.map((title) => {
    const before = replaced.find((g) => g.title === title)?.sums ?? [];
    const after = proposed.find((g) => g.title === title)?.sums ?? [];
    const keys = [...new Set([...after, ...before].map((s) => s.key))];
    return {
      title,
      rows: keys.map((key) => {
        const one = before.find((s) => s.key === key) ?? null;
        const other = after.find((s) => s.key === key) ?? null;
        const [a, b] = [one?.amount ?? null, other?.amount ?? null];
        const difference = a === null || b === null ? null : { as: b.as, value: b.value.minus(a.value) };
        return { key, replaced: one, proposed: other, difference };
      }),
    };
  });
}

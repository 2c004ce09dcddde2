/** The pairs whose gap can be drawn: those of any engine compared that belong to the cylinder in view, the tightest of the engine on show first. */
import { type Compared, engineOf } from '../../model/curves/compare.ts';
import type { State } from '../../model/state.ts';
import { gapLabel } from '../words.ts';

export function offerPairs(
  select: HTMLSelectElement,
  { gaps, cylinder }: Pick<State, 'gaps' | 'cylinder'>,
  compared: readonly Compared[],
): void {
  const there = new Map(
    compared
      .flatMap((each) => engineOf(each).pairs)
      .filter((pair) => pair.cylinder === cylinder)
      .map((pair) => [pair.id, [pair.a.name, pair.b.name] as const]),
  );
  const order = [...new Set([...gaps.map((g) => g.id).filter((id) => there.has(id)), ...there.keys()])];
  const before = select.value;
  const same = order.length === select.length && order.every((id, k) => select.options[k]!.value === id);
  if (!same) {
    select.replaceChildren(
      ...order.map((id) => new Option(gapLabel({ between: there.get(id)!, parts: ['', ''] }), id)),
    );
    if (there.has(before)) select.value = before;
  }
}

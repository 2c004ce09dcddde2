/**
 * A layout given throw by throw in the build file, as a Layout. Phases in the file count from any line of the crank; here they are
 * turned so that the pin of cylinder 1 stands at 0.
 */
import type { Decimal } from 'decimal.js';
import type { Dim, FreeLayout } from './document.ts';
import type { Layout } from './layouts.ts';
import { parseAngle } from './literal.ts';

/** Exact degrees of an angle that the schema has let pass. */
function exactDeg(dim: Dim): Decimal {
  const read = parseAngle(dim.value);
  if (!read.ok) throw new RangeError(`${dim.value} is no angle`);
  return read.deg;
}

const made = new WeakMap<FreeLayout, Layout>();

/** Must have passed the rules of rulesLayout.ts. Made once for each object of the document. */
export function layoutOfFree(free: FreeLayout): Layout {
  const before = made.get(free);
  if (before !== undefined) return before;
  const cylinders = [...free.cylinders].sort((a, b) => a.cylinder - b.cylinder);
  const first = cylinders[0]!;
  const zero = exactDeg(free.throws[first.throw - 1]!.phase).plus(first.pinSplit ? exactDeg(first.pinSplit) : 0);
  const layout: Layout = {
    name: 'free',
    cylinders: cylinders.map((c) => ({
      number: c.cylinder,
      bank: c.bank,
      throw: c.throw,
      pinSplitDeg: c.pinSplit ? exactDeg(c.pinSplit).toNumber() : 0,
    })),
    bankAnglesDeg: free.banks.map((bank) => exactDeg(bank.angle).toNumber()),
    throwPhasesDeg: free.throws.map((t) => exactDeg(t.phase).minus(zero).toNumber()),
    usualFiringOrder: null,
    assumed: assumedAngles(free),
  };
  made.set(free, layout);
  return layout;
}

function assumedAngles(free: FreeLayout): string[] {
  const names: string[] = [];
  free.banks.forEach((bank, k) => {
    if (bank.angle.from === 'assumed') names.push(`angle of bank ${k + 1}`);
  });
  free.throws.forEach((t, k) => {
    if (t.phase.from === 'assumed') names.push(`phase of throw ${k + 1}`);
  });
  for (const c of free.cylinders) {
    if (c.pinSplit?.from === 'assumed') names.push(`pin split of cylinder ${c.cylinder}`);
  }
  return names;
}

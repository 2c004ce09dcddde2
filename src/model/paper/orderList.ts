/** What is bought and what is kept: rods, pistons, bearings of an assembly, against those of the one it replaces. */
import type { Assembly, BuildDocument, Dim } from '../../build/document.ts';
import { exactBase } from '../../build/literal.ts';
import { shopOf } from '../sums/shop.ts';
import { type Amount, amount } from '../sums/sum.ts';

export interface OrderItem {
  readonly what: string;
  readonly count: number;
  /** Cylinders it is for; empty: all. */
  readonly cylinders: readonly number[];
  /**
   * `same`: all its figures are those of the assembly being replaced, and it can be used again if it is good. `other journal`: all but
   * the journal that it runs on, so that shells, or the part, have to suit. Null: nothing is replaced.
   */
  readonly against: 'same' | 'other journal' | 'other' | null;
  /** Null: not stated. */
  readonly figures: readonly (readonly [name: string, dim: Dim | Amount | null])[];
}

export function orderListOf(doc: BuildDocument, name: string): OrderItem[] {
  const shop = shopOf(doc, name);
  const now = shop.assembly;
  const before = name === doc.replaced ? null : shopOf(doc, doc.replaced);
  const cylinders = shop.layout.cylinders.length;
  const mains = shop.layout.throwPhasesDeg.length + 1;
  const items: OrderItem[] = [];
  const parts = (
    what: 'Rod' | 'Piston',
    figuresOf: (assembly: Assembly, alike: (typeof shop.alike)[number]) => OrderItem['figures'],
  ): void => {
    // Cylinders whose rods (or pistons) are alike, whatever the other part is.
    const groups = new Map<string, { cylinders: number[]; alike: (typeof shop.alike)[number] }>();
    for (const alike of shop.alike) {
      const key = JSON.stringify(what === 'Rod' ? alike.rod : alike.piston);
      const group = groups.get(key);
      if (group === undefined) groups.set(key, { cylinders: [...alike.cylinders], alike });
      else group.cylinders.push(...alike.cylinders);
    }
    for (const { cylinders: on, alike } of groups.values()) {
      const each = (before === null ? [] : on).map((n) => {
        const was = before!.alike.find((a) => a.cylinders.includes(n));
        return was === undefined ? 'other' : against(figuresOf(before!.assembly, was), figuresOf(now, alike));
      });
      items.push({
        what,
        count: on.length,
        cylinders: groups.size === 1 ? [] : [...on].sort((a, b) => a - b),
        against: gravest(each),
        figures: figuresOf(now, alike),
      });
    }
  };
  parts('Rod', ({ crank, bearings, weights }, { rod, piston }) => [
    ['length', rod.length],
    [JOURNAL, crank.rodJournal],
    ['housing bore', bearings?.rodHousing ?? null],
    ['big-end width', rod.bigEndWidth],
    ['small-end width', rod.smallEndWidth],
    ['pin', piston.pinDiameter],
    ['big end', weights?.rodBigEnd ?? null],
    ['small end', weights?.rodSmallEnd ?? null],
  ]);
  parts('Piston', ({ pistonTop, weights }, { piston }) => [
    ['for a bore of', doc.block.bore],
    ['over the skirt', piston.skirtDiameter],
    ['compression height', piston.compressionHeight],
    ['pin', piston.pinDiameter],
    ['pin offset', piston.pinOffset],
    ['dish and pockets', pistonTop?.dishVolume ?? null],
    ['skirt below pin', piston.skirtBelowPin],
    ['weight', weights?.piston ?? null],
  ]);
  const single = (what: string, count: number, figuresOf: (assembly: Assembly) => OrderItem['figures']): void => {
    items.push({
      what,
      count,
      cylinders: [],
      against: before === null ? null : against(figuresOf(before.assembly), figuresOf(now)),
      figures: figuresOf(now),
    });
  };
  single('Piston pin', cylinders, ({ piston, pistonTop, weights }) => [
    ['diameter', piston.pinDiameter],
    ['length', pistonTop?.pinLength ?? null],
    ['weight', weights?.pin ?? null],
  ]);
  single('Rod bearing, pair of shells', cylinders, ({ crank, bearings, core }) => [
    ['journal', crank.rodJournal],
    ['shell thickness', bearings?.rodShell ?? null],
    [BESIDE, under(core?.rodJournal, crank.rodJournal)],
  ]);
  single('Main bearing, pair of shells', mains, ({ crank, bearings }) => [
    ['journal', crank.mainJournal],
    ['shell thickness', bearings?.mainShell ?? null],
  ]);
  return items;
}

function under(core: Dim | undefined, finished: Dim): Amount | null {
  if (core === undefined) return null;
  return amount('fine length', exactBase(core.value, 'length').minus(exactBase(finished.value, 'length')));
}

const JOURNAL = 'for a journal of';
/** Says what it is beside the core, not what the part is. */
const BESIDE = 'under the core’s journal by';

type Against = NonNullable<OrderItem['against']>;

/** What is not stated on either side says nothing of the part; what is stated on one alone may be other. */
function against(before: OrderItem['figures'], now: OrderItem['figures']): Against {
  const differs = now.filter(([name, one], k) => {
    const other = before[k]![1];
    if (name === BESIDE || (one === null && other === null)) return false;
    if (one === null || other === null || !('from' in one) || !('from' in other)) return true;
    return one.value !== other.value;
  });
  if (differs.length === 0) return 'same';
  return differs.every(([name]) => name === JOURNAL) ? 'other journal' : 'other';
}

function gravest(all: readonly Against[]): OrderItem['against'] {
  for (const one of ['other', 'other journal', 'same'] as const) if (all.includes(one)) return one;
  return null;
}

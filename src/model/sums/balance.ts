/** The bobweight card of a crankpin, and how much unbalance may be left. */
import { bobweight, type PinLoad } from '../../core/shop/bobweight.ts';
import { permissibleUnbalanceGMm } from '../../core/shop/unbalance.ts';
import { changeSums } from './balanceChange.ts';
import { speedOf } from './loads.ts';
import type { Shop } from './shop.ts';
import { type Input, known, type Sum, type SumGroup, sum } from './sum.ts';
import { weighed } from './weights.ts';

const G_PER_KG = 1000;

/** Share of the reciprocating weight where the build states none. */
export const USUAL_FACTOR = 0.5;
const FACTOR_SOURCE =
  'half: with two rods on a pin and banks at 90° it annuls the first-order couple (Bevan, The Theory of Machines, ch. 14); for a single cylinder the usual compromise; cranks whose pins cancel by themselves are balanced bare';

export function balanceSums(shop: Shop): SumGroup {
  const counts = rodsOnPins(shop);
  const cards = counts.map((rods) =>
    bobweightSum(shop, rods, counts.length === 1 ? '' : ` with ${rods === 1 ? 'one rod' : `${rods} rods`}`),
  );
  const card = cards[0]!;
  const { balance, core, weights } = shop.assembly;
  const residual =
    balance?.grade === undefined
      ? []
      : [
          sum(
            {
              key: 'permissible residual unbalance',
              formula: 'grade × weight ÷ ω, for both planes together',
              source: 'ISO 21940-11, e_per × ω = G',
            },
            [
              known('grade, mm/s', 'ratio', balance.grade),
              shop.of('crankshaft', weights?.crankshaft, 'weights', 'crankshaft'),
              speedOf(shop),
            ],
            'unbalance',
            (g, grams, n) => permissibleUnbalanceGMm(g!.toNumber(), grams!.toNumber() / G_PER_KG, n!.toNumber()),
          ),
        ];
  return { title: 'Balance', sums: [...cards, ...(core === undefined ? [] : changeSums(shop, card)), ...residual] };
}

/** How many rods the pins carry, the busiest first: one number where all carry alike. */
function rodsOnPins(shop: Shop): number[] {
  const by = new Map<number, number>();
  for (const c of shop.layout.cylinders) by.set(c.throw, (by.get(c.throw) ?? 0) + 1);
  return [...new Set(by.values())].sort((m, n) => n - m);
}

function factorOf(shop: Shop): Input {
  const own = shop.assembly.balance?.factor;
  return own === undefined
    ? known(`balance factor, usual (${FACTOR_SOURCE})`, 'ratio', USUAL_FACTOR)
    : known('balance factor', 'ratio', own);
}

function bobweightSum(shop: Shop, rods: number, label: string): Sum {
  return sum(
    {
      key: `bobweight of a crankpin${label}`,
      formula: '(big end + bearing) × rods + oil + factor × (small end + piston + pin + rings + locks) × rods',
      source: 'Bevan, The Theory of Machines, ch. 14; trade articles on balancing, 2008 and 2009',
    },
    [
      ...(['rodBigEnd', 'bearing', 'rodSmallEnd', 'piston', 'pin', 'rings', 'locks', 'oil'] as const).map((k) =>
        weighed(shop, k),
      ),
      factorOf(shop),
      known('rods on a pin', 'count', rods),
    ],
    'weight',
    (big, bearing, small, piston, pin, rings, locks, oil, factor) => {
      const load: PinLoad = {
        bigEndGrams: big!,
        bearingGrams: bearing!,
        smallEndGrams: small!,
        pistonGrams: piston!,
        pinGrams: pin!,
        ringsGrams: rings!,
        locksGrams: locks!,
      };
      return bobweight(
        Array.from({ length: rods }, () => load),
        oil!,
        factor!,
      ).bobweightGrams;
    },
  );
}

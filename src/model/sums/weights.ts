/** Weights of the moving parts: piece by piece, reciprocating and rotating, the set, and the two-scale check of the rod. */
import type { Weights } from '../../build/documentShop.ts';
import { Exact } from '../../build/literal.ts';
import { checkWeighing } from '../../core/shop/rodWeighing.ts';
import type { Shop } from './shop.ts';
import { caution, type Input, known, plainly, result, type Sum, type SumGroup, sum } from './sum.ts';

/** What a scale in a shop shows, g: half a digit of one that reads to half a gram. */
const READABILITY_G = '0.25';

const NAMES: Readonly<Record<keyof Weights, string>> = {
  piston: 'piston',
  pin: 'piston pin',
  rings: 'rings of a piston',
  locks: 'locks of a pin',
  rodBigEnd: 'rod, big end',
  rodSmallEnd: 'rod, small end',
  rodTotal: 'rod, whole',
  bearing: 'bearing of a rod',
  oil: 'oil of a crankpin',
  crankshaft: 'crankshaft',
};

const ADDS = 'weights add up; two-scale weighing as in trade articles on balancing, 2008 and 2009';

export function weighed(shop: Shop, key: keyof Weights): Input {
  return shop.of(NAMES[key], shop.assembly.weights?.[key], 'weights', key);
}

const RECIPROCATING = ['rodSmallEnd', 'piston', 'pin', 'rings', 'locks'] as const;
const ROTATING = ['rodBigEnd', 'bearing'] as const;

/** Of one cylinder. */
export function reciprocating(shop: Shop): Sum {
  return added(
    'reciprocating weight of a cylinder',
    'small end + piston + pin + rings + locks',
    RECIPROCATING.map((k) => weighed(shop, k)),
  );
}

/** Of one rod. */
export function rotating(shop: Shop): Sum {
  return added(
    'rotating weight of a rod',
    'big end + bearing',
    ROTATING.map((k) => weighed(shop, k)),
  );
}

function added(key: string, formula: string, inputs: readonly Input[]): Sum {
  return sum({ key, formula, source: ADDS }, inputs, 'weight', (...all) =>
    all.reduce((total, each) => total.plus(each)),
  );
}

export function weightSums(shop: Shop): SumGroup {
  const cylinders = shop.layout.cylinders.length;
  const weights = shop.assembly.weights ?? {};
  const piece = (key: keyof Weights): Sum =>
    sum(
      { key: NAMES[key], formula: 'as weighed', source: 'the scale' },
      [weighed(shop, key)],
      'weight',
      (grams) => grams!,
    );
  const pieces = (Object.keys(NAMES) as (keyof Weights)[]).filter((key) => weights[key] !== undefined).map(piece);
  const recip = reciprocating(shop);
  const rot = rotating(shop);
  const set = sum(
    {
      key: 'set of rods, pistons and bearings',
      formula: '(reciprocating + rotating) × cylinders',
      source: ADDS,
    },
    [result(recip), result(rot), known('cylinders', 'count', cylinders)],
    'weight',
    (a, b, n) => a!.plus(b!).times(n!),
  );
  return { title: 'Weights', sums: [...pieces, ...weighingCheck(shop), recip, rot, set] };
}

function weighingCheck(shop: Shop): Sum[] {
  if (shop.assembly.weights?.rodTotal === undefined) return [];
  const readability = new Exact(READABILITY_G);
  return [
    sum(
      {
        key: 'rod ends less the whole rod',
        formula: 'big end + small end − whole rod',
        source: 'two scales carry what one carries: statics',
        remark: (found) => {
          const agrees = found.value.abs().lte(readability.times(3));
          return agrees
            ? plainly('the two ends add up')
            : caution('the two ends do not add up: weigh again, both bores level');
        },
      },
      [weighed(shop, 'rodBigEnd'), weighed(shop, 'rodSmallEnd'), weighed(shop, 'rodTotal')],
      'weight',
      (bigEndGrams, smallEndGrams, totalGrams) =>
        checkWeighing(
          { bigEndGrams: bigEndGrams!, smallEndGrams: smallEndGrams!, totalGrams: totalGrams! },
          readability,
        ).differenceGrams,
    ),
  ];
}

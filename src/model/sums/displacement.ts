/** Displacement, deck stack and compression, with what would have to change for a wanted deck clearance or ratio. */
import { strokeTravelledMm } from '../../core/kinematics/sliderCrank.ts';
import {
  type ClearanceVolumes,
  compressionRatio,
  creviceCm3,
  discCm3,
  partForRatioCm3,
} from '../../core/shop/compressionRatio.ts';
import { type DeckStackPart, solveDeckStack, solveOffsetDeckStackMm } from '../../core/shop/deckStack.ts';
import { displacementCm3 } from '../../core/shop/displacement.ts';
import { rodRatio } from '../../core/shop/rodRatio.ts';
import { guideFor } from './guides.ts';
import { type Alike, offsets, type Shop } from './shop.ts';
import { type Decimal, type Input, known, result, type Sum, type SumGroup, sum } from './sum.ts';

const PISTON_SWEEPS =
  'volume of a cylinder; textbooks of engines, e.g. Mathur & Sharma, Internal Combustion Engine, ch. 1';

export function displacementSums(shop: Shop): SumGroup {
  const bore = shop.block('bore', 'bore');
  const stroke = strokeOf(shop);
  const sums: Sum[] = shop.alike.map((alike) => sweptSum(shop, alike, bore, stroke));
  const total = sum(
    {
      key: 'displacement',
      formula: 'sum of the volumes that all pistons sweep',
      source: PISTON_SWEEPS,
    },
    sums.flatMap((swept, k) => [result(swept), known('cylinders', 'count', shop.alike[k]!.cylinders.length)]),
    'displacement',
    (...values) =>
      values.reduce((all, v, k) => (k % 2 === 0 ? all.plus(v.times(values[k + 1]!)) : all), values[0]!.times(0)),
  );
  const ratios = shop.alike.map((alike) =>
    sum(
      {
        key: `rod ratio${alike.label}`,
        formula: 'rod length ÷ stroke',
        source: 'trade magazine article on rod ratios, 2016; half of l / r',
        guide: (found) => guideFor(shop.doc, 'rod ratio', found),
      },
      [rodLength(shop, alike), stroke],
      'ratio',
      (rod, s) => rodRatio(rod.toNumber(), s.toNumber()),
    ),
  );
  return { title: 'Displacement', sums: [total, ...sums, ...ratios] };
}

export function deckSums(shop: Shop): SumGroup {
  return { title: 'Deck stack', sums: shop.alike.flatMap((alike) => stackSums(shop, alike)) };
}

/** Deck clearance in mm of the first like cylinders; null where the stack can't be worked out. */
export function deckClearanceOf(shop: Shop): Decimal | null {
  return stackSums(shop, shop.alike[0]!)[0]!.amount?.value ?? null;
}

export function compressionSums(shop: Shop): SumGroup {
  const bore = shop.block('bore', 'bore');
  return {
    title: 'Compression',
    sums: shop.alike.flatMap((alike) => {
      const swept = sweptSum(shop, alike, bore, strokeOf(shop));
      const deck = stackSums(shop, alike)[0]!;
      return ratioSums(shop, alike, swept, deck);
    }),
  };
}

export function strokeOf(shop: Shop): Input {
  return shop.of('stroke', shop.assembly.crank.stroke, 'crank', 'stroke');
}

function rodLength(shop: Shop, alike: Alike): Input {
  return shop.of('rod length', alike.rod.length, 'rod', 'length');
}

function sweptSum(shop: Shop, alike: Alike, bore: Input, stroke: Input): Sum {
  return sum(
    {
      key: `swept volume of a cylinder${alike.label}`,
      formula:
        'π/4 × bore² × stroke travelled; with an offset e of the pin line that is √((l + r)² − e²) − √((l − r)² − e²)',
      source: PISTON_SWEEPS,
    },
    [bore, stroke, rodLength(shop, alike), ...offsets(shop, alike)],
    'volume',
    (b, s, l, boreOffset, pinOffset) => {
      const slider = {
        crankRadiusMm: s!.toNumber() / 2,
        rodLengthMm: l!.toNumber(),
        offsetMm: boreOffset!.plus(pinOffset!).toNumber(),
      };
      return displacementCm3(b!.toNumber(), strokeTravelledMm(slider), 1);
    },
  );
}

const STACK_FORMULA =
  'block deck height = stroke ÷ 2 + rod length + compression height + deck clearance; with an offset e the first two are √((l + r)² − e²)';
const STACK_SOURCE = 'deck stack as in trade articles on strokers, 2002 and 2007';

const PARTS: readonly (readonly [DeckStackPart, string])[] = [
  ['compressionHeight', 'compression height'],
  ['rodLength', 'rod length'],
  ['stroke', 'stroke'],
  ['deckHeight', 'block deck height'],
];

function stackSums(shop: Shop, alike: Alike): Sum[] {
  const parts: Readonly<Record<Exclude<DeckStackPart, 'deckClearance'>, Input>> = {
    deckHeight: shop.block('block deck height', 'deckHeight'),
    stroke: strokeOf(shop),
    rodLength: rodLength(shop, alike),
    compressionHeight: shop.of('compression height', alike.piston.compressionHeight, 'piston', 'compressionHeight'),
  };
  const wanted = shop.of('wanted deck clearance', shop.assembly.wanted?.deckClearance, 'wanted', 'deckClearance');
  const solve = (asked: DeckStackPart, key: string, name: string): Sum => {
    const others = (['deckHeight', 'stroke', 'rodLength', 'compressionHeight', 'deckClearance'] as const).filter(
      (p) => p !== asked,
    );
    const inputs = [...others.map((p) => (p === 'deckClearance' ? wanted : parts[p])), ...offsets(shop, alike)];
    return sum(
      { key: key + alike.label, name: name + alike.label, formula: STACK_FORMULA, source: STACK_SOURCE },
      inputs,
      'fine length',
      (...values) => {
        const stack = Object.fromEntries(others.map((p, k) => [p, values[k]!])) as unknown as Readonly<
          Record<DeckStackPart, Decimal>
        >;
        const offset = values[4]!.plus(values[5]!);
        if (offset.isZero()) return solveDeckStack(asked, stack);
        const inMm = Object.fromEntries(others.map((p, k) => [p, values[k]!.toNumber()])) as unknown as Readonly<
          Record<DeckStackPart, number>
        >;
        return solveOffsetDeckStackMm(asked, inMm, offset.toNumber());
      },
    );
  };
  const clearance = solve('deckClearance', 'deck clearance', 'deck clearance');
  const quench = sum(
    {
      key: `piston to head${alike.label}`,
      formula: 'deck clearance + gasket thickness',
      source: 'quench as in a trade article on engine building, 2006',
      guide: (found) => guideFor(shop.doc, 'piston to head', found),
    },
    [result(clearance), shop.block('gasket thickness', 'gasketThickness')],
    'fine length',
    (deck, gasket) => deck!.plus(gasket!),
  );
  const solved = PARTS.map(([part, name]) =>
    solve(
      part,
      `${name} for the wanted deck clearance`,
      `${name} that gives the wanted deck clearance, the rest as it is`,
    ),
  );
  return [clearance, quench, ...(shop.assembly.wanted?.deckClearance === undefined ? [] : solved)];
}

const RATIO_SOURCE = 'trade magazine article on compression ratio, 2004; (swept + clearance) ÷ clearance';

function ratioSums(shop: Shop, alike: Alike, swept: Sum, deck: Sum): Sum[] {
  const { pistonTop: top, wanted } = shop.assembly;
  const head = shop.doc.block.head;
  const bore = shop.block('bore', 'bore');
  const gasketBore =
    head?.gasketBore === undefined
      ? { ...bore, name: 'gasket bore, taken as the bore' }
      : { name: 'gasket bore', dim: head.gasketBore, path: ['block', 'head', 'gasketBore'] };
  const disc = (key: string, diameter: Input, height: Input): Sum =>
    sum(
      { key: key + alike.label, formula: 'π/4 × diameter² × height', source: 'volume of a disc' },
      [diameter, height],
      'volume',
      (d, h) => discCm3(d!.toNumber(), h!.toNumber()),
    );
  const gasket = disc('gasket volume', gasketBore, shop.block('gasket thickness', 'gasketThickness'));
  const deckVolume = disc('deck volume', bore, result(deck));
  const land = top?.topLandDiameter;
  const crevice =
    land === undefined || top?.topLandHeight === undefined
      ? known('crevice above the top ring, not stated and left out', 'volume', 0)
      : result(
          sum(
            {
              key: `crevice above the top ring${alike.label}`,
              formula: 'π/4 × (bore² − land²) × height of the land',
              source: 'volume of a ring',
            },
            [
              bore,
              shop.of('top land diameter', land, 'pistonTop', 'topLandDiameter'),
              shop.of('top land height', top.topLandHeight, 'pistonTop', 'topLandHeight'),
            ],
            'volume',
            (b, d, h) => creviceCm3(b!.toNumber(), d!.toNumber(), h!.toNumber()),
          ),
        );
  const chamber: Input = {
    name: 'chamber volume',
    ...(head?.chamberVolume === undefined ? {} : { dim: head.chamberVolume }),
    path: ['block', 'head', 'chamberVolume'],
  };
  const dish = shop.of('dish and valve pockets (a dome negative)', top?.dishVolume, 'pistonTop', 'dishVolume');
  const inputs = [result(swept), chamber, result(gasket), result(deckVolume), dish, crevice];
  const volumes = (values: readonly Decimal[]): ClearanceVolumes => ({
    chamberCm3: values[1]!.toNumber(),
    gasketCm3: values[2]!.toNumber(),
    deckCm3: values[3]!.toNumber(),
    pistonCm3: values[4]!.toNumber(),
    creviceCm3: values[5]!.toNumber(),
  });
  const ratio = sum(
    {
      key: `compression ratio${alike.label}`,
      formula: '(swept + clearance) ÷ clearance; clearance = chamber + gasket + deck + dish + crevice',
      source: RATIO_SOURCE,
    },
    inputs,
    'ratio',
    (...values) => compressionRatio(values[0]!.toNumber(), volumes(values)),
  );
  const solved = (part: 'chamberCm3' | 'pistonCm3', name: string, without: number): Sum[] => {
    if (wanted?.compressionRatio === undefined) return [];
    const rest = inputs.map((input, k) => (k === without ? known(`${input.name}, asked for`, 'volume', 0) : input));
    return [
      sum(
        {
          key: `${name} for the wanted ratio${alike.label}`,
          formula: 'swept ÷ (ratio − 1) − the other volumes',
          source: RATIO_SOURCE,
        },
        [...rest, known('wanted compression ratio', 'ratio', wanted.compressionRatio)],
        'volume',
        (...values) => partForRatioCm3(part, values[0]!.toNumber(), volumes(values), values[6]!.toNumber()),
      ),
    ];
  };
  return [
    ratio,
    gasket,
    deckVolume,
    ...solved('chamberCm3', 'chamber volume', 1),
    ...solved('pistonCm3', 'dish volume', 4),
  ];
}

import { oilClearance } from '../../core/shop/bearingClearance.ts';
import { oilHoleAngleRad } from '../../core/shop/oilHole.ts';
import { strokeOf } from './displacement.ts';
import { guideFor } from './guides.ts';
import { lineBoringSums } from './lineBored.ts';
import { boreSums, pinSums } from './pistonFit.ts';
import type { Shop } from './shop.ts';
import { caution, type Input, result, type Sum, type SumGroup, sum } from './sum.ts';

const GEOMETRY = 'geometry';

export function togetherSums(shop: Shop): SumGroup {
  return {
    title: 'Parts together',
    sums: [
      ...oilSums(shop),
      ...endFloatSums(shop),
      ...shop.alike.flatMap((alike) => [...pinSums(shop, alike), ...boreSums(shop, alike)]),
      ...oilHoleSums(shop),
      ...lineBoringSums(shop),
    ],
  };
}

function oilSums(shop: Shop): Sum[] {
  const b = shop.assembly.bearings;
  const one = (of: 'rod' | 'main', journal: Input, housing: Input, shell: Input): Sum =>
    sum(
      {
        key: `${of} oil clearance`,
        formula: 'housing bore − 2 × shell − journal',
        source: 'trade magazine article on bearing clearance, 2008',
        guide: (found, values) => guideFor(shop.doc, `${of} oil clearance`, found, values[2]),
      },
      [housing, shell, journal],
      'fine length',
      (bore, thickness, d) => oilClearance({ housingBore: bore!, shell: thickness!, journal: d! }),
    );
  return [
    one(
      'rod',
      shop.of('rod journal', shop.assembly.crank.rodJournal, 'crank', 'rodJournal'),
      shop.of('rod housing bore', b?.rodHousing, 'bearings', 'rodHousing'),
      shop.of('rod shell', b?.rodShell, 'bearings', 'rodShell'),
    ),
    one(
      'main',
      shop.of('main journal', shop.assembly.crank.mainJournal, 'crank', 'mainJournal'),
      shop.of('main housing bore', b?.mainHousing, 'bearings', 'mainHousing'),
      shop.of('main shell', b?.mainShell, 'bearings', 'mainShell'),
    ),
  ];
}

/** How far the crankshaft can move along itself. */
function endFloatSums(shop: Shop): Sum[] {
  const b = shop.assembly.bearings;
  if (b?.thrustFaces === undefined && b?.thrustBearing === undefined) return [];
  return [
    sum(
      {
        key: 'crank end float',
        formula: 'between the thrust faces − over the flanges of the thrust bearing',
        source: GEOMETRY,
        guide: (found) => guideFor(shop.doc, 'crank end float', found),
        remark: (found) => (found.value.isNegative() ? caution('the crankshaft does not go in') : undefined),
      },
      [
        shop.of('between the thrust faces', b?.thrustFaces, 'bearings', 'thrustFaces'),
        shop.of('over the thrust bearing', b?.thrustBearing, 'bearings', 'thrustBearing'),
      ],
      'fine length',
      (faces, bearing) => faces!.minus(bearing!),
    ),
  ];
}

function oilHoleSums(shop: Shop): Sum[] {
  const { core, bearings, crank } = shop.assembly;
  if (core === undefined || bearings?.oilHole === undefined) return [];
  const shift = sum(
    { key: 'eccentric amount', formula: '(new stroke − old stroke) ÷ 2', source: GEOMETRY },
    [strokeOf(shop), shop.of('stroke of the core', core.stroke, 'core', 'stroke')],
    'fine length',
    (after, before) => after!.minus(before!).div(2),
  );
  return [
    sum(
      {
        key: 'oil hole after grinding, from outward',
        formula: 'the hole’s line through the old middle, cut by the new surface',
        source: GEOMETRY,
      },
      [
        shop.of('oil hole before grinding', bearings.oilHole, 'bearings', 'oilHole'),
        result(shift),
        shop.of('rod journal, finished', crank.rodJournal, 'crank', 'rodJournal'),
      ],
      'angle',
      (angle, c, d) =>
        (oilHoleAngleRad((angle!.toNumber() * Math.PI) / 180, c!.toNumber(), d!.toNumber()) * 180) / Math.PI,
    ),
  ];
}

/** Do the parts go together: oil clearances, rods on their pin, fillets, lower end of the bore, oil hole. */
import { bdcPinHeightMm } from '../../core/kinematics/sliderCrank.ts';
import { filletClearanceMm, sideClearance } from '../../core/shop/axialFit.ts';
import { oilClearance } from '../../core/shop/bearingClearance.ts';
import { boreLeftBelowCrownMm, boreLeftBelowPinMm, oilGrooveToPinMm } from '../../core/shop/boreEnd.ts';
import { oilHoleAngleRad } from '../../core/shop/oilHole.ts';
import { strokeOf } from './displacement.ts';
import { guideFor } from './guides.ts';
import { type Alike, offsets, type Shop } from './shop.ts';
import { caution, type Decimal, type Input, known, result, type Sum, type SumGroup, sum } from './sum.ts';

const GEOMETRY = 'geometry';

export function togetherSums(shop: Shop): SumGroup {
  return {
    title: 'Parts together',
    sums: [...oilSums(shop), ...shop.alike.flatMap((alike) => boreSums(shop, alike)), ...oilHoleSums(shop)],
  };
}

export function axialSums(shop: Shop): SumGroup {
  const seen = new Set<string>();
  const sums = shop.layout.throwPhasesDeg.flatMap((_, k) => {
    const on = shop.layout.cylinders.filter((c) => c.throw === k + 1).map((c) => c.number);
    const widths = on.map((n) => shop.alike.find((a) => a.cylinders.includes(n))!.rod.bigEndWidth);
    const alike = JSON.stringify(widths);
    if (seen.has(alike)) return [];
    seen.add(alike);
    return rodsOnPin(shop, k + 1, widths);
  });
  return { title: 'Rods on their pin', sums: [...sums, ...filletSums(shop)] };
}

function rodsOnPin(
  shop: Shop,
  number: number,
  widths: readonly { readonly value: string; readonly from: 'measured' | 'stated' | 'assumed' }[],
): Sum[] {
  const label = shop.alike.length === 1 ? '' : ` of throw ${number}`;
  const journal = shop.of('journal length', shop.assembly.crank.journalLength, 'crank', 'journalLength');
  const rods = widths.map((dim) => shop.of('big-end width', dim, 'rod', 'bigEndWidth'));
  const clearance = sum(
    {
      key: `rod side clearance${label}`,
      formula: 'journal length − widths of the big ends on it',
      source: GEOMETRY,
      guide: (found) => guideFor(shop.doc, 'rod side clearance', found),
    },
    [journal, ...rods],
    'fine length',
    (length, ...all) => sideClearance(length!, all, length!.times(0)).clearance,
  );
  const wanted = shop.of('wanted side clearance', shop.assembly.wanted?.sideClearance, 'wanted', 'sideClearance');
  if (shop.assembly.wanted?.sideClearance === undefined) return [clearance];
  return [
    clearance,
    sum(
      {
        key: `to widen each counterweight face${label}`,
        formula: '(wanted side clearance − side clearance) ÷ 2, at least 0',
        source: GEOMETRY,
      },
      [journal, wanted, ...rods],
      'fine length',
      (length, want, ...all) => sideClearance(length!, all, want!).widenEachFace,
    ),
  ];
}

function filletSums(shop: Shop): Sum[] {
  const { bearings } = shop.assembly;
  if (bearings?.rodFillet === undefined) return [];
  return shop.alike.map((alike) => {
    const chamfer = alike.rod.chamfer;
    const none = (name: string): Input => known(`${name}, none stated`, 'length', 0);
    return sum(
      {
        key: `rod chamfer to fillet${alike.label}`,
        formula:
          'hollow quarter circle of the fillet against the two corners of the chamfer, the rod pushed against the cheek, no oil film',
        source: GEOMETRY,
        remark: (found) => (found.value.isNegative() ? caution('the rod rides on the fillet') : undefined),
      },
      [
        shop.of('fillet radius', bearings.rodFillet, 'bearings', 'rodFillet'),
        chamfer === undefined
          ? none('chamfer along the shaft')
          : shop.of('chamfer along the shaft', chamfer.axial, 'rod', 'chamfer', 'axial'),
        chamfer === undefined
          ? none('chamfer along the radius')
          : shop.of('chamfer along the radius', chamfer.radial, 'rod', 'chamfer', 'radial'),
      ],
      'fine length',
      (fillet, axial, radial) =>
        filletClearanceMm({
          filletMm: fillet!.toNumber(),
          chamferAxialMm: axial!.toNumber(),
          chamferRadialMm: radial!.toNumber(),
          sideMm: 0,
          bearingMm: 0,
        }),
    );
  });
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

function boreSums(shop: Shop, alike: Alike): Sum[] {
  const top = shop.assembly.pistonTop;
  const height = shop.of('compression height', alike.piston.compressionHeight, 'piston', 'compressionHeight');
  const pinDiameter = shop.of('pin diameter', alike.piston.pinDiameter, 'piston', 'pinDiameter');
  const groove = shop.of(
    'crown to the lower edge of the oil groove',
    top?.oilGrooveBottom,
    'pistonTop',
    'oilGrooveBottom',
  );
  const low = [
    strokeOf(shop),
    shop.of('rod length', alike.rod.length, 'rod', 'length'),
    ...offsets(shop, alike),
    height,
    shop.block('lower end of the bore', 'boreBottom'),
  ];
  const atBdc = ([stroke, rod, bore, pin, ch, bottom]: readonly Decimal[]) => ({
    pinHeightMm: bdcPinHeightMm({
      crankRadiusMm: stroke!.toNumber() / 2,
      rodLengthMm: rod!.toNumber(),
      offsetMm: bore!.plus(pin!).toNumber(),
    }),
    compressionHeightMm: ch!.toNumber(),
    boreBottomMm: bottom!.toNumber(),
  });
  const skirt = shop.of('skirt below the pin', alike.piston.skirtBelowPin, 'piston', 'skirtBelowPin');
  return [
    sum(
      {
        key: `bore below the oil ring at BDC${alike.label}`,
        formula: 'pin height at BDC + compression height − crown to oil groove − lower end of the bore',
        source: GEOMETRY,
        remark: (found) => (found.value.isNegative() ? caution('the oil ring leaves the bore') : undefined),
      },
      [...low, groove],
      'length',
      (...values) => boreLeftBelowCrownMm(atBdc(values), values[6]!.toNumber()),
    ),
    sum(
      {
        key: `bore below the pin at BDC${alike.label}`,
        formula: 'pin height at BDC − half the pin diameter − lower end of the bore',
        source: GEOMETRY,
        remark: (found) => (found.value.isNegative() ? caution('the pin ends leave the bore') : undefined),
      },
      [...low, pinDiameter],
      'length',
      (...values) => boreLeftBelowPinMm(atBdc(values), values[6]!.toNumber()),
    ),
    sum(
      {
        key: `skirt out of the bore at BDC${alike.label}`,
        formula: 'lower end of the bore − (pin height at BDC − skirt below the pin)',
        source: GEOMETRY,
      },
      [...low, skirt],
      'length',
      (...values) => values[5]!.toNumber() - atBdc(values).pinHeightMm + values[6]!.toNumber(),
    ),
    sum(
      {
        key: `oil groove to pin bore${alike.label}`,
        formula: 'compression height − crown to oil groove − half the pin diameter',
        source: GEOMETRY,
        remark: (found) =>
          found.value.isNegative() ? caution('the pin bore cuts the oil groove: a support rail is needed') : undefined,
      },
      [height, groove, pinDiameter],
      'fine length',
      (ch, g, d) => oilGrooveToPinMm(ch!.toNumber(), g!.toNumber(), d!.toNumber()),
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

/** Rods side by side on their pin: side clearance, what would come off the counterweight faces, chamfer against fillet. */
import type { Dim } from '../../build/document.ts';
import { filletClearanceMm, sideClearance } from '../../core/shop/axialFit.ts';
import { guideFor } from './guides.ts';
import type { Shop } from './shop.ts';
import { caution, type Input, known, type Sum, type SumGroup, sum } from './sum.ts';

const GEOMETRY = 'geometry';

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

function rodsOnPin(shop: Shop, number: number, widths: readonly Dim[]): Sum[] {
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

/** The piston in its bore and on its pin: lower end of the bore at the bottom of the stroke, small end and pin in the piston. */
import { bdcPinHeightMm } from '../../core/kinematics/sliderCrank.ts';
import { boreLeftBelowCrownMm, boreLeftBelowPinMm, oilGrooveToPinMm } from '../../core/shop/boreEnd.ts';
import { strokeOf } from './displacement.ts';
import { type Alike, offsets, type Shop } from './shop.ts';
import { caution, type Decimal, type Sum, sum } from './sum.ts';

const GEOMETRY = 'geometry';

/** Small end between the bosses, pin between its locks. */
export function pinSums(shop: Shop, alike: Alike): Sum[] {
  const top = shop.assembly.pistonTop;
  const pinPlay =
    top?.pinLength === undefined && top?.lockSpan === undefined
      ? []
      : [
          sum(
            {
              key: `pin between its locks${alike.label}`,
              formula: 'distance between the locks − pin length',
              source: GEOMETRY,
              remark: (found) => (found.value.isNegative() ? caution('the pin is too long for its locks') : undefined),
            },
            [
              shop.of('distance between the locks', top?.lockSpan, 'pistonTop', 'lockSpan'),
              shop.of('pin length', top?.pinLength, 'pistonTop', 'pinLength'),
            ],
            'fine length',
            (span, length) => span!.minus(length!),
          ),
        ];
  return [
    sum(
      {
        key: `small end between the bosses${alike.label}`,
        formula: '(distance between the bosses − small-end width) ÷ 2, to each side',
        source: GEOMETRY,
      },
      [
        shop.of('distance between the bosses', alike.piston.bossGap, 'piston', 'bossGap'),
        shop.of('small-end width', alike.rod.smallEndWidth, 'rod', 'smallEndWidth'),
      ],
      'fine length',
      (gap, width) => gap!.minus(width!).div(2),
    ),
    ...pinPlay,
  ];
}

export function boreSums(shop: Shop, alike: Alike): Sum[] {
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
